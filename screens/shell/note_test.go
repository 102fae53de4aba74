package shell_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
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

// With the largest text in the smallest window a note that is to be confirmed can
// be seen whole, with its tick, in every language that is offered and wherever the
// words of the region are longest: each is measured as wide and against the height
// that the page has in that language.
func TestNotesToConfirmAreSeenWhole(t *testing.T) {
	prefs := english()
	prefs.Text = 150
	s := open(t, prefs)
	s.w.Resize(fyne.NewSize(1024, 700))
	id := s.tankOf(t)
	seen := 0
	for _, lang := range i18n.Languages() {
		prefs.Lang, prefs.Region, prefs.Units = lang, "DE", quantity.Metric
		s.SetPrefs(prefs)
		s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: care.StandFloor})
		note, page := s.toConfirm(t)
		width, room := note.Size().Width, page.Size().Height
		if width < 400 || width > 600 || room < 400 || room > 640 {
			t.Fatalf("%s: a note %.0f wide on a page of %.0f in a window of 1024 by 700", lang, width, room)
		}
		for _, region := range []string{"DE", "US", ""} {
			p := present.Presenter{W: i18n.Speak(lang, region, quantity.Metric), Region: care.Region{Code: region}}
			for _, n := range care.Notes() {
				if len(n.Confirm) == 0 {
					continue
				}
				said := p.Note(n)
				spec := nav.Panel(said)
				spec.Confirm = s.confirmWords(t)
				if h := parts.NewSafety(spec, nil).HeightAt(width); h > room {
					t.Errorf("%s in %q: the note %s is %.0f high on a page of %.0f", lang, region, n.ID, h, room)
				}
				seen++
			}
		}
	}
	if seen < 8*3*12 {
		t.Errorf("%d notes to confirm, want 8 in each region and language", seen)
	}
}

// toConfirm finds the note to confirm that is on the page, and what scrolls it.
func (s stage) toConfirm(t *testing.T) (note *parts.Safety, page *parts.Scroller) {
	t.Helper()
	for _, o := range within(s.Root()) {
		switch x := o.(type) {
		case *parts.Safety:
			if tick, ok := x.Focusable().(*parts.Tick); ok && note == nil && tick.Spec().Text != "" {
				note = x
			}
		case *parts.Scroller:
			page = x
		}
	}
	if note == nil || page == nil {
		t.Fatalf("note %v on page %v", note, page)
	}
	return note, page
}

// confirmWords are the words of the tick by which a note is confirmed.
func (s stage) confirmWords(t *testing.T) string {
	t.Helper()
	note, _ := s.toConfirm(t)
	return note.Focusable().(*parts.Tick).Spec().Text
}

// A note on a page that scrolls is confirmed only with all of it in view: a tap on its
// tick while its head is scrolled away brings the note into view and confirms nothing,
// the next one does. By keyboard it comes whole into view as its tick takes the focus.
func TestNoNoteIsConfirmedBehindAScroll(t *testing.T) {
	prefs := english()
	prefs.Text, prefs.Lang, prefs.Region, prefs.Units = 150, "uk", "UA", quantity.Metric
	s := open(t, prefs)
	s.w.Resize(fyne.NewSize(1024, 700))
	id := s.tankOf(t)
	if err := s.k.CarryOn(t.Context(), id, care.TankPlace); err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: care.StandFloor})
	page := s.Page().(*firstfill.Page)
	at := func(o fyne.CanvasObject) float32 { return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y }
	inView := func() bool {
		n, v := s.toConfirm(t)
		return at(n) >= at(v)-1 && at(n)+n.Size().Height <= at(v)+v.Size().Height+1
	}
	confirmed := func() bool { return page.Shown().Notes[0].Confirmed }
	// away scrolls until the head of the note is above the page and its tick is not.
	away := func() {
		n, v := s.toConfirm(t)
		tick := n.Focusable().(*parts.Tick)
		inner := scrollOf(t, v)
		inner.ScrollToOffset(fyne.NewPos(0, inner.Offset.Y+at(tick)-at(v)-8))
		if at(n) >= at(v) || at(tick) < at(v) {
			t.Fatalf("the note stands at %.0f, its tick at %.0f, the page at %.0f", at(n), at(tick), at(v))
		}
	}
	away()
	n, _ := s.toConfirm(t)
	tick := n.Focusable().(*parts.Tick)
	test.Tap(tick)
	if confirmed() || !inView() {
		t.Errorf("tapped with its head out of view: confirmed %v, in view %v", confirmed(), inView())
	}
	test.Tap(tick)
	if !confirmed() {
		t.Error("tapped in view, and it is not confirmed")
	}
	test.Tap(tick) // taken back
	s.w.Canvas().Unfocus()
	away()
	s.w.Canvas().Focus(tick)
	if !inView() {
		t.Error("its tick has the focus, and the note is not whole in view")
	}
	away()
	tick.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	if confirmed() || !inView() {
		t.Errorf("space with its head out of view: confirmed %v, in view %v", confirmed(), inView())
	}
	tick.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	if !confirmed() {
		t.Error("space in view, and it is not confirmed")
	}
}

// scrollOf finds what scrolls in a page.
func scrollOf(t *testing.T, v *parts.Scroller) *container.Scroll {
	t.Helper()
	for _, o := range within(v) {
		if s, ok := o.(*container.Scroll); ok {
			return s
		}
	}
	t.Fatal("nothing scrolls")
	return nil
}

// within is o and all that it is drawn of, scrolled out of view or not.
func within(o fyne.CanvasObject) []fyne.CanvasObject {
	out := []fyne.CanvasObject{o}
	var inner []fyne.CanvasObject
	switch x := o.(type) {
	case *fyne.Container:
		inner = x.Objects
	case fyne.Widget:
		r := test.WidgetRenderer(x)
		inner = r.Objects()
		if all, ok := r.(interface{ All() []fyne.CanvasObject }); ok {
			inner = all.All()
		}
	}
	for _, i := range inner {
		if i != nil && i.Visible() {
			out = append(out, within(i)...)
		}
	}
	return out
}
