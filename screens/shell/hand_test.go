package shell_test

import (
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/parts"
)

// at goes from part to part with Tab until the one with the ID has the focus.
func (s stage) at(t *testing.T, id string) fyne.Focusable {
	t.Helper()
	c := s.w.Canvas()
	for range 400 {
		if parts.IDOf(c.Focused()) == id {
			return c.Focused()
		}
		c.FocusNext()
	}
	t.Fatalf("no way by Tab to %q", id)
	return nil
}

// hit goes to a part and presses a key there; Space types itself too, as a keyboard does.
func (s stage) hit(t *testing.T, id string, key fyne.KeyName) {
	t.Helper()
	f := s.at(t, id)
	f.TypedKey(&fyne.KeyEvent{Name: key})
	if key == fyne.KeySpace {
		f.TypedRune(' ')
	}
}

// fillIn goes to a box and puts a text in the place of what it holds.
func (s stage) fillIn(t *testing.T, id, text string) {
	t.Helper()
	f := s.at(t, id)
	if x, ok := f.(fyne.Shortcutable); ok {
		x.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	for _, r := range text {
		f.TypedRune(r)
	}
}

// enter wants the part named to have the focus, and presses it.
func (s stage) enter(t *testing.T, id string) {
	t.Helper()
	c := s.w.Canvas()
	if got := parts.IDOf(c.Focused()); got != id {
		t.Fatalf("the focus is at %q, want %q", got, id)
	}
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func (s stage) key(names ...fyne.KeyName) {
	for _, n := range names {
		s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: n})
	}
}
