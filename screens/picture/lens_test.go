package picture

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(a, b XY, within float64) bool { return distance(a, b) <= within }

func sizes(t *rapid.T, name string) Size {
	return Size{rapid.Float64Range(20, 9000).Draw(t, name+" w"), rapid.Float64Range(20, 9000).Draw(t, name+" h")}
}

// What the pointer is on stays under it, however one zooms.
func TestZoomKeepsThePixelUnderThePointer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pic, view := sizes(t, "picture"), sizes(t, "view")
		l := Fit(pic, view)
		at := XY{rapid.Float64Range(0, view.W).Draw(t, "x"), rapid.Float64Range(0, view.H).Draw(t, "y")}
		before := l.ToPicture(at, view)
		for range rapid.IntRange(1, 6).Draw(t, "steps") {
			l = l.ScaledTo(l.Scale*rapid.Float64Range(0.5, 2).Draw(t, "factor"), at, view)
		}
		if got := l.ToPicture(at, view); !near(got, before, 1e-6*pic.long()) {
			t.Fatalf("the pixel under the pointer was %v, is %v", before, got)
		}
	})
}

func TestLensMapsThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pic, view := sizes(t, "picture"), sizes(t, "view")
		l := Fit(pic, view).Moved(XY{rapid.Float64Range(-500, 500).Draw(t, "dx"), rapid.Float64Range(-500, 500).Draw(t, "dy")})
		p := Point{rapid.Float64Range(0, 1000).Draw(t, "px"), rapid.Float64Range(0, 1000).Draw(t, "py")}
		at := l.ToView(p.In(pic), view)
		if got := PointAt(l.ToPicture(at, view), pic); math.Hypot(got.X-p.X, got.Y-p.Y) > 1e-6 {
			t.Fatalf("%v came back as %v", p, got)
		}
	})
}

func TestFitShowsAllOfThePicture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pic, view := sizes(t, "picture"), sizes(t, "view")
		l := Fit(pic, view)
		a, b := l.ToView(XY{}, view), l.ToView(XY{pic.W, pic.H}, view)
		if a.X < -1e-6 || a.Y < -1e-6 || b.X > view.W+1e-6 || b.Y > view.H+1e-6 {
			t.Fatalf("a picture of %v in a view of %v lies from %v to %v", pic, view, a, b)
		}
		if b.X-a.X < view.W-1e-6 && b.Y-a.Y < view.H-1e-6 {
			t.Fatalf("a picture of %v leaves room in a view of %v on both ways", pic, view)
		}
	})
}

func TestShiftedKeepsMarksOnThePicture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		point := func(n string) Point {
			return Point{rapid.Float64Range(0, 1000).Draw(t, n+"x"), rapid.Float64Range(0, 1000).Draw(t, n+"y")}
		}
		p := []Point{point("a"), point("b")}
		by := Point{rapid.Float64Range(-3000, 3000).Draw(t, "dx"), rapid.Float64Range(-3000, 3000).Draw(t, "dy")}
		which := rapid.IntRange(-1, 1).Draw(t, "which")
		out := shifted(p, which, by)
		for _, q := range out {
			if q.X < -1e-9 || q.X > 1000+1e-9 || q.Y < -1e-9 || q.Y > 1000+1e-9 {
				t.Fatalf("%v lies off the picture", q)
			}
		}
		if which < 0 && math.Hypot((out[1].X-out[0].X)-(p[1].X-p[0].X), (out[1].Y-out[0].Y)-(p[1].Y-p[0].Y)) > 1e-9 {
			t.Fatal("a mark moved as a whole changed its form")
		}
	})
}
