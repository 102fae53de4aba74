package shell_test

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/nav"
)

// pictureOf is a picture of the codes of a file, side by side.
func pictureOf(t *testing.T, file []byte) string {
	t.Helper()
	codes, err := slip.Codes(file)
	if err != nil {
		t.Fatal(err)
	}
	return sheetPicture(t, codes...)
}

// A visit slip on paper goes onto the desk of the shop, which is told what its codes do
// not carry; the reply comes home by paper too and is taken: all by keyboard.
func TestVisitAndReplyByPaper(t *testing.T) {
	ctx := context.Background()
	home := open(t, english())
	tank, id := caller(t, home)
	home.Go(nav.Route{Place: nav.Visit, Tank: tank})
	home.hit(t, "visit-paper", fyne.KeySpace)
	home.saved(t, ".pdf")
	ready, err := home.k.PrepareVisit(ctx, tank, keeper.VisitAsk{Days: 30, Case: id, Label: "Ana", Questions: []string{"Is it the water?"}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := home.k.NoteVisit(ctx, ready); err != nil {
		t.Fatal(err)
	}

	shop := open(t, english())
	says := func(s stage, want ...string) {
		t.Helper()
		shown := strings.Join(strings.Fields(s.texts()), " ")
		for _, w := range want {
			if !strings.Contains(shown, w) {
				t.Errorf("%q is not said in: %s", w, shown)
			}
		}
	}
	if err := shop.k.SetShop(ctx, slip.Shop{Name: "Corner shop"}, nil); err != nil {
		t.Fatal(err)
	}
	shop.Go(nav.Route{Place: nav.Desk})
	shop.Dropped([]string{pictureOf(t, ready.File)})
	says(shop, "Ana", "Is it the water?", "Old Grey", "0.75 mg/L", "Signed, and not changed since", "1 picture with its marks is not in the codes: it is on the paper alone, or in the file.")
	shop.hit(t, "keep", fyne.KeySpace)
	if r := shop.Route(); r.Place != nav.Desk || r.Slip != ready.Visit.ID {
		t.Fatalf("at %+v", r)
	}
	says(shop, "1 picture with its marks is not in the codes")
	shop.hit(t, "reply-paper", fyne.KeySpace)
	says(shop, "says nothing yet")
	shop.fillIn(t, "reply-advice-en", "Feed every other day.")
	shop.hit(t, "reply-paper", fyne.KeySpace)
	shop.saved(t, ".pdf")
	o, err := shop.k.DeskVisit(ctx, ready.Visit.ID)
	if err != nil || len(o.Replies) != 1 {
		t.Fatalf("the desk has %d replies, %v", len(o.Replies), err)
	}
	reply := o.Replies[0].Reply
	shop.hit(t, "paper-"+reply.ID, fyne.KeySpace) // the same once more
	if all, err := filepath.Glob(filepath.Join(shop.papers, "*.pdf")); err != nil || len(all) != 2 {
		t.Errorf("papers: %v, %v", all, err)
	}
	file, err := shop.k.DeskReplyFile(ctx, reply.ID)
	if err != nil {
		t.Fatal(err)
	}

	home.Go(nav.Route{Place: nav.Today, Tank: tank}) // where a picture could be one for the daybook
	home.Dropped([]string{pictureOf(t, file)})
	says(home, "Corner shop", "It answers the visit slip of Hall", "Feed every other day.")
	home.hit(t, "reply-take", fyne.KeySpace)
	days, err := home.k.Days(ctx, tank)
	if err != nil || days[0].Entries[0].Note != "Feed every other day." || days[0].Entries[0].Reply == "" {
		t.Errorf("taken: %+v, %v", days, err)
	}
}

// Codes of two slips in one picture are refused in words.
func TestPictureOfTwoSlips(t *testing.T) {
	ctx := context.Background()
	s := open(t, spanish())
	tank, id := caller(t, s)
	var codes []string
	for range 2 {
		var question []rune // that hardly packs
		for x := uint32(7); len(question) < slip.MaxQuestion; {
			x = x*1664525 + 1013904223
			question = append(question, rune('!'+x>>24%90))
		}
		ready, err := s.k.PrepareVisit(ctx, tank, keeper.VisitAsk{Days: 30, Case: id, Questions: []string{string(question)}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		all, err := slip.Codes(ready.File)
		if err != nil || len(all) < 2 {
			t.Fatalf("%d codes, %v", len(all), err)
		}
		codes = append(codes, all[0])
	}
	s.Go(nav.Route{Place: nav.Desk})
	s.Dropped([]string{sheetPicture(t, codes...)})
	if shown := s.texts(); !strings.Contains(shown, "Son códigos de dos hojas distintas") || !strings.Contains(shown, "1 de 2") {
		t.Errorf("two slips in one picture: %s", shown)
	}
}
