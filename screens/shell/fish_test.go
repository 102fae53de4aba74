package shell_test

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/fish"
	"example.org/driploop/screens/nav"
)

// Fish come in, are measured, lost and looked at, by keyboard alone; the number in
// the list is the keeper's, and each change can be taken back.
func TestStockByKeyboard(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id := s.tankOf(t)
	s.Settled()
	s.Go(nav.Route{Place: nav.Fish, Tank: id})
	s.hit(t, "came", fyne.KeyReturn)
	s.fillIn(t, "species", "neon tetra")
	s.fillIn(t, "count", "six")
	s.hit(t, "keep", fyne.KeyReturn) // refused: nothing is lost
	if got := s.texts(); !strings.Contains(got, "Paracheirodon innesi") {
		t.Errorf("the kind is not told: %s", got)
	}
	s.at(t, "count")
	for range "six" {
		s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	}
	s.fillIn(t, "count", "6")
	s.fillIn(t, "length", "2 cm")
	s.fillIn(t, "price", "12 pesetas")
	s.hit(t, "keep", fyne.KeyReturn)
	all, err := s.k.Stock(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	if len(all) != 1 || all[0].Count != 6 || all[0].Species != "paracheirodon-innesi" || all[0].Price != "12 pesetas" || all[0].Today == nil {
		t.Fatalf("%+v", all)
	}
	p, ok := s.Page().(*fish.Page)
	if !ok || len(p.Shown().Rows) != 1 || p.Shown().Rows[0].Name != "Neon tetra" || p.Shown().Verdict == nil {
		t.Fatalf("%+v", p.Shown())
	}
	s.hit(t, "fish-"+all[0].ID, fyne.KeyReturn)
	if s.Route().Fish != all[0].ID {
		t.Fatalf("not at the fish: %+v", s.Route())
	}
	s.hit(t, "measure", fyne.KeyReturn)
	s.fillIn(t, "length", "2.4 cm")
	s.hit(t, "keep", fyne.KeyReturn)
	s.hit(t, "left", fyne.KeyReturn)
	s.fillIn(t, "count", "1")
	s.fillIn(t, "note", "behind the filter")
	s.hit(t, "keep", fyne.KeyReturn)
	if all, _ = s.k.Stock(ctx, id); all[0].Count != 5 || all[0].Length.Number != "2.4" {
		t.Errorf("%+v", all[0].Fish)
	}
	// The loss is told at once, and on the page of today; it leads to a case.
	s.Go(nav.Route{Place: nav.Today, Tank: id})
	s.hit(t, "loss-case-"+all[0].ID, fyne.KeyReturn)
	if c := s.shown(t).Shown(); c.Heading != "Neon tetra" || !c.Open {
		t.Errorf("%+v", c)
	}
	for range 2 {
		s.Undo()
	}
	if all, _ = s.k.Stock(ctx, id); all[0].Count != 6 {
		t.Errorf("after undo: %+v", all[0].Fish)
	}
}

// Whoever is said to have come or gone in the daybook changes the stock: the choice
// there opens the stock's own forms.
func TestDaybookLeadsToTheStock(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id := s.tankOf(t)
	one, _, err := s.k.Arrive(ctx, id, keeper.Newcomers{Species: "danio-rerio", Count: 1})
	if err != nil {
		t.Fatal(err)
	}
	s.Settled()
	s.Go(nav.Route{Place: nav.Fish, Tank: id, Write: journal.FishOut})
	s.hit(t, "keep", fyne.KeyReturn) // one of one: the number stands there
	all, err := s.k.Gone(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	if len(all) != 1 || all[0].ID != one {
		t.Errorf("%+v", all)
	}
}
