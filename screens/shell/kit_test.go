package shell_test

import (
	"context"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// While a test is typed, a card of colours says between which values the truth lies,
// and a kit of drops how fine it is. Worked by hand from the card.
func TestKitTellsHowFineItIs(t *testing.T) {
	ctx := context.Background()
	s := open(t, english())
	tank := s.sample(t)
	for _, k := range []journal.TestKit{
		{Name: "card", Reading: journal.NameNitrite, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "0.25", Steps: []string{"0", "0.25", "0.5", "1", "2", "4"}},
		{Name: "drops", Reading: journal.NameNitrate, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "5"},
	} {
		if _, err := s.k.AddKit(ctx, k); err != nil {
			t.Fatal(err)
		}
	}
	s.Go(nav.Route{Place: nav.Daybook, Tank: tank, Write: journal.Tested})
	if !s.shows("in steps of 5 mg/L") || s.shows("in steps of 0.25 mg/L") {
		t.Error("a card is told as if its steps were all alike, or the drops are not told")
	}
	for _, c := range []struct{ typed, says string }{{"2", "2 mg/L, likely 1.5 to 3 mg/L"}, {"0.25", "0.25 mg/L, likely 0.125 to 0.375 mg/L"}, {"4", "4 mg/L, likely 3 to 5 mg/L"}} {
		s.fillIn(t, journal.NameNitrite, c.typed)
		if !s.shows(c.says) {
			t.Errorf("%s does not say %q", c.typed, c.says)
		}
	}
	words, opened := i18n.Speak("en", "US", quantity.US), false
	for range 60 {
		s.w.Canvas().FocusNext()
		if b, ok := s.w.Canvas().Focused().(*parts.Button); ok && b.Spec().Label == words.T("working.heading", nil) {
			s.key(fyne.KeyReturn)
			opened = true
			break
		}
	}
	if !opened || !s.shows(words.T("ask.water.told", nil)) || !s.shows(words.T("assume.water.told", nil)) || !s.shows("3 to 5 mg/L") {
		t.Error("the working does not tell how far the kit may be off")
	}
	s.fillIn(t, journal.NameNitrite, "much")
	if s.shows("likely 3 to 5") {
		t.Error("what is no number keeps the spread of the one before")
	}
}
