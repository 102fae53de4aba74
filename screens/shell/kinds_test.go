package shell_test

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/kinds"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// sized starts a tank with outer sizes in centimetres.
func (s stage) sized(t *testing.T, length, width, height string) string {
	t.Helper()
	ctx := context.Background()
	id, err := s.k.StartTank(ctx, "Hall", quantity.US)
	if err != nil {
		t.Fatal(err)
	}
	for field, text := range map[care.FieldID]string{"tank.length": length, "tank.width": width, "tank.height": height} {
		if err := s.k.Set(ctx, id, keeper.Edit{Field: field, Text: text + " cm", Reading: quantity.Reading{Unit: "cm", Decimal: '.'}}); err != nil {
			t.Fatal(err)
		}
	}
	s.Settled()
	return id
}

// A common pleco for a tank of 38 L with two zebra danios: found by keyboard though
// it does not fit, and refused with the number.
func TestPlecoIsRefusedByKeyboard(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id := s.sized(t, "50", "25", "30.5")
	if _, err := s.k.AddFish(ctx, id, keeper.Fish{Name: "Danios", Species: "danio-rerio", Count: 2}); err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.Fish, Tank: id})
	s.hit(t, "view_kinds", fyne.KeyReturn)
	if at := parts.IDOf(s.w.Canvas().Focused()); at != "find-kind" {
		t.Errorf("the catalogue begins at %q", at)
	}
	s.hit(t, "only-fits", fyne.KeySpace)
	s.fillIn(t, "find-kind", "common pl")
	s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown}) // to the rows
	if at := parts.IDOf(s.w.Canvas().Focused()); at != "kinds" {
		t.Fatalf("the arrow goes to %q", at)
	}
	s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	p, ok := s.Page().(*kinds.Kind)
	if !ok || s.Route().Species != "hypostomus-plecostomus" {
		t.Fatalf("not the pleco but %+v", s.Route())
	}
	x := p.Shown()
	if !x.Refused || x.Fit == nil || x.Fit.State != working.Act || x.Room == nil || x.Room.Value != "0" {
		t.Errorf("the pleco is %+v", x)
	}
	pleco, err := fish.Get("hypostomus-plecostomus")
	if err != nil {
		t.Fatal(err)
	}
	said := strings.Join(x.Fit.Lines, " ")
	for _, number := range []quantity.Value{pleco.LeastTank.Value(), pleco.Length.Value(), quantity.Litres(38).Value()} {
		if words := i18n.Speak("en", "US", quantity.US).About(number); !strings.Contains(said, words) {
			t.Errorf("%q is not in %q", words, said)
		}
	}
	// Back to the same place in the list.
	s.hit(t, "all-kinds", fyne.KeyReturn)
	if at := parts.IDOf(s.w.Canvas().Focused()); at != "kinds" {
		t.Errorf("the way back goes to %q", at)
	}
}

// Angelfish are tried beside neons: a caution that names both, put on the plan, seen
// on the page of all, and taken back.
func TestAngelfishWithNeonsIsACaution(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id := s.sized(t, "200", "60", "60")
	if err := s.k.Set(ctx, id, keeper.Edit{Field: "settle.target", Text: "25", Reading: quantity.Reading{Unit: "degc", Decimal: '.'}}); err != nil {
		t.Fatal(err)
	}
	if _, err := s.k.AddFish(ctx, id, keeper.Fish{Name: "Neons", Species: "paracheirodon-innesi", Count: 12}); err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.Kinds, Tank: id, Species: "pterophyllum-scalare"})
	s.at(t, "count")
	s.hit(t, "more", fyne.KeyReturn)
	s.hit(t, "fewer", fyne.KeyReturn)
	s.hit(t, "wish", fyne.KeyReturn)
	wishes, err := s.k.Wishes(ctx, id)
	if err != nil || len(wishes) != 1 || wishes[0].Species != "pterophyllum-scalare" || wishes[0].Count < 1 {
		t.Fatalf("wishes %+v, %v", wishes, err)
	}
	s.hit(t, "together", fyne.KeyReturn)
	p, ok := s.Page().(*kinds.Together)
	if !ok {
		t.Fatalf("not the page of all but %s", s.Route().Place)
	}
	x := p.Shown()
	if x.Head.State != working.Wait || len(x.Clashes) == 0 || len(x.Bars) < 4 || x.Cross.Name == "" || len(x.Instead) != 1 || len(x.Instead[0].Kinds) == 0 {
		t.Errorf("together: %+v", x)
	}
	found := false
	for _, c := range x.Clashes {
		found = found || c.State == working.Wait && strings.Contains(c.Text, "Angelfish") && strings.Contains(c.Text, "Neon tetra") && c.Cure != "" && c.Numbers != ""
	}
	if !found {
		t.Errorf("no caution names both with its number: %+v", x.Clashes)
	}
	s.Undo()
	if got := p.Shown(); len(got.Clashes) >= len(x.Clashes) {
		t.Errorf("after undo the page still has %d clashes", len(got.Clashes))
	}
}

// Without a tank the catalogue and a kind can be looked at.
func TestCatalogueWithoutATank(t *testing.T) {
	s := open(t, english())
	s.Settled()
	s.Go(nav.Route{Place: nav.Start})
	s.hit(t, "kinds", fyne.KeyReturn)
	s.fillIn(t, "find-kind", "Neón")
	s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	p, ok := s.Page().(*kinds.Kind)
	if !ok || p.Shown().Fit != nil || len(p.Shown().Company) == 0 {
		t.Errorf("%+v", s.Route())
	}
}

// A count that cannot be is refused at its box, and nothing is wished for.
func TestBadCountIsRefused(t *testing.T) {
	s := open(t, english())
	id := s.sized(t, "120", "50", "50")
	s.Go(nav.Route{Place: nav.Kinds, Tank: id, Species: "paracheirodon-innesi"})
	for _, bad := range []string{"0", "-3", "many", "99999", ""} {
		s.at(t, "count")
		c := s.w.Canvas()
		c.Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
		c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
		for _, r := range bad {
			c.Focused().TypedRune(r)
		}
		s.hit(t, "wish", fyne.KeyReturn)
		if ws, err := s.k.Wishes(context.Background(), id); err != nil || len(ws) != 0 {
			t.Errorf("%q: wishes %+v, %v", bad, ws, err)
		}
	}
}
