package parts

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

func key(f fyne.Focusable, n fyne.KeyName) { f.TypedKey(&fyne.KeyEvent{Name: n}) }

// shown puts parts on a page in a window.
func shown(t *testing.T, size fyne.Size, o ...fyne.CanvasObject) (*Scroller, fyne.Window) {
	t.Helper()
	page := NewScroller(8, o...)
	w := test.NewTempWindow(t, page)
	w.SetPadded(false)
	w.Resize(size)
	return page, w
}

// texts gives all words drawn below a part.
func drawnTexts(t *testing.T, o fyne.CanvasObject) []string {
	t.Helper()
	var spots []spot
	survey(t, o, 0, 0, &spots)
	var out []string
	for _, s := range spots {
		out = append(out, s.owner)
	}
	return out
}

func has(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// ringOf gives the focus ring of a part, or nil.
func ringOf(p held) *canvas.Rectangle {
	r := test.WidgetRenderer(p).(*partRenderer)
	for _, o := range r.Objects() {
		if o == fyne.CanvasObject(r.pool.ringed) && r.pool.ringed != nil {
			return r.pool.ringed
		}
	}
	return nil
}

// TestEveryTargetTakesTheFocusInOrderWithARing walks the sample page by Tab:
// everything that acts is met in reading order, shows a ring of the accent about
// it, is scrolled into view and is at least 24 points large.
func TestEveryTargetTakesTheFocusInOrderWithARing(t *testing.T) {
	for _, percent := range []int{100, 150} {
		themed(t, look.Light, percent)
		page, _, _ := samplePage(german)
		w := test.NewTempWindow(t, page)
		w.SetPadded(false)
		w.Resize(fyne.NewSize(480, 420)) // small, as with a large text scale on a small screen
		d := fyne.CurrentApp().Driver()
		teal := look.Color(look.Teal, 1)
		lastY := float32(-1)
		met := map[fyne.Focusable]bool{}
		for {
			test.FocusNext(w.Canvas())
			f := w.Canvas().Focused()
			if f == nil || met[f] {
				break
			}
			met[f] = true
			var p held
			switch o := f.(type) {
			case *boxed:
				p = o.owner.self.(held)
			case held:
				p = o
			}
			o := f.(fyne.CanvasObject)
			if s := o.Size(); s.Width < leastTarget || s.Height < leastTarget {
				t.Errorf("WCAG 2.2 SC 2.5.8: %T is %v", f, s)
			}
			ring := ringOf(p)
			if ring == nil {
				t.Fatalf("%T has the focus without a ring", f)
			}
			if ring.StrokeWidth < 2 || ring.StrokeColor != color.Color(teal) {
				t.Errorf("%T: ring of width %v in %v", f, ring.StrokeWidth, ring.StrokeColor)
			}
			y := d.AbsolutePositionForObject(o).Y + page.scroll.Offset.Y
			if y < lastY-60 { // side by side in a row
				t.Errorf("%T at %.0f comes after what stands at %.0f", f, y, lastY)
			}
			lastY = y
			top := d.AbsolutePositionForObject(p).Y
			if top < -1 || top+min(p.Size().Height, 400) > 421 {
				t.Errorf("WCAG 2.2 SC 2.4.11: %T has the focus at %.0f to %.0f of a view of 420", f, top, top+p.Size().Height)
			}
		}
		if len(met) < 20 {
			t.Errorf("only %d targets were met", len(met))
		}
		test.FocusPrevious(w.Canvas())
		w.Canvas().Unfocus()
		for f := range met {
			if p, ok := f.(held); ok && ringOf(p) != nil {
				t.Errorf("%T keeps its ring", f)
			}
		}
	}
}

func TestKeysGoUpToThePage(t *testing.T) {
	themed(t, look.Light, 100)
	field, tick := NewField(FieldSpec{Text: "1"}), NewTick(TickSpec{Text: "done"}, nil)
	button := NewButton(ButtonSpec{Label: "go"}, nil)
	pressed := 0
	button.OnPressed = func() { pressed++ }
	page, w := shown(t, fyne.NewSize(400, 300), NewRow(field), container.NewVBox(tick), NewPanel("", NewEnds(button, nil)), NewSpace(2000))
	var on, back int
	page.Keys = Keys{CarryOn: func() { on++ }, Back: func() { back++ }}
	for _, f := range []fyne.Focusable{field.Focusable(), tick, button} {
		w.Canvas().Focus(f)
		key(f, fyne.KeyReturn)
		key(f, fyne.KeyEscape)
	}
	if on != 2 || back != 3 || pressed != 1 {
		t.Errorf("expected two carry on, three back and one press, got %d, %d and %d", on, back, pressed)
	}
	key(field.Focusable(), fyne.KeyPageDown)
	if page.scroll.Offset.Y < 200 {
		t.Errorf("Page Down scrolled to %v", page.scroll.Offset)
	}
	key(tick, fyne.KeyPageUp)
	if page.scroll.Offset.Y != 0 {
		t.Errorf("Page Up scrolled to %v", page.scroll.Offset)
	}
	if page.Key(&fyne.KeyEvent{Name: fyne.KeyF5}) {
		t.Error("a key without a use was taken")
	}
	page.Keys = Keys{}
	if page.Key(&fyne.KeyEvent{Name: fyne.KeyReturn}) {
		t.Error("Enter was taken without a use")
	}
}

func TestPageGrowsWithItsPartsAndTheTheme(t *testing.T) {
	app := themed(t, look.Light, 100)
	field := NewField(FieldSpec{Label: "Top", Text: "18"})
	after := NewText(TextSpec{Text: "after"})
	working := NewWorking(WorkingSpec{Show: "Show", Hide: "Hide", Parts: []WorkingPart{{Name: "sag", Value: "2 mm"}}})
	page, _ := shown(t, fyne.NewSize(300, 300), NewPanel("", NewRow(field)), working, after)
	y := func() float32 { return after.Position().Y }
	at := y()
	field.Set(FieldSpec{Label: "Top", Text: "18", Error: "short"})
	if y() != at {
		t.Errorf("an error of one line moved the page from %v to %v", at, y())
	}
	field.Set(FieldSpec{Label: "Top", Text: "18", Error: "an error that is so long that it surely takes two lines"})
	if y() <= at {
		t.Error("an error of two lines did not make room for itself")
	}
	check(t, page)
	field.Set(FieldSpec{Label: "Top", Text: "18"})
	if y() != at {
		t.Errorf("the page did not go back: %v, was %v", y(), at)
	}
	test.Tap(working.opener)
	if y() <= at || !has(drawnTexts(t, working), "2 mm") || !working.Spec().Open {
		t.Error("the working did not open")
	}
	key(working.opener, fyne.KeySpace)
	if y() != at {
		t.Error("the working did not shut")
	}
	retheme(t, app, look.Light, 150)
	if y() <= at {
		t.Error("the page did not follow the text scale")
	}
	check(t, page)
	before := page.Column().Size().Height
	after.Hide()
	page.Column().Reflow()
	if page.Column().Size().Height >= before {
		t.Error("a hidden part keeps its room")
	}
}

// TestOutOfViewIsNotDrawn: what lies below the fold has none of its pictures made,
// and all of them once it is scrolled to.
func TestOutOfViewIsNotDrawn(t *testing.T) {
	themed(t, look.Light, 100)
	first, last := NewText(TextSpec{Text: "first"}), NewText(TextSpec{Text: "last"})
	page := NewScroller(10, first, NewSpace(2000), NewColumn(4, last))
	w := test.NewTempWindow(t, page)
	w.Resize(fyne.NewSize(400, 300))
	drawn := func(p fyne.Widget) int { return len(test.WidgetRenderer(p).Objects()) }
	if drawn(first) == 0 || drawn(last) != 0 {
		t.Errorf("at the top: %d of the first, %d of the last", drawn(first), drawn(last))
	}
	page.Reveal(last)
	if drawn(first) != 0 || drawn(last) == 0 {
		t.Errorf("at the end: %d of the first, %d of the last", drawn(first), drawn(last))
	}
	page.Top()
	if drawn(first) == 0 || drawn(last) != 0 {
		t.Errorf("at the top again: %d of the first, %d of the last", drawn(first), drawn(last))
	}
}
