package chart

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

func themed(t *testing.T, o look.Options) {
	t.Helper()
	app := test.NewTempApp(t)
	th, err := look.New(o)
	if err != nil {
		t.Fatal(err)
	}
	app.Settings().SetTheme(th)
}

func words(r Reading) string {
	s := fmt.Sprintf("day %v", r.X)
	for _, v := range r.Values {
		if v.OK {
			s += fmt.Sprintf("\n%.2f", v.Y)
		}
	}
	return s
}

func shownText(v *View) string {
	var out []string
	for _, l := range v.lines {
		if !l.Hidden {
			out = append(out, l.Text)
		}
	}
	return strings.Join(out, "|")
}

func TestReadOutByPointer(t *testing.T) {
	themed(t, look.Options{Variant: look.Light, TextScale: 150})
	v := NewView(cycle())
	v.ReadOut = words
	var told []bool
	v.OnRead = func(_ Reading, ok bool) { told = append(told, ok) }
	w := test.NewTempWindow(t, v)
	w.Resize(fyne.NewSize(800, 400))
	px := func(x float64) *desktop.MouseEvent {
		return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(v.plan.x(x)*v.scale), 80)}}
	}
	v.MouseMoved(px(10.01))
	r, ok := v.Reading()
	if !ok || r.X != 10 || !r.Values[0].Measured {
		t.Fatalf("expected the test of day 10, got %+v, %v", r, ok)
	}
	if got, want := shownText(v), "day 10|2.52|0.77"; got != want {
		t.Errorf("expected %q, got %q", want, got)
	}
	if v.cross.Hidden || v.plate.Hidden {
		t.Error("the read-out is hidden")
	}
	if d := v.cross.Position1.X - float32(v.plan.x(10)*1.5); d > 0.01 || d < -0.01 {
		t.Errorf("the line stands at %v", v.cross.Position1.X)
	}
	// At the right edge the plate stays inside.
	v.MouseMoved(px(49.9))
	if right := v.plate.Position().X + v.plate.Size().Width; right > v.Size().Width || v.plate.Position().X < 0 {
		t.Errorf("the plate ends at %v of %v", right, v.Size().Width)
	}
	v.MouseOut()
	if _, ok := v.Reading(); ok || !v.cross.Hidden || shownText(v) != "" {
		t.Error("the read-out stays")
	}
	if len(told) != 3 || !told[0] || !told[1] || told[2] {
		t.Errorf("told: %v", told)
	}
}

func TestReadOutByKeyboard(t *testing.T) {
	themed(t, look.Options{Variant: look.Dark})
	v := NewView(cycle())
	v.ReadOut = words
	w := test.NewTempWindow(t, v)
	w.Resize(fyne.NewSize(800, 400))
	test.FocusNext(w.Canvas())
	if w.Canvas().Focused() != fyne.Focusable(v) || v.ring.Hidden {
		t.Fatal("the chart does not take the focus visibly")
	}
	for _, c := range []struct {
		key  fyne.KeyName
		want float64
	}{{fyne.KeyLeft, 16}, {fyne.KeyRight, 16}, {fyne.KeyLeft, 14}, {fyne.KeyLeft, 12}, {fyne.KeyRight, 14}, {fyne.KeyHome, 0}, {fyne.KeyLeft, 0}, {fyne.KeyEnd, 16}} {
		v.TypedKey(&fyne.KeyEvent{Name: c.key})
		if r, ok := v.Reading(); !ok || r.X != c.want {
			t.Errorf("%s: expected day %v, got %v", c.key, c.want, r.X)
		}
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if _, ok := v.Reading(); ok {
		t.Error("Escape does not end the reading")
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	v.Set(Spec{Empty: "nothing"})
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	v.MouseMoved(&desktop.MouseEvent{})
	if _, ok := v.Reading(); ok {
		t.Error("an empty chart is read")
	}
	w.Canvas().Unfocus()
	if !v.ring.Hidden {
		t.Error("the ring stays")
	}
}

func TestStopsAreFew(t *testing.T) {
	s := cycle()
	for i := range s.Series {
		s.Series[i].Points = nil
	}
	xs := s.ready().stops()
	if len(xs) != 120 || xs[0] != 0 || xs[119] != 799.0/16 {
		t.Errorf("%d stops from %v to %v", len(xs), xs[0], xs[len(xs)-1])
	}
}
