package shell_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/firstfill"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// A step whose leading note is not confirmed yet does not go on: the note is
// brought into full view and its tick has the focus, whether it stands in the
// foot or, with large text in a small window, on the page that was scrolled.
func TestCarryOnGoesToTheNoteThatIsNotConfirmed(t *testing.T) {
	for _, c := range []struct {
		text int
		size fyne.Size
	}{{100, fyne.NewSize(1280, 800)}, {150, fyne.NewSize(1024, 700)}} {
		prefs := english()
		prefs.Text, prefs.Lang = c.text, "es"
		s := open(t, prefs)
		s.w.Resize(c.size)
		id := s.tankOf(t)
		s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: care.PlaceDry})
		page := s.Page().(*firstfill.Page)
		if len(page.Shown().Notes) == 0 || !page.Shown().Notes[0].Confirm || page.Shown().Notes[0].Confirmed {
			t.Fatalf("the step has no note to confirm: %+v", page.Shown().Notes)
		}
		for range 8 {
			page.Key(&fyne.KeyEvent{Name: fyne.KeyPageDown})
		}
		var on *parts.Button
		for _, o := range test.LaidOutObjects(s.Root()) {
			if b, ok := o.(*parts.Button); ok && parts.IDOf(b) == "carry-on" {
				on = b
			}
		}
		if on == nil {
			t.Fatal("no way on")
		}
		test.Tap(on)
		if got := s.Route().Step; got != care.PlaceDry {
			t.Fatalf("%d %%: went on to %s", c.text, got)
		}
		var note *parts.Safety
		for _, o := range test.LaidOutObjects(s.Root()) {
			if n, ok := o.(*parts.Safety); ok && n.Focusable() == s.w.Canvas().Focused() {
				note = n
			}
		}
		if note == nil {
			t.Fatalf("%d %%: the focus is at %q", c.text, parts.IDOf(s.w.Canvas().Focused()))
		}
		top := fyne.CurrentApp().Driver().AbsolutePositionForObject(note).Y
		if top < 0 || top+note.Size().Height > c.size.Height {
			t.Errorf("%d %%: the note stands from %.0f to %.0f of %.0f", c.text, top, top+note.Size().Height, c.size.Height)
		}
	}
}

// narrowest is the width that a note has where the names of the steps are longest,
// in Ukrainian, with the largest text in the smallest window.
const narrowest = 406

// With the largest text in the smallest window a note that is to be confirmed can
// be seen whole, with its tick, in every language that is offered.
func TestNotesToConfirmAreSeenWhole(t *testing.T) {
	prefs := english()
	prefs.Text = 150
	s := open(t, prefs)
	s.w.Resize(fyne.NewSize(1024, 700))
	id := s.tankOf(t)
	s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: care.PlaceDry})
	var room float32
	for _, o := range test.LaidOutObjects(s.Root()) {
		if page, ok := o.(*parts.Scroller); ok {
			room = max(room, page.Size().Height)
		}
	}
	if room < 400 || room > 700 {
		t.Fatalf("a page of %.0f in a window of 700", room)
	}
	seen := 0
	for _, lang := range i18n.Languages() {
		p := present.Presenter{W: i18n.Speak(lang, "DE", quantity.Metric), Region: care.Region{Code: "DE"}}
		for _, n := range care.Notes() {
			if len(n.Confirm) == 0 {
				continue
			}
			note := p.Note(n)
			note.Confirm = true
			if h := parts.NewSafety(nav.Panel(note), nil).HeightAt(narrowest); h > room {
				t.Errorf("%s: the note %s is %.0f high on a page of %.0f", lang, n.ID, h, room)
			}
			seen++
		}
	}
	if seen < 16 {
		t.Errorf("%d notes to confirm, want at least 8 in each of two languages", seen)
	}
}
