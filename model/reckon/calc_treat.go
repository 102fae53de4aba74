package reckon

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

const aLabel = `{"amount": {"value": 5, "unit": "ml"}, "per": {"value": 10, "unit": "gal_us"}}`

func init() {
	type tap struct {
		Residual quantity.Concentration `json:"residual"`
		Kind     water.Residual         `json:"residual_kind"`
		New      quantity.Volume        `json:"new_water"`
		Tank     quantity.Volume        `json:"tank"`
	}
	add("water.dechlorinate", func(in tap) (of[water.Dechlorination], error) {
		return traced(water.Dechlorinate(in.Residual, in.Kind, in.New, in.Tank))
	}, `{"residual": {"value": 2, "unit": "mg/l"}, "residual_kind": "chloramine", "new_water": {"value": 32, "unit": "l"}, "tank": {"value": 32, "unit": "l"}}`)
	add("water.tap_ranges", func(nothing) (list[water.TapRange], error) { return list[water.TapRange]{water.TapRanges()}, nil }, `{}`)
	type dose struct {
		Label   water.Label     `json:"label"`
		Treated quantity.Volume `json:"treated"`
	}
	add("water.dose", func(in dose) (of[quantity.Value], error) { return traced(water.Dose(in.Label, in.Treated)) },
		`{"label": `+aLabel+`, "treated": {"value": 32, "unit": "l"}}`)
	add("water.treat", func(in water.Treatment) (of[water.Treated], error) { return traced(water.Treat(in)) },
		`{"label": `+aLabel+`, "method": "bucket", "new_water": {"value": 32, "unit": "l"}, "tank": {"value": 32, "unit": "l"}, "bucket": {"value": 9, "unit": "l"}}`)
	type covers struct{ Check working.Check }
	add("water.label_strength", func(in water.StatedStrength) (covers, error) {
		c, err := water.StoichiometricCheck(in)
		return covers{c}, err
	}, `{"label": `+aLabel+`, "share": {"value": 10, "unit": "percent"}, "form": "pentahydrate", "residual": {"value": 1, "unit": "mg/l"}}`)
	add("water.nitrite_chloride", func(in water.NitriteWater) (of[water.ChlorideNeed], error) { return traced(water.NitriteChloride(in)) },
		`{"nitrite": {"value": 1, "unit": "mg/l", "basis": "ion"}, "chloride": {"value": 20, "unit": "mg/l"}, "water": {"value": 32, "unit": "l"}}`)
	type chloride struct {
		Target   quantity.Concentration `json:"target"`
		Chloride quantity.Value         `json:"chloride" reckon:"concentration"`
		Water    quantity.Volume        `json:"water"`
	}
	add("water.chloride", func(in chloride) (of[water.ChlorideNeed], error) {
		return traced(water.ChlorideTo(in.Target, in.Chloride, in.Water))
	}, `{"target": {"value": 100, "unit": "mg/l"}, "chloride": {"value": 20, "unit": "mg/l"}, "water": {"value": 32, "unit": "l"}}`)
	addHome()
	addDrip()
}

// addHome adds the ways to bring fish home.
func addHome() {
	const bag = `{
  "ph": {"value": 6.8, "unit": "ph"}, "kh": {"value": 5, "unit": "dkh"}, "temperature": {"value": 23, "unit": "degc"},
  "tan": {"value": 3, "unit": "mg/l", "basis": "n"}, "co2_end": {"value": 3, "unit": "mg/l"}
}`
	add("water.open_bag", func(in water.ShippedBag) (of[water.OpenedBag], error) { return traced(water.OpenBag(in)) }, bag)
	type home struct {
		Way      water.Homecoming `json:"way"`
		Findings []working.Finding
		Trail    *working.Trail
	}
	add("water.way_home", func(in water.Trip) (home, error) {
		way, fs, tr, err := water.WayHome(in)
		return home{way, fs, tr}, err
	}, `{"closed": {"value": 2, "unit": "h"}, "bag": `+bag+`}`)
	const float = `"bag": {"value": 1.5, "unit": "l"}, "bag_temp": {"value": 20, "unit": "degc"}, "tank": {"value": 32, "unit": "l"}, "tank_temp": {"value": 25, "unit": "degc"}`
	add("water.float", func(in water.BagFloat) (of[water.FloatPlan], error) { return traced(water.FloatBag(in)) }, `{`+float+`}`)
	type curve struct {
		Float   water.BagFloat `json:"float"`
		Until   quantity.Time  `json:"until"`
		Samples int            `json:"samples"`
	}
	add("water.float_curve", func(in curve) (list[water.FloatSample], error) {
		samples, err := in.Float.Curve(in.Until, in.Samples)
		return list[water.FloatSample]{samples}, err
	}, `{"float": {`+float+`}, "until": {"value": 1, "unit": "h"}, "samples": 7}`)
	add("water.transport", func(in water.Transport) (of[quantity.Temperature], error) { return traced(water.TransportCooling(in)) }, `{
  "start": {"value": 24, "unit": "degc"}, "air": {"value": 5, "unit": "degc"}, "water": {"value": 8, "unit": "l"},
  "surface": {"value": 0.25, "unit": "m2"}, "time": {"value": 90, "unit": "min"}
}`)
}

func addDrip() {
	add("water.drip", func(in water.Drip) (of[water.DripPlan], error) { return traced(water.DripIn(in)) },
		`{"start": {"value": 1, "unit": "l"}, "drops_per_second": 3, "doublings": 2, "tds": {"start": {"value": 400, "unit": "mg/l"}, "tank": {"value": 200, "unit": "mg/l"}}}`)
	add("water.drip_stages", func(in water.Drip) (of[water.DripSchedule], error) { return traced(water.DripStages(in)) },
		`{"start": {"value": 1, "unit": "l"}, "drops_per_second": 2, "doublings": 2}`)
	type dripping struct {
		Volume quantity.Volume `json:"volume"`
		Flow   quantity.Flow   `json:"flow"`
		Time   quantity.Time   `json:"time"`
	}
	const aDrip = `"volume": {"value": 1, "unit": "l"}, "flow": {"value": 10, "unit": "ml/min"}`
	add("water.drip_filling", func(in dripping) (of[quantity.Ratio], error) {
		return traced(water.DripFilling(in.Volume, in.Flow, in.Time))
	},
		`{`+aDrip+`, "time": {"value": 1, "unit": "h"}}`)
	add("water.drip_constant", func(in dripping) (of[quantity.Ratio], error) {
		return traced(water.DripConstant(in.Volume, in.Flow, in.Time))
	}, `{`+aDrip+`, "time": {"value": 1, "unit": "h"}}`)
	type until struct {
		Volume quantity.Volume `json:"volume"`
		Flow   quantity.Flow   `json:"flow"`
		Left   quantity.Ratio  `json:"left"`
	}
	add("water.drip_constant_time", func(in until) (of[quantity.Time], error) {
		return traced(water.DripConstantTime(in.Volume, in.Flow, in.Left))
	}, `{`+aDrip+`, "left": {"value": 25, "unit": "percent"}}`)
	type drops struct {
		Drops float64 `json:"drops_per_second"`
	}
	add("water.flow_of_drops", func(in drops) (of[quantity.Flow], error) {
		if err := dripRange("drops_per_second", water.FlowOfDrops(in.Drops)); err != nil {
			return of[quantity.Flow]{}, err
		}
		return of[quantity.Flow]{Value: water.FlowOfDrops(in.Drops)}, nil
	}, `{"drops_per_second": 3}`)
	type flow struct {
		Flow quantity.Flow `json:"flow"`
	}
	add("water.drops_of_flow", func(in flow) (drops, error) {
		if err := dripRange("flow", in.Flow); err != nil {
			return drops{}, err
		}
		return drops{water.DropsOf(in.Flow)}, nil
	}, `{"flow": {"value": 10, "unit": "ml/min"}}`)
}

// dripRange holds a drip to what can be counted, as the drips of package water.
func dripRange(field string, q quantity.Flow) error {
	return working.InRange(field, "q.water.drip_flow", q.Value(), quantity.Flow(0).Value(), water.FlowOfDrops(1000).Value())
}
