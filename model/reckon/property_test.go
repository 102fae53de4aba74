package reckon

import (
	"encoding/json"
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/quantity"
)

// told is an input on its way to JSON.
type told = map[string]any

// given is a quantity as an input takes it.
func given(x float64, unit string) told { return told{"value": x, "unit": unit} }

func asN(x float64) told { return told{"value": x, "unit": "mg/l", "basis": "n"} }

// figured is the figure of a calculation, in base units, or ok false where it refuses.
func figured(t rapid.TB, name string, input told) (x float64, ok bool) {
	t.Helper()
	c, found := Get(name)
	if !found {
		t.Fatalf("no calculation %s", name)
	}
	raw, err := json.Marshal(input)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	a, err := c.Run(raw)
	if err != nil {
		t.Fatalf("%s: %v on %s", name, err, raw)
	}
	if a.Refused != nil {
		return 0, false
	}
	if a.Figure == nil || !quantity.Finite(a.Figure.Value.X) {
		t.Fatalf("%s gives no figure on %s", name, raw)
	}
	return a.Figure.Value.X, true
}

// pairs undo each other: there is told x, back is told the y that came of it and
// gives want. P and q are two more figures from 0 to 1.
var pairs = []struct {
	there, undo string
	low, high   float64 // of x
	ask         func(x, p, q float64) told
	back        func(x, y, p, q float64) (input told, want float64)
	tolerance   float64
}{
	{"water.change", "water.change_share", 0.01, 0.95, func(x, p, q float64) told {
		return told{"change": told{"now": given(60+p, "mg/l"), "incoming": given(10*q, "mg/l"), "fraction": given(x, "one")}, "changes": 1}
	}, func(x, y, p, q float64) (told, float64) {
		return told{"now": given(60+p, "mg/l"), "incoming": given(10*q, "mg/l"), "target": given(y, "mg/l")}, x
	}, 1e-9},
	{"water.largest_change", "water.change_temperature", 0.5, 3, func(x, p, _ float64) told {
		return told{"tank_temp": given(25, "degc"), "new_temp": given(10+8*p, "degc"), "step": given(x, "k_diff")}
	}, func(x, y, p, _ float64) (told, float64) { // the tank falls by the step
		return told{"tank_temp": given(25, "degc"), "new_temp": given(10+8*p, "degc"), "fraction": given(y, "one")}, 25 - x
	}, 1e-9},
	{"water.hot_share", "water.blend", 18, 35, func(x, p, q float64) told {
		return told{"cold": given(15*p, "degc"), "hot": given(40+15*q, "degc"), "target": given(x, "degc")}
	}, func(x, y, p, q float64) (told, float64) {
		return told{"volume_1": given(10*(1-y), "l"), "temperature_1": given(15*p, "degc"), "volume_2": given(10*y, "l"), "temperature_2": given(40+15*q, "degc")}, x
	}, 1e-9},
	{"water.ph_of_co2", "water.co2", 0.5, 40, func(x, p, q float64) told {
		return told{"co2": given(x, "mg/l"), "kh": given(2+10*p, "dkh"), "temperature": given(15+15*q, "degc")}
	}, func(x, y, p, q float64) (told, float64) {
		return told{"ph": given(y, "ph"), "kh": given(2+10*p, "dkh"), "temperature": given(15+15*q, "degc")}, x
	}, 1e-9},
	{"water.drip_constant_time", "water.drip_constant", 0.02, 0.98, func(x, p, q float64) told {
		return told{"volume": given(0.5+p, "l"), "flow": given(5+30*q, "ml/min"), "left": given(x, "one")}
	}, func(x, y, p, q float64) (told, float64) {
		return told{"volume": given(0.5+p, "l"), "flow": given(5+30*q, "ml/min"), "time": given(y, "s")}, x
	}, 1e-9},
	{"water.ammonia", "water.ammonia_limit", 0.01, 4, func(x, p, q float64) told {
		return told{"tan": asN(x), "temperature": given(15+15*p, "degc"), "ph": given(6+2*q, "ph")}
	}, func(x, y, p, q float64) (told, float64) { // the figure is NH3 itself
		return told{"limit": told{"value": y, "unit": "mg/l", "basis": "ion"}, "temperature": given(15+15*p, "degc"), "ph": given(6+2*q, "ph")}, x
	}, 1e-9},
	{"heat.largest_change", "heat.change", 0.2, 5, func(x, p, _ float64) told {
		return told{"tank": given(25, "degc"), "fresh": given(5+10*p, "degc"), "limit": given(x, "k_diff")}
	}, func(x, y, p, _ float64) (told, float64) {
		return told{"tank": given(25, "degc"), "fresh": given(5+10*p, "degc"), "share": given(y, "one")}, 25 - x
	}, 1e-9},
	{"filter.operating_point", "filter.head_loss", 0.6, 2, func(x, p, q float64) told {
		return told{"pump": told{"head": given(x, "m"), "flow": given(400+400*p, "l/h")}, "hose": hose(q)}
	}, func(x, y, p, q float64) (told, float64) { // the hose takes what the pump still lifts at that flow
		most := (400 + 400*p) / 3.6e6
		return told{"hose": hose(q), "flow": given(y, "m3/s")}, x * (1 - (y/most)*(y/most))
	}, 1e-6},
}

func hose(q float64) told {
	return told{"bore": given(12, "mm"), "length": given(1+q, "m"), "fittings": given(6, "one"), "lift": given(0, "m")}
}

func TestPairsUndoEachOther(t *testing.T) {
	for _, c := range pairs {
		t.Run(c.there+" and "+c.undo, func(t *testing.T) {
			taken := 0
			rapid.Check(t, func(t *rapid.T) {
				x := rapid.Float64Range(c.low, c.high).Draw(t, "x")
				p, q := rapid.Float64Range(0, 1).Draw(t, "p"), rapid.Float64Range(0, 1).Draw(t, "q")
				y, ok := figured(t, c.there, c.ask(x, p, q))
				if !ok {
					return
				}
				input, want := c.back(x, y, p, q)
				got, ok := figured(t, c.undo, input)
				if !ok {
					return
				}
				taken++
				if !(math.Abs(got-want) <= c.tolerance*math.Abs(want)) {
					t.Fatalf("%s of %v gives %v, %s of that %v, want %v", c.there, x, y, c.undo, got, want)
				}
			})
			if taken < 50 {
				t.Errorf("%d of 100 tried, want at least 50", taken)
			}
		})
	}
}

// leafQuantities lists the quantities of an input.
func leafQuantities(doc any) (out []told) {
	switch x := doc.(type) {
	case []any:
		for _, v := range x {
			out = append(out, leafQuantities(v)...)
		}
	case map[string]any:
		if _, ok := x["unit"]; ok {
			return []told{x}
		}
		for _, l := range leaves(x) {
			if m, ok := l.was.(map[string]any); ok && m["unit"] != nil {
				out = append(out, m)
			}
		}
	}
	return out
}

func unitOfLeaf(t rapid.TB, l told) (quantity.Unit, float64) {
	t.Helper()
	x, err := l["value"].(json.Number).Float64()
	if err != nil {
		t.Fatal(err)
	}
	return quantity.MustUnit(quantity.UnitCode(l["unit"].(string))), x
}

// The range that a working says it holds in is the range that is taken: an input
// just outside is refused and no number comes with it.
func TestWorkingsHoldInTheirRange(t *testing.T) {
	tried := 0
	each(t, func(t *testing.T, c *Calculation) {
		a, _ := answer(t, c, c.Example())
		for _, tr := range a.Trails {
			for _, limit := range tr.Valid {
				for _, g := range tr.Givens {
					if g.Name != limit.Name || g.Source != "" || g.Typed.IsZero() {
						continue
					}
					for _, end := range []struct {
						at  quantity.Value
						way float64
					}{{limit.Low, -1}, {limit.High, 1}} {
						if !end.at.Known() {
							continue
						}
						n := len(leafQuantities(decoded(t, c.Example())))
						for i := range n {
							doc := decoded(t, c.Example())
							l := leafQuantities(doc)[i]
							u, x := unitOfLeaf(t, l)
							if u.Kind != g.Value.Kind || u.ToBase(x) != g.Value.X {
								continue
							}
							tried++
							l["value"] = u.FromBase(end.at.X + end.way*1e-6*math.Max(1, math.Abs(end.at.X)))
							if got, _ := answer(t, c, []byte(encoded(t, doc))); got.Refused == nil {
								t.Errorf("%s: %s holds from %+v to %+v, and %v %s is taken", c.Name(), limit.Name, limit.Low, limit.High, l["value"], u.Code)
							}
						}
					}
				}
			}
		}
	})
	if tried < 50 {
		t.Errorf("%d ends of ranges were tried, want at least 50", tried)
	}
	t.Logf("%d ends of ranges tried", tried)
}

// Every example with all its quantities out of proportion gives numbers that are
// ones, or a refusal.
func TestAnyProportionGivesNumbersOrARefusal(t *testing.T) {
	answered := 0
	each(t, func(t *testing.T, c *Calculation) {
		for _, powers := range []float64{0.01, 0.1, 1, 8} { // of ten, either way
			for seed := range 6 {
				scattered(t, c, powers, seed, &answered)
			}
		}
	})
	if answered < 800 {
		t.Errorf("%d inputs were taken, want at least 800", answered)
	}
	t.Logf("%d inputs were taken", answered)
}

func scattered(t *testing.T, c *Calculation, powers float64, seed int, answered *int) {
	t.Helper()
	doc := decoded(t, c.Example())
	for i, l := range leafQuantities(doc) {
		_, x := unitOfLeaf(t, l)
		// A fixed scatter from -1 to 1, so that a failure comes again.
		s := math.Sin(float64(7*i+13*seed) + 0.3*float64(i*seed))
		l["value"] = x * math.Pow(10, powers*s)
	}
	a, raw := answer(t, c, []byte(encoded(t, doc)))
	if a.Refused == nil {
		*answered++
	}
	if a.Refused != nil && a.Refused.Code == "refuse.reckon.no_number" || !json.Valid(raw) || !a.finite() {
		t.Errorf("%s leads to no number on %s", c.Name(), encoded(t, doc))
	}
}
