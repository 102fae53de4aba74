package parts

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

func TestFieldReportsAndKeepsWhatIsTyped(t *testing.T) {
	themed(t, look.Light, 100)
	f := NewField(FieldSpec{Label: "Clear span", Text: "600", Unit: "mm", Proposed: true})
	other := NewField(FieldSpec{Label: "other"})
	var changed, committed []string
	f.OnChanged = func(s string) { changed = append(changed, s) }
	f.OnCommit = func(s string) { committed = append(committed, s) }
	_, w := shown(t, fyne.NewSize(400, 300), f, other)
	if !f.input.soft {
		t.Error("a proposed value is not in soft ink")
	}
	w.Canvas().Focus(f.Focusable())
	key(f.Focusable(), fyne.KeyEnd)
	f.input.TypedRune('5')
	if len(changed) != 1 || changed[0] != "6005" || f.input.soft {
		t.Errorf("typed: changes %q, soft %v", changed, f.input.soft)
	}
	key(f.Focusable(), fyne.KeyLeft)
	at := f.input.CursorColumn
	f.Set(FieldSpec{Label: "Clear span", Text: "610", Unit: "mm", Hint: "between the legs"})
	f.Refresh()
	if f.Text() != "6005" || f.input.CursorColumn != at {
		t.Errorf("setting while the person types: text %q, cursor %d, was %d", f.Text(), f.input.CursorColumn, at)
	}
	key(f.Focusable(), fyne.KeyReturn)
	key(f.Focusable(), fyne.KeyReturn)
	if len(committed) != 1 || committed[0] != "6005" {
		t.Errorf("Enter twice: commits %q", committed)
	}
	w.Canvas().Focus(other.Focusable())
	if len(committed) != 1 {
		t.Errorf("leaving unchanged committed again: %q", committed)
	}
	f.Set(FieldSpec{Label: "Clear span", Text: "600.5", Unit: "cm"})
	if f.Text() != "600.5" || len(changed) != 1 {
		t.Errorf("setting from outside: text %q, changes %q", f.Text(), changed)
	}
	w.Canvas().Focus(f.Focusable())
	test.Type(f.input, "x")
	w.Canvas().Focus(other.Focusable())
	if len(committed) != 2 || committed[1] != "x" {
		t.Errorf("leaving after a change: commits %q", committed)
	}
}

// Half typed text is taken back to what was there; what is kept is not.
func TestTakeBack(t *testing.T) {
	themed(t, look.Light, 100)
	f := NewField(FieldSpec{Label: "Clear span", Text: "600", Unit: "mm"})
	_, w := shown(t, fyne.NewSize(400, 300), f)
	w.Canvas().Focus(f.Focusable())
	if TakeBack(f.Focusable()) || TakeBack(nil) {
		t.Error("there was nothing to take back")
	}
	test.Type(f.input, "45")
	if !TakeBack(f.Focusable()) || f.Text() != "600" {
		t.Errorf("taken back: %q", f.Text())
	}
	test.Type(f.input, "45")
	key(f.Focusable(), fyne.KeyReturn)
	kept := f.Text()
	if TakeBack(f.Focusable()) || f.Text() != kept {
		t.Errorf("what was kept went: %q", f.Text())
	}
	f.Set(FieldSpec{Label: "Clear span", Text: kept, Unit: "mm"})
	f.Set(FieldSpec{Label: "Clear span", Text: "600", Unit: "mm"}) // an undo elsewhere shows at once
	if f.Text() != "600" {
		t.Errorf("set while nothing is half typed: %q", f.Text())
	}
}

func TestRefusedTextStays(t *testing.T) {
	themed(t, look.Light, 100)
	f := NewField(FieldSpec{Label: "Top", Text: "18", Unit: "mm"})
	f.OnCommit = func(s string) {
		if s == "wide" {
			f.Set(FieldSpec{Label: "Top", Text: "18", Unit: "mm", Error: "a length, such as 18 mm"})
		} else {
			f.Set(FieldSpec{Label: "Top", Text: "20", Unit: "mm"})
		}
	}
	_, w := shown(t, fyne.NewSize(400, 300), f)
	w.Canvas().Focus(f.Focusable())
	f.input.TypedShortcut(&fyne.ShortcutSelectAll{})
	board := test.NewClipboard()
	board.SetContent("wide")
	f.input.TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
	w.Canvas().Unfocus()
	if f.Text() != "wide" {
		t.Errorf("the refused text became %q", f.Text())
	}
	if !has(drawnTexts(t, f), "a length, such as 18 mm") || !f.input.wrong {
		t.Error("the error is not shown")
	}
	marks := 0
	for _, o := range test.WidgetRenderer(f).(*partRenderer).pool.sketches {
		if o.Visible() {
			marks++
		}
	}
	if marks != 1 {
		t.Errorf("the error has %d shapes beside its colour", marks)
	}
	w.Canvas().Focus(f.Focusable())
	f.input.TypedShortcut(&fyne.ShortcutSelectAll{})
	test.Type(f.input, "20")
	w.Canvas().Unfocus()
	if f.Text() != "20" || f.input.wrong || has(drawnTexts(t, f), "a length, such as 18 mm") {
		t.Errorf("after mending: %q", f.Text())
	}
}

func TestFieldHooks(t *testing.T) {
	themed(t, look.Light, 100)
	f := NewField(FieldSpec{Label: "Top", Text: "18", Mark: "from the shop", Hint: "thickness"})
	var order []string
	f.OnCommit = func(string) { order = append(order, "commit") }
	f.OnEnter = func() { order = append(order, "enter") }
	f.OnEscape = func() { order = append(order, "escape") }
	_, w := shown(t, fyne.NewSize(400, 300), f)
	if !has(drawnTexts(t, f), "from the shop · thickness") {
		t.Errorf("mark and hint: %q", drawnTexts(t, f))
	}
	w.Canvas().Focus(f.Focusable())
	test.Type(f.input, "2")
	key(f.Focusable(), fyne.KeyEnter)
	key(f.Focusable(), fyne.KeyEscape)
	if len(order) != 3 || order[0] != "commit" || order[1] != "enter" || order[2] != "escape" {
		t.Errorf("order: %q", order)
	}
}

// A box whose unit goes gives its words the room that the unit had.
func TestWordsTakeTheRoomOfTheUnit(t *testing.T) {
	themed(t, look.Light, 100)
	f := NewField(FieldSpec{Label: "Ammonia", Unit: "mg/l"})
	shown(t, fyne.NewSize(200, 120), f)
	room := func() float32 { // of what the entry scrolls: its text or its placeholder
		for _, o := range test.WidgetRenderer(f.input).Objects() {
			if strings.HasSuffix(fmt.Sprintf("%T", o), ".Scroll") {
				return o.Size().Width
			}
		}
		t.Fatal("the entry scrolls nothing")
		return 0
	}
	with, mark := room(), f.input.unit.MinSize().Width
	f.Set(FieldSpec{Label: "Ammonia", Placeholder: "not detected"})
	if got := room(); mark <= 0 || got < with+mark-1 {
		t.Errorf("the words have %v beside a unit of %v, and %v without one", with, mark, got)
	}
}
