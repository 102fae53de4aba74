package tank

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

var srcNominal = working.Register(working.Source{ID: "trade-tank-table",
	Cite: "Sizes and weights of glass tanks as tabulated alike in general pet-care articles (2026), partly from memory", Origin: working.Practice})

// paneSteps are the nominal thicknesses of float glass in millimetres, EN 572-2.
var paneSteps = []float64{3, 4, 5, 6, 8, 10, 12, 15, 19}

// nominalRows: number, form, size in inches, empty and filled mass in pounds,
// glass in millimetres. Source: tank table; thickness is 0.92 of the mean that
// the empty mass implies, to the nearest step (computed; the rest is rim and seam).
var nominalRows = []struct {
	number, form                 string
	l, w, h, empty, filled, pane float64
}{
	{"5", "", 16, 8, 10, 7, 62, 3},
	{"10", "", 20, 10, 12, 11, 111, 3},
	{"15", "", 24, 12, 12, 21, 170, 5},
	{"15", "high", 20, 10, 18, 22, 170, 4},
	{"20", "high", 24, 12, 16, 25, 225, 4},
	{"20", "long", 30, 12, 12, 25, 225, 5},
	{"25", "", 24, 12, 20, 32, 282, 5},
	{"29", "", 30, 12, 18, 40, 330, 6},
	{"30", "breeder", 36, 18, 12, 48, 348, 6},
	{"40", "breeder", 36, 18, 16, 58, 458, 6},
	{"40", "long", 48, 12, 16, 55, 455, 6},
	{"50", "", 36, 18, 19, 100, 600, 10},
	{"55", "", 48, 13, 21, 78, 625, 6},
	{"65", "", 36, 18, 24, 126, 772, 10},
	{"75", "", 48, 18, 21, 140, 850, 10},
	{"90", "", 48, 18, 24, 160, 1050, 10},
	{"120", "", 48, 24, 24, 215, 1400, 12},
	{"125", "", 72, 18, 21, 206, 1206, 10}, // printed filled mass is less than its water
}

// metricRows: litres, size in centimetres, glass in millimetres. Common
// practice, no source; the empty mass is computed from the size.
var metricRows = []struct {
	litres        string
	l, w, h, pane float64
}{
	{"25", 40, 25, 25, 4},
	{"54", 60, 30, 30, 4},
	{"63", 60, 30, 35, 5},
	{"112", 80, 35, 40, 6},
	{"126", 80, 35, 45, 6},
	{"180", 100, 40, 45, 8},
	{"240", 120, 40, 50, 8},
}

var formKeys = map[string]working.Key{"high": "word.tank.high", "long": "word.tank.long", "breeder": "word.tank.breeder"}

// Nominals lists the sizes as sold, US sizes first, each from small to large.
func Nominals() []Nominal {
	inch, lb := quantity.MustUnit("in"), quantity.MustUnit("lb")
	list := make([]Nominal, 0, len(nominalRows)+len(metricRows))
	for _, r := range nominalRows {
		code := "us_" + r.number
		if r.form != "" {
			code += "_" + r.form
		}
		list = append(list, Nominal{Code: code, System: quantity.US, Name: quantity.Measure{Number: r.number, Unit: "gal_us"},
			Form: formKeys[r.form], Length: quantity.Length(inch.ToBase(r.l)), Width: quantity.Length(inch.ToBase(r.w)),
			Height: quantity.Length(inch.ToBase(r.h)), Rim: Framed, Wall: quantity.Millimetres(r.pane),
			Empty: quantity.Mass(lb.ToBase(r.empty)), Filled: quantity.Mass(lb.ToBase(r.filled)), Source: srcNominal})
	}
	for _, r := range metricRows {
		n := Nominal{Code: "metric_" + r.litres, System: quantity.Metric, Name: quantity.Measure{Number: r.litres, Unit: "l"},
			Length: quantity.Length(r.l / 100), Width: quantity.Length(r.w / 100), Height: quantity.Length(r.h / 100),
			Rim: Framed, Wall: quantity.Millimetres(r.pane), Source: working.Trade}
		n.Empty = fill(n.Tank(), Contents{}, 1000).Empty
		list = append(list, n)
	}
	return list
}

// NominalOf returns the size with the given code.
func NominalOf(code string) (Nominal, bool) {
	for _, n := range Nominals() {
		if n.Code == code {
			return n, true
		}
	}
	return Nominal{}, false
}

// Nearest returns the nominal size whose sides are all within 3 % of those of
// t, the closest when there are several. It reports false when there is none.
func Nearest(t Tank) (Nominal, bool) {
	l, w, h := t.Outer()
	off := func(a, b quantity.Length) float64 { return math.Abs(float64(a/b) - 1) }
	found, best, ok := Nominal{}, 0.03, false
	if t.Shape != Box && t.Shape != Cube {
		return found, false
	}
	for _, n := range Nominals() {
		if d := max(off(l, n.Length), off(w, n.Width), off(h, n.Height)); d < best {
			found, best, ok = n, d, true
		}
	}
	return found, ok
}

// UsualThickness returns the panel thickness that a glass or acrylic tank of
// the outer sizes and rim of t usually has, for walls and bottom alike: that of
// the Nearest nominal size, and otherwise a step by outer volume. It is a
// default to be shown as such, never a measurement. It reports false when the
// sizes are not those of a tank. Judgement.
func UsualThickness(t Tank) (quantity.Length, bool) {
	l, w, h := t.Outer()
	for _, x := range []quantity.Length{l, w, h} {
		if !quantity.Finite(float64(x)) || x < minOuter || x > maxOuter {
			return 0, false
		}
	}
	pane := paneByVolume(float64(l*w*h) * 1000)
	if n, ok := Nearest(t); ok {
		pane = n.Wall.Millimetres()
	}
	if t.Rim == Rimless {
		pane = nextPane(pane)
	}
	if t.Material == Acrylic {
		pane = nextPane(pane)
	}
	return quantity.Millimetres(pane), true
}

// paneByVolume steps thickness by outer litres. Judgement, after the table above.
func paneByVolume(litres float64) float64 {
	for _, s := range []struct{ upTo, pane float64 }{{30, 3}, {50, 4}, {100, 5}, {170, 6}, {250, 8}, {420, 10}, {600, 12}, {900, 15}} {
		if litres <= s.upTo {
			return s.pane
		}
	}
	return 19
}

func nextPane(mm float64) float64 {
	for _, s := range paneSteps {
		if s > mm {
			return s
		}
	}
	return mm
}
