package shell_test

import (
	"context"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
)

// A form of a tank that is out of use by now refuses with the way out at hand: the tank
// is taken into use again over the form, and what was typed is written.
func TestFormOfARetiredTank(t *testing.T) {
	for _, lang := range []string{"en", "es"} {
		t.Run(lang, func(t *testing.T) {
			p := english()
			p.Lang = lang
			s := open(t, p)
			ctx := context.Background()
			id := s.sample(t)
			before, err := s.k.Record(ctx, id)
			if err != nil {
				t.Fatal(err)
			}
			s.Go(nav.Route{Place: nav.Daybook, Tank: id, Write: journal.Note})
			s.fillIn(t, "note", "cleaned the lid")
			if err := s.k.RetireTank(ctx, id); err != nil {
				t.Fatal(err)
			}
			s.hit(t, "keep", fyne.KeyReturn)
			words := i18n.Speak(lang, "US", quantity.US)
			if !s.shows(words.T("refuse.keeper.retired", nil)) {
				t.Error("nothing is said")
			}
			s.shoot(t, "retired-form-"+lang)
			s.enter(t, "reuse")
			s.hit(t, "keep", fyne.KeyReturn)
			after, err := s.k.Record(ctx, id)
			if err != nil || len(after.Entries) != len(before.Entries)+1 || after.Entries[len(after.Entries)-1].Note != "cleaned the lid" {
				t.Errorf("%d entries after %d, %v", len(after.Entries), len(before.Entries), err)
			}
		})
	}
}
