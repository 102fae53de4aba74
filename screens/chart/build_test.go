package chart

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"fyne.io/fyne/v2/theme"
	"pgregory.net/rapid"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

var device = func(h float64) scene.Transform { return scene.Transform{Scale: 1, Point: 1, Y: h} }

func picture(s Spec, w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	p := look.PaletteOf(theme.VariantLight)
	draw.Draw(img, img.Rect, image.NewUniform(p(look.Sheet)), image.Point{}, draw.Src)
	new(scene.Raster).Draw(img, Build(s, float64(w), float64(h)), device(float64(h)), p)
	return img
}

func count(img *image.RGBA, c look.Name, r image.Rectangle) int {
	n := look.Color(c, theme.VariantLight)
	want := color.RGBA{n.R, n.G, n.B, 255}
	k := 0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if img.RGBAAt(x, y) == want {
				k++
			}
		}
	}
	return k
}

func TestAGapBreaksTheLineAndIsNotZero(t *testing.T) {
	for n, missing := range map[string]Sample{"gap": {Gap: true}, "not a number": {Y: math.NaN()}, "infinite": {Y: math.Inf(-1)}} {
		a := Series{Line: []Sample{{X: 0, Y: 5}, {X: 1, Y: 5}, {X: 1.5}, {X: 2, Y: 5}, {X: 3, Y: 5}}}
		missing.X = 1.5
		a.Line[2] = missing
		s := Spec{Series: []Series{a}, Y: Axis{FromZero: true}}
		img := picture(s, 400, 200)
		p := lay(s, 400, 200)
		x := int(p.x(1.5))
		if k := count(img, look.Teal, image.Rect(x-10, 0, x+10, 200)); k != 0 {
			t.Errorf("%s: %d pixels of line in the gap", n, k)
		}
		if k := count(img, look.Teal, image.Rect(0, 0, 400, 200)); k < 300 {
			t.Errorf("%s: only %d pixels of line beside the gap", n, k)
		}
		if k := count(img, look.Teal, image.Rect(0, int(200-p.y(4)), 400, 200)); k != 0 {
			t.Errorf("%s: %d pixels of line below the values", n, k)
		}
	}
}

// A single value between gaps still shows.
func TestALoneValueShows(t *testing.T) {
	s := Spec{Series: []Series{{Line: []Sample{{X: 0, Gap: true}, {X: 1, Y: 5}, {X: 2, Gap: true}}}}}
	if k := count(picture(s, 300, 150), look.Teal, image.Rect(0, 0, 300, 150)); k == 0 {
		t.Error("nothing is drawn")
	}
}

func TestEmptyChartShowsTheCallersText(t *testing.T) {
	words := "No test yet. Enter the first one."
	for _, s := range []Spec{{Empty: words}, {Empty: words, Series: []Series{{Name: "ammonia", Points: []Sample{{X: 1, Gap: true}}}}}} {
		b := Build(s, 600, 200).ExtentOf("", device(200))
		img := picture(s, 600, 200)
		if k := count(img, look.SoftInk, img.Rect); k < 50 || b.Empty() {
			t.Errorf("%d pixels of text", k)
		}
		if k := count(img, look.Teal, img.Rect); k != 0 {
			t.Error("a line is drawn without data")
		}
	}
	for _, w := range []float64{120, 300, 900} {
		for _, line := range wrap(words+" 水槽の水はまだ一度も測られていません", w) {
			if got := scene.TextSize(line, scene.Regular, look.Body).Width; got > w {
				t.Errorf("a line %v wide where %v is free", got, w)
			}
		}
	}
}

func TestLimitsAreWithinTheAxis(t *testing.T) {
	s := cycle()
	s.Limits[0].Y = 9
	p := lay(s, 700, 230)
	if p.y1 < 9 {
		t.Errorf("the axis ends at %v, below the limit", p.y1)
	}
	s.Y = Axis{Fixed: true, Min: 0, Max: 5}
	if p := lay(s, 700, 230); p.y0 != 0 || p.y1 != 5 {
		t.Errorf("a fixed axis became %v to %v", p.y0, p.y1)
	}
}

// Names, limits' labels and notes cover neither each other nor any line.
func TestLabelsKeepClear(t *testing.T) {
	for n, s := range map[string]Spec{"cycle": cycle(), "five": five()} {
		for _, size := range [][2]float64{{790, 230}, {484, 178}, {830, 190}, {1200, 400}} {
			if n == "five" && size[1] < 180 {
				continue // five lines 15 points apart: a name on a plate is the best there is
			}
			p := lay(s, size[0], size[1])
			p.draw()
			want := len(s.Series) + len(s.Limits) + len(s.Notes)
			if len(p.labels) != want {
				t.Fatalf("%s: expected %d labels, got %d", n, want, len(p.labels))
			}
			for i, b := range p.labels {
				for _, c := range p.labels[:i] {
					if b.Overlaps(c) {
						t.Errorf("%s at %v: two labels overlap", n, size)
					}
				}
				lines := [][]scene.Point{}
				for _, a := range p.spec.Series {
					lines = append(lines, p.runs(a.Line)...)
				}
				for _, m := range p.marks {
					lines = append(lines, []scene.Point{{X: p.x(m.X), Y: p.plot.Min.Y}, {X: p.x(m.X), Y: p.plot.Max.Y}})
				}
				for _, l := range p.spec.Limits {
					lines = append(lines, []scene.Point{p.at(p.x0, l.Y), p.at(p.x1, l.Y)})
				}
				for _, line := range lines {
					for k := 0; k+1 < len(line); k++ {
						if crosses(line[k], line[k+1], b) {
							t.Errorf("%s at %v: label %d lies on a line", n, size, i)
							k = len(line)
						}
					}
				}
			}
		}
	}
}

// crosses tells whether the straight line from a to b touches the box, by
// cutting it at the four sides.
func crosses(a, b scene.Point, box scene.Box) bool {
	t0, t1 := 0.0, 1.0
	d := b.Sub(a)
	for _, s := range [][2]float64{{-d.X, a.X - box.Min.X}, {d.X, box.Max.X - a.X}, {-d.Y, a.Y - box.Min.Y}, {d.Y, box.Max.Y - a.Y}} {
		if s[0] == 0 {
			if s[1] < 0 {
				return false
			}
			continue
		}
		r := s[1] / s[0]
		if s[0] < 0 {
			t0 = math.Max(t0, r)
		} else {
			t1 = math.Min(t1, r)
		}
	}
	return t0 <= t1
}

// X labels and mark labels keep apart too.
func TestMarkLabelsTakeRows(t *testing.T) {
	s := cycle()
	s.Marks = nil
	for i := range 6 {
		s.Marks = append(s.Marks, Mark{X: 16 + 0.5*float64(i), Label: "change 25 %"})
	}
	p := lay(s, 600, 260)
	if len(p.marks) != 6 {
		t.Fatalf("expected 6 marks, got %d", len(p.marks))
	}
	for i, a := range p.marks {
		w := scene.TextSize(a.Label, scene.SemiBold, note).Width
		if a.x < 0 || a.x+w > 600 || a.baseline < 0 {
			t.Errorf("mark %d is cut off: %v, %v", i, a.x, a.baseline)
		}
		for _, b := range p.marks[:i] {
			if math.Abs(a.baseline-b.baseline) < 12 && a.x < b.x+w && b.x < a.x+w {
				t.Errorf("marks at %v and %v overlap", b.X, a.X)
			}
		}
	}
}

// No mark's line passes over a word below the plot: where it crosses one it stops at the word's
// ground, whichever of the two was named first.
func TestNoLineOverAWordBelow(t *testing.T) {
	s := cycle()
	s.X.Ticks = []Tick{{At: 17, Label: "December"}}
	s.Marks = []Mark{{X: 14, Label: "as is usually told"}, {X: 18, Label: "near", Colour: look.Rust, Solid: true}}
	const w, h = 700, 230
	p := lay(s, w, h)
	img := picture(s, w, h)
	at := int(math.Round(p.x(18)))
	crosses := func(top, foot float64) int { // how much of the line of "near" is seen
		return count(img, look.Rust, image.Rect(at-2, int(h-top), at+3, int(h-foot)))
	}
	m := p.marks[0]
	if end := m.x + scene.TextSize(m.Label, scene.Regular, note).Width; m.x > p.x(18)-5 || end < p.x(18)+5 {
		t.Fatalf("the label at %v to %v is not crossed at %v", m.x, end, p.x(18))
	}
	if n := crosses(m.baseline+6, m.baseline+1); n > 0 {
		t.Errorf("the line is seen in %d pixels of the label of a mark", n)
	}
	if n := crosses(p.plot.Min.Y-17+6, p.plot.Min.Y-17+1); n > 0 {
		t.Errorf("the line is seen in %d pixels of a label of the axis", n)
	}
	if crosses(p.plot.Max.Y, p.plot.Min.Y) < 100 {
		t.Error("the line is not seen in the plot")
	}
}

// Whatever the data, the scene is sound and lies within its size.
func TestAnyChartStaysInside(t *testing.T) {
	value := rapid.OneOf(rapid.Float64Range(-1e3, 1e3), rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e-9, 5, 5}))
	rapid.Check(t, func(t *rapid.T) {
		var s Spec
		for i := range rapid.IntRange(0, 4).Draw(t, "series") {
			a := Series{Name: "carbonate hardness", Shape: scene.Shape(i)}
			for range rapid.IntRange(0, 30).Draw(t, "n") {
				v := Sample{X: value.Draw(t, "x"), Y: value.Draw(t, "y"), Gap: rapid.IntRange(0, 5).Draw(t, "gap") == 0}
				if rapid.Bool().Draw(t, "line") {
					a.Line = append(a.Line, v)
				} else {
					a.Points = append(a.Points, v)
				}
				a.Band = append(a.Band, Spread{value.Draw(t, "bx"), value.Draw(t, "low"), value.Draw(t, "high")})
			}
			s.Series = append(s.Series, a)
		}
		s.Marks = []Mark{{X: value.Draw(t, "mark"), Label: "within 1 °C"}, {X: value.Draw(t, "mark"), Label: "now, 11 min"}}
		s.Limits = []Limit{{Y: value.Draw(t, "limit"), Label: "fish gasp below"}}
		s.Notes = []Note{{X: value.Draw(t, "nx"), Y: value.Draw(t, "ny"), Text: "ready"}}
		s.Unit, s.Empty = "mg/L O₂", "Nothing yet."
		label := func(v, _ float64) string {
			if !finite(v) {
				t.Fatalf("a tick at %v", v)
			}
			return plainLabel(v, 0)
		}
		s.X = Axis{Label: label, Fixed: rapid.Bool().Draw(t, "fixed"), Min: -5, Max: 9, Time: rapid.Bool().Draw(t, "time")}
		s.Y = Axis{Label: label, FromZero: rapid.Bool().Draw(t, "zero")}
		w, h := rapid.Float64Range(320, 1400).Draw(t, "w"), rapid.Float64Range(150, 700).Draw(t, "h")
		sc := Build(s, w, h)
		if sc.Err() != nil {
			t.Fatal(sc.Err())
		}
		e := sc.Extent(device(h))
		if !finite(e.Min.X, e.Min.Y, e.Max.X, e.Max.Y) || e.Min.X < -3 || e.Min.Y < -3 || e.Max.X > w+3 || e.Max.Y > h+3 {
			t.Fatalf("%v by %v: extent %v", w, h, e)
		}
	})
}

func TestOddSizes(t *testing.T) {
	for _, c := range [][2]float64{{0, 0}, {-5, 10}, {19, 300}, {25, 25}, {60, 40}, {math.NaN(), 100}, {100, math.Inf(1)}} {
		if s := Build(cycle(), c[0], c[1]); s.Err() != nil {
			t.Errorf("%v: %v", c, s.Err())
		}
	}
}

// Every colour that a chart uses is a permitted pair on both of its grounds.
func TestChartColoursArePermitted(t *testing.T) {
	for _, ground := range []look.Name{look.Sheet, look.Paper} {
		for _, c := range append([]look.Name{look.Ink, look.SoftInk, look.Limit}, look.Series...) {
			if !look.Permits(c, ground, look.Text) {
				t.Errorf("%s on %s is not a permitted pair", c, ground)
			}
		}
	}
}

func BenchmarkBuild(b *testing.B) {
	s := cycle()
	for b.Loop() {
		Build(s, 790, 230)
	}
}

func BenchmarkBuildTwoYears(b *testing.B) {
	var s Spec
	for i := range 3 {
		a := Series{Name: "nitrate"}
		for k := range 17520 { // hourly
			a.Line = append(a.Line, Sample{X: float64(k) * 3600, Y: math.Sin(float64(k)/200 + float64(i))})
		}
		s.Series = append(s.Series, a)
	}
	for b.Loop() {
		Build(s, 790, 230)
	}
}
