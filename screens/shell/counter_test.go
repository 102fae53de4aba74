package shell_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/nav"
)

// A shop without a tank of its own comes to the Counter, begins a profile, and hands
// it out: one press for a file, one for a sheet; both are in the record, and the
// file is what was handed out.
func TestCounterHandsOut(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	s.Go(nav.Route{Place: nav.Counter})
	s.hit(t, "new", fyne.KeyReturn)
	s.hit(t, "keep", fyne.KeyReturn)
	r := s.Route()
	if r.Place != nav.Draft || r.Profile == "" || r.Step != care.TankPlace || r.Tank != "" {
		t.Fatalf("a new profile opens %+v", r)
	}
	for range 6 {
		s.w.Canvas().Unfocus() // the button of the step before is gone
		s.hit(t, "carry-on", fyne.KeyReturn)
	}
	if got := s.Route(); got.Place != nav.Counter || got.Profile != r.Profile {
		t.Fatalf("after the last step: %+v", got)
	}
	if tanks, err := s.k.Tanks(ctx); err != nil || len(tanks) != 0 {
		t.Errorf("the shop has tanks: %v %v", tanks, err)
	}
	s.Go(nav.Route{Place: nav.Counter})
	s.hit(t, "file-"+r.Profile, fyne.KeyReturn)
	s.hit(t, "sheet-"+r.Profile, fyne.KeyReturn)
	outs, err := s.k.HandOuts(ctx, r.Profile)
	if err != nil || len(outs) != 2 || outs[0].Edition != 1 || outs[1].Edition != 1 {
		t.Errorf("the record says %+v %v", outs, err)
	}
	var names []string
	files, err := filepath.Glob(filepath.Join(s.papers, "*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		switch filepath.Ext(f) {
		case ".dlprofile":
			p, _, err := s.k.OpenProfile(ctx, f)
			if err != nil || p.Edition != 1 || !p.Signature.Signed() || len(p.Answers) < 40 {
				t.Errorf("the file: %d answers, edition %d, %v", len(p.Answers), p.Edition, err)
			}
			names = append(names, filepath.Base(f))
		case ".pdf":
			data, err := os.ReadFile(f)
			if err != nil || !strings.HasPrefix(string(data), "%PDF-") {
				t.Errorf("the sheet: %v", err)
			}
			names = append(names, filepath.Base(f))
		}
	}
	if got := strings.Join(names, " "); got != "starter.dlprofile starter.pdf" {
		t.Errorf("handed out as %s", got)
	}
	// What is changed at the profile is taken back there, and its removal in the list.
	s.Go(nav.Route{Place: nav.Counter, Profile: r.Profile})
	if err := s.k.SetProfileNotes(ctx, r.Profile, map[string]string{"en": "Feed little."}); err != nil {
		t.Fatal(err)
	}
	s.Undo()
	if w, err := s.k.ProfileInWork(ctx, r.Profile); err != nil || len(w.Notes) != 0 {
		t.Errorf("after undo: %v %v", w.Notes, err)
	}
	s.hit(t, "remove", fyne.KeyReturn)
	if cards, err := s.k.Profiles(ctx); err != nil || len(cards) != 0 || s.Route().Place != nav.Counter {
		t.Errorf("after removing: %v %v at %+v", cards, err, s.Route())
	}
	s.Undo()
	if cards, err := s.k.Profiles(ctx); err != nil || len(cards) != 1 || s.Route().Place != nav.Counter {
		t.Errorf("after undo: %v %v at %+v", cards, err, s.Route())
	}
}

// The card of the shop says below its box what cannot be kept, and keeps what can.
func TestCounterCardOfTheShop(t *testing.T) {
	s := open(t, english())
	s.Go(nav.Route{Place: nav.Counter})
	s.hit(t, "shop", fyne.KeyReturn)
	c := s.w.Canvas()
	name, ok := s.at(t, "shop-name").(interface{ SetText(string) })
	if !ok {
		t.Fatal("no box for the name")
	}
	name.SetText(strings.Repeat("a", slip.MaxShopName+1))
	s.hit(t, "keep", fyne.KeyReturn)
	if shop, _, err := s.k.Shop(context.Background()); err != nil || shop.Name != "" || c.Overlays().Top() == nil {
		t.Fatalf("a name that is too long: %q %v", shop.Name, err)
	}
	name.SetText("Corner shop")
	s.hit(t, "keep", fyne.KeyReturn)
	if shop, _, err := s.k.Shop(context.Background()); err != nil || shop.Name != "Corner shop" {
		t.Errorf("kept %q %v", shop.Name, err)
	}
}
