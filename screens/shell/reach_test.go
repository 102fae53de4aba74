package shell_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// focusables are what can have the focus in the window now.
func focusables(s stage) []fyne.Focusable {
	root := s.w.Content()
	if top := s.w.Canvas().Overlays().Top(); top != nil {
		root = top
	}
	var out []fyne.Focusable
	for _, o := range test.LaidOutObjects(root) {
		if f, ok := o.(fyne.Focusable); ok {
			if d, can := o.(fyne.Disableable); !can || !d.Disabled() {
				out = append(out, f)
			}
		}
	}
	return out
}

// F1 opens the safety notes from every page, whatever has the focus: a button, a
// box that is being typed in, the drawing, the bar.
func TestOneKeyOpensTheSafetyNotesEverywhere(t *testing.T) {
	s := open(t, english())
	id := s.sample(t)
	s.w.Canvas().SetOnTypedKey(s.Key)
	places := append(nav.Places(), nav.Start, nav.Kinds, nav.Feeding, nav.Sick, nav.Photos, nav.Charts, nav.Plan, nav.Together)
	boxes, tried := 0, 0
	for _, p := range places {
		s.Go(nav.Route{Place: p, Tank: id})
		n := len(focusables(s))
		kinds := map[string]bool{} // one of each kind on each page
		for i := range n {
			all := focusables(s)
			if i >= len(all) {
				break
			}
			f := all[i]
			kind := fmt.Sprintf("%T", f)
			if kinds[kind] {
				continue
			}
			kinds[kind] = true
			s.w.Canvas().Focus(f)
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
			tried++
			if _, ok := f.(interface{ SelectedText() string }); ok {
				boxes++
			}
			if s.w.Canvas().Overlays().Top() == nil || !strings.Contains(s.Words(), "board") {
				t.Fatalf("%s: F1 on %T %q opens nothing", p, f, parts.IDOf(f))
			}
			before := len(s.w.Canvas().Overlays().List())
			s.Key(&fyne.KeyEvent{Name: fyne.KeyF1})
			if len(s.w.Canvas().Overlays().List()) != before {
				t.Fatal("F1 opens a second panel")
			}
			s.hit(t, "close", fyne.KeyReturn)
			if s.w.Canvas().Overlays().Top() != nil {
				t.Fatalf("%s: the panel does not close", p)
			}
		}
	}
	if tried < 50 || boxes < 3 {
		t.Errorf("%d things had the focus, %d of them boxes; want at least 50 and 3", tried, boxes)
	}
	s.w.Canvas().Unfocus()
	s.w.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyF1})
	if s.w.Canvas().Overlays().Top() == nil {
		t.Error("F1 without a focus opens nothing")
	}
}

// The panel names the number to call and every note, whole, in both themes and with
// large text; what closes it stands in a foot that does not scroll.
func TestSafetyPanelIsWhole(t *testing.T) {
	prefs := english()
	prefs.Text = 150
	s := open(t, prefs)
	s.w.Resize(fyne.NewSize(1024, 700))
	s.ShowSafety()
	words := strings.Join(strings.Fields(s.Words()), " ")
	if !strings.Contains(words, "Ambulance here: 911.") {
		t.Errorf("no number in %q", words[:200])
	}
	p := present.Presenter{W: i18n.Speak("en", "US", quantity.US), Region: care.Region{Code: "US"}}
	for _, n := range care.Notes() {
		for _, text := range p.Note(n).Texts() {
			if !strings.Contains(words, strings.Join(strings.Fields(text), " ")) {
				t.Errorf("%s: %q is not in the panel", n.ID, text)
			}
		}
	}
	if strings.Index(words, "An appliance in the water") > strings.Index(words, "Wet hands on a plug carry") {
		t.Error("what to do when it has happened does not come first")
	}
	for _, f := range focusables(s) {
		if parts.IDOf(f) == "close" {
			o := f.(fyne.CanvasObject)
			top := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y
			if top < 0 || top+o.Size().Height > 700 {
				t.Errorf("the way out stands at %.0f", top)
			}
		}
	}
}

// A page as text has what stands on it, ticks and boxes with their state, whether
// scrolled out of view or not.
func TestPageAsText(t *testing.T) {
	s := open(t, english())
	id := s.sample(t)
	for _, p := range nav.Places() {
		s.Go(nav.Route{Place: p, Tank: id})
		if w := s.Words(); len(w) < 60 || !strings.Contains(w, "\n") {
			t.Errorf("%s reads %q", p, w)
		}
	}
	s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: care.PowerOn})
	w := s.Words()
	for _, want := range []string{"Power on\n", "[x] My hands are dry, and so is the floor.\n", "A person who has had a shock may still be live.", "The shock can kill."} {
		if !strings.Contains(w, want) {
			t.Errorf("%q is not in\n%s", want, w)
		}
	}
}
