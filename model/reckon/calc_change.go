package reckon

import (
	"errors"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// aChange is a substance in the tank, in the new water, and the share changed.
const aChange = `"now": {"value": 40, "unit": "mg/l"}, "incoming": {"value": 5, "unit": "mg/l"}, "fraction": {"value": 25, "unit": "percent"}`

// twoWaters is where the two waters of a mixture stand in a gentle change.
var twoWaters = map[string]string{"ph_a": "tank_ph.ph", "kh_a": "tank_ph.kh", "ph_b": "new_ph.ph", "kh_b": "new_ph.kh"}

func init() {
	type changes struct {
		Change  water.Change `json:"change"`
		Changes int          `json:"changes"`
	}
	add("water.change", func(in changes) (of[quantity.Concentration], error) {
		return traced(water.AfterChanges(in.Change, in.Changes))
	},
		`{"change": {`+aChange+`}, "changes": 3}`)
	type share struct {
		Now      quantity.Concentration `json:"now"`
		Incoming quantity.Concentration `json:"incoming"`
		Target   quantity.Concentration `json:"target"`
	}
	add("water.change_share", func(in share) (of[quantity.Ratio], error) {
		return traced(water.FractionFor(in.Now, in.Incoming, in.Target))
	}, `{"now": {"value": 40, "unit": "mg/l"}, "incoming": {"value": 5, "unit": "mg/l"}, "target": {"value": 20, "unit": "mg/l"}}`)
	type target struct {
		Change water.Change           `json:"change"`
		Target quantity.Concentration `json:"target"`
	}
	type counted struct {
		Exact float64 `json:"exact"`
		Whole int     `json:"whole"`
		Trail *working.Trail
	}
	add("water.change_count", func(in target) (counted, error) {
		exact, whole, tr, err := water.ChangesFor(in.Change, in.Target)
		return counted{exact, whole, tr}, err
	}, `{"change": {`+aChange+`}, "target": {"value": 15, "unit": "mg/l"}}`)
	type cycle struct {
		Incoming quantity.Concentration `json:"incoming"`
		Rate     quantity.Rate          `json:"rate"`
		Every    quantity.Time          `json:"every"`
		Fraction quantity.Ratio         `json:"fraction"`
	}
	add("water.steady_cycle", func(in cycle) (of[water.Cycle], error) {
		return traced(water.SteadyCycle(in.Incoming, in.Rate, in.Every, in.Fraction))
	}, `{"incoming": {"value": 5, "unit": "mg/l"}, "rate": {"value": 2, "unit": "mg/l/d"}, "every": {"value": 1, "unit": "wk"}, "fraction": {"value": 25, "unit": "percent"}}`)
	type through struct {
		Now      quantity.Concentration `json:"now"`
		Incoming quantity.Concentration `json:"incoming"`
		Flow     quantity.Flow          `json:"flow"`
		Tank     quantity.Volume        `json:"tank"`
		Time     quantity.Time          `json:"time"`
	}
	add("water.flow_through", func(in through) (of[quantity.Concentration], error) {
		return traced(water.FlowThrough(water.Change{Now: in.Now, Incoming: in.Incoming}, in.Flow, in.Tank, in.Time))
	}, `{
  "now": {"value": 40, "unit": "mg/l"}, "incoming": {"value": 5, "unit": "mg/l"},
  "flow": {"value": 4, "unit": "l/h"}, "tank": {"value": 32, "unit": "l"}, "time": {"value": 6, "unit": "h"}
}`)
	type steady struct {
		Flow quantity.Flow   `json:"flow"`
		Tank quantity.Volume `json:"tank"`
		Time quantity.Time   `json:"time"`
	}
	add("water.replaced", func(in steady) (of[quantity.Ratio], error) { return traced(water.Replaced(in.Flow, in.Tank, in.Time)) },
		`{"flow": {"value": 4, "unit": "l/h"}, "tank": {"value": 32, "unit": "l"}, "time": {"value": 6, "unit": "h"}}`)
	type dry struct {
		Share quantity.Ratio `json:"evaporated"`
	}
	add("water.evaporation", func(in dry) (of[quantity.Ratio], error) { return traced(water.EvaporationFactor(in.Share)) },
		`{"evaporated": {"value": 10, "unit": "percent"}}`)
	type solids struct {
		Tank     quantity.Concentration `json:"tank_tds"`
		New      quantity.Concentration `json:"new_tds"`
		Fraction quantity.Ratio         `json:"fraction"`
	}
	add("water.tds_shift", func(in solids) (of[quantity.Ratio], error) {
		return traced(water.TDSShift(in.Tank, in.New, in.Fraction))
	},
		`{"tank_tds": {"value": 320, "unit": "mg/l"}, "new_tds": {"value": 180, "unit": "mg/l"}, "fraction": {"value": 25, "unit": "percent"}}`)
	type gentle struct{ Checks []working.Check }
	add("water.gentle_change", func(in water.WaterPair) (gentle, error) {
		cs, err := water.GentleChange(in)
		var r *working.Refusal
		if errors.As(err, &r) { // the mixing of the two has its own names for them
			if at, ok := twoWaters[r.Field]; ok {
				r.Field = at
			}
		}
		return gentle{cs}, err
	}, `{
  "fraction": {"value": 25, "unit": "percent"}, "emergency": false,
  "tank_temp": {"value": 25, "unit": "degc"}, "new_temp": {"value": 22, "unit": "degc"},
  "tank_ph": {"ph": {"value": 7.2, "unit": "ph"}, "kh": {"value": 4, "unit": "dkh"}},
  "new_ph": {"ph": {"value": 7.8, "unit": "ph"}, "kh": {"value": 8, "unit": "dkh"}},
  "tank_tds": {"value": 320, "unit": "mg/l"}, "new_tds": {"value": 180, "unit": "mg/l"}
}`)
	addTemperatures()
	addCarried()
}

func addTemperatures() {
	type two struct {
		V1 quantity.Volume      `json:"volume_1"`
		T1 quantity.Temperature `json:"temperature_1"`
		V2 quantity.Volume      `json:"volume_2"`
		T2 quantity.Temperature `json:"temperature_2"`
	}
	add("water.blend", func(in two) (of[quantity.Temperature], error) { return traced(water.Blend(in.V1, in.T1, in.V2, in.T2)) },
		`{"volume_1": {"value": 7, "unit": "l"}, "temperature_1": {"value": 12, "unit": "degc"}, "volume_2": {"value": 3, "unit": "l"}, "temperature_2": {"value": 50, "unit": "degc"}}`)
	type hot struct {
		Cold   quantity.Temperature `json:"cold"`
		Hot    quantity.Temperature `json:"hot"`
		Target quantity.Temperature `json:"target"`
	}
	add("water.hot_share", func(in hot) (of[quantity.Ratio], error) { return traced(water.HotShare(in.Cold, in.Hot, in.Target)) },
		`{"cold": {"value": 12, "unit": "degc"}, "hot": {"value": 50, "unit": "degc"}, "target": {"value": 25, "unit": "degc"}}`)
	type after struct {
		Tank     quantity.Temperature `json:"tank_temp"`
		New      quantity.Temperature `json:"new_temp"`
		Fraction quantity.Ratio       `json:"fraction"`
	}
	add("water.change_temperature", func(in after) (of[quantity.Temperature], error) {
		return traced(water.TemperatureAfterChange(in.Tank, in.New, in.Fraction))
	}, `{"tank_temp": {"value": 25, "unit": "degc"}, "new_temp": {"value": 18, "unit": "degc"}, "fraction": {"value": 25, "unit": "percent"}}`)
	type largest struct {
		Tank quantity.Temperature           `json:"tank_temp"`
		New  quantity.Temperature           `json:"new_temp"`
		Step quantity.TemperatureDifference `json:"step"`
	}
	add("water.largest_change", func(in largest) (of[quantity.Ratio], error) {
		return traced(water.LargestChange(in.Tank, in.New, in.Step))
	}, `{"tank_temp": {"value": 25, "unit": "degc"}, "new_temp": {"value": 12, "unit": "degc"}, "step": {"value": 2, "unit": "k_diff"}}`)
	type coldest struct {
		Tank     quantity.Temperature           `json:"tank_temp"`
		Fraction quantity.Ratio                 `json:"fraction"`
		Step     quantity.TemperatureDifference `json:"step"`
	}
	add("water.coldest_new_water", func(in coldest) (of[quantity.Temperature], error) {
		return traced(water.ColdestNewWater(in.Tank, in.Fraction, in.Step))
	}, `{"tank_temp": {"value": 25, "unit": "degc"}, "fraction": {"value": 25, "unit": "percent"}, "step": {"value": 2, "unit": "k_diff"}}`)
}
