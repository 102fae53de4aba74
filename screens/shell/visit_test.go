package shell_test

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/visit"
)

// caller is a tank with a case, a test, a private note and a wish.
func caller(t *testing.T, s stage) (tank, id string) {
	t.Helper()
	ctx := context.Background()
	tank = s.tankOf(t)
	for _, e := range []journal.Entry{{Kind: journal.Note, Note: "Quarrel about the tank"},
		{Kind: journal.Tested, Readings: []journal.Reading{{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0.75", Unit: "mg/l", Basis: quantity.AsIon}}}}} {
		if _, err := s.k.AddEntry(ctx, tank, e); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := s.k.AddWish(ctx, tank, keeper.Wish{Species: "paracheirodon-innesi", Count: 8}); err != nil {
		t.Fatal(err)
	}
	id, err := s.k.OpenCase(ctx, tank, keeper.Who{About: "Old Grey"}, "", "clamped_fins")
	if err != nil {
		t.Fatal(err)
	}
	added, err := s.k.AddPhotos(ctx, tank, []photo.Source{{Path: drawn(t, "fin.png")}}, keeper.AddOptions{Sick: id}, nil)
	if err != nil || len(added.Photos) != 1 {
		t.Fatal(added, err)
	}
	if _, err := s.k.AddMark(ctx, tank, added.Photos[0], photo.Mark{Kind: photo.Text, Points: []photo.Point{{X: 100, Y: 100}}, Words: "pale"}); err != nil {
		t.Fatal(err)
	}
	return tank, id
}

// saved is the one file of an ending in the folder of papers.
func (s stage) saved(t *testing.T, ending string) string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(s.papers, "*"+ending))
	if err != nil || len(all) != 1 {
		t.Fatalf("files *%s: %v, %v", ending, all, err)
	}
	return all[0]
}

// From the case to the slip, at another daybook to its reply, and home again: all by
// keyboard, through the same files that people hand over.
func TestVisitThereAndBack(t *testing.T) {
	ctx := context.Background()
	s := open(t, english())
	tank, id := caller(t, s)
	s.Go(nav.Route{Place: nav.Sick, Tank: tank, Case: id})
	s.hit(t, "visit", fyne.KeySpace)
	p, ok := s.Page().(*visit.Page)
	if !ok || p.Ask().Case != id {
		t.Fatalf("the case leads to %+v", s.Route())
	}
	s.fillIn(t, "visit-questions", "Is it the water?")
	s.fillIn(t, "visit-label", "Ana")
	s.hit(t, "visit-feeding", fyne.KeySpace)
	s.hit(t, "visit-notes", fyne.KeySpace)
	s.Go(nav.Route{Place: nav.Daybook, Tank: tank}) // to look something up
	s.Go(nav.Route{Place: nav.Visit, Tank: tank})
	if a := s.Page().(*visit.Page).Ask(); a.Case != id || a.Label != "Ana" || len(a.Questions) != 1 || len(a.Without) != 1 || len(a.Private) != 0 {
		t.Errorf("after looking something up the slip is %+v", a)
	}
	s.hit(t, "visit-look", fyne.KeySpace) // nothing is written, and what is private stays out
	ahead := s.texts()
	for _, want := range []string{"Ana", "Is it the water?", "Old Grey", "0.75 mg/L", "Neon tetra"} {
		if !strings.Contains(ahead, want) {
			t.Errorf("the slip as it will be seen does not say %q", want)
		}
	}
	if strings.Contains(ahead, "Quarrel") {
		t.Error("the slip as it will be seen tells what is private")
	}
	if all, _ := filepath.Glob(filepath.Join(s.papers, "*")); len(all) != 0 {
		t.Errorf("looking at the slip wrote %v", all)
	}
	s.hit(t, "slip_picture_0", fyne.KeySpace)
	s.hit(t, "close", fyne.KeySpace)
	s.hit(t, "close", fyne.KeySpace)
	s.hit(t, "visit-save", fyne.KeySpace)
	file := s.saved(t, ".dlvisit")

	shop := open(t, english())
	if err := shop.k.SetShop(ctx, slip.Shop{Name: "Corner shop"}, nil); err != nil {
		t.Fatal(err)
	}
	shop.Dropped([]string{file})
	shown := shop.texts()
	for _, want := range []string{"Ana", "Is it the water?", "Old Grey", "0.75 mg/L", "Signed, and not changed since", "Neon tetra"} {
		if !strings.Contains(shown, want) {
			t.Errorf("the opened slip does not say %q", want)
		}
	}
	for _, secret := range []string{"Quarrel"} {
		if strings.Contains(shown, secret) {
			t.Errorf("the opened slip tells %q", secret)
		}
	}
	if tanks, err := shop.k.Tanks(ctx); err != nil || len(tanks) != 0 {
		t.Errorf("looking at a slip left %v, %v", tanks, err)
	}
	shop.hit(t, "slip_picture_0", fyne.KeySpace) // opened with its marks over the slip
	if n := len(shop.w.Canvas().Overlays().List()); n != 2 {
		t.Errorf("%d panels with a picture open", n)
	}
	shop.hit(t, "close", fyne.KeySpace)
	shop.hit(t, "answer", fyne.KeySpace)
	if !shop.shows("Is it the water?") || !shop.shows("Your own water test") {
		t.Error("the slip does not stand beside the reply to it")
	}
	shop.hit(t, "reply-write", fyne.KeySpace)
	if !strings.Contains(shop.texts(), "says nothing yet") {
		t.Error("an empty reply was not refused in words")
	}
	shop.fillIn(t, "reply-nitrite", "x")
	shop.hit(t, "reply-write", fyne.KeySpace)
	if all, _ := filepath.Glob(filepath.Join(shop.papers, "*.dlreply")); len(all) != 0 {
		t.Fatal("a reply with a number that is none was written")
	}
	shop.fillIn(t, "reply-nitrite", "0.3")
	shop.fillIn(t, "reply-advice-en", "Feed every other day.")
	shop.fillIn(t, "reply-round-why", "Until nitrite stays away.")
	shop.hit(t, "reply-add-round", fyne.KeySpace)
	shop.hit(t, "reply-add-plan", fyne.KeySpace) // holds back what the slip wishes for
	shop.hit(t, "reply-write", fyne.KeySpace)
	reply := shop.saved(t, ".dlreply")

	s.TakeFile(reply)
	shown = s.texts()
	for _, want := range []string{"Corner shop", "It answers the visit slip of Hall", "nitrite 0.3 mg/L as nitrogen", "Feed every other day.", "Add to your rounds: Water test", "Until nitrite stays away.", "Hold back all: Neon tetra"} {
		if !strings.Contains(shown, want) {
			t.Errorf("the opened reply does not say %q", want)
		}
	}
	s.hit(t, "reply-advice", fyne.KeySpace) // left for now
	s.hit(t, "reply-take", fyne.KeySpace)
	rs, err := s.k.Rounds(ctx, tank)
	wishes, err2 := s.k.Wishes(ctx, tank)
	if err != nil || err2 != nil || len(rs.All) != 1 || !rs.All[0].FromShop || len(wishes) != 0 {
		t.Errorf("taken: rounds %+v, wishes %+v, %v, %v", rs.All, wishes, err, err2)
	}
	days, err := s.k.Days(ctx, tank)
	if err != nil {
		t.Fatal(err)
	}
	if e := days[0].Entries[0]; e.Kind != journal.Tested || e.Note != "" || e.Reply == "" {
		t.Errorf("the shop's test is %+v", e)
	}
	if !strings.Contains(s.texts(), "Something of this reply was taken on") {
		t.Error("what was taken is not told while the reply is open")
	}
	if got := parts.IDOf(s.w.Canvas().Focused()); got != "leave" { // nothing more is ticked
		t.Errorf("after taking the focus is at %q", got)
	}
	s.hit(t, "reply-advice", fyne.KeySpace)
	s.hit(t, "reply-take", fyne.KeySpace) // the rest; the panel closes
	if s.Route().Place != nav.Daybook || !strings.Contains(s.texts(), "Note, from the shop") {
		t.Errorf("at %s: %s", s.Route().Place, s.texts())
	}
	if days, err = s.k.Days(ctx, tank); err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.Daybook, Tank: tank, Entry: days[0].Entries[0].ID})
	s.Page().Focus()
	if !strings.Contains(s.texts(), "From the shop's reply: Corner shop") {
		t.Error("the entry does not say whose it is")
	}
	s.key(fyne.KeyEscape)
	s.TakeFile(reply)
	if shown := s.texts(); !strings.Contains(shown, "Something of this reply was taken on") || strings.Contains(shown, "Take what is ticked") {
		t.Error("a reply taken before is offered again")
	}
}

// A reply to nothing here asks which tank it is about; what is no reply is refused in
// words.
func TestReplyOfAnotherDaybook(t *testing.T) {
	ctx := context.Background()
	other := open(t, english())
	s := open(t, spanish()) // the later one has the toolkit's ear
	tank, _ := caller(t, other)
	v, err := other.k.Visit(ctx, tank, keeper.VisitAsk{Days: 30})
	if err != nil {
		t.Fatal(err)
	}
	r, err := other.k.BeginReply(ctx, v.Visit)
	if err != nil {
		t.Fatal(err)
	}
	r.Advice = map[string]string{"en": "Wait a week."}
	path := filepath.Join(t.TempDir(), "r.dlreply")
	if err := other.k.WriteReply(ctx, r, path); err != nil {
		t.Fatal(err)
	}
	s.TakeFile(path)
	if !strings.Contains(s.texts(), "Aquí aún no hay ningún acuario") {
		t.Error("without a tank it is not said what to do")
	}
	s.hit(t, "leave", fyne.KeySpace)
	mine, err := s.k.StartTank(ctx, "Sala", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	s.TakeFile(path)
	s.hit(t, "reply-take", fyne.KeySpace)
	if days, _ := s.k.Days(ctx, mine); len(days) != 0 {
		t.Error("taken into a tank that nobody named")
	}
	s.at(t, "reply-tank")
	s.key(fyne.KeySpace)
	s.key(fyne.KeyDown) // none is chosen beforehand
	s.key(fyne.KeyReturn)
	s.hit(t, "reply-take", fyne.KeySpace)
	days, err := s.k.Days(ctx, mine)
	if err != nil || len(days) != 1 || days[0].Entries[0].Note != "Wait a week." {
		t.Errorf("taken: %+v, %v", days, err)
	}
	letter := filepath.Join(t.TempDir(), "x.dlreply")
	if err := other.k.SaveProfile(ctx, tank, letter); err != nil {
		t.Fatal(err)
	}
	s.TakeFile(letter)
	if !strings.Contains(s.texts(), "Este archivo es de otro tipo") {
		t.Error("a profile with another ending is not refused in words")
	}
}
