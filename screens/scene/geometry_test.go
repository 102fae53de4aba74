package scene

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/screens/look"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol || math.IsNaN(got) {
		t.Errorf("%s: expected %v, got %v", what, want, got)
	}
}

func TestTransformRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-1e4, 1e4)
		tr := Transform{Scale: rapid.Float64Range(1e-3, 1e3).Draw(t, "scale"), X: f.Draw(t, "x"), Y: f.Draw(t, "y"), Point: 1}
		p := Pt(f.Draw(t, "px"), f.Draw(t, "py"))
		q := tr.Drawing(tr.Device(p))
		if d := q.Sub(p).Len(); d > 1e-6 {
			t.Fatalf("%v came back as %v", p, q)
		}
	})
}

// Whatever the frame, a fitted drawing lies within its margins with all that is
// measured in points, fills it one way, and is equally scaled both ways.
func TestFitKeepsInsideAndFills(t *testing.T) {
	s := sample()
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(300, 3000).Draw(t, "w"), rapid.Float64Range(300, 3000).Draw(t, "h")
		pt := rapid.Float64Range(0.26, 2).Draw(t, "point")
		f := Frame{X: 7, Y: 9, W: w, H: h, Margins: Even(5), Point: pt,
			AlignX: rapid.Float64Range(-1, 1).Draw(t, "ax"), AlignY: rapid.Float64Range(-1, 1).Draw(t, "ay")}
		tr := Fit(s, f)
		e := s.Extent(tr)
		m := 5 * pt
		if e.Min.X < 7+m-1e-6 || e.Min.Y < 9+m-1e-6 || e.Max.X > 7+w-m+1e-6 || e.Max.Y > 9+h-m+1e-6 {
			t.Fatalf("extent %v leaves the frame %v", e, f)
		}
		if e.W() < w-2*m-1 && e.H() < h-2*m-1 {
			t.Fatalf("extent %v by %v leaves room both ways in %v by %v", e.W(), e.H(), w-2*m, h-2*m)
		}
	})
}

// Words that all but fill the frame, or are wider than it, leave the drawing as large as
// the rest of the frame allows: it is never lost in a point.
func TestFitBesideWideWords(t *testing.T) {
	words := "Drawn to scale, a hand, seventy-seven degrees"
	wide := TextSize(words, Regular, look.Note).Width
	for _, beside := range []float64{-40, -1, 0.5, 5, 40, 200} { // points that the frame has beside the words
		s := New()
		s.Add(Rect{Min: Pt(0, 0), Max: Pt(600, 900), Style: Style{Fill: look.Water}})
		s.Add(Text{At: Pt(0, 0), Shift: Pt(0, -10), S: words, Size: look.Note, V: Top})
		s.Add(Text{At: Pt(600, 450), Shift: Pt(10, 0), S: "28 in", Size: look.Note})
		w := wide + beside
		tr := Fit(s, Frame{W: w, H: 2000, Point: 1})
		// The words begin where the rectangle does; beside it stands its height.
		if want := min(w, max(w, wide)-10-TextSize("28 in", Regular, look.Note).Width) / 600; math.Abs(tr.Scale-want) > 0.02*want {
			t.Errorf("%v points beside the words: %v points per mm, want %v", beside, tr.Scale, want)
		}
	}
}

func TestProportionsAreTrue(t *testing.T) {
	s := New()
	s.Add(Rect{Min: Pt(0, 0), Max: Pt(610, 305), Style: Style{Fill: look.Water}})
	for _, f := range []Frame{{W: 500, H: 900}, {W: 900, H: 200}, {W: 333, H: 333, Point: 2}} {
		tr := Fit(s, f)
		a, b := tr.Device(Pt(0, 0)), tr.Device(Pt(610, 305))
		near(t, "width to height", (b.X-a.X)/(a.Y-b.Y), 2, 1e-9)
	}
	// A 610 mm tank drawn 61 mm wide is 1 : 10, whatever the density.
	for _, perMM := range []float64{1, 3.7795, 7.559} {
		tr := Fit(s, Frame{W: 61 * perMM, H: 1000})
		near(t, "ratio", tr.Ratio(perMM), 10, 1e-6)
	}
	if got := (Transform{Scale: 1}).Ratio(math.NaN()); got != 0 {
		t.Errorf("ratio of an unknown device: expected 0, got %v", got)
	}
}

func TestBoundsAreMillimetres(t *testing.T) {
	s := New()
	if !s.Bounds().Empty() {
		t.Error("an empty scene has bounds")
	}
	s.Add(Line{From: Pt(-10, 5), To: Pt(20, 40), Style: Style{Stroke: look.Ink, Width: 50}})
	s.Add(Text{At: Pt(30, 0), S: "a long text that is measured in points"})
	s.Add(Circle(Pt(0, 0), 15, Style{Fill: look.Ink}))
	b := s.Bounds()
	near(t, "left", b.Min.X, -15, 0.01)
	near(t, "bottom", b.Min.Y, -15, 0.01)
	near(t, "right", b.Max.X, 30, 0.01)
	near(t, "top", b.Max.Y, 40, 0.01)
}

func TestWhatIsNotFiniteIsLeftOut(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, it := range []Item{
		Line{From: Pt(nan, 0)}, Rect{Max: Pt(inf, 0)}, Circle(Pt(0, 0), -1, Style{}), Circle(Pt(0, 0), nan, Style{}),
		Polyline{Points: []Point{{0, nan}}}, NewPath(Style{}).MoveTo(Pt(0, 0)).CubicTo(Pt(0, 0), Pt(inf, 0), Pt(0, 0)),
		Text{S: "x", Size: nan}, Text{S: "x", MM: -1}, Line{Style: Style{Width: nan}}, Line{Style: Style{Alpha: 2}},
		Line{Style: Style{Dash: []float64{1, -1}}}, Marker{Size: inf}, Arrow{Head: nan}, Hatch{Step: -1}, Dimension{Offset: nan}, (*Path)(nil), nil,
	} {
		s := New()
		s.Add(it)
		var ie *ItemError
		if s.Len() != 0 || !errors.As(s.Err(), &ie) {
			t.Errorf("%#v was taken", it)
		}
	}
}

// Degenerate scenes and frames never give NaN.
func TestFitOfOddScenes(t *testing.T) {
	point := New()
	point.Add(Text{At: Pt(3, 4), S: "5"})
	level := New()
	level.Add(Line{From: Pt(0, 0), To: Pt(100, 0), Style: Style{Stroke: look.Ink}})
	for n, s := range map[string]*Scene{"empty": New(), "point": point, "level": level, "sample": sample()} {
		for _, f := range []Frame{{}, {W: 10, H: 10, Margins: Even(20)}, {W: 200, H: 100}, {W: math.NaN(), H: 4}, {W: 200, H: 100, Point: math.Inf(1)}} {
			tr := Fit(s, f)
			if f.W == f.W && !finite(tr.Scale, tr.X, tr.Y, tr.Point) || tr.Scale <= 0 || tr.Point <= 0 {
				t.Errorf("%s in %+v: %+v", n, f, tr)
			}
		}
	}
}

// The text box agrees with the ink that is really drawn.
func TestTextSizeMatchesTheInk(t *testing.T) {
	for _, w := range []Weight{Regular, SemiBold, Bold, Italic} {
		m := TextSize("HxH", w, 100)
		img := blank(300, 200)
		draws(img, Text{At: Pt(20, 50), S: "HxH", Size: 100, Weight: w, Colour: look.Ink})
		ink := inked(img)
		if ink.Min.X < 20 || float64(ink.Max.X) > 20+m.Width+3 { // italics lean out a little
			t.Errorf("weight %d: ink from %d to %d, box from 20 to %.1f", w, ink.Min.X, ink.Max.X, 20+m.Width)
		}
		if m.Width-float64(ink.Dx()) > 22 { // side bearings
			t.Errorf("weight %d: ink is %d wide in a box of %.1f", w, ink.Dx(), m.Width)
		}
		near(t, "cap height", float64(ink.Dy()), m.CapHeight, 2)
	}
	near(t, "twice the size", TextSize("Ammonia", Bold, 26).Width, 2*TextSize("Ammonia", Bold, 13).Width, 1e-9)
}

func TestTextAnchors(t *testing.T) {
	tr := Transform{Scale: 1, Point: 1, X: 0, Y: 0}
	box := func(x Text) Box { x.S, x.Size = "610 mm", 20; return x.Box(tr) }
	w := TextSize("610 mm", Regular, 20).Width
	b := box(Text{H: Middle})
	near(t, "middle", b.Min.X+b.Max.X, 0, 1e-9)
	near(t, "end", box(Text{H: End}).Max.X, 0, 1e-9)
	near(t, "top", box(Text{V: Top}).Min.Y, 0, 1e-9)
	near(t, "bottom", box(Text{V: Bottom}).Max.Y, 0, 1e-9)
	near(t, "shift", box(Text{Shift: Pt(5, 7)}).Min.X, 5, 1e-9)
	turned := box(Text{Turned: true, H: Middle})
	near(t, "turned height", turned.H(), w, 1e-9)
	near(t, "turned middle", turned.Min.Y+turned.Max.Y, 0, 1e-9)
	if turned.Min.X > 0 || turned.Max.X > turned.W()/2 {
		t.Errorf("turned text does not stand to the left of its baseline: %v", turned)
	}
	near(t, "in millimetres", Text{S: "610 mm", MM: 20}.Box(Transform{Scale: 3, Point: 1}).W(), 3*w, 1e-9)
}
