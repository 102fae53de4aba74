package reckon

import (
	"errors"
	"strconv"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// addCarried adds what a water change by hand takes: the water measured with
// buckets or a ruler, how much is gentle, and what the next test should show.
func addCarried() {
	type buckets struct {
		Buckets quantity.Count  `json:"buckets"`
		Bucket  quantity.Volume `json:"bucket"`
	}
	add("water.volume_by_buckets", func(in buckets) (of[quantity.Volume], error) {
		return traced(water.VolumeByBuckets(in.Buckets, in.Bucket))
	}, `{"buckets": {"value": 2, "unit": "piece"}, "bucket": {"value": 8, "unit": "l"}}`)
	type drop struct {
		Surface quantity.Area   `json:"surface"`
		Depth   quantity.Length `json:"depth"`
		Drop    quantity.Length `json:"drop"`
	}
	add("water.volume_by_drop", func(in drop) (of[quantity.Volume], error) {
		return traced(water.VolumeByDrop(in.Surface, in.Depth, in.Drop))
	}, `{"surface": {"value": 1740, "unit": "cm2"}, "depth": {"value": 30, "unit": "cm"}, "drop": {"value": 80, "unit": "mm"}}`)
	type part struct {
		Changed quantity.Volume `json:"changed"`
		Tank    quantity.Volume `json:"tank"`
	}
	add("water.share_changed", func(in part) (of[quantity.Ratio], error) { return traced(water.ShareChanged(in.Changed, in.Tank)) },
		`{"changed": {"value": 14, "unit": "l"}, "tank": {"value": 48, "unit": "l"}}`)
	type gentle struct {
		Share quantity.Ratio `json:"share"`
		Held  working.Key    `json:"held"`
		Trail *working.Trail
	}
	add("water.gentle_share", func(in water.WaterPair) (gentle, error) {
		f, held, tr, err := water.GentleShare(in)
		var r *working.Refusal
		if errors.As(err, &r) {
			if at, ok := twoWaters[r.Field]; ok {
				r.Field = at
			}
		}
		return gentle{f, held, tr}, err
	}, `{
  "fraction": {"value": 60, "unit": "percent"}, "emergency": true,
  "tank_temp": {"value": 25, "unit": "degc"}, "new_temp": {"value": 22, "unit": "degc"},
  "tank_ph": {"ph": {"value": 7.2, "unit": "ph"}, "kh": {"value": 4, "unit": "dkh"}},
  "new_ph": {"ph": {"value": 7.8, "unit": "ph"}, "kh": {"value": 8, "unit": "dkh"}},
  "tank_tds": {"value": 320, "unit": "mg/l"}, "new_tds": {"value": 180, "unit": "mg/l"}
}`)
	add("water.predict", func(in water.Mixing) (of[water.Predicted], error) { return traced(water.Predict(in)) },
		`{"change": {`+aChange+`}, "now_off": {"value": 5, "unit": "mg/l"}, "incoming_off": {"value": 1, "unit": "mg/l"}, "fraction_off": {"value": 2, "unit": "percent"}}`)
	type topped struct {
		Before   quantity.Concentration `json:"before"`
		Incoming quantity.Concentration `json:"incoming"`
		Share    quantity.Ratio         `json:"share"`
	}
	add("water.top_up", func(in topped) (of[quantity.Concentration], error) {
		return traced(water.TopUp(in.Before, in.Incoming, in.Share))
	}, `{"before": {"value": 300, "unit": "mg/l"}, "incoming": {"value": 180, "unit": "mg/l"}, "share": {"value": 5, "unit": "percent"}}`)
	type meter struct {
		Conductivity quantity.Conductivity `json:"conductivity"`
		Factor       quantity.Ratio        `json:"factor"`
	}
	addFrom("water.solids", func() meter { return meter{Factor: water.SolidsFactor} }, func(in meter) (of[quantity.Concentration], error) {
		return traced(water.SolidsOf(in.Conductivity, in.Factor))
	}, `{"conductivity": {"value": 500, "unit": "us/cm"}, "factor": {"value": 0.64, "unit": "one"}}`)
	type pair struct {
		Test    water.Test    `json:"test"`
		Earlier water.Reading `json:"earlier"`
		Later   water.Reading `json:"later"`
		Between water.Between `json:"between"`
	}
	type doubted struct {
		Doubted  bool
		Findings []working.Finding
	}
	add("water.doubt", func(in pair) (doubted, error) {
		if err := acceptAt("earlier.value", in.Test, in.Earlier); err != nil {
			return doubted{}, err
		}
		if err := acceptAt("later.value", in.Test, in.Later); err != nil {
			return doubted{}, err
		}
		f, ok := water.Doubt(in.Test, in.Earlier, in.Later, in.Between)
		if !ok {
			return doubted{}, nil
		}
		return doubted{true, []working.Finding{f}}, nil
	}, `{
  "test": "nitrate",
  "earlier": {"value": {"value": 40, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-22T08:00:00Z"},
  "later": {"value": {"value": 10, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-25T08:00:00Z"},
  "between": {"changed": {"value": 0, "unit": "percent"}, "load": {"value": 0.1, "unit": "mg/l/d"}}
}`)
	type course struct {
		Test     water.Test      `json:"test"`
		Readings []water.Reading `json:"readings"`
	}
	type told struct{ Findings []working.Finding }
	add("water.course", func(in course) (told, error) {
		for i, r := range in.Readings {
			if err := acceptAt("readings["+strconv.Itoa(i)+"].value", in.Test, r); err != nil {
				return told{}, err
			}
		}
		if f, ok := water.Course(in.Test, in.Readings); ok {
			return told{[]working.Finding{f}}, nil
		}
		return told{}, nil
	}, `{
  "test": "nitrite",
  "readings": [
    {"value": {"value": 0.1, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-21T08:00:00Z"},
    {"value": {"value": 0.4, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-23T08:00:00Z"},
    {"value": {"value": 0.9, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-25T08:00:00Z"}
  ]
}`)
}
