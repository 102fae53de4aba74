package chart

import (
	"image"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"pgregory.net/rapid"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// sided is a chart with a plain value, one under and one over what a kit shows.
func sided() Spec {
	return Spec{Zones: []Zone{{math.Inf(-1), 2, "steady", ""}, {2, math.Inf(1), "act", look.Act}}, Left: 80,
		Events: []Event{{X: 1, Shape: scene.Square}, {X: 1.001, Shape: scene.Square}, {X: 3, Shape: scene.Triangle}},
		Series: []Series{{Shape: scene.Round, Filled: true, Points: []Sample{{X: 0, Y: 1}, {X: 2, Y: 0.5, Side: -1}, {X: 4, Y: 4, Side: 1}}}}}
}

func TestSidesZonesAndEvents(t *testing.T) {
	const w, h = 600, 220
	p := lay(sided(), w, h)
	if p.plot.Min.X < 80 {
		t.Errorf("the plot begins at %v", p.plot.Min.X)
	}
	img := picture(sided(), w, h)
	at := func(x, y float64) image.Point { return image.Pt(int(p.x(x)), int(h-p.y(y))) }
	about := func(c image.Point, r int) image.Rectangle { return image.Rect(c.X-r, c.Y-r, c.X+r+1, c.Y+r+1) }
	centre := func(x, y float64) int { return count(img, look.Teal, about(at(x, y), 1)) }
	if n := centre(0, 1); n != 9 {
		t.Errorf("a plain value is not filled: %d", n)
	}
	if centre(2, 0.5) == 9 || centre(4, 4) == 9 {
		t.Error("a value that is none is filled")
	}
	stem := func(x, y float64, dy int) int { return count(img, look.Teal, about(at(x, y).Add(image.Pt(0, dy)), 1)) }
	if stem(2, 0.5, 8) == 0 || stem(4, 4, -8) == 0 {
		t.Error("no stem to the side of a value that is none")
	}
	lane := func(x float64) int {
		c := image.Pt(int(p.x(x)), int(h-p.plot.Max.Y-lane/2))
		return count(img, look.Ink, about(c, 5))
	}
	if lane(1) == 0 || lane(3) == 0 || lane(2) != 0 {
		t.Errorf("signs of events: %d, %d and %d between", lane(1), lane(3), lane(2))
	}
	// The ground of the zone with a colour is tinted, that of the other is not.
	plain := look.Color(look.Sheet, theme.VariantLight)
	same := func(x, y float64) bool {
		c := img.RGBAAt(at(x, y).X, at(x, y).Y)
		return c.R == plain.R && c.G == plain.G && c.B == plain.B
	}
	if !same(2.5, 0.25) || same(0.5, 3.3) {
		t.Error("the zones are not told apart")
	}
}

func TestZoomByPointerAndKeys(t *testing.T) {
	themed(t, look.Options{Variant: look.Light})
	v := NewView(sided())
	var x0, x1 float64
	n := 0
	v.OnZoom = func(a, b float64) { x0, x1 = a, b; n++ }
	w := test.NewTempWindow(t, v)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(600, 220))
	drag := func(from, to float64) {
		a, b := float32(v.plan.x(from)), float32(v.plan.x(to))
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(a, 100)}})
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(b, 100)}, Dragged: fyne.NewDelta(b-a, 0)})
		v.DragEnd()
	}
	drag(3, 1) // either way
	if n != 1 || math.Abs(x0-1) > 0.02 || math.Abs(x1-3) > 0.02 || !v.drawnUp.Hidden {
		t.Errorf("drawn out %v to %v", x0, x1)
	}
	drag(2, 2.01)
	if n != 1 {
		t.Error("a slipped tap zooms")
	}
	v.TypedRune('+')
	if n != 2 || x1-x0 > 2.01 {
		t.Errorf("plus shows %v to %v", x0, x1)
	}
	v.TypedRune('-')
	if n != 3 || x1-x0 < 7.9 {
		t.Errorf("minus shows %v to %v", x0, x1)
	}
}

// Signs of events never lie upon one another: those that would share one, with how
// many they are, and none is lost.
func TestEventsThatAreCloseShareASign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sided()
		s.Events = nil
		for range rapid.IntRange(0, 60).Draw(t, "events") {
			s.Events = append(s.Events, Event{X: rapid.Float64Range(0, 4).Draw(t, "x"), Shape: rapid.SampledFrom([]scene.Shape{scene.Square, scene.Triangle}).Draw(t, "shape")})
		}
		p := lay(s, 600, 220)
		n, last := 0, math.Inf(-1)
		for _, c := range p.clusters() {
			n += len(c.events)
			if c.at()-last < eventApart/2 {
				t.Fatalf("signs at %v and %v", last, c.at())
			}
			last = c.at()
			for _, e := range c.events {
				if x := p.x(e.X); x < c.x-1e-9 || x > c.end+1e-9 {
					t.Fatalf("an event at %v shares a sign of %v to %v", x, c.x, c.end)
				}
			}
		}
		if n != len(s.Events) {
			t.Fatalf("%d of %d events have a sign", n, len(s.Events))
		}
	})
}

// A chart beside the one that is read shows its line at the same time, without words.
func TestFollowingAnotherChart(t *testing.T) {
	themed(t, look.Options{Variant: look.Light})
	v := NewView(sided())
	v.ReadOut = words
	w := test.NewTempWindow(t, v)
	w.Resize(fyne.NewSize(600, 260))
	v.Follow(1, true)
	if v.cross.Hidden || !v.plate.Hidden || math.Abs(float64(v.cross.Position1.X)-v.plan.x(1)*v.scale) > 0.01 {
		t.Errorf("line hidden %v at %v, plate hidden %v", v.cross.Hidden, v.cross.Position1.X, v.plate.Hidden)
	}
	if _, ok := v.Reading(); ok {
		t.Error("it reads by itself")
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome}) // one's own reading goes first
	if v.plate.Hidden || math.Abs(float64(v.cross.Position1.X)-v.plan.x(0)*v.scale) > 0.01 {
		t.Error("its own reading is not shown")
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	v.Follow(99, true) // beyond what it spans
	if !v.cross.Hidden {
		t.Error("a line stands at a time that is not shown")
	}
	v.Follow(1, true)
	v.Follow(0, false)
	if !v.cross.Hidden {
		t.Error("the line stays")
	}
}
