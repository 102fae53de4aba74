package daybook

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/parts"
)

// A box that was refused and then mended keeps what was typed, though another box
// is refused with the next try.
func TestWhatWasTypedStaysWhenAnotherBoxIsRefused(t *testing.T) {
	test.NewTempApp(t)
	a := parts.NewField(parts.FieldSpec{ID: "a", Text: "1"})
	b := parts.NewField(parts.FieldSpec{ID: "b"})
	a.Type("x")
	b.Type("2")
	if wrong(a, "refused") || !wrong(b, "") {
		t.Fatal("wrong does not report what it was told")
	}
	a.Type("3")
	b.Type("y")
	wrong(a, "")
	wrong(b, "refused")
	if a.Text() != "3" || b.Text() != "y" {
		t.Errorf("the boxes hold %q and %q, typed were 3 and y", a.Text(), b.Text())
	}
	if a.Spec().Error != "" || b.Spec().Error == "" {
		t.Errorf("said below the boxes: %q and %q", a.Spec().Error, b.Spec().Error)
	}
}
