package fauna

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2/theme"
	"pgregory.net/rapid"

	"example.org/driploop/model/fish"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Every animal of the catalogue has a row of its own, and no row is of none.
func TestEveryAnimalIsDrawn(t *testing.T) {
	rows, err := read(file)
	if err != nil {
		t.Fatal(err)
	}
	all := fish.All()
	if len(rows) != len(all) || len(all) < 125 {
		t.Fatalf("%d rows for %d animals", len(rows), len(all))
	}
	have := map[fish.Code]Row{}
	for _, r := range rows {
		have[r.Code] = r
	}
	for _, a := range all {
		if have[a.Code].Form == "" {
			t.Errorf("%s is not drawn", a.Code)
		}
	}
}

func TestUnreadableTableIsRefused(t *testing.T) {
	head := strings.Join(headings, ",") + "\n"
	good := "paracheirodon-innesi,tetra,,silver,olive,white,silver,,silver,white,,stripe:azure:.16:.97:.1:.5\n"
	if _, err := read(head + good); err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{
		"no heading\n", head + good + good, head + strings.Replace(good, "innesi", "nemo", 1), head + strings.Replace(good, "tetra", "blimp", 1),
		head + strings.Replace(good, ",silver,olive", ",plaid,olive", 1), head + strings.Replace(good, "tetra,,", "tetra,7,", 1), head + strings.Replace(good, "stripe", "tartan", 1),
		head + strings.Replace(good, ":.5", ":x", 1), head + strings.Replace(good, ":.5", ":.5:.6", 1), head + strings.Replace(good, ":.5", ":NaN", 1), head + strings.Replace(good, "stripe:azure", "stripe:plaid", 1),
		head + strings.Replace(good, "white,,stripe", "white,3,stripe", 1),
	} {
		if _, err := read(bad); err == nil {
			t.Errorf("taken: %q", bad)
		}
	}
}

// The length is true to the millimetre, whatever the animal, the pose and the
// detail, and all that is drawn lies in its box.
func TestLengthIsTrue(t *testing.T) {
	all := fish.All()
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SampledFrom(all).Draw(t, "animal")
		length := rapid.Float64Range(3, 1300).Draw(t, "length")
		p := Pose{At: scene.Pt(rapid.Float64Range(-1e4, 1e4).Draw(t, "x"), 7), Left: rapid.Bool().Draw(t, "left")}
		trueTo(t, a.Code, length, p)
	})
	for _, a := range all {
		trueTo(t, a.Code, float64(a.Length)*1000, Pose{})
	}
}

type failer interface {
	Errorf(string, ...any)
	Fatalf(string, ...any)
}

func trueTo(t failer, c fish.Code, length float64, p Pose) {
	solid := scene.New()
	for _, l := range sketchOf(c).layers {
		if l.solid {
			solid.Add(p.item(l, length, scene.Style{Fill: look.Ink}))
		}
	}
	// Curves are flattened to a tenth of a unit: show it large.
	const k = 16
	b := solid.Extent(scene.Transform{Scale: k})
	if math.Abs(b.W()/k-length) > .01*length/100+.02 {
		t.Errorf("%s of %.2f mm is drawn %.3f mm long", c, length, b.W()/k)
	}
	if mid := (b.Min.X + b.Max.X) / 2 / k; math.Abs(mid-p.At.X) > .05 {
		t.Errorf("%s: the middle is %.2f mm off", c, mid-p.At.X)
	}
	all := scene.New()
	all.Add(Animal(c, length, p)...)
	all.Add(Outline(c, length, p, scene.Style{Stroke: look.Ink})...)
	if err := all.Err(); err != nil {
		t.Fatalf("%s: %v", c, err)
	}
	room := Box(c, length)
	if p.Left {
		room.Min.X, room.Max.X = -room.Max.X, -room.Min.X
	}
	e := all.Bounds()
	const slack = .11 // the flattening, and the least eye
	if e.Min.X < p.At.X+room.Min.X-slack || e.Max.X > p.At.X+room.Max.X+slack || e.Min.Y < p.At.Y+room.Min.Y-slack || e.Max.Y > p.At.Y+room.Max.Y+slack {
		t.Errorf("%s: drawn in %v, its box is %v about %v", c, e, room, p.At)
	}
}

// Fins stay about the body: only feelers, threads and a sword reach far beyond
// the length.
func TestBoxIsNearTheAnimal(t *testing.T) {
	for _, a := range fish.All() {
		b := Box(a.Code, 1)
		if b.Min.X < -.8 || b.Max.X > .85 || b.H() > 1.6 || b.H() < .05 {
			t.Errorf("%s: box %v of one length", a.Code, b)
		}
	}
}

func TestNothingIsDrawnOfNoLength(t *testing.T) {
	for _, l := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if Animal("danio-rerio", l, Pose{}) != nil || Outline("danio-rerio", l, Pose{}, scene.Style{}) != nil || !Box("danio-rerio", l).Empty() {
			t.Errorf("a length of %v is drawn", l)
		}
	}
	if len(Animal("none", 30, Pose{})) == 0 {
		t.Error("an unknown kind is not drawn")
	}
}

// The smaller it comes out, the less is drawn, and always something.
func TestDetailFollowsTheSize(t *testing.T) {
	for _, a := range fish.All() {
		last := 0
		for _, size := range []float64{4, 12, 30, 60, 200} {
			n := len(Animal(a.Code, 50, Pose{Scale: size / 50}))
			if n < last || n == 0 {
				t.Errorf("%s at %v points: %d items after %d", a.Code, size, n, last)
			}
			last = n
		}
	}
}

func TestSameEveryTime(t *testing.T) {
	for _, a := range fish.All() {
		if !reflect.DeepEqual(Animal(a.Code, 40, Pose{}), Animal(a.Code, 40, Pose{})) {
			t.Errorf("%s differs", a.Code)
		}
	}
}

// Source: WCAG 2.2 SC 1.4.11: a line that carries the shape has 3:1 against the
// water it is drawn on, in both themes; where the body is as dark as the line,
// the body itself has.
func TestShapeShowsOnWater(t *testing.T) {
	for _, v := range []struct {
		name string
		p    look.Palette
	}{{"light", look.PaletteOf(theme.VariantLight)}, {"dark", look.PaletteOf(theme.VariantDark)}} {
		water := v.p(look.Water)
		water.A = 189 // 0.74, as the tank's is drawn
		for _, ground := range []look.Name{look.Water, look.Sheet} {
			back := v.p(ground)
			if ground == look.Sheet {
				back = look.Over(water, back)
			}
			if got := look.Contrast(v.p(look.Ink), back); got < 3 {
				t.Errorf("%s: ink on water %.2f", v.name, got)
			}
			for _, r := range load().rows {
				// The eye is a spot of black in an iris: one of the two shows on the head.
				if _, isFish := forms[r.Form]; !isFish {
					continue
				}
				iris := r.Eye
				if iris == "" {
					iris = look.Sheet
				}
				spot := look.Contrast(v.p(look.PigmentBlack), v.p(iris))
				if r.Eye != look.PigmentBlack && spot < 2 {
					t.Errorf("%s, %s: the eye shows %.2f in its iris", v.name, r.Code, spot)
				}
				if body, line := look.Contrast(v.p(r.Body), back), look.Contrast(v.p(look.Ink), back); math.Max(body, line) < 3 {
					t.Errorf("%s, %s: shows %.2f on water", v.name, r.Code, math.Max(body, line))
				}
			}
		}
	}
}

// Marks can be told from the body that they are on, in both themes.
func TestMarksShowOnTheBody(t *testing.T) {
	for name, p := range map[string]look.Palette{"light": look.PaletteOf(theme.VariantLight), "dark": look.PaletteOf(theme.VariantDark)} {
		for _, r := range load().rows {
			for _, m := range r.Marks {
				switch m.kind {
				case "bars", "bar", "spots", "wedge":
					a, b := p(m.colour), p(r.Body)
					far := math.Sqrt(sq(a.R, b.R) + sq(a.G, b.G) + sq(a.B, b.B))
					if far < 24 { // judgement: of 441; nearer is one colour
						t.Errorf("%s, %s: %s of %s is %.0f from %s", name, r.Code, m.kind, m.colour, far, r.Body)
					}
				}
			}
		}
	}
}

func sq(a, b uint8) float64 { d := float64(a) - float64(b); return d * d }

func BenchmarkAnimal(b *testing.B) {
	for b.Loop() {
		Animal("pterophyllum-scalare", 150, Pose{Scale: .6})
	}
}
