package load

import (
	"math"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

// sold is the load of a nominal tank, set up with an inch and a half of gravel.
func sold(t testing.TB, code string) Load {
	n, ok := tank.NominalOf(code)
	if !ok {
		t.Fatal("no size ", code)
	}
	f, err := tank.Measure(n.Tank(), tank.Contents{Substrate: tank.Gravel, SubstrateFront: 0.03, SubstrateBack: 0.05, Equipment: 2, AirGap: 0.03}, 25)
	if err != nil {
		t.Fatal(err)
	}
	return Of(n.Tank(), f)
}

func mustStand(t testing.TB, in StandInput) Assessment {
	a, err := CheckStand(in)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func has(fs []working.Finding, code working.Key) bool {
	for _, f := range fs {
		if f.Code == code {
			return true
		}
	}
	return false
}

func chipboardShelf(t testing.TB) StandInput {
	return StandInput{Kind: Furniture, Load: sold(t, "us_20_high"), Height: 0.7, Back: Yes, Anchored: Yes,
		Furniture: FurnitureStand{Top: BoardP2, Thickness: 0.018, Depth: 0.35, Span: 0.76, Support: OnSides}}
}

func TestChipboardShelfIsNoStand(t *testing.T) {
	a := mustStand(t, chipboardShelf(t))
	if a.State != working.Act {
		t.Errorf("20 high on an 18 mm P2 shelf of 760 mm: expected act, got %v", a.State)
	}
	if g, ok := a.Governing(); !ok || g.Name != "q.load.check_top_sag" || g.Use < 10 {
		t.Errorf("expected long-term sag to govern far beyond its limit, got %+v", g)
	}
	if !has(a.Cures, "find.load.cure_plywood_middle") {
		t.Errorf("expected a computed cure, got %+v", a.Cures)
	}
	// The cures hold what they promise.
	for _, c := range a.Cures {
		in := chipboardShelf(t)
		switch c.Code {
		case "find.load.cure_plywood_middle":
			in.Furniture.Middle = Yes
		case "find.load.cure_plywood":
		default:
			continue
		}
		in.Furniture.Top, in.Furniture.Thickness = BoardPlywood, quantity.Length(c.Values["Thickness"].X)
		cured := mustStand(t, in)
		if u := cured.Checks[0].Use; u > 0.7 || math.Abs(u-c.Values["Use"].X) > 1e-9 {
			t.Errorf("%s: promised %g, got %g", c.Code, c.Values["Use"].X, u)
		}
		if cured.State != working.Wait {
			t.Errorf("%s: furniture is never better than wait, got %v", c.Code, cured.State)
		}
	}
}

func smallFrame(t testing.TB) StandInput {
	beam := Section{0.045, 0.045, 0}
	return StandInput{Kind: SelfBuilt, Load: sold(t, "us_10"), Height: 0.7, Length: 0.55, Depth: 0.32, Back: Yes, Anchored: Yes,
		Frame: FrameStand{Material: C24, Leg: beam, Rail: beam, BottomRails: Yes, SideBracing: Yes, Corners: CornerBearing}}
}

func TestSmallFrameIsSteady(t *testing.T) {
	a := mustStand(t, smallFrame(t))
	if a.State != working.Steady {
		t.Errorf("10 gallons on a braced C24 45x45 frame: expected steady, got %v %+v %+v", a.State, a.Findings, a.Checks[0])
	}
	g, ok := a.Governing()
	if !ok || g.Name == "" || g.Use <= 0 || g.Use > 0.7 || g.Trail == nil || !g.Trail.Finite() {
		t.Errorf("expected a governing limit with its working, got %+v", g)
	}
	if len(a.Cures) != 0 {
		t.Errorf("nothing to cure, got %+v", a.Cures)
	}
	if len(a.Feet) != 4 {
		t.Errorf("expected four feet, got %d", len(a.Feet))
	}
}

func TestFrameVerdicts(t *testing.T) {
	cases := []struct {
		name   string
		change func(*StandInput)
		want   working.State
		code   working.Key
	}{
		{"no bracing at all", func(in *StandInput) { in.Back, in.Frame.SideBracing = No, No }, working.Act, ""},
		{"no side bracing", func(in *StandInput) { in.Frame.SideBracing = No }, working.Act, "find.load.leans_deep"},
		{"bracing not known", func(in *StandInput) { in.Back, in.Frame.SideBracing = Unknown, Unknown }, working.Act, ""},
		{"fasteners carry", func(in *StandInput) { in.Frame.Corners = CornerFasteners }, working.Wait, "find.load.fasteners"},
		{"corners not known", func(in *StandInput) { in.Frame.Corners = CornerUnknown }, working.Wait, "find.load.corners_unknown"},
		{"timber not known", func(in *StandInput) { in.Frame.Material = MaterialUnknown }, working.Wait, "find.load.material_unknown"},
		{"rimless without a board", func(in *StandInput) { in.Load.Framed = false }, working.Act, "find.load.no_board"},
		{"not held to the wall", func(in *StandInput) { in.Anchored = Unknown }, working.Wait, "find.load.tall"},
		{"free and too tall", func(in *StandInput) { in.Anchored = No }, working.Act, "find.load.too_tall"},
		{"swollen board", func(in *StandInput) { in.Wetted = Yes }, working.Act, "find.load.wetted"},
		{"tank too long", func(in *StandInput) { in.Length = 0.4 }, working.Act, "find.load.overhang"},
		{"hundred and twenty gallons", func(in *StandInput) {
			in.Load, in.Length, in.Depth = sold(t, "us_120"), 1.25, 0.65
		}, working.Act, ""},
	}
	for _, c := range cases {
		in := smallFrame(t)
		c.change(&in)
		a := mustStand(t, in)
		if a.State != c.want || c.code != "" && !has(a.Findings, c.code) {
			t.Errorf("%s: expected %v with %q, got %v %+v", c.name, c.want, c.code, a.State, a.Findings)
		}
		if a.State == working.Act && len(a.Cures) == 0 && c.code != "find.load.wetted" && c.code != "find.load.overhang" {
			t.Errorf("%s: expected a cure", c.name)
		}
	}
	steel := smallFrame(t)
	tube := Section{0.030, 0.030, 0.002}
	steel.Frame = FrameStand{Material: S235, Leg: tube, Rail: tube, BottomRails: Yes, Corners: CornerWelded}
	steel.Back = No
	if a := mustStand(t, steel); a.State != working.Steady {
		t.Errorf("10 gallons on a welded tube frame: expected steady, got %v %+v %+v", a.State, a.Findings, a.Checks[0])
	}
	nds := smallFrame(t)
	two := Section{0.038, 0.089, 0}
	nds.Frame.Material, nds.Frame.Leg, nds.Frame.Rail = SPFNo2, two, two
	if a := mustStand(t, nds); a.State != working.Steady {
		t.Errorf("10 gallons on a 2x4 frame: expected steady, got %v %+v %+v", a.State, a.Findings, a.Checks[0])
	}
}

func TestRatings(t *testing.T) {
	l := sold(t, "us_20_high")
	cases := []struct {
		name  string
		stand BoughtStand
		want  working.State
	}{
		{"well above", BoughtStand{Rated: l.Mass / 0.79, Damaged: No}, working.Steady},
		{"just above", BoughtStand{Rated: l.Mass / 0.9, Damaged: No}, working.Wait},
		{"below", BoughtStand{Rated: l.Mass * 0.99, Damaged: No}, working.Act},
		{"by gallons, same footprint", BoughtStand{RatedVolume: 0.0757, TankVolume: 0.0757, Footprint: Yes, Damaged: No}, working.Steady},
		{"by gallons, other footprint", BoughtStand{RatedVolume: 0.151, TankVolume: 0.0757, Footprint: No, Damaged: No}, working.Wait},
		{"by gallons, smaller", BoughtStand{RatedVolume: 0.0379, TankVolume: 0.0757, Footprint: Yes, Damaged: No}, working.Act},
		{"no rating", BoughtStand{Damaged: No}, working.Wait},
		{"damaged", BoughtStand{Rated: l.Mass * 3, Damaged: Yes}, working.Act},
		{"damage not known", BoughtStand{Rated: l.Mass * 3}, working.Wait},
	}
	for _, c := range cases {
		a := mustStand(t, StandInput{Kind: Bought, Load: l, Height: 0.7, Length: 0.62, Depth: 0.35, Back: Yes, Anchored: Yes, Bought: c.stand})
		if a.State != c.want {
			t.Errorf("%s: expected %v, got %v %+v", c.name, c.want, a.State, a.Findings)
		}
	}
}

func TestFurnitureVerdicts(t *testing.T) {
	base := StandInput{Kind: Furniture, Load: sold(t, "us_5"), Height: 0.7, Back: Yes, Anchored: Yes,
		Furniture: FurnitureStand{Top: BoardPlywood, Thickness: 0.024, Depth: 0.35, Span: 0.45, Support: OnSides}}
	cases := []struct {
		name   string
		change func(*StandInput)
		want   working.State
	}{
		{"stout board, never steady", func(*StandInput) {}, working.Wait},
		{"open back", func(in *StandInput) { in.Back = No }, working.Act},
		{"back not known", func(in *StandInput) { in.Back = Unknown }, working.Wait},
		{"glass shelf", func(in *StandInput) { in.Furniture.Top = BoardGlass }, working.Act},
		{"shelf pins under more", func(in *StandInput) { in.Load, in.Furniture.Support = sold(t, "us_10"), OnPins }, working.Act},
		{"rated for less", func(in *StandInput) { in.Furniture.Rated = 20 }, working.Act},
		{"legs not known", func(in *StandInput) { in.Furniture.Support = OnLegs }, working.Wait},
		{"thin legs under 120 gallons", func(in *StandInput) {
			in.Load, in.Furniture.Support, in.Back = sold(t, "us_120"), OnLegs, No
			in.Furniture.LegSection = Section{0.02, 0.02, 0}
		}, working.Act},
	}
	for _, c := range cases {
		in := base
		c.change(&in)
		if a := mustStand(t, in); a.State != c.want {
			t.Errorf("%s: expected %v, got %v %+v", c.name, c.want, a.State, a.Findings)
		}
	}
	nothing := StandInput{Kind: Furniture, Load: sold(t, "us_10"), Height: 0.7}
	if a := mustStand(t, nothing); a.State == working.Steady {
		t.Error("nothing known: never steady")
	}
}

func TestStandRefusals(t *testing.T) {
	nan := quantity.Length(math.NaN())
	for name, x := range map[string]struct {
		field  string
		change func(*StandInput)
	}{
		"no kind":       {"kind", func(in *StandInput) { in.Kind = "" }},
		"other kind":    {"kind", func(in *StandInput) { in.Kind = "cloud" }},
		"no mass":       {"load.mass", func(in *StandInput) { in.Load.Mass = 0 }},
		"NaN mass":      {"load.mass", func(in *StandInput) { in.Load.Mass = quantity.Mass(nan) }},
		"tall":          {"height", func(in *StandInput) { in.Height = 20 }},
		"NaN height":    {"height", func(in *StandInput) { in.Height = nan }},
		"service class": {"service", func(in *StandInput) { in.Service = 3 }},
		"material":      {"frame.material", func(in *StandInput) { in.Frame.Material = "cheese" }},
		"leg":           {"frame.leg", func(in *StandInput) { in.Frame.Leg.Width = 3 }},
		"leg too big":   {"frame.leg", func(in *StandInput) { in.Frame.Leg.Width = 0.3 }},
		"NaN rail":      {"frame.rail", func(in *StandInput) { in.Frame.Rail.Depth = nan }},
		"board":         {"frame.top", func(in *StandInput) { in.Frame.Top = "cheese" }},
		"tiny mass":     {"load.usual", func(in *StandInput) { in.Load.Usual = 1e-300 }},
		"tiny depth":    {"depth", func(in *StandInput) { in.Depth = 1e-300 }},
		"thickness":     {"frame.thickness", func(in *StandInput) { in.Frame.Thickness = 18 }},
	} {
		in := smallFrame(t)
		x.change(&in)
		a, err := CheckStand(in)
		r, ok := err.(*working.Refusal)
		if !ok || r.Field != x.field {
			t.Errorf("%s: expected a refusal of %s, got %v", name, x.field, err)
		}
		if len(a.Checks) != 0 {
			t.Errorf("%s: figures came with the refusal", name)
		}
	}
}

func BenchmarkCheckStand(b *testing.B) {
	in := smallFrame(b)
	for b.Loop() {
		mustStand(b, in)
	}
}

// Every figure cites where its strength comes from.
func TestWorkingsCiteTheirMaterial(t *testing.T) {
	cites := func(a Assessment, name working.Key, id working.SourceID) {
		t.Helper()
		for _, c := range a.Checks {
			if c.Name != name {
				continue
			}
			for _, s := range c.Trail.Sources {
				if s == id {
					return
				}
			}
			t.Errorf("%s: expected %s among %v", name, id, c.Trail.Sources)
			return
		}
		t.Errorf("no check %s", name)
	}
	cites(mustStand(t, chipboardShelf(t)), "q.load.check_top_bending", srcEN312)
	cites(mustStand(t, smallFrame(t)), "q.load.check_rail_bending", srcEN338)
	nds := smallFrame(t)
	nds.Frame.Material = HFNo2
	cites(mustStand(t, nds), "q.load.check_rail_sag", srcNDS)
}
