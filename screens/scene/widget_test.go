package scene

import (
	"bytes"
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/screens/look"
)

func themed(t *testing.T, v look.Variant) {
	t.Helper()
	app := test.NewTempApp(t)
	th, err := look.New(look.Options{Variant: v})
	if err != nil {
		t.Fatal(err)
	}
	app.Settings().SetTheme(th)
}

func mouse(x, y float32) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}}
}

// The view shows at device pixels exactly what the raster draws.
func TestViewShowsTheRasterInBothVariants(t *testing.T) {
	for v, variant := range map[look.Variant]fyne.ThemeVariant{look.Light: theme.VariantLight, look.Dark: theme.VariantDark} {
		themed(t, v)
		c := software.NewCanvas()
		c.SetPadded(false)
		view := NewView(sample())
		view.Margins = Even(8)
		view.Back = look.Paper
		c.SetContent(view)
		c.Resize(fyne.NewSize(400, 360))
		got := c.Capture()
		want, err := Picture(sample(), 400, 360, 1, variant)
		if err != nil {
			t.Fatal(err)
		}
		if got.Bounds().Size() != image.Pt(400, 360) {
			t.Fatalf("captured %v", got.Bounds())
		}
		for y := range 360 {
			for x := range 400 {
				r, g, b, _ := got.At(x, y).RGBA()
				r2, g2, b2, _ := want.At(x, y).RGBA()
				if r>>8 != r2>>8 || g>>8 != g2>>8 || b>>8 != b2>>8 {
					t.Fatalf("variant %d: pixel (%d, %d) differs: %v and %v", v, x, y, got.At(x, y), want.At(x, y))
				}
			}
		}
	}
}

// Without a ground of its own the view lets the page show through.
func TestViewIsClearByDefault(t *testing.T) {
	themed(t, look.Light)
	c := software.NewCanvas()
	c.SetPadded(false)
	c.SetContent(container.NewStack(NewView(New())))
	c.Resize(fyne.NewSize(20, 20))
	if got, want := c.Capture().At(10, 10), look.Color(look.Paper, theme.VariantLight); got != want {
		t.Errorf("expected the page %v, got %v", want, got)
	}
}

func TestViewTapsAndHovers(t *testing.T) {
	themed(t, look.Light)
	v := NewView(nil)
	w := test.NewTempWindow(t, v)
	w.Resize(fyne.NewSize(500, 450))
	v.Set(sample())
	v.SetMinSize(fyne.NewSize(200, 150))
	if v.MinSize() != fyne.NewSize(200, 150) {
		t.Errorf("least size: %v", v.MinSize())
	}
	var tapped []ID
	type hover struct {
		id  ID
		pos fyne.Position
	}
	var hovers []hover
	v.OnTapped = func(id ID) { tapped = append(tapped, id) }
	v.OnHover = func(id ID, pos fyne.Position) { hovers = append(hovers, hover{id, pos}) }
	pos := func(x, y float64) fyne.Position {
		p := v.Transform().Device(Pt(x, y))
		return fyne.NewPos(float32(p.X), float32(p.Y))
	}
	test.TapAt(v, pos(20, 300))
	test.TapAt(v, pos(300, 300))
	if len(tapped) != 2 || tapped[0] != "stand" || tapped[1] != "" {
		t.Errorf("tapped: %v", tapped)
	}
	on, off := pos(305, 1000), pos(300, 300)
	v.MouseIn(mouse(off.X, off.Y)) // beside all parts: nothing to tell
	v.MouseMoved(mouse(on.X, on.Y))
	if v.Cursor() != desktop.PointerCursor {
		t.Error("no hand over a part that can be tapped")
	}
	v.MouseMoved(mouse(off.X, off.Y))
	v.MouseMoved(mouse(on.X, on.Y))
	v.MouseOut()
	want := []hover{{"tank", on}, {"", off}, {"tank", on}, {"", fyne.Position{}}}
	if len(hovers) != len(want) {
		t.Fatalf("hovers: %v", hovers)
	}
	for i := range want {
		if hovers[i] != want[i] {
			t.Errorf("hover %d: expected %v, got %v", i, want[i], hovers[i])
		}
	}
}

func TestFocusViewByKeyboard(t *testing.T) {
	themed(t, look.Light)
	v := NewFocusView(sample())
	w := test.NewTempWindow(t, v)
	w.Resize(fyne.NewSize(500, 450))
	var tapped, hovered []ID
	v.OnTapped = func(id ID) { tapped = append(tapped, id) }
	v.OnHover = func(id ID, _ fyne.Position) { hovered = append(hovered, id) }
	test.FocusNext(w.Canvas())
	if w.Canvas().Focused() != fyne.Focusable(v) || v.ring.Hidden {
		t.Fatal("the view does not take the focus visibly")
	}
	key := func(k fyne.KeyName) { v.TypedKey(&fyne.KeyEvent{Name: k}) }
	key(fyne.KeyReturn) // nothing chosen yet
	key(fyne.KeyRight)
	key(fyne.KeyRight)
	key(fyne.KeyReturn)
	key(fyne.KeyLeft)
	key(fyne.KeySpace)
	key(fyne.KeyLeft)
	last := v.Chosen()
	key(fyne.KeyHome)
	key(fyne.KeyEnd)
	if v.Chosen() != last {
		t.Errorf("left from the first gives %q, End gives %q", last, v.Chosen())
	}
	if len(tapped) != 2 || tapped[0] != "tank" || tapped[1] != "stand" {
		t.Errorf("tapped: %v", tapped)
	}
	if len(hovered) != 6 {
		t.Errorf("hovered: %v", hovered)
	}
	b := v.Scene().ExtentOf(v.Chosen(), v.Transform())
	near(t, "ring about the part", float64(v.ring.Position().X), b.Min.X-4, 0.01)
	w.Canvas().Unfocus()
	if !v.ring.Hidden {
		t.Error("the ring stays")
	}
	test.TapAt(v, fyne.NewPos(1, 1))
	if w.Canvas().Focused() != fyne.Focusable(v) {
		t.Error("a tap does not focus the view")
	}
}

// At a larger text scale the words grow and the drawing makes room for them.
func TestViewFollowsTheTextScale(t *testing.T) {
	app := test.NewTempApp(t)
	var scales []float64
	for _, percent := range []int{100, 150} {
		th, err := look.New(look.Options{TextScale: percent})
		if err != nil {
			t.Fatal(err)
		}
		app.Settings().SetTheme(th)
		v := NewView(sample())
		v.Resize(fyne.NewSize(500, 450))
		tr := v.Transform()
		near(t, "points", tr.Point, float64(percent)/100, 1e-9)
		if e := v.Scene().Extent(tr); e.Min.X < -1e-6 || e.Min.Y < -1e-6 || e.Max.X > 500+1e-6 || e.Max.Y > 450+1e-6 {
			t.Errorf("at %d %%: extent %v is cut off", percent, e)
		}
		scales = append(scales, tr.Scale)
	}
	if !(scales[1] < scales[0]) {
		t.Errorf("scales %v: the drawing makes no room", scales)
	}
}

// TestPaintAhead: a picture painted ahead is the one that is painted when asked
// for, and one of a scene, a size or a theme that is no more is not used.
func TestPaintAhead(t *testing.T) {
	view := func() *View {
		v := NewView(sample())
		w := test.NewTempWindow(t, v)
		w.SetPadded(false)
		w.Resize(fyne.NewSize(300, 200))
		v.painted, v.early = false, nil
		return v
	}
	same := func(a, b image.Image) bool { return bytes.Equal(a.(*image.RGBA).Pix, b.(*image.RGBA).Pix) }
	plain := view().paint(300, 200)
	v := view()
	v.PaintAhead()
	ahead := v.early.img
	if got := v.paint(300, 200); got != image.Image(ahead) || !same(got, plain) {
		t.Error("the picture painted ahead is not what is shown")
	}
	for what, change := range map[string]func(*View){
		"another scene": func(v *View) { v.Set(New()) },
		"another theme": func(v *View) { v.Refresh() },
	} {
		v := view()
		v.PaintAhead()
		change(v)
		if v.early.of == v.scene {
			t.Errorf("%s: the old picture would be shown", what)
		}
		v.paint(300, 200)
	}
	v = view()
	v.PaintAhead()
	if got := v.paint(600, 400); got.Bounds() != image.Rect(0, 0, 600, 400) {
		t.Errorf("on a screen with two pixels a point: %v", got.Bounds())
	}
}
