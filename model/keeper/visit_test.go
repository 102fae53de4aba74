package keeper_test

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// jpegAt is a picture that tells by EXIF that it was taken at 40° north, 3° west.
func jpegAt(t *testing.T) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 64, 48))
	for i := range 64 * 48 {
		m.Set(i%64, i/64, color.RGBA{uint8(i), 90, 120, 255})
	}
	var b bytes.Buffer
	must(t, jpeg.Encode(&b, m, nil))
	// A directory that points to that of the place. Source: EXIF 2.3, 4.6.6.
	degrees := func(n byte) string {
		return "\x00\x00\x00" + string([]byte{n}) + "\x00\x00\x00\x01" + strings.Repeat("\x00\x00\x00\x00\x00\x00\x00\x01", 2)
	}
	tags := "MM\x00*\x00\x00\x00\x08\x00\x01\x88\x25\x00\x04\x00\x00\x00\x01\x00\x00\x00\x1a\x00\x00\x00\x00" +
		"\x00\x04\x00\x01\x00\x02\x00\x00\x00\x02N\x00\x00\x00\x00\x02\x00\x05\x00\x00\x00\x03\x00\x00\x00\x50" +
		"\x00\x03\x00\x02\x00\x00\x00\x02W\x00\x00\x00\x00\x04\x00\x05\x00\x00\x00\x03\x00\x00\x00\x68\x00\x00\x00\x00" + degrees(40) + degrees(3)
	body := "Exif\x00\x00" + tags
	return append([]byte("\xff\xd8\xff\xe1"+string([]byte{byte((len(body) + 2) >> 8), byte(len(body) + 2)})+body), b.Bytes()[2:]...)
}

// ailing is a tank with a case, its picture with a mark, tests, meals, a note and
// animals that cost something.
func ailing(t *testing.T) (k *keeper.Keeper, c *clock, tank, sickID string) {
	t.Helper()
	ctx := context.Background()
	k, c, tank = started(t)
	_, _, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: string(danio), Count: 6, Source: "The shop at the bridge", Price: "12 EUR"})
	must(t, err)
	_, err = k.AddWish(ctx, tank, keeper.Wish{Species: neon, Count: 10})
	must(t, err)
	kit, err := k.AddKit(ctx, journal.TestKit{Name: "Drops", Reading: journal.NameNitrite, Unit: "mg/l", Basis: quantity.AsIon})
	must(t, err)
	add := func(e journal.Entry) {
		_, err := k.AddEntry(ctx, tank, e)
		must(t, err)
	}
	add(journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0.50", Unit: "mg/l", Basis: quantity.AsIon}, Kit: kit}}})
	add(journal.Entry{Kind: journal.Fed, At: "2026-11-20T08:00", Readings: []journal.Reading{{Name: journal.NameFeed, Measure: quantity.Measure{Number: "0.2", Unit: "g"}}}})
	add(journal.Entry{Kind: journal.Fed, At: "2026-09-20T08:00"})
	add(journal.Entry{Kind: journal.Note, Note: "Argued about the tank."})
	sickID, err = k.OpenCase(ctx, tank, keeper.Who{About: "the one with the notch"}, sick.Manies()[0], "gasping_surface")
	must(t, err)
	_, err = k.NoteCase(ctx, tank, sickID, "Hides behind the filter.")
	must(t, err)
	added, err := k.AddPhotos(ctx, tank, []photo.Source{{Name: "a.jpg", Bytes: jpegAt(t)}}, keeper.AddOptions{Sick: sickID}, nil)
	must(t, err)
	if len(added.Photos) != 1 {
		t.Fatalf("added %+v", added)
	}
	_, err = k.AddMark(ctx, tank, added.Photos[0], photo.Mark{Kind: photo.Circle, Points: []photo.Point{{X: 300, Y: 300}, {X: 400, Y: 300}}, Words: "here"})
	must(t, err)
	must(t, k.CaptionPhoto(ctx, tank, added.Photos[0], "My kitchen"))
	return k, c, tank, sickID
}

// Nothing private is in a slip unless it is asked for, and what is left out is counted.
func TestVisitLeavesOutWhatIsPrivate(t *testing.T) {
	ctx := context.Background()
	k, _, tank, id := ailing(t)
	ask := keeper.VisitAsk{Label: " Ana,  tank\tin the hall ", Days: keeper.VisitDays, Case: id, Language: "es", Questions: []string{"Is it the water?", "  "}}
	path := filepath.Join(t.TempDir(), "a.dlvisit")
	p, err := k.SaveVisit(ctx, tank, ask, path, nil)
	must(t, err)
	v, found, err := k.OpenVisit(ctx, path)
	must(t, err)
	if len(found) != 1 || found[0].Code != "find.slip.visit_signed" || !reflect.DeepEqual(p.Visit.Entries, v.Entries) || v.ID != p.Visit.ID {
		t.Errorf("found %v; wrote %+v, read %+v", found, p.Visit, v)
	}
	want := map[keeper.VisitPart]int{keeper.VisitFacts: len(v.Facts), keeper.VisitStock: 2, keeper.VisitTests: 1, keeper.VisitFeeding: 1, keeper.VisitOthers: 1, keeper.VisitCase: 1, keeper.VisitPictures: 1, keeper.VisitQuestions: 1}
	if !reflect.DeepEqual(p.Count, want) || len(v.Facts) == 0 {
		t.Errorf("it holds %v, want %v", p.Count, want)
	}
	if v.Label != "Ana, tank in the hall" || v.From != "2026-10-27" || v.To != "2026-11-25" || v.Stock[0].Species != string(danio) || v.Stock[0].Count != 6 || v.Wishes[0].Count != 10 {
		t.Errorf("read %+v", v)
	}
	if tested := v.Entries[len(v.Entries)-1]; !slices.ContainsFunc(v.Entries, func(e slip.VisitEntry) bool {
		return e.Kits[journal.NameNitrite] == "Drops" && e.Readings[0].Measure.Number == "0.50"
	}) {
		t.Errorf("the test is %+v", tested)
	}
	if len(v.Case.Signs) != 1 || len(v.Pictures[0].Marks) != 1 || v.Pictures[0].Marks[0].Words != "here" || !v.Pictures[0].OfCase {
		t.Errorf("case %+v, pictures %+v", v.Case, v.Pictures[0].Marks)
	}
	for what, n := range map[slip.Private]int{slip.Places: 1, slip.Notes: 5, slip.Prices: 2} {
		if p.Private[what] != n {
			t.Errorf("%d %s were counted, want %d", p.Private[what], what, n)
		}
	}
	raw, err := os.ReadFile(path)
	must(t, err)
	for _, secret := range []string{"Argued", "Hides", "kitchen", "bridge", "12 EUR", "Exif", "latitude"} {
		if bytes.Contains(raw, []byte(secret)) {
			t.Errorf("the slip tells %q", secret)
		}
	}
	ask.Private = slip.Privates()
	if _, err := k.SaveVisit(ctx, tank, ask, path, nil); err != nil {
		t.Fatal(err)
	}
	raw, err = os.ReadFile(path)
	must(t, err)
	for _, told := range []string{"Argued", "Hides", "kitchen", "bridge", "12 EUR", "latitude"} {
		if !bytes.Contains(raw, []byte(told)) {
			t.Errorf("asked for, and not told: %q", told)
		}
	}
	if bytes.Contains(raw, []byte("Exif")) {
		t.Error("a picture carries what the camera said")
	}
	label, _, _ := k.UndoLabel(ctx, tank)
	if label != "undo.visit_save" {
		t.Errorf("the step is %s", label)
	}
}

func TestVisitChoosesSpanAndParts(t *testing.T) {
	ctx := context.Background()
	k, _, tank, id := ailing(t)
	all, err := k.Visit(ctx, tank, keeper.VisitAsk{})
	must(t, err)
	if all.Visit.From != "2026-09-20" || all.Count[keeper.VisitFeeding] != 2 || all.Count[keeper.VisitPictures] != 0 || all.Visit.Case != nil {
		t.Errorf("everything is %v from %s", all.Count, all.Visit.From)
	}
	none, err := k.Visit(ctx, tank, keeper.VisitAsk{Days: 14, Case: id, Questions: []string{"?"}, Without: keeper.VisitParts()})
	must(t, err)
	if v := none.Visit; len(v.Facts)+len(v.Stock)+len(v.Wishes)+len(v.Entries)+len(v.Pictures)+len(v.Questions) != 0 || v.Case != nil || !v.Net.IsZero() {
		t.Errorf("nothing is %+v", v)
	}
	_, err = k.Visit(ctx, tank, keeper.VisitAsk{Case: "none"})
	refused(t, err, "refuse.keeper.no_case")
	_, err = k.Visit(ctx, tank, keeper.VisitAsk{Days: -1})
	refused(t, err, "refuse.outside")
	_, err = k.Visit(ctx, tank, keeper.VisitAsk{Label: strings.Repeat("ñ", slip.MaxLabel+1)})
	refused(t, err, "refuse.care.words_long")
	_, err = k.Visit(ctx, tank, keeper.VisitAsk{Questions: slices.Repeat([]string{"?"}, slip.MaxQuestions+1)})
	refused(t, err, "refuse.keeper.questions")
	_, err = k.Visit(ctx, "none", keeper.VisitAsk{})
	refused(t, err, "refuse.keeper.no_tank")
	for _, path := range []string{t.TempDir(), filepath.Join(t.TempDir(), "none.dlvisit")} {
		var e *slip.Error
		if _, _, err := k.OpenVisit(ctx, path); !errors.As(err, &e) {
			t.Errorf("%s: %v", path, err)
		}
		if _, _, err := k.OpenReply(ctx, path); !errors.As(err, &e) {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// answered is a shop's reply to a visit of the tank, as a file, and the shop's own
// daybook.
func answered(t *testing.T, k *keeper.Keeper, tank, sickID string) (string, *keeper.Keeper) {
	t.Helper()
	ctx := context.Background()
	dir := t.TempDir()
	_, err := k.SaveVisit(ctx, tank, keeper.VisitAsk{Days: 30, Case: sickID}, filepath.Join(dir, "a.dlvisit"), nil)
	must(t, err)
	shop := open(t, filepath.Join(dir, "shop"), noon())
	t.Cleanup(func() { _ = shop.Close() })
	must(t, shop.SetShop(ctx, slip.Shop{Name: "Corner shop", Address: "1 Bridge Road"}, nil))
	v, _, err := shop.OpenVisit(ctx, filepath.Join(dir, "a.dlvisit"))
	must(t, err)
	if tanks, _ := shop.Tanks(ctx); len(tanks) != 0 {
		t.Errorf("the shop's daybook now has %+v", tanks)
	}
	r, err := shop.BeginReply(ctx, v)
	must(t, err)
	refused(t, keeper.CheckReply(r), "refuse.keeper.reply_empty")
	r.Test = &slip.ShopTest{At: "2026-11-25T11:30", Zone: "+01:00", Readings: []journal.Reading{{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0.30", Unit: "mg/l", Basis: quantity.AsN}}, {Name: journal.NameAmmonia, Qualifier: journal.NotDetected}}}
	r.Advice = map[string]string{"en": "Feed every other day.", "es": "Da de comer un día sí y otro no."}
	r.Rounds = []slip.ProposedRound{{Code: rounds.Test, Rule: "FREQ=DAILY", Why: "Until nitrite stays away."}, {Code: rounds.Change, Rule: "FREQ=WEEKLY;BYDAY=SA", Start: "2026-11-01T10:00"}}
	r.Plan = []slip.ProposedAnimals{{Change: slip.PlanHold, Species: string(neon), Why: "Not before the water is ready."}, {Change: slip.PlanAdd, Species: string(danio), Count: 2}, {Change: slip.PlanAdd, Species: "of-a-later-catalogue", Count: 1}, {Change: slip.PlanHold, Species: string(pleco)}}
	path := filepath.Join(dir, "a.dlreply")
	must(t, shop.WriteReply(ctx, r, path))
	return path, shop
}

// A reply finds its tank by the visit, lands as the shop's, is one step each time
// something is taken, and tells when it was taken before.
func TestReplyIsTakenPieceByPiece(t *testing.T) {
	ctx := context.Background()
	k, _, tank, id := ailing(t)
	path, _ := answered(t, k, tank, id)
	v, found, err := k.OpenReply(ctx, path)
	must(t, err)
	if v.Tank != tank || len(found) != 1 || found[0].Code != "find.slip.signed_first" || !v.Again.IsZero() {
		t.Fatalf("opened %+v, %v", v, found)
	}
	if got, want := v.Open(), []string{"test", "advice", "round.1", "round.2", "plan.1", "plan.2"}; !slices.Equal(got, want) {
		t.Errorf("open are %v, want %v", got, want)
	}
	refused(t, v.Items[6].Refused, "refuse.fish.unknown")
	refused(t, v.Items[7].Refused, "refuse.keeper.reply_no_wish")

	did, err := k.TakeReply(ctx, tank, v.Reply, []string{"plan.1", keeper.ItemAdvice, keeper.ItemTest, "round.2", "plan.2"}, "es-MX")
	must(t, err)
	if did.Rounds != 1 || did.Plan != 2 {
		t.Errorf("took %+v", did)
	}
	e, err := k.Entry(ctx, tank, did.Entry)
	must(t, err)
	if e.Kind != journal.Tested || e.At != "2026-11-25T11:30" || e.Note != "Da de comer un día sí y otro no." || len(e.Readings) != 2 || e.Reply != v.Reply.ID {
		t.Errorf("the entry is %+v", e)
	}
	if shop, ok, err := k.ReplyFrom(ctx, e); !ok || err != nil || shop.Address != "1 Bridge Road" {
		t.Errorf("it came from %+v, %v", shop, err)
	}
	ws, err := k.Wishes(ctx, tank)
	must(t, err)
	if len(ws) != 1 || ws[0].Species != danio || ws[0].Count != 2 {
		t.Errorf("wished for is %+v", ws)
	}
	rs, err := k.Rounds(ctx, tank)
	must(t, err)
	if len(rs.All) != 1 || rs.All[0].Start != "2026-11-28T10:00" { // the Saturday after
		t.Errorf("rounds %+v", rs.All)
	}

	again, found, err := k.OpenReply(ctx, path)
	must(t, err)
	if again.Again.IsZero() || found[0].Code != "find.slip.signed_same" || !slices.Equal(again.Open(), []string{"round.1"}) {
		t.Errorf("opened again: %+v, %v", again, found)
	}
	_, err = k.TakeReply(ctx, tank, v.Reply, []string{"round.1", keeper.ItemTest}, "")
	refused(t, err, "refuse.keeper.reply_taken")
	did, err = k.TakeReply(ctx, tank, v.Reply, []string{"round.1"}, "")
	must(t, err)
	if rs, _ = k.Rounds(ctx, tank); len(rs.All) != 2 || did.Entry != "" {
		t.Errorf("rounds %+v, %+v", rs.All, did)
	}

	// One step each, and nothing stays behind.
	for range 2 {
		label, _, err := k.Undo(ctx, tank)
		if err != nil || label != "undo.reply_take" {
			t.Fatalf("undid %s, %v", label, err)
		}
	}
	back, _, err := k.OpenReply(ctx, path)
	must(t, err)
	ws, _ = k.Wishes(ctx, tank)
	rs, _ = k.Rounds(ctx, tank)
	if len(back.Open()) != 6 || !back.Again.IsZero() || len(ws) != 1 || ws[0].Species != neon || len(rs.All) != 0 {
		t.Errorf("after undo: %+v, wishes %+v, rounds %+v", back, ws, rs.All)
	}
	if _, err := k.Entry(ctx, tank, e.ID); err == nil {
		t.Error("the entry is still there")
	}
	for range 2 {
		if _, _, err := k.Redo(ctx, tank); err != nil {
			t.Fatal(err)
		}
	}
	if back, _, _ = k.OpenReply(ctx, path); len(back.Open()) != 0 {
		t.Errorf("after redo open are %v", back.Open())
	}
}

func TestReplyThatCannotBeTaken(t *testing.T) {
	ctx := context.Background()
	k, c, tank, id := ailing(t)
	path, shop := answered(t, k, tank, id)
	v, _, err := k.OpenReply(ctx, path)
	must(t, err)
	for _, x := range []struct {
		items []string
		code  working.Key
	}{
		{nil, "refuse.keeper.reply_none"}, {[]string{"round.9"}, "refuse.keeper.reply_item"}, {[]string{"test", "test"}, "refuse.keeper.reply_item"},
		{[]string{"plan.3"}, "refuse.fish.unknown"}, {[]string{"advice", "plan.4"}, "refuse.keeper.reply_no_wish"},
	} {
		_, err := k.TakeReply(ctx, tank, v.Reply, x.items, "")
		refused(t, err, x.code)
	}
	other, err := k.StartTank(ctx, "Desk", quantity.Metric)
	must(t, err)
	_, err = k.TakeReply(ctx, other, v.Reply, []string{"test"}, "")
	refused(t, err, "refuse.keeper.reply_tank")
	c.t = c.t.AddDate(0, 0, -3) // a clock that is behind: the test would be of the future
	_, err = k.TakeReply(ctx, tank, v.Reply, []string{"test"}, "")
	refused(t, err, "refuse.journal.future")
	c.t = c.t.AddDate(0, 0, 3)
	if e, err := k.Days(ctx, tank); err != nil || slices.ContainsFunc(e[0].Entries, func(e journal.Entry) bool { return e.Reply != "" }) {
		t.Errorf("refused, and yet something was written: %+v, %v", e[0], err)
	}
	// A daybook that never made the visit is asked which tank it is about.
	w, _, err := shop.OpenReply(ctx, path)
	must(t, err)
	if w.Tank != "" || w.Items[4].Refused != nil {
		t.Errorf("opened elsewhere: %+v", w)
	}
	_, err = shop.TakeReply(ctx, "", w.Reply, []string{"test"}, "")
	refused(t, err, "refuse.keeper.no_tank")
	there, err := shop.StartTank(ctx, "Show tank", quantity.Metric)
	must(t, err)
	_, err = shop.TakeReply(ctx, there, w.Reply, []string{"advice"}, "fr")
	must(t, err)
	if w, _, err = shop.OpenReply(ctx, path); err != nil || w.Tank != there {
		t.Errorf("opened again: %+v, %v", w, err)
	}
	days, err := shop.Days(ctx, there)
	must(t, err)
	if e := days[0].Entries[0]; e.Kind != journal.Note || e.Note != "Feed every other day." {
		t.Errorf("the advice is %+v", e)
	}
}

// What a slip file is, is told without taking anything.
func TestSlipFormat(t *testing.T) {
	ctx := context.Background()
	k, _, tank, id := ailing(t)
	reply, _ := answered(t, k, tank, id)
	profile := filepath.Join(t.TempDir(), "a.dlprofile")
	must(t, k.SaveProfile(ctx, tank, profile))
	for path, want := range map[string]string{reply: slip.FormatReply, filepath.Join(filepath.Dir(reply), "a.dlvisit"): slip.FormatVisit, profile: slip.FormatProfile} {
		at, err := keeper.FindSlip(ctx, path)
		if at.Format != want || err != nil {
			t.Errorf("%s is %q, %v", filepath.Base(path), at.Format, err)
			continue
		}
		if o, err := k.OpenSlip(ctx, at); err != nil || o.Format != want || len(o.Found) == 0 {
			t.Errorf("%s is opened as %q, %v", filepath.Base(path), o.Format, err)
		}
	}
}

// The tests of a slip are judged at the shop as at home, and draw the same course.
func TestVisitWaterIsJudgedAsAtHome(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	tank, err := k.MakeExample(ctx, words())
	must(t, err)
	p, err := k.Visit(ctx, tank, keeper.VisitAsk{Days: 0})
	must(t, err)
	shop := open(t, t.TempDir(), noon())
	defer shop.Close()
	got, err := shop.VisitWater(ctx, p.Visit)
	must(t, err)
	want, err := k.Judge(ctx, tank)
	must(t, err)
	states := func(all func(func(keeper.Judgement))) map[string]int {
		out := map[string]int{}
		all(func(j keeper.Judgement) { out[j.State.String()]++ })
		return out
	}
	here := states(func(f func(keeper.Judgement)) {
		for _, j := range got.Judged {
			f(j)
		}
	})
	home := states(func(f func(keeper.Judgement)) {
		for _, j := range want {
			f(j)
		}
	})
	if len(got.Judged) < 5 || !reflect.DeepEqual(here, home) {
		t.Errorf("judged %v at the shop, %v at home", here, home)
	}
	own, err := k.Traces(ctx, tank, keeper.TraceNames(), p.Visit.From, p.Visit.To)
	must(t, err)
	if len(own.Traces) != len(got.Traces.Traces) || len(own.Traces) < 4 {
		t.Fatalf("%d courses at the shop, %d at home", len(got.Traces.Traces), len(own.Traces))
	}
	for i, tr := range own.Traces {
		if tr.Name != got.Traces.Traces[i].Name || len(tr.Points) != len(got.Traces.Traces[i].Points) {
			t.Errorf("%s: %d points at the shop, %d at home", tr.Name, len(got.Traces.Traces[i].Points), len(tr.Points))
		}
	}
}
