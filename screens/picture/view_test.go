package picture

import (
	"context"
	"fmt"
	"image"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	_ "example.org/driploop/i18n/earlyenv" // before the toolkit reads the locale
	"example.org/driploop/screens/look"
)

// stand shows views side by side in a window.
func stand(t *testing.T, w, h float32, views ...*View) fyne.Window {
	t.Helper()
	a := test.NewTempApp(t)
	th, err := look.New(look.Options{})
	if err != nil {
		t.Fatal(err)
	}
	a.Settings().SetTheme(th)
	win := a.NewWindow("")
	win.SetPadded(false)
	box := container.NewGridWithColumns(len(views))
	for _, v := range views {
		box.Add(v)
	}
	win.SetContent(box)
	win.Resize(fyne.NewSize(w, h))
	t.Cleanup(win.Close)
	return win
}

func one(t *testing.T) (*View, fyne.Window) {
	v := NewView()
	v.SetPicture(Size{800, 600}, NewLevels(smooth(800, 600)))
	return v, stand(t, 400, 300, v)
}

func TestWheelZoomsAboutThePointer(t *testing.T) {
	v, _ := one(t)
	at := fyne.NewPos(90, 220)
	before := v.pixel(xy(at))
	for range 5 {
		v.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.Delta{DY: 25}})
	}
	if v.Lens().Scale < 1 {
		t.Fatalf("five clicks of the wheel gave a scale of %v", v.Lens().Scale)
	}
	if got := v.pixel(xy(at)); math.Hypot(got.X-before.X, got.Y-before.Y) > 1e-6 {
		t.Errorf("the point under the pointer was %v, is %v", before, got)
	}
}

func TestKeysZoomFitAndPan(t *testing.T) {
	v, w := one(t)
	w.Canvas().Focus(v)
	fit := v.Lens()
	v.TypedRune('+')
	v.TypedRune('+')
	if got := v.Lens().Scale / fit.Scale; math.Abs(got-keyZoom*keyZoom) > 1e-9 {
		t.Errorf("two plus keys make it %v times as large", got)
	}
	c := v.Lens().Centre
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if v.Lens().Centre.X <= c.X {
		t.Error("the right arrow does not show more of the right")
	}
	v.TypedRune('0')
	if v.Lens() != fit {
		t.Errorf("0 gives %v, not the whole %v", v.Lens(), fit)
	}
	v.TypedRune('1')
	if math.Abs(v.Lens().Scale-1) > 1e-9 {
		t.Errorf("1 gives a scale of %v", v.Lens().Scale)
	}
	for range 60 {
		v.TypedRune('+')
	}
	if v.Lens().Scale > mostScale {
		t.Errorf("it zooms to %v", v.Lens().Scale)
	}
}

func drag(v *View, from, to fyne.Position) {
	v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}, Button: desktop.MouseButtonPrimary})
	const steps = 4
	for i := range steps {
		d := fyne.Delta{DX: (to.X - from.X) / steps, DY: (to.Y - from.Y) / steps}
		at := fyne.NewPos(from.X+d.DX*float32(i+1), from.Y+d.DY*float32(i+1))
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: d})
	}
	v.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: to}, Button: desktop.MouseButtonPrimary})
	v.DragEnd()
}

func TestMarksAreHitWhereTheyAreDrawn(t *testing.T) {
	v, _ := one(t) // half scale: 400 by 300 points
	v.SetMarks([]Mark{
		{ID: "ring", Shape: Ring, Points: []Point{{250, 500}, {350, 500}}}, // centre 100,150, rim 40 away
		{ID: "arrow", Shape: Pointer, Points: []Point{{700, 200}, {900, 200}}},
		{ID: "words", Shape: Words, Points: []Point{{500, 900}}, Label: "white spots"},
	})
	for _, c := range []struct {
		at   XY
		want string
	}{{XY{140, 150}, "ring"}, {XY{100, 110}, "ring"}, {XY{100, 150}, ""}, {XY{320, 60}, "arrow"}, {XY{320, 71}, "arrow"}, {XY{320, 90}, ""}, {XY{203, 270}, "words"}, {XY{250, 272}, "words"}, {XY{390, 270}, ""}} {
		id := ""
		if i := hitMark(v.marks, c.at, v.size, v.lens, v.room()); i >= 0 {
			id = v.marks[i].ID
		}
		if id != c.want {
			t.Errorf("at %v lies %q, want %q", c.at, id, c.want)
		}
	}
}

func TestDraggingDrawsMovesAndPans(t *testing.T) {
	v, _ := one(t)
	var drawn [][]Point
	v.OnDrawn = func(p []Point) { drawn = append(drawn, p) }
	moved := map[string][]Point{}
	v.OnMoved = func(id string, p []Point) { moved[id] = p }
	v.SetTool(TwoPoint, Pointer)
	drag(v, fyne.NewPos(100, 150), fyne.NewPos(200, 150))
	drag(v, fyne.NewPos(100, 150), fyne.NewPos(101, 150)) // a slip of the hand
	if len(drawn) != 1 || drawn[0][0] != (Point{250, 500}) || drawn[0][1] != (Point{500, 500}) {
		t.Fatalf("drawn was %v", drawn)
	}
	// The same by two taps.
	v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(40, 30)})
	v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(80, 30)})
	if len(drawn) != 2 || drawn[1][1] != (Point{200, 100}) {
		t.Fatalf("two taps gave %v", drawn)
	}
	v.SetTool(Hand, Ring)
	v.SetMarks([]Mark{{ID: "a", Shape: Pointer, Points: drawn[0]}})
	drag(v, fyne.NewPos(150, 150), fyne.NewPos(150, 180)) // by its shaft
	if p := moved["a"]; len(p) != 2 || p[0] != (Point{250, 600}) || p[1] != (Point{500, 600}) {
		t.Errorf("moved as a whole: %v", p)
	}
	drag(v, fyne.NewPos(200, 180), fyne.NewPos(240, 180)) // by its head
	if p := moved["a"]; p[0] != (Point{250, 600}) || p[1] != (Point{600, 600}) {
		t.Errorf("moved by its head: %v", p)
	}
	before := v.Lens().Centre
	drag(v, fyne.NewPos(300, 40), fyne.NewPos(280, 40))
	if got := v.Lens().Centre; math.Abs(got.X-before.X-40) > 1e-6 {
		t.Errorf("panning by 20 points at half scale moved the middle from %v to %v", before, got)
	}
}

func TestMarksByKeyboardAlone(t *testing.T) {
	v, w := one(t)
	w.Canvas().Focus(v)
	key := func(names ...fyne.KeyName) {
		for _, n := range names {
			v.TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
	var drawn []Point
	v.OnDrawn = func(p []Point) { drawn = p }
	v.SetTool(TwoPoint, Ring)
	key(fyne.KeySpace, fyne.KeyReturn, fyne.KeyRight, fyne.KeyRight, fyne.KeyDown, fyne.KeyReturn)
	if len(drawn) != 2 || drawn[0] != (Point{500, 500}) || math.Abs(drawn[1].X-540) > 1e-6 || drawn[1].Y <= 500 {
		t.Fatalf("drawn by keyboard: %v", drawn)
	}
	v.SetTool(Hand, Ring)
	v.SetMarks([]Mark{{ID: "a", Shape: Ring, Points: drawn}, {ID: "b", Shape: Words, Points: []Point{{100, 100}}, Label: "b"}})
	var moved, gone string
	var to []Point
	v.OnMoved = func(id string, p []Point) { moved, to = id, p }
	v.OnDelete = func(id string) { gone = id }
	key(fyne.KeySpace, fyne.KeySpace, fyne.KeyLeft)
	if moved != "b" || math.Abs(to[0].X-80) > 1e-6 {
		t.Errorf("moved %q to %v", moved, to)
	}
	v.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	key(fyne.KeyLeft)
	if math.Abs(to[0].X-77.5) > 1e-6 {
		t.Errorf("a small step went to %v", to)
	}
	key(fyne.KeyDelete)
	if gone != "b" {
		t.Errorf("removed %q", gone)
	}
	up := false
	v.OnKey = func(e *fyne.KeyEvent) bool { up = e.Name == fyne.KeyEscape; return true }
	key(fyne.KeyEscape)
	if up || v.Chosen() != "" {
		t.Error("the first Escape lets go of the mark")
	}
	key(fyne.KeyEscape)
	if !up {
		t.Error("the second Escape is for the page")
	}
}

func pair(t *testing.T, n int) (*Group, []*View) {
	var views []*View
	for i := range n {
		v := NewView()
		v.SetPicture(Size{800 + 400*float64(i), 600}, NewLevels(smooth(80, 60)))
		views = append(views, v)
	}
	stand(t, 1000, 400, views...)
	return NewGroup(views...), views
}

func TestViewsSideBySideKeepOneScale(t *testing.T) {
	for n := 2; n <= 4; n++ {
		g, views := pair(t, n)
		g.SetScales([]float64{10, 4, 2, 7}[:n])
		if !g.Real() {
			t.Fatal("all pictures have a scale of their own")
		}
		for i, act := range []func(){
			func() {},
			func() { views[0].Zoom(1.7, XY{30, 40}) },
			func() { views[n-1].Pan(XY{20, -10}) },
			func() { views[1].TypedRune('+') },
			func() { views[1].Zoom(1000, XY{}) },
			func() { views[0].Zoom(1e-6, XY{}) },
			func() { views[0].TypedRune('0') },
			func() { views[1].TypedRune('1') },
		} {
			act()
			if !g.SameScale() {
				t.Errorf("%d views, act %d: the scales differ", n, i)
			}
		}
	}
}

func TestLinkedViewsMoveAlikeAndCanBeParted(t *testing.T) {
	g, views := pair(t, 2)
	g.SetScales([]float64{10, 5})
	views[0].Zoom(6, views[0].Middle())
	a, b := views[0].Lens().Centre, views[1].Lens().Centre
	views[0].Pan(XY{-30, 12})
	da, db := XY{views[0].Lens().Centre.X - a.X, views[0].Lens().Centre.Y - a.Y}, XY{views[1].Lens().Centre.X - b.X, views[1].Lens().Centre.Y - b.Y}
	if math.Abs(da.X/10-db.X/5) > 1e-9 || math.Abs(da.Y/10-db.Y/5) > 1e-9 || da.X == 0 {
		t.Errorf("moved by %v and %v pixels, not by the same millimetres", da, db)
	}
	g.Link(false, views[0])
	b = views[1].Lens().Centre
	views[0].Zoom(2, views[0].Middle())
	if views[1].Lens().Centre != b || g.SameScale() {
		t.Error("a view that is for itself moved with the other")
	}
	g.Link(true, views[0])
	if !g.SameScale() {
		t.Error("together again, the scales differ")
	}
}

func TestWithoutAScaleAllAreShownEquallyLarge(t *testing.T) {
	g, views := pair(t, 2)
	g.SetScales([]float64{10, 0})
	if g.Real() || !g.SameScale() {
		t.Error("one without a scale leaves the longer sides equal")
	}
	if a, b := views[0].Lens().Scale*800, views[1].Lens().Scale*1200; math.Abs(a-b) > 1e-6 {
		t.Errorf("longer sides of %v and %v points", a, b)
	}
}

func TestMoreIsAskedForOnlyWhenItWouldShow(t *testing.T) {
	v := NewView()
	v.SetPicture(Size{4000, 3000}, NewLevels(smooth(500, 375)))
	stand(t, 400, 300, v)
	var asked []int
	v.OnWant = func(long int) { asked = append(asked, long) }
	v.Zoom(1.1, v.Middle())
	if len(asked) != 0 {
		t.Errorf("asked for %v though enough is loaded", asked)
	}
	v.Zoom(3, v.Middle())
	v.Pan(XY{5, 5})
	if len(asked) != 1 || asked[0] < 1300 {
		t.Fatalf("asked for %v", asked)
	}
	v.Load(NewLevels(smooth(2000, 1500)))
	v.Zoom(100, v.Middle())
	if len(asked) != 2 || asked[1] != 4000 {
		t.Errorf("asked for %v, never for more than there is", asked)
	}
}

func TestThumbsAreBoundedAndLatestFirst(t *testing.T) {
	raw := jpegOf(t, smooth(64, 48))
	var jobs []func()
	var loaded []string
	th := NewThumbs(func(_ context.Context, hash string, _ int) ([]byte, error) {
		loaded = append(loaded, hash)
		if hash == "bad" {
			return nil, fmt.Errorf("no such picture")
		}
		return raw, nil
	}, func(f func()) { jobs = append(jobs, f) }, func(f func()) { f() })
	th.most = 20 * (4*32*24 + 200)
	ready := 0
	for i := range 300 {
		th.Get(Key{Hash: fmt.Sprint(i), W: 32, H: 24}, func() { ready++ })
	}
	for len(jobs) > 0 {
		j := jobs[0]
		jobs = jobs[1:]
		j()
	}
	if len(loaded) < mostWanted || len(loaded) > mostWanted+mostWorkers || loaded[2] != "299" {
		t.Errorf("%d were loaded, the third of them %s", len(loaded), loaded[2])
	}
	if n, b := th.Held(); n != 20 || b > th.most {
		t.Errorf("%d pictures of %d bytes are kept", n, b)
	}
	if img, made := th.Get(Key{Hash: loaded[len(loaded)-1], W: 32, H: 24}, nil); !made || img.Bounds() != image.Rect(0, 0, 32, 24) {
		t.Error("the one made last is not kept")
	}
	th.Get(Key{Hash: "bad", W: 32, H: 24}, nil)
	jobs[0]()
	if img, made := th.Get(Key{Hash: "bad", W: 32, H: 24}, nil); !made || img != nil {
		t.Error("what cannot be shown is asked for again and again")
	}
}
