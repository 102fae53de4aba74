package load

import (
	"math"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
)

// The rows stand in the order of the file; each case is worked here from the
// inputs that its text names.
func TestColumns(t *testing.T) {
	const source = "columns.csv, 0.1 %"
	rows := table(t, "columns.csv", 47)
	const in = 0.0254
	inch := func(w, d float64) Section { return Section{quantity.Length(w * in), quantity.Length(d * in), 0} }
	kip := func(f quantity.Force) float64 { return float64(f) / 4448.2216152605 }

	// Gere 7e 11.9-31: K_cE = 0.3 instead of 0.822.
	gere := func(feet float64) float64 {
		l := feet * 12 / 3.5
		return ndsStability(0.3*1.3e6/(l*l), 1000)
	}
	pallow := func(feet float64) float64 { return gere(feet) * 1000 * 3.5 * 7.25 / 1000 }
	awc := func(cd float64) float64 { return ndsStability(ndsEuler(580000, 108/5.5), 1552*cd) }
	spf := func(s Section, l float64) column {
		g, _ := SPFNo2.grade(s, Class1)
		return g.column(s, l*in)
	}
	leg24, leg44 := inch(1.5, 3.5), inch(3.5, 3.5)
	ec5 := func(lambda, fc, e float64) float64 {
		k, _ := timberStability(lambda, fc, e)
		return k
	}
	// Porteous & Kermani: C24 100x200, 3.75 m, weak axis.
	pkK, pkRel := timberStability(3750/(100/math.Sqrt(12)), 21, 7400)
	leg := Section{0.045, 0.045, 0}
	c24, _ := C24.grade(leg, Class1)
	ec5Leg := c24.column(leg, 0.7)
	_, legRel := timberStability(ec5Leg.slenderness, 21, 7400)
	// CHS 244.5x10: I = π/64·(D⁴ − d⁴).
	chsI := math.Pi / 64 * (math.Pow(244.5, 4) - math.Pow(224.5, 4))
	chsBar := steelSlenderness(7370e-6, 355e6, euler(210e9, chsI*1e-12, 4))
	tube := func(side, wall, le float64) float64 {
		s := Section{quantity.Length(side * mm), quantity.Length(side * mm), quantity.Length(wall * mm)}
		g, _ := S235.grade(s, Class1)
		return float64(g.column(s, le).capacity) / 1000
	}
	// The table is an excerpt: its two "same section" rows at 1400 mm before
	// SHS 30 belong to SHS 25x25x1.5 and 25x25x2.
	aisc := func(r float64) float64 { return aiscStress(r, 50, 29000) }

	got := []float64{
		float64(euler(11e9, leg.across(), 0.7)) / 1000,
		gere(6), pallow(6), pallow(8), gere(10),
		ndsStability(ndsEuler(510000, 7.3*12/3.5), 1150*1.15),
		1150 * 1.15,
		awc(0.9), awc(1.15),
		spf(leg24, 28).reduction, kip(spf(leg24, 28).capacity) * 1000, kip(spf(leg44, 28).capacity) * 1000, spf(leg24, 14).reduction,
	}
	for _, l := range []float64{20, 30, 50, 60, 100, 120, 180} {
		got = append(got, ec5(l, 17, 5400))
	}
	for _, l := range []float64{20, 40, 50, 80, 100, 150, 180} {
		got = append(got, ec5(l, 21, 7400))
	}
	got = append(got, pkRel, pkK, legRel, ec5Leg.reduction, float64(ec5Leg.capacity)/1000/permanent,
		chsBar, steelReduction(chsBar, curveA)*7370*355/1000,
		tube(20, 1.5, 0.7), tube(25, 1.5, 0.7), tube(25, 1.5, 1.4), tube(25, 2, 1.4), tube(30, 2, 0.7), tube(40, 2, 0.7), tube(40, 2, 1.4))
	for _, r := range []float64{40, 60, 100, 120, 150, 200} {
		got = append(got, aisc(r))
	}
	if len(got) != len(rows) {
		t.Fatalf("%s: %d cases worked, %d rows", source, len(got), len(rows))
	}
	for i, g := range got {
		closeTo(t, source, rows[i][0]+": "+rows[i][1], g, drill.Number(t, rows[i][2]), 1e-3)
	}
}
