package reckon

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"example.org/driploop/model/quantity"
)

// usual are the units in which people of the systems give a quantity; of a kind
// that is not here there is one unit, or one for all.
var usual = map[quantity.System]map[quantity.Kind]quantity.UnitCode{
	quantity.US: {
		quantity.KindLength: "in", quantity.KindArea: "in2", quantity.KindVolume: "gal_us", quantity.KindMass: "lb", quantity.KindForce: "lbf",
		quantity.KindMoment: "lbf.ft", quantity.KindPressure: "psi", quantity.KindLineLoad: "lbf/ft", quantity.KindFlow: "gph_us",
		quantity.KindTemperature: "degf", quantity.KindTempDiff: "f_diff", quantity.KindHardness: "gpg", quantity.KindRatio: "percent", quantity.KindTime: "min",
	},
	quantity.Imperial: {
		quantity.KindLength: "ft", quantity.KindArea: "ft2", quantity.KindVolume: "gal_imp", quantity.KindMass: "oz", quantity.KindForce: "lbf",
		quantity.KindMoment: "lbf.ft", quantity.KindPressure: "psf", quantity.KindLineLoad: "lbf/ft", quantity.KindFlow: "gph_imp",
		quantity.KindTemperature: "degf", quantity.KindTempDiff: "f_diff", quantity.KindHardness: "clark", quantity.KindRatio: "one", quantity.KindTime: "h",
	},
	quantity.Metric: {
		quantity.KindLength: "cm", quantity.KindArea: "cm2", quantity.KindVolume: "l", quantity.KindMass: "g", quantity.KindForce: "n",
		quantity.KindMoment: "n.m", quantity.KindPressure: "kpa", quantity.KindLineLoad: "n/m", quantity.KindFlow: "l/min",
		quantity.KindTemperature: "degc", quantity.KindTempDiff: "k_diff", quantity.KindHardness: "dh", quantity.KindRatio: "one", quantity.KindTime: "d",
		quantity.KindConcentration: "ug/l", quantity.KindMassRate: "mg/d", quantity.KindDensity: "g/cm3",
	},
}

// The same tank told in the units of each system, and in every other unit that a
// kind has, gives the same answer to 1e-12; what is written, which has twelve
// figures, to one of the last.
func TestUnitsDoNotMatter(t *testing.T) {
	changed := 0
	each(t, func(t *testing.T, c *Calculation) {
		want, wantRaw := answer(t, c, c.Example())
		told := func(how string, unit func(quantity.Kind) quantity.UnitCode) {
			doc := decoded(t, c.Example())
			changed += retell(t, doc, unit)
			got, raw := answer(t, c, []byte(encoded(t, doc)))
			if got.Refused != nil {
				t.Fatalf("%s in %s is refused: %+v", c.Name(), how, got.Refused)
			}
			same(t, c.Name()+" in "+how, decoded(t, wantRaw), decoded(t, raw), 1e-11, "")
			same(t, c.Name()+" in "+how+" unrounded", unrounded(t, want), unrounded(t, got), 1e-12, "")
		}
		for _, s := range quantity.Systems() {
			told(string(s), func(k quantity.Kind) quantity.UnitCode { return usual[s][k] })
		}
		for n := range 10 {
			told(fmt.Sprint("units ", n), func(k quantity.Kind) quantity.UnitCode {
				us := quantity.UnitsOf(k)
				return us[n%len(us)].Code
			})
		}
	})
	if changed < 2000 {
		t.Errorf("%d quantities were told otherwise, want at least 2000", changed)
	}
}

// retell gives every quantity of a document in another unit, and counts them.
func retell(t *testing.T, doc any, unit func(quantity.Kind) quantity.UnitCode) (n int) {
	switch x := doc.(type) {
	case []any:
		for _, v := range x {
			n += retell(t, v, unit)
		}
	case map[string]any:
		code, ok := x["unit"].(string)
		if !ok {
			for _, v := range x {
				n += retell(t, v, unit)
			}
			return n
		}
		was := quantity.MustUnit(quantity.UnitCode(code))
		if was.Kind == quantity.KindMoney {
			return 0
		}
		to := unit(was.Kind)
		if to == "" || to == was.Code {
			return 0
		}
		number, err := x["value"].(json.Number).Float64()
		if err != nil {
			t.Fatal(err)
		}
		x["unit"], x["value"] = string(to), quantity.MustUnit(to).FromBase(was.ToBase(number))
		return 1
	}
	return n
}

// unrounded is what an answer holds outside its values, which leave rounded.
func unrounded(t *testing.T, a *Answer) any {
	t.Helper()
	raw, err := json.Marshal([]any{a.Figure, a.Trails, a.Findings, a.Checks})
	if err != nil {
		t.Fatal(err)
	}
	return decoded(t, raw)
}

// same fails unless two documents are alike, numbers within a relative tolerance.
func same(t *testing.T, what string, want, got any, tolerance float64, at string) {
	t.Helper()
	switch w := want.(type) {
	case map[string]any:
		g, ok := got.(map[string]any)
		if !ok || len(g) != len(w) {
			t.Errorf("%s%s: want %v, got %v", what, at, want, got)
			return
		}
		for name, v := range w {
			if name == "typed" { // how it was told
				continue
			}
			same(t, what, v, g[name], tolerance, at+"."+name)
		}
	case []any:
		g, ok := got.([]any)
		if !ok || len(g) != len(w) {
			t.Errorf("%s%s: want %v, got %v", what, at, want, got)
			return
		}
		for i, v := range w {
			same(t, what, v, g[i], tolerance, fmt.Sprintf("%s[%d]", at, i))
		}
	case json.Number:
		g, ok := got.(json.Number)
		x, err1 := w.Float64()
		y, err2 := g.Float64()
		if !ok || err1 != nil || err2 != nil || !(math.Abs(x-y) <= tolerance*math.Max(math.Abs(x), math.Abs(y))) {
			t.Errorf("%s%s: want %v, got %v", what, at, want, got)
		}
	default:
		if want != got {
			t.Errorf("%s%s: want %v, got %v", what, at, want, got)
		}
	}
}
