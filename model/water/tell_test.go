package water

import (
	"math"
	"testing"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func ofN(x Test, v float64) Reading {
	r := at(x, v)
	r.Basis = quantity.AsN
	return r
}

// What a kit counts as nitrogen is judged as the ion and told as it was typed. 5 mg/L of
// nitrite nitrogen is 16.4 mg/L of the ion, 0.05 is 0.164. Source: the standard atomic
// weights of IUPAC, NO2 46.005 and N 14.007.
func TestNitrogenIsToldAsItWasTyped(t *testing.T) {
	for v, code := range map[float64]working.Key{5: "find.water.nitrite_act", 0.2: "find.water.nitrite_watch", 0.05: "find.water.nitrite_ok"} {
		f := Interpret(Tests{Nitrite: ofN(TestNitrite, v)})[0]
		if f.Code != code || f.Values["Nitrite"].X != v || f.Bases["Nitrite"] != quantity.AsN {
			t.Errorf("%v as nitrogen is told as %s, %v %v", v, f.Code, f.Values["Nitrite"].X, f.Bases["Nitrite"])
		}
	}
	ion := at(TestNitrite, 16.4)
	if f := Interpret(Tests{Nitrite: ion})[0]; f.Values["Nitrite"].X != 16.4 || f.Bases != nil {
		t.Errorf("16.4 as the ion is told as %v %v", f.Values["Nitrite"].X, f.Bases)
	}
}

// A move is told on the basis of the later kit, and what was not detected is no nought.
func TestAMoveFromNotDetected(t *testing.T) {
	later := ofN(TestNitrite, 5)
	later.At = noon.Add(24 * time.Hour)
	unseen := at(TestNitrite, 0)
	f, ok := Jump(TestNitrite, unseen, later, 0)
	if _, nought := f.Values["Earlier"]; !ok || nought || f.Words["Earlier"] != "reading.is_not_detected" || f.Values["Later"].X != 5 || f.Bases["Later"] != quantity.AsN {
		t.Errorf("from not detected: %v %+v", ok, f)
	}
	// 3.2845 mg/L of the ion is 1 mg/L of nitrogen.
	f, ok = Jump(TestNitrite, at(TestNitrite, 46.005/14.007), later, 0)
	if !ok || math.Abs(f.Values["Earlier"].X-1) > 1e-4 || f.Bases["Earlier"] != quantity.AsN {
		t.Errorf("from the ion: %v %+v", ok, f)
	}
	back := at(TestNitrite, 0)
	back.At = later.At.Add(24 * time.Hour)
	if f, ok = Jump(TestNitrite, later, back, 0); !ok || f.Words["Later"] != "reading.is_not_detected" {
		t.Errorf("to not detected: %v %+v", ok, f)
	}
}

// Un-ionised ammonia is told as nitrogen, as the chart draws it and as the line of an
// emergency is set: 5.37 % of 1 mg/L at pH 8 and 25 °C. Source: Emerson et al. 1975,
// the equation of which is in testdata/water/nh3_fraction.csv.
func TestUnionisedAmmoniaIsToldAsNitrogen(t *testing.T) {
	f := Interpret(with(map[Test]float64{TestAmmonia: 1, TestPH: 8, TestTemperature: 25}))[0]
	if got := f.Values["NH3"].X; math.Abs(got-0.05366) > 0.0001 || f.Bases["NH3"] != quantity.AsN {
		t.Errorf("told as %v %v", got, f.Bases["NH3"])
	}
}
