package load

import (
	"math"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func TestWorkedFloors(t *testing.T) {
	const source = "floor_worked.csv, worked floors, 0.1 %"
	for _, r := range table(t, "floor_worked.csv", 16) {
		x := make([]float64, len(r))
		for i := range r {
			if i != 0 && i != 6 && i != 7 {
				x[i] = drill.Number(t, r[i])
			}
		}
		row := r[0] + " " + r[6] + " " + r[7]
		in := FloorInput{Kind: Joists, Mass: quantity.Mass(x[1]), Length: quantity.Length(x[2]), Width: quantity.Length(x[3]), Live: 1915,
			WallGap: 0.05}
		j := in.onJoists(layout{quantity.Length(x[4]), quantity.Length(x[5]), r[6] == "par", r[7] == "wall"})
		if j.joists != int(x[8]) {
			t.Errorf("%s, %s: expected %g joists, got %d", source, row, x[8], j.joists)
		}
		m, v := j.ratios()
		closeTo(t, source, row+" pressure", float64(in.Mass.Weight())/(x[2]*x[3]), x[9], 1e-3)
		closeTo(t, source, row+" per joist", float64(j.force), x[10], 1e-3)
		closeTo(t, source, row+" moment", j.effect.moment, x[11], 1e-3)
		closeTo(t, source, row+" design moment", j.allowed.moment, x[12], 1e-3)
		closeTo(t, source, row+" ratio M", m, x[13], 1e-3)
		closeTo(t, source, row+" ratio V", v, x[14], 1e-3)
		closeTo(t, source, row+" ratio", j.ratio(), math.Max(x[13], x[14])/0.9+0.3, 1e-3)
	}
}

// joist is a sawn size of nominal 2 in.
func joist(depth float64) Section {
	in := quantity.MustUnit("in")
	return Section{quantity.Length(in.ToBase(1.5)), quantity.Length(in.ToBase(depth)), 0}
}

var joistDepths = map[string]float64{"2x6": 5.5, "2x8": 7.25, "2x10": 9.25, "2x12": 11.25}

func TestSpanCheck(t *testing.T) {
	const source = "floor_span_check.csv, IRC R502.3.1(2) recomputed, 0.1 %"
	ft := quantity.MustUnit("ft")
	ten := JoistSpan(SPFNo2, joist(9.25), 16*0.0254, LiveUS, deadOfTables)
	eight := JoistSpan(SPFNo2, joist(7.25), 16*0.0254, LiveUS, deadOfTables)
	rows := table(t, "floor_span_check.csv", 4)
	for i, l := range []quantity.Length{ten.Sag, ten.Bending, eight.Sag, eight.Bending} {
		closeTo(t, source, rows[i][0], ft.FromBase(float64(l)), drill.Number(t, rows[i][1]), 1e-3)
	}
}

func TestJoistSpans(t *testing.T) {
	const source = "irc_joist_spans.csv, IRC R502.3.1(2) SPF No.2, 0.5 in"
	in := quantity.MustUnit("in")
	for _, r := range table(t, "irc_joist_spans.csv", 16) {
		dead := quantity.Pressure(drill.Number(t, r[2])) * LiveUS / 40
		got := in.FromBase(float64(JoistSpan(SPFNo2, joist(joistDepths[r[0]]), quantity.Length(drill.Number(t, r[1])*0.0254), LiveUS, dead).Allowed()))
		if want := drill.Number(t, r[3])*12 + drill.Number(t, r[4]); math.Abs(got-want) > 0.5 {
			t.Errorf("%s, %s at %s in: expected %g in, got %.2f", source, r[0], r[1], want, got)
		}
	}
	if s := JoistSpan(C24, joist(5.5), 0.4, LiveUS, 0); s.Allowed() != 0 {
		t.Error("a wood without NDS values: expected no span")
	}
}

func TestFloorVerdicts(t *testing.T) {
	base := FloorInput{Kind: Joists, Mass: 60, Length: 0.51, Width: 0.26, Direction: Across, Place: MidRoom, Span: 3.6, Spacing: 0.4064}
	check := func(name string, in FloorInput, want working.State) Assessment {
		t.Helper()
		a, err := CheckFloor(in)
		if err != nil {
			t.Fatal(name, err)
		}
		if a.State != want {
			t.Errorf("%s: expected %v, got %v: %+v", name, want, a.State, a.Findings)
		}
		return a
	}
	check("ten gallons across the joists", base, working.Steady)
	slab := base
	slab.Kind, slab.Mass = GroundSlab, 700
	check("a slab on the ground", slab, working.Steady)
	unknown := base
	unknown.Direction = DirectionUnknown
	check("joists unknown", unknown, working.Wait)
	unknown = FloorInput{Mass: 60, Length: 0.51, Width: 0.26}
	if a := check("nothing known", unknown, working.Act); len(a.Cures) == 0 {
		t.Error("nothing known: expected a cure")
	}
	big := base
	big.Mass, big.Length, big.Width, big.Direction, big.Live = 300, 1.22, 0.33, Along, LiveUS
	if a := check("55 gallons along one joist", big, working.Act); len(a.Cures) < 2 {
		t.Errorf("55 gallons along: expected a computed cure, got %+v", a.Cures)
	}
	for _, c := range FloorConditions() {
		in := base
		in.Conditions = []FloorCondition{c}
		a, err := CheckFloor(in)
		if err != nil || a.State == working.Steady {
			t.Errorf("%s: expected it to keep the verdict from steady (%v)", c, err)
		}
	}
	feet := base
	feet.FootForce = 2500
	check("heavy feet", feet, working.Wait)
	old := base
	old.Joist, old.Wood = joist(5.5), SPFNo2
	check("joists that span too far", old, working.Act)
	for name, change := range map[string]func(*FloorInput){
		"no mass": func(in *FloorInput) { in.Mass = 0 }, "NaN": func(in *FloorInput) { in.Span = quantity.Length(math.NaN()) },
		"span 30 m": func(in *FloorInput) { in.Span = 30 }, "kind": func(in *FloorInput) { in.Kind = "ice" },
		"wood": func(in *FloorInput) { in.Wood = S235 },
	} {
		in := base
		change(&in)
		if a, err := CheckFloor(in); err == nil || len(a.Checks) != 0 {
			t.Errorf("%s: expected a refusal", name)
		}
	}
}
