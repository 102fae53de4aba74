package shell_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// decade writes entries over ten years: every third day something was fed, once
// a month tested.
func decade(t *testing.T, s stage) string {
	t.Helper()
	ctx := context.Background()
	id, err := s.k.StartTank(ctx, "Sala", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	for y := range 10 {
		for m := range 12 {
			at := fmt.Sprintf("%d-%02d-05T08:00", 2017+y, m+1)
			if at > "2026-11-25" {
				break
			}
			e := journal.Entry{Kind: journal.Fed, At: journal.Civil(at), Note: "escamas"}
			if m == 3 {
				e = journal.Entry{Kind: journal.Noticed, At: journal.Civil(at), Note: "Un guppy junto al calefactor, año " + fmt.Sprint(2017+y)}
			}
			if _, err := s.k.AddEntry(ctx, id, e); err != nil {
				t.Fatal(err)
			}
		}
	}
	return id
}

// The daybook in Spanish by keyboard alone: words are found without their
// accents, an empty find says so and offers the way back, a typed date leads to
// its day, the strip too, and Enter opens the entry.
func TestTheLedgerByKeyboard(t *testing.T) {
	s := open(t, spanish())
	s.Go(nav.Route{Place: nav.Daybook, Tank: decade(t, s)})
	if got := s.inView(); !strings.Contains(got, "noviembre de 2026") || !strings.Contains(got, "escamas") {
		t.Fatalf("the newest entries are not shown: %s", got)
	}
	s.fillIn(t, "find", "ano guppy")
	if got := s.inView(); strings.Contains(got, "escamas") || !strings.Contains(got, "año 2026") || !strings.Contains(got, "10 de 119 apuntes") {
		t.Errorf("words found: %s", got)
	}
	s.fillIn(t, "find", " ningún")
	if got := s.inView(); !strings.Contains(got, "Ningún apunte encaja") {
		t.Errorf("nothing found: %s", got)
	}
	s.hit(t, "all", fyne.KeyReturn)
	if got := s.inView(); !strings.Contains(got, "escamas") {
		t.Errorf("the way back: %s", got)
	}
	s.fillIn(t, "go-day", "7/8/2019")
	s.hit(t, "go-day", fyne.KeyReturn)
	if got := s.inView(); !strings.Contains(got, "lunes 5 de agosto de 2019") || parts.IDOf(s.w.Canvas().Focused()) != "ledger" {
		t.Errorf("a typed date leads to %s", got)
	}
	s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(s.w.Canvas().Overlays().List()) == 0 {
		t.Fatal("Enter opens nothing")
	}
	s.hit(t, "cancel", fyne.KeyReturn)
	s.hit(t, "month", fyne.KeyPageUp)
	s.hit(t, "month", fyne.KeyEnd)
	s.hit(t, "month", fyne.KeyReturn)
	if got := s.inView(); !strings.Contains(got, "viernes 5 de julio de 2019") {
		t.Errorf("the strip leads to %s", got)
	}
	s.fillIn(t, "go-day", "31/2/2019")
	s.hit(t, "go-day", fyne.KeyReturn)
	if got := s.inView(); !strings.Contains(got, "Eso no es una fecha") {
		t.Errorf("a date that is none: %s", got)
	}
}

// What was taken back is seen at once, and the place in the list is kept.
func TestTheLedgerFollowsUndo(t *testing.T) {
	s := open(t, english())
	id := decade(t, s)
	s.Go(nav.Route{Place: nav.Daybook, Tank: id})
	if _, err := s.k.AddEntry(context.Background(), id, journal.Entry{Kind: journal.Note, Note: "clear as glass"}); err != nil {
		t.Fatal(err)
	}
	s.Page().Refresh()
	if got := s.inView(); !strings.Contains(got, "clear as glass") {
		t.Errorf("a new entry is not shown: %s", got)
	}
	s.Undo()
	if got := s.inView(); strings.Contains(got, "clear as glass") {
		t.Error("what was taken back is still shown")
	}
}
