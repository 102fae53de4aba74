package parts

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

// What is too long for a box stays on the clipboard: the text of the box is as it was,
// and what is wrong is said until the person goes on.
func TestTooMuchIsNotPasted(t *testing.T) {
	themed(t, look.Light, 100)
	SayTooLong(func(most int) string { return strings.Repeat("!", most/10_000) })
	t.Cleanup(func() { SayTooLong(func(int) string { return "" }) })
	for _, lines := range []int{1, 3} {
		f := NewField(FieldSpec{Label: "Note", Text: "clear", Lines: lines})
		changes := 0
		f.OnChanged = func(string) { changes++ }
		_, w := shown(t, fyne.NewSize(400, 300), f)
		w.Canvas().Focus(f.Focusable())
		f.input.TypedShortcut(&fyne.ShortcutSelectAll{})
		board := test.NewClipboard()
		paste := func(text string) {
			board.SetContent(text)
			f.input.TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
		}
		paste(strings.Repeat("ж", 1<<20))
		if f.Text() != "clear" || changes != 0 || !f.input.wrong || !has(drawnTexts(t, f), "!!") {
			t.Errorf("%d lines, a megabyte pasted: %d characters, %d changes, %q", lines, len(f.Text()), changes, drawnTexts(t, f))
		}
		paste(strings.Repeat("ж", 900)) // over the selected text
		if f.Text() != strings.Repeat("ж", 900) || f.input.wrong || has(drawnTexts(t, f), "!!") {
			t.Errorf("%d lines, then a little: %d bytes, %q", lines, len(f.Text()), drawnTexts(t, f))
		}
		paste(strings.Repeat("b", Most-899))
		if len([]rune(f.Text())) != 900 || !f.input.wrong {
			t.Errorf("%d lines: pasted beside what is there: %d", lines, len([]rune(f.Text())))
		}
		test.Type(f.input, "c")
		if len([]rune(f.Text())) != 901 || f.input.wrong {
			t.Errorf("%d lines: typing on: %d, still wrong: %v", lines, len([]rune(f.Text())), f.input.wrong)
		}
	}
}

// In a box of several lines that sends, Enter is done with it, and Shift with Enter
// begins a new line.
func TestShiftEnterBeginsALine(t *testing.T) {
	themed(t, look.Light, 100)
	f := NewField(FieldSpec{Label: "Note", Lines: 3, Sends: true})
	entered := 0
	f.OnEnter = func() { entered++ }
	_, w := shown(t, fyne.NewSize(400, 300), f)
	w.Canvas().Focus(f.Focusable())
	test.Type(f.input, "one")
	shift := &fyne.KeyEvent{Name: desktop.KeyShiftRight}
	f.input.KeyDown(shift)
	key(f.Focusable(), fyne.KeyReturn)
	f.input.KeyUp(shift)
	test.Type(f.input, "two")
	if f.Text() != "one\ntwo" || entered != 0 {
		t.Errorf("Shift and Enter: %q, entered %d times", f.Text(), entered)
	}
	key(f.Focusable(), fyne.KeyReturn)
	if f.Text() != "one\ntwo" || entered != 1 {
		t.Errorf("Enter: %q, entered %d times", f.Text(), entered)
	}
}
