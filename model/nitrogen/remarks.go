package nitrogen

import (
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// lowKH is where pH can give way. Source: thresholds of package water, 2 dKH.
var lowKH = quantity.Hardness(quantity.MustUnit("dkh").ToBase(2))

// remarks says when a run first leaves the pH that the model holds for, and
// when the carbonate hardness gives out: from there on the figures are a guess.
func remarks(samples []Sample) []working.Finding {
	var out []working.Finding
	crashed, outside := false, false
	for _, s := range samples {
		if !crashed && s.State.Alkalinity < lowKH {
			crashed = true
			out = append(out, working.Find(working.Act, "find.nitrogen.kh_low").With("At", s.At.Value()).With("KH", s.State.Alkalinity.Value()))
		}
		if !outside && (s.PH < 6 || s.PH > 9) {
			outside = true
			out = append(out, working.Find(working.Wait, "find.nitrogen.ph_outside").With("At", s.At.Value()).With("PH", s.PH.Value()))
		}
	}
	return out
}

// Readings turns a sample into the tests that would be read of it, so that a
// forecast is judged by the rules of package water. start is when the run
// began, t the water's temperature then.
func (s Sample) Readings(start time.Time, t quantity.Temperature) water.Tests {
	at := start.Add(time.Duration(float64(s.At) * float64(time.Second)))
	n := func(c quantity.Concentration) water.Reading {
		return water.Reading{Value: c.Value(), Basis: quantity.AsN, Resolution: quantity.Concentration(0).Value(), At: at}
	}
	return water.Tests{Ammonia: n(s.State.Ammonia), Nitrite: n(s.State.Nitrite), Nitrate: n(s.State.Nitrate),
		PH:          water.Reading{Value: s.PH.Value(), At: at},
		KH:          water.Reading{Value: s.State.Alkalinity.Value(), At: at},
		Temperature: water.Reading{Value: t.Value(), At: at}}
}
