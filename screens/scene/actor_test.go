package scene

import (
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

// afloat is a red square that goes from 100 to 500 mm and back.
func afloat() Actor {
	a := Actor{ID: "fish", Right: New(), Left: New(), Where: func(t float64) (Point, bool) {
		return Pt(300-200*math.Cos(t), 400), math.Sin(t) < 0
	}}
	for _, s := range []*Scene{a.Right, a.Left} {
		s.Group("fish", func() {
			s.Add(Rect{Min: Pt(-20, -20), Max: Pt(20, 20), Style: Style{Fill: look.Rust}})
		})
	}
	return a
}

func pond() *Scene {
	s := New()
	s.Group("pond", func() { s.Add(Rect{Max: Pt(600, 500), Style: Style{Fill: look.Water}}) })
	return s
}

// An actor is hit, reached by key and ringed where it is now, and its moving
// paints nothing again until it turns.
func TestActorsMove(t *testing.T) {
	themed(t, look.Light)
	v := NewFocusView(pond())
	w := test.NewTempWindow(t, v)
	w.Resize(fyne.NewSize(620, 540))
	v.SetActors([]Actor{afloat()})
	w.Canvas().Capture()
	pos := func(x, y float64) fyne.Position {
		p := v.Transform().Device(Pt(x, y))
		return fyne.NewPos(float32(p.X), float32(p.Y))
	}
	if v.At(pos(100, 400)) != "fish" || v.At(pos(300, 400)) != "pond" {
		t.Error("the actor is not where it begins")
	}
	v.Step(math.Pi / 2)
	if v.At(pos(300, 400)) != "fish" || v.At(pos(100, 400)) != "pond" {
		t.Error("the actor is not hit where it is now")
	}
	p := v.players[0]
	mid := p.raster.Position().Add(fyne.NewPos(p.raster.Size().Width/2, p.raster.Size().Height/2))
	want := pos(300, 400)
	near(t, "the picture's middle", float64(mid.X), float64(want.X), 1)
	near(t, "the picture's middle", float64(mid.Y), float64(want.Y), 1)
	if got := w.Canvas().Capture().At(int(want.X), int(want.Y)); got == (w.Canvas().Capture().At(int(pos(100, 400).X), int(want.Y))) {
		t.Errorf("the actor does not show: %v", got)
	}
	painted := p.img
	for i := range 5 {
		v.Step(math.Pi/2 + .1*float64(i))
	}
	if p.img != painted || p.left {
		t.Error("moving painted the actor again")
	}
	v.Step(4)
	if !p.left {
		t.Error("the actor does not turn")
	}
	if got := v.ids(); !slices.Equal(got, []ID{"pond", "fish"}) {
		t.Errorf("parts %v", got)
	}
	w.Canvas().Focus(v)
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	if v.Chosen() != "fish" {
		t.Errorf("chosen %q", v.Chosen())
	}
	v.Step(0)
	near(t, "the ring goes along", float64(v.ring.Position().X), v.extentOf("fish").Min.X-4, .01)
	v.Set(pond())
	if v.At(pos(100, 400)) != "pond" {
		t.Error("the actor stays in another scene")
	}
}

// Words show beside what is pointed at or chosen, within the view.
func TestTips(t *testing.T) {
	themed(t, look.Light)
	v := NewFocusView(pond())
	w := test.NewTempWindow(t, v)
	w.Resize(fyne.NewSize(400, 300))
	v.SetActors([]Actor{afloat()})
	v.Tip = func(id ID) []string {
		if id == "fish" {
			return []string{"Zebra danio: 6", "adult 4.6 cm"}
		}
		return nil
	}
	w.Canvas().Capture()
	for _, sec := range []float64{0, math.Pi} { // near the left and the right edge
		v.Step(sec)
		b := v.extentOf("fish")
		v.MouseMoved(mouse(float32(b.Min.X+b.W()/2), float32(b.Min.Y+b.H()/2)))
		if got := v.Tipped(); len(got) != 2 || got[0] != "Zebra danio: 6" {
			t.Fatalf("words %q", got)
		}
		at, size := v.tip.box.Position(), v.tip.box.Size()
		if at.X < 0 || at.Y < 0 || at.X+size.Width > v.Size().Width || at.Y+size.Height > v.Size().Height {
			t.Errorf("the words at %v, %v leave the view of %v", at, size, v.Size())
		}
	}
	v.MouseMoved(mouse(3, 3))
	v.MouseMoved(mouse(200, 200))
	if v.Tipped() != nil {
		t.Error("the words stay")
	}
	w.Canvas().Focus(v)
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	if v.Tipped() == nil {
		t.Error("no words by keyboard")
	}
	w.Canvas().Unfocus()
	if v.Tipped() != nil {
		t.Error("the words stay without the focus")
	}
}
