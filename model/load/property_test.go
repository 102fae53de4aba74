package load

import (
	"math"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"pgregory.net/rapid"
)

func length(t *rapid.T, name string, low, high float64) quantity.Length {
	return quantity.Length(rapid.Float64Range(low, high).Draw(t, name))
}

func anyStand(t *rapid.T) StandInput {
	l := Load{Length: length(t, "tank length", 0.25, 1.8), Width: length(t, "tank width", 0.2, 0.7), Height: length(t, "tank height", 0.2, 0.7),
		Framed: rapid.Bool().Draw(t, "framed")}
	l.Mass = quantity.Mass(rapid.Float64Range(10, 900).Draw(t, "mass"))
	l.Usual, l.Empty, l.Centre = l.Mass/1.2, l.Mass/8, l.Height/2
	answers := rapid.SampledFrom([]Answer{Unknown, Yes, No})
	section := func(name string) Section {
		return Section{length(t, name+" width", 0.02, 0.1), length(t, name+" depth", 0.02, 0.1), 0}
	}
	return StandInput{Kind: rapid.SampledFrom([]StandKind{Bought, Furniture, SelfBuilt}).Draw(t, "kind"), Load: l, Height: length(t, "height", 0.2, 1.2),
		Length: l.Length + 0.1, Depth: l.Width + 0.1, Back: answers.Draw(t, "back"), Anchored: answers.Draw(t, "anchored"), Wetted: answers.Draw(t, "wetted"),
		Bought: BoughtStand{Rated: quantity.Mass(rapid.Float64Range(1, 900).Draw(t, "rated")), Damaged: answers.Draw(t, "damaged")},
		Furniture: FurnitureStand{Top: rapid.SampledFrom(Boards()).Draw(t, "board"), Thickness: length(t, "thickness", 0.012, 0.06), Depth: l.Width + 0.1,
			Span: length(t, "span", 0.3, 1.8), Support: rapid.SampledFrom([]Support{SupportUnknown, OnSides, OnPins, OnLegs}).Draw(t, "support"),
			Middle: answers.Draw(t, "middle"), LegSection: section("own leg"), LegMaterial: C24},
		Frame: FrameStand{Material: rapid.SampledFrom(LegMaterials()).Draw(t, "material"), Leg: section("leg"), Rail: section("rail"),
			BottomRails: answers.Draw(t, "bottom rails"), Diagonal: answers.Draw(t, "diagonal"), SideBracing: answers.Draw(t, "side bracing"),
			Corners: rapid.SampledFrom([]Corner{CornerUnknown, CornerBearing, CornerFasteners, CornerWelded}).Draw(t, "corners"),
			Top:     rapid.SampledFrom(Boards()).Draw(t, "top"), Thickness: length(t, "top thickness", 0.012, 0.04)},
	}
}

// uses maps each check that is about weight to its use.
func uses(a Assessment) map[working.Key]float64 {
	m := map[working.Key]float64{}
	for _, c := range a.Checks {
		if c.Name != "q.load.check_tip_force" && c.Name != "q.load.check_tip_angle" {
			m[c.Name] = c.Use
		}
	}
	return m
}

func TestStandNeverLies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyStand(t)
		a, err := CheckStand(in)
		if err != nil {
			if _, ok := err.(*working.Refusal); !ok {
				t.Fatal(err)
			}
			return
		}
		if in.Kind == Furniture && a.State == working.Steady {
			t.Fatal("furniture is never steady")
		}
		for i, c := range a.Checks {
			if !quantity.Finite(c.Use) || c.Use < 0 || c.Trail == nil || !c.Trail.Finite() {
				t.Fatalf("%s: use %g", c.Name, c.Use)
			}
			if c.State > a.State || i > 0 && c.State > a.Checks[i-1].State {
				t.Fatalf("%s out of order", c.Name)
			}
		}
		sum := quantity.Force(0)
		for _, f := range a.Feet {
			sum += f.Force
		}
		if math.Abs(float64(sum/a.Total)-1) > 1e-12 {
			t.Fatalf("feet carry %g of %g", float64(sum), float64(a.Total))
		}
	})
}

func TestMoreMassUsesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyStand(t)
		heavier := in
		heavier.Load.Mass *= 1.3
		a, err := CheckStand(in)
		if err != nil {
			return
		}
		b, err := CheckStand(heavier)
		if err != nil {
			t.Fatal(err)
		}
		if b.State < a.State {
			t.Fatalf("a heavier tank is judged milder: %v after %v", b.State, a.State)
		}
		before := uses(a)
		for name, u := range uses(b) {
			if old, ok := before[name]; ok && u <= old {
				t.Fatalf("%s: use %g after %g", name, u, old)
			}
		}
	})
}

// What was typed in inches gives the same verdict as in metres.
func TestInchesAndMetresAgree(t *testing.T) {
	inch, lb := quantity.MustUnit("in"), quantity.MustUnit("lb")
	rapid.Check(t, func(t *rapid.T) {
		in := anyStand(t)
		a, err := CheckStand(in)
		if err != nil {
			return
		}
		there := func(l *quantity.Length) { *l = quantity.Length(inch.ToBase(inch.FromBase(float64(*l)))) }
		b := in
		for _, l := range []*quantity.Length{&b.Load.Length, &b.Load.Width, &b.Load.Height, &b.Load.Centre, &b.Height, &b.Length, &b.Depth,
			&b.Furniture.Thickness, &b.Furniture.Depth, &b.Furniture.Span, &b.Frame.Leg.Width, &b.Frame.Leg.Depth, &b.Frame.Rail.Width,
			&b.Frame.Rail.Depth, &b.Frame.Thickness} {
			there(l)
		}
		b.Load.Mass = quantity.Mass(lb.ToBase(lb.FromBase(float64(b.Load.Mass))))
		again, err := CheckStand(b)
		if err != nil {
			t.Fatal(err)
		}
		// The closed forms agree to the last bits; the solved frame is an
		// elimination and an iteration.
		want := uses(a)
		for name, u := range uses(again) {
			tolerance := 1e-12
			switch name {
			case "q.load.check_racking", "q.load.check_frame_buckling", "q.load.check_leg_push":
				tolerance = 1e-6
			}
			if math.Abs(u/want[name]-1) > tolerance {
				t.Fatalf("%s: %g in inches, %g in metres", name, u, want[name])
			}
		}
	})
}

func TestThickerGlassIsUsedLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := pane{length: rapid.Float64Range(0.1, 1.5).Draw(t, "length"), height: rapid.Float64Range(0.1, 0.8).Draw(t, "height"),
			fill: rapid.Float64Range(0.5, 1).Draw(t, "fill"), factor: 1}
		for _, e := range []edge{topHeld, topFree} {
			c := filled(p.length/p.height, p.fill, e)
			full := filled(p.length/p.height, 1, e)
			thin, _ := c.panelStress(p.height, 0.005)
			thick, _ := c.panelStress(p.height, 0.006)
			if !(thick < thin) || c.beta > full.beta*(1+1e-12) || c.alpha > full.alpha*(1+1e-12) {
				t.Fatalf("edge %d: %g MPa at 5 mm, %g at 6 mm", e, float64(thin), float64(thick))
			}
		}
		if held, free := filled(p.length/p.height, p.fill, topHeld), filled(p.length/p.height, p.fill, topFree); held.beta > free.beta*1.0001 {
			t.Fatalf("a held top is worse than a free one: %g, %g", held.beta, free.beta)
		}
	})
}

func TestHeavierTankUsesMoreOfTheFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := FloorInput{Kind: Joists, Mass: quantity.Mass(rapid.Float64Range(10, 900).Draw(t, "mass")), Length: length(t, "length", 0.2, 2),
			Width: length(t, "width", 0.2, 1), Direction: rapid.SampledFrom([]Direction{DirectionUnknown, Across, Along}).Draw(t, "direction"),
			Place: rapid.SampledFrom([]Place{PlaceUnknown, MidRoom, AtWall}).Draw(t, "place"), Span: length(t, "span", 1, 8), Spacing: length(t, "spacing", 0.2, 1)}
		a, err := CheckFloor(in)
		if err != nil {
			t.Fatal(err)
		}
		in.Mass *= 1.1
		b, err := CheckFloor(in)
		if err != nil || b.Checks[0].Use <= a.Checks[0].Use || b.State < a.State {
			t.Fatalf("%g after %g (%v)", b.Checks[0].Use, a.Checks[0].Use, err)
		}
		in.Direction, in.Place = DirectionUnknown, PlaceUnknown
		c, err := CheckFloor(in)
		if err != nil || c.Checks[0].Use < b.Checks[0].Use {
			t.Fatalf("not known is not the worst: %g, %g (%v)", c.Checks[0].Use, b.Checks[0].Use, err)
		}
	})
}
