package load

import (
	"math"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
)

const mm = 1e-3

// even is the load of a mass over a length, spread evenly along a span.
func even(mass, length float64) bearing {
	return bearing{uniform: mass * quantity.StandardGravity / length}
}

func TestWorkedStands(t *testing.T) {
	const source = "stand_worked.csv, worked stands at service class 1, 0.1 %"
	rows := table(t, "stand_worked.csv", 29)
	shelf := func(b Board, depth, span, mass, length float64) verdict {
		g, ok := b.grade(18*mm, Class1)
		if !ok {
			t.Fatal("no grade for ", b)
		}
		return judge(g, rectangular(span, depth, 18*mm, float64(g.e)), even(mass, length))
	}
	rail := func(w, d float64) verdict {
		s := Section{quantity.Length(w), quantity.Length(d), 0}
		g, _ := C24.grade(s, Class1)
		return judge(g, s.beam(1.130, float64(g.e)), even(125, 1.2192))
	}
	small := [2]float64{45.4, 0.508}
	high := [2]float64{90, 0.61}
	p2, ply := shelf(BoardP2, 0.3, 0.56, small[0], small[1]), shelf(BoardPlywood, 0.3, 0.56, small[0], small[1])
	p2h, plyh := shelf(BoardP2, 0.35, 0.76, high[0], high[1]), shelf(BoardPlywood, 0.35, 0.76, high[0], high[1])
	r95, r89 := rail(45*mm, 95*mm), rail(38*mm, 89*mm)
	mpa := func(p quantity.Pressure) float64 { return float64(p) / 1e6 }
	inst := func(v verdict) float64 { return v.effect.sag / mm }
	fin := func(v verdict) float64 { return float64(v.sag) / mm }
	over := func(v verdict) float64 { return v.beam.span / float64(v.sag) }
	push := func(m, depth, h float64) (float64, float64) {
		f := float64(tip(quantity.Mass(m), quantity.Length(depth), quantity.Length(h)))
		return f, f / float64(childPush)
	}
	f1, k1 := push(100, 0.33, 1.10)
	f2, k2 := push(280, 0.35, 1.28)
	f3, k3 := push(24, 0.33, 1.10)
	f4, k4 := push(145, 0.32, 1.35)
	got := []float64{
		mpa(p2.stress), inst(p2), fin(p2),
		mpa(ply.stress), ply.bending, fin(ply), over(ply),
		p2h.bending, inst(p2h), over(p2h),
		mpa(plyh.stress), inst(plyh), fin(plyh),
		mpa(r95.stress), r95.bending, fin(r95), over(r95),
		r89.bending, inst(r89), over(r89),
		f1, k1, f2, k2, f3, k3, f4, k4,
	}
	for i, g := range got {
		closeTo(t, source, rows[i][0]+" "+rows[i][1], g, drill.Number(t, rows[i][2]), 1e-3)
	}
	// The last row is the head that 5 mm out of level adds. Stress goes with
	// the cube of the head: 3 % at 500 mm.
	last := rows[28]
	if !strings.HasPrefix(last[0], "levelness") {
		t.Fatalf("%s: unexpected last row %q", source, last[0])
	}
	p := hydrostatic(2, topHeld)
	level, _ := p.panelStress(0.5, 0.01)
	tilted, _ := p.panelStress(0.5+drill.Number(t, last[2])*mm, 0.01)
	closeTo(t, source, last[0], float64(tilted/level), math.Pow(1.01, 3), 1e-9)
}

func TestBeams(t *testing.T) {
	const source = "beam_formulas.csv, Gere 2009 appendix G, 0.1 %"
	rows := table(t, "beam_formulas.csv", 15)
	at := map[string]float64{}
	for _, r := range rows {
		at[r[0]] = drill.Number(t, r[2])
	}
	b := rectangular(0.8, 0.3, 0.018, 9e9)
	ss := b.under(bearing{uniform: 500})
	patch := b.under(bearing{patch: 400, length: 0.8 * (1 - 1e-12)})
	two := b.under(bearing{ends: 300, length: 0.4})
	long := b
	long.span, long.middle = 1.6, true
	mid := long.under(bearing{uniform: 500})
	point := b.under(bearing{patch: 300, length: 1e-9})
	for _, x := range []struct {
		row string
		got float64
		tol float64
	}{
		{"SS uniform: Mmax N m", ss.moment, 1e-3},
		{"SS uniform: wmax mm", ss.sag * 1000, 1e-3},
		{"SS centre point: M", point.moment, 1e-3},
		{"SS two equal point loads at a=0.2 each P=300: M", two.moment, 1e-3},
		{"SS two equal loads: wmid mm", two.sag * 1000, 1e-3},
		{"Two equal spans: wmax mm", mid.sag * 1000, 2e-3},
		{"section I mm4", b.inertia * 1e12, 1e-3},
		{"max shear stress MPa for SS uniform V=200", float64(b.shearing(ss)) / 1e6, 1e-3},
		{"bending stress MPa for SS uniform", float64(b.bending(ss)) / 1e6, 1e-3},
	} {
		want, ok := at[x.row]
		if !ok {
			t.Fatalf("%s: no row %q", source, x.row)
		}
		closeTo(t, source, x.row, x.got, want, x.tol)
	}
	// A patch over the whole span is an even load.
	closeTo(t, "Gere 2009", "patch over the span", patch.moment, ss.moment, 1e-9)
	closeTo(t, "Gere 2009", "patch over the span", patch.sag, ss.sag, 1e-9)
}
