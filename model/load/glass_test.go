package load

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

func numbers(t *testing.T, r []string, skip int) []float64 {
	t.Helper()
	x := make([]float64, len(r))
	for i := skip; i < len(r); i++ {
		v, err := strconv.ParseFloat(r[i], 64)
		if err != nil {
			continue // a word; the rows that matter fail on zero
		}
		x[i] = v
	}
	return x
}

func TestPlateCoefficients(t *testing.T) {
	const source = "glass_coeffs_fe.csv, plate solve, 1 %"
	checked := 0
	for _, r := range table(t, "glass_coeffs_fe.csv", 38) {
		x := numbers(t, r, 0)
		row := "nu " + r[0] + " L/H " + r[1]
		held, free := hydrostatic(x[1], topHeld), hydrostatic(x[1], topFree)
		if x[0] == 0.22 {
			checked++
			closeTo(t, source, row+" beta4", held.beta, x[2], 1e-2)
			closeTo(t, source, row+" alpha4", held.alpha, x[3], 1e-2)
			closeTo(t, source, row+" beta3", free.beta, x[5], 1e-2)
			closeTo(t, source, row+" alpha3", free.alpha, x[6], 1e-2)
			closeTo(t, source, row+" top", freeEdge(x[1]), x[8], 1e-2)
			continue
		}
		// With held edges sag goes with 1 − ν²: ours at 0.22 brought to 0.30.
		closeTo(t, source, row+" alpha4 by 1-nu²", held.alpha*(1-0.3*0.3)/(1-0.22*0.22), x[3], 1e-2)
		closeTo(t, "Poisson's ratio matters little, 8 %", row+" beta4", held.beta, x[2], 0.08)
		closeTo(t, "Poisson's ratio matters little, 8 %", row+" beta3", free.beta, x[5], 0.08)
	}
	if checked != 19 || len(plateTable) != 19 {
		t.Errorf("%s: %d rows checked of %d, expected 19", source, checked, len(plateTable))
	}
}

func TestPartialFill(t *testing.T) {
	const source = "glass_coeffs_partial_fill.csv, plate solve, 1 %"
	for _, r := range table(t, "glass_coeffs_partial_fill.csv", 24) {
		x := numbers(t, r, 0)
		held, free := filled(x[0], x[1], topHeld), filled(x[0], x[1], topFree)
		row := "L/H " + r[0] + " fill " + r[1]
		closeTo(t, source, row+" beta4", held.beta, x[2], 1e-2)
		closeTo(t, source, row+" alpha4", held.alpha, x[3], 1e-2)
		closeTo(t, source, row+" beta3", free.beta, x[4], 1e-2)
		closeTo(t, source, row+" alpha3", free.alpha, x[5], 1e-2)
	}
}

// The table agrees with its own mesh convergence and with published plates.
func TestPlateTableAgainstOthers(t *testing.T) {
	for _, r := range table(t, "glass_fe_convergence.csv", 11) {
		x := numbers(t, r, 0)
		e := topHeld
		if r[2] == "case3" {
			e = topFree
		}
		tolerance := 1e-2
		p := hydrostatic(x[1], e)
		closeTo(t, "glass_fe_convergence.csv, 1 %", r[0]+" elements "+r[2], p.beta, x[3], tolerance)
		closeTo(t, "glass_fe_convergence.csv, 1.2 % (coarsest mesh)", r[0]+" elements "+r[2], p.alpha, x[4], 0.012)
	}
	checked := 0
	for _, r := range table(t, "glass_published_vs_fe.csv", 18) {
		x := numbers(t, r, 1)
		ratio, scale := x[1], 1.0
		var p plate
		switch name := r[0]; {
		case len(name) > 25 && name[:25] == "Roark 7e T11.4 case 1e (4": // b is our height
			p = hydrostatic(ratio, topHeld)
		case len(name) > 25 && name[:25] == "Roark 7e T11.4 case 1d (4" && ratio <= 2: // b is our length: H = a
			p, scale = hydrostatic(1/ratio, topHeld), ratio*ratio
		case len(name) > 25 && name[:25] == "Roark 7e T11.4 case 2d (3" && ratio >= 0.5 && ratio <= 2: // a is our height
			p, scale = hydrostatic(1/ratio, topFree), ratio*ratio
		default:
			continue // even pressure, and shapes beyond our table
		}
		checked++
		// The published plates have ν = 0.30: 8 % on stress.
		closeTo(t, "glass_published_vs_fe.csv (nu 0.3), 8 %", r[0]+" at "+r[1], p.beta*scale, x[4], 0.08)
		if strings.Contains(r[0], "1e (4") { // seen in print; the others are from memory
			closeTo(t, "Roark 7e table 11.4 case 1e as printed (nu 0.3), 8 %", r[0]+" at "+r[1], p.beta, x[3], 0.08)
			closeTo(t, "Roark 7e table 11.4 case 1e as printed (nu 0.3), 8 %", r[0]+" at "+r[1]+" sag", p.alpha, x[5], 0.08)
		}
	}
	if checked != 11 {
		t.Errorf("glass_published_vs_fe.csv: %d rows checked, expected 11", checked)
	}
}

func TestBottomPanel(t *testing.T) {
	const source = "glass_bottom_panel.csv, Roark 1a, 0.5 %"
	for _, r := range table(t, "glass_bottom_panel.csv", 4) {
		x := numbers(t, r, 0)
		q, beta, stress, sag := bottomStress(x[0], x[1], x[2], x[3]/1000)
		closeTo(t, source, r[0]+" q", float64(q), x[4], 5e-3)
		closeTo(t, source, r[0]+" beta", beta, x[5], 5e-3)
		closeTo(t, source, r[0]+" stress", float64(stress)/1e6, x[6], 5e-3)
		closeTo(t, source, r[0]+" sag", sag.Millimetres(), x[7], 5e-3)
	}
}

// The rule for a brace, 1.1 times a top held all along, against the plate solve
// with a brace a quarter of the height wide; the shortcut of half lengths would
// be far below it.
func TestBraceRule(t *testing.T) {
	const source = "glass_brace_segment.csv, plate solve, field value 5 %"
	for _, r := range table(t, "glass_brace_segment.csv", 5) {
		x := numbers(t, r, 0)
		if x[0] > highestBare {
			continue // beyond the range in which the rule is used
		}
		ours := braceFactor * hydrostatic(x[0], topHeld).beta
		if ours < 0.95*x[1] {
			t.Errorf("%s, L/H %g: expected at least %g less 5 %%, got %g", source, x[0], x[1], ours)
		}
	}
	for _, r := range table(t, "glass_centre_brace.csv", 4) {
		x := numbers(t, r, 0)
		closeTo(t, "glass_centre_brace.csv, 1 %", r[0]+" case 3", hydrostatic(x[0], topFree).beta, x[4], 1e-2)
		closeTo(t, "glass_centre_brace.csv, 1 %", r[0]+" case 4", hydrostatic(x[0], topHeld).beta, x[6], 1e-2)
		closeTo(t, "glass_centre_brace.csv, 1 %", r[0]+" free sag", hydrostatic(x[0], topFree).alpha, x[7], 1e-2)
		if x[0] <= highestBare && braceFactor*hydrostatic(x[0], topHeld).beta < 1.02*x[5] {
			t.Errorf("glass_centre_brace.csv, L/H %g: our rule is not above the half-length shortcut %g", x[0], x[5])
		}
	}
}

func TestAllowables(t *testing.T) {
	const source = "glass_allowables.csv, 0.1 %"
	a := Allowables()
	v := func(i int) float64 { return float64(a[i].Stress) / 1e6 }
	got := []float64{v(0), v(1), v(2), staticFactor(50), rarer(), edge3s / 1e6 * rarer(), v(3), v(4), v(5), v(6), v(7)}
	rows := table(t, "glass_allowables.csv", 16)
	if k := drill.Number(t, rows[4][2]); longTerm > k || longTerm < k-0.01 {
		t.Errorf("%s: k_mod of 50 years is %g, we round to %g", source, k, longTerm)
	}
	rows = rows[5:]
	for i, g := range got {
		closeTo(t, source, rows[i][0]+" "+rows[i][1], g, drill.Number(t, rows[i][2]), 1e-3)
	}
	if glassSteady > quantity.Pressure(v(1)*1e6) || glassMost > quantity.Pressure(v(0)*1e6) {
		t.Error("our limits exceed their bases in EN 16612")
	}
}

func TestThicknessTable(t *testing.T) {
	const source = "glass_thickness_table.csv, 1 %"
	for _, r := range table(t, "glass_thickness_table.csv", 37) {
		x := numbers(t, r, 0)
		p := pane{length: x[1] / 1000, height: x[0] / 1000, fill: 1, edge: topHeld, factor: 1}
		row := r[1] + "x" + r[0]
		for _, k := range []struct {
			e  edge
			at int
		}{{topHeld, 3}, {topFree, 8}} {
			p.edge = k.e
			c := hydrostatic(p.length/p.height, k.e)
			closeTo(t, source, row+" beta", c.beta, x[k.at], 1e-2)
			t5 := p.needed(glassSteady)
			closeTo(t, source, row+" at 5.0 MPa", t5.Millimetres(), x[k.at+1], 1e-2)
			closeTo(t, source, row+" at 7.25 MPa", p.needed(glassMost).Millimetres(), x[k.at+2], 1e-2)
			n, ok := nominal(t5)
			if !ok {
				t.Errorf("%s, %s: no glass is thick enough", source, row)
			}
			closeTo(t, source, row+" nominal", n.Millimetres(), x[k.at+3], 1e-9)
			_, bow := c.panelStress(p.height, float64(t5))
			closeTo(t, source, row+" bow", bow.Millimetres(), x[k.at+4], 1e-2)
		}
	}
}

func TestTradeTanks(t *testing.T) {
	const source = "glass_implied_stress_trade_tanks.csv, 1 %"
	for _, r := range table(t, "glass_implied_stress_trade_tanks.csv", 18) {
		x := numbers(t, r, 1)
		hw := (x[3] - 30) / 1000
		ratio := x[1] / 1000 / hw
		closeTo(t, source, r[0]+" ratio", ratio, x[5], 1e-3)
		held, _ := hydrostatic(ratio, topHeld).panelStress(hw, x[4]/1000)
		free, _ := hydrostatic(ratio, topFree).panelStress(hw, x[4]/1000)
		closeTo(t, source, r[0]+" case 4", float64(held)/1e6, x[6], 1e-2)
		closeTo(t, source, r[0]+" case 3", float64(free)/1e6, x[7], 1e-2)
		p := pane{length: x[1] / 1000, height: hw, fill: 1, factor: 1}
		closeTo(t, source, r[0]+" needed", p.needed(glassSteady).Millimetres(), x[8], 1e-2)
	}
}

func TestGlassVerdicts(t *testing.T) {
	small := tank.Tank{Shape: tank.Box, Material: tank.Glass, Rim: tank.Rimless, Length: 0.45, Width: 0.27, Height: 0.30, Wall: 0.006, Bottom: 0.006}
	in := GlassInput{Tank: small, AirGap: 0.02, Caliper: Yes, FlatBase: Yes, Inspected: Yes}
	verdict := func(name string, in GlassInput, want working.State) Assessment {
		t.Helper()
		a, err := CheckGlass(in)
		if err != nil {
			t.Fatal(name, err)
		}
		if a.State != want {
			t.Errorf("%s: expected %v, got %v %+v", name, want, a.State, a.Findings)
		}
		return a
	}
	verdict("6 mm on a small tank", in, working.Steady)
	for _, c := range GlassConditions() {
		bad := in
		bad.Conditions = []GlassCondition{c}
		verdict(string(c), bad, working.Act)
	}
	asked := in
	asked.Inspected = Unknown
	verdict("not inspected", asked, working.Wait)
	asked = in
	asked.Caliper = No
	verdict("not measured", asked, working.Wait)
	thin := in
	thin.Tank.Wall = 0.003
	if a := verdict("3 mm rimless, own build", thin, working.Act); len(a.Cures) == 0 {
		t.Error("thin glass: expected a thickness as cure")
	}
	// A strict rule would fail the common 10 and 55 gallon tanks: with a sound rim
	// they are within what such tanks use, and the maker is asked.
	for _, code := range []string{"us_10", "us_55"} {
		n, _ := tank.NominalOf(code)
		f := GlassInput{Tank: n.Tank(), AirGap: 0.03, Maker: Factory, Caliper: Yes, FlatBase: Yes, Inspected: Yes}
		verdict(code, f, working.Wait)
		f.Tank.Wall *= 0.9
		verdict(code+" thinner than usual", f, working.Act)
		f.Tank.Wall = n.Wall
		f.Maker = HomeBuilt
		if a := verdict(code+" built at home", f, working.Act); a.Checks[0].Trail.Spread == nil {
			t.Error("a framed tank shows the free edge as its bound")
		}
	}
	round := in
	round.Tank.Shape = tank.Cylinder
	verdict("a cylinder", round, working.Wait)
	hung := in
	hung.FlatBase, hung.Tank.Bottom = No, 0.003
	verdict("a bottom that spans", hung, working.Wait)
	for name, l := range map[string]quantity.Length{"long": 1.5, "short": 0.12} {
		bad := in
		bad.Tank.Length = l
		if _, err := CheckGlass(bad); err == nil {
			t.Errorf("%s: expected a refusal of the ratio", name)
		}
	}
	bad := in
	bad.Tank.Wall = quantity.Length(math.NaN())
	if a, err := CheckGlass(bad); err == nil || len(a.Checks) != 0 {
		t.Error("NaN glass: expected a refusal")
	}
}
