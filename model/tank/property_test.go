package tank

import (
	"math"
	"testing"

	"example.org/driploop/model/quantity"
	"pgregory.net/rapid"
)

// anyTank draws an accepted tank of any shape.
func anyTank(t *rapid.T) Tank {
	size := func(name string) quantity.Length {
		return quantity.Length(rapid.Float64Range(0.12, 2.5).Draw(t, name))
	}
	tk := Tank{Shape: rapid.SampledFrom(Shapes()).Draw(t, "shape"), Material: rapid.SampledFrom(Materials()).Draw(t, "material"),
		Rim: rapid.SampledFrom([]Rim{Framed, Rimless}).Draw(t, "rim"), Sizes: rapid.SampledFrom([]SizeBasis{Measured, NominalOnly}).Draw(t, "sizes"),
		Length: size("length"), Width: size("width"), Height: size("height"),
		Wall:   quantity.Millimetres(rapid.Float64Range(2, 25).Draw(t, "wall")),
		Bottom: quantity.Millimetres(rapid.Float64Range(2, 25).Draw(t, "bottom"))}
	if tk.Shape == BowFront {
		tk.Bow = tk.Length / 2 * quantity.Length(rapid.Float64Range(0.02, 1).Draw(t, "bow"))
	}
	return tk
}

func anyContents(t *rapid.T, tk Tank) Contents {
	inside := tk.height() - tk.Bottom
	part := func(name string, most float64) quantity.Length {
		return inside * quantity.Length(rapid.Float64Range(0, most).Draw(t, name))
	}
	// At most 100 kg of each in a cubic metre of tank, so that it never overfills.
	room := float64(tk.Plan().inset(tk.Wall).Area()) * float64(inside)
	mass := func(name string) quantity.Mass { return quantity.Mass(room * rapid.Float64Range(0, 100).Draw(t, name)) }
	return Contents{Substrate: rapid.SampledFrom([]Substrate{Gravel, Sand, BakedClay}).Draw(t, "substrate"),
		SubstrateFront: part("front", 0.3), SubstrateBack: part("back", 0.4), AirGap: part("gap", 0.3),
		Rocks: []Rock{{rapid.SampledFrom(Stones()).Draw(t, "stone"), mass("rock")}},
		Wood:  mass("wood"), Ornaments: mass("ornaments"), Equipment: mass("equipment")}
}

func TestVolumeIsConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tk := anyTank(t)
		f, err := Measure(tk, anyContents(t, tk), 25)
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(float64(f.Net+f.Solids+f.Gap-f.Interior)) / float64(f.Interior); d > 1e-12 {
			t.Fatalf("net + solids + gap differs from the interior by %g", d)
		}
		sum := quantity.Mass(0)
		for _, p := range f.Parts {
			sum += p.Mass
		}
		if math.Abs(float64(sum/f.Total)-1) > 1e-12 {
			t.Fatalf("parts %g, total %g", float64(sum), float64(f.Total))
		}
		if f.Interior >= f.Outer || f.Net > f.Interior || f.Upper <= f.Total || f.Centre <= 0 || f.Centre >= tk.height() {
			t.Fatalf("out of order: %+v", f)
		}
		if !f.NetTrail.Finite() || !f.MassTrail.Finite() || f.NetTrail.Result.Value != f.Net.Value() || f.MassTrail.Result.Value != f.Total.Value() {
			t.Fatal("a trail does not end in its result")
		}
	})
}

func TestMoreContentsWeighMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tk := anyTank(t)
		c := anyContents(t, tk)
		a, err := Measure(tk, c, 25)
		if err != nil {
			t.Fatal(err)
		}
		more := c
		more.Rocks = append([]Rock{{Granite, a.Total / 1000}}, c.Rocks...)
		more.SubstrateBack *= 1.05
		b, err := Measure(tk, more, 25)
		if err != nil {
			t.Fatal(err)
		}
		if b.Total <= a.Total || b.Net >= a.Net {
			t.Fatalf("more stone: mass %g to %g, net %g to %g", float64(a.Total), float64(b.Total), float64(a.Net), float64(b.Net))
		}
		less := c
		less.AirGap = 0
		full, err := Measure(tk, less, 25)
		if err != nil || full.Total < a.Total || full.Net < a.Net {
			t.Fatal("more water weighs less")
		}
	})
}

// Inches and metres describe the same tank.
func TestUnitsDoNotMatter(t *testing.T) {
	inch, mm := quantity.MustUnit("in"), quantity.MustUnit("mm")
	rapid.Check(t, func(t *rapid.T) {
		tk := anyTank(t)
		c := anyContents(t, tk)
		a, err := Measure(tk, c, 25)
		if err != nil {
			t.Fatal(err)
		}
		other := tk
		for _, l := range []*quantity.Length{&other.Length, &other.Width, &other.Height} {
			*l = quantity.Length(inch.ToBase(inch.FromBase(float64(*l))))
		}
		for _, l := range []*quantity.Length{&other.Wall, &other.Bottom, &other.Bow} {
			*l = quantity.Length(mm.ToBase(mm.FromBase(float64(*l))))
		}
		if other.Shape == BowFront && other.Bow > other.Length/2 {
			other.Bow = other.Length / 2 // a half circle, to the last bit
		}
		b, err := Measure(other, c, 25)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(a.Total/b.Total)-1) > 1e-12 || math.Abs(float64(a.Interior/b.Interior)-1) > 1e-12 {
			t.Fatalf("%v and %v", a.Total, b.Total)
		}
	})
}

// A flat bow front is a box, and the round shapes lie within their box.
func TestShapesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tk := anyTank(t)
		tk.Shape, tk.Bow = Box, 0
		box, err := Measure(tk, Contents{}, 25)
		if err != nil {
			t.Fatal(err)
		}
		tk.Shape, tk.Bow = BowFront, 1e-7
		bow, err := Measure(tk, Contents{}, 25)
		if err != nil || math.Abs(float64(bow.Interior/box.Interior)-1) > 1e-5 {
			t.Fatalf("bow %g, box %g: %v", float64(bow.Interior), float64(box.Interior), err)
		}
		tk.Shape, tk.Bow, tk.Height = Cube, 0, tk.Length
		cube, _ := Measure(tk, Contents{}, 25)
		tk.Shape = Cylinder
		round, _ := Measure(tk, Contents{}, 25)
		tk.Shape = Hexagon
		six, _ := Measure(tk, Contents{}, 25)
		if !(six.Interior < round.Interior && round.Interior < cube.Interior) {
			t.Fatalf("hexagon %g, cylinder %g, cube %g", float64(six.Interior), float64(round.Interior), float64(cube.Interior))
		}
	})
}
