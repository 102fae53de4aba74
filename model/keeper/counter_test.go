package keeper_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

func set(t *testing.T, k *keeper.Keeper, tank string, field care.FieldID, text string) {
	t.Helper()
	f, ok := care.FieldOf(field)
	if !ok {
		t.Fatal(field)
	}
	e := keeper.Edit{Field: field, Text: text, Reading: quantity.Reading{System: quantity.Metric, Decimal: '.'}}
	if f.Type == care.TypeChoice {
		e = keeper.Edit{Field: field, Option: text}
	}
	must(t, k.Set(context.Background(), tank, e))
}

// The catalogue stands apart from the shop's own tanks: a profile is in neither
// their list nor the daybook's, is begun from nothing, from a copy or from a tank,
// and goes and comes back as a step of the list.
func TestCatalogueApartFromTanks(t *testing.T) {
	ctx, k := context.Background(), open(t, t.TempDir(), noon())
	defer k.Close()
	own, err := k.MakeExample(ctx, words())
	must(t, err)
	blank, err := k.StartProfile(ctx, "Starter 54", quantity.Metric)
	must(t, err)
	set(t, k, blank, "heater.watts", "50 W")
	must(t, k.SetProfileNotes(ctx, blank, map[string]string{"en": "Come back in a week.", "es": " "}))
	twin, err := k.DraftFrom(ctx, blank, "Starter 54 b")
	must(t, err)
	made, err := k.DraftFrom(ctx, own, "Our corner")
	must(t, err)
	tanks, err := k.Tanks(ctx)
	if err != nil || len(tanks) != 1 || tanks[0].ID != own {
		t.Errorf("tanks %+v %v", tanks, err)
	}
	cards, err := k.Profiles(ctx)
	must(t, err)
	var ids []string
	for _, c := range cards {
		ids = append(ids, c.Tank.ID)
		if c.Tank.Origin != keeper.Counter || !c.Net.Known() || c.Edition != 0 || c.Times != 0 {
			t.Errorf("%+v", c)
		}
	}
	slices.Sort(ids)
	if want := []string{blank, twin, made}; !slices.Equal(ids, func() []string { slices.Sort(want); return want }()) {
		t.Errorf("the catalogue holds %v", ids)
	}
	a, err := k.ProfileInWork(ctx, blank)
	must(t, err)
	b, err := k.ProfileInWork(ctx, twin)
	must(t, err)
	if !reflect.DeepEqual(a.Profile.Answers, b.Profile.Answers) || !reflect.DeepEqual(a.Notes, map[string]string{"en": "Come back in a week."}) || !reflect.DeepEqual(a.Notes, b.Notes) {
		t.Errorf("the copy says %+v, the first %+v", b.Profile, a.Profile)
	}
	o, err := k.ProfileOf(ctx, own)
	must(t, err)
	c, err := k.ProfileInWork(ctx, made)
	must(t, err)
	if o.Tank = "Our corner"; !reflect.DeepEqual(o.Answers, c.Profile.Answers) || !reflect.DeepEqual(o.Plan, c.Profile.Plan) {
		t.Errorf("of the tank:\n%+v\nwant\n%+v", c.Profile, o)
	}
	must(t, k.RemoveProfile(ctx, twin))
	if cards, _ := k.Profiles(ctx); len(cards) != 2 {
		t.Errorf("%d profiles after one was removed", len(cards))
	}
	_, _, err = k.Undo(ctx, "")
	must(t, err)
	if cards, _ := k.Profiles(ctx); len(cards) != 3 {
		t.Errorf("%d profiles after it was put back", len(cards))
	}
	must(t, k.RenameTank(ctx, twin, "Other"))
	if _, err := k.ProfileInWork(ctx, own); err == nil {
		t.Error("a tank of the shop's own is in the catalogue")
	}
	for _, err := range []error{k.RemoveProfile(ctx, own), k.SetProfileNotes(ctx, own, nil)} {
		var r *working.Refusal
		if !errors.As(err, &r) || r.Code != "refuse.keeper.no_profile" {
			t.Errorf("%v", err)
		}
	}
}

// A step of First fill, as a shop answers it for others, asks for nothing that is
// done or confirmed at home; what is only the keeper's is refused.
func TestProfileIsAnsweredByFirstFill(t *testing.T) {
	ctx, k := context.Background(), open(t, t.TempDir(), noon())
	defer k.Close()
	id, err := k.StartProfile(ctx, "Starter", quantity.Metric)
	must(t, err)
	fields := 0
	for _, step := range care.Steps() {
		if !slip.Marked(step) {
			if err := k.CarryOn(ctx, id, step); err == nil {
				t.Errorf("%s was finished at the counter", step)
			}
			continue
		}
		v, _, err := k.FirstFill(ctx, id, step)
		must(t, err)
		if v.Page.State != care.Open || len(v.Page.Ticks) > 0 || len(v.Page.Blocked) > 0 {
			t.Errorf("%s is %s with %d ticks, waiting for %v", step, v.Page.State, len(v.Page.Ticks), v.Page.Blocked)
		}
		if v.Page.Carry != "label.carry_on" { // "It is filled" would be said of a tank that there is not
			t.Errorf("%s is left by %s", step, v.Page.Carry)
		}
		for _, n := range v.Page.Notes {
			if n.ConfirmedIn(step) {
				t.Errorf("%s: %s is to be confirmed", step, n.ID)
			}
		}
		for _, f := range v.Page.Fields {
			fields++
			if !slip.Settable(f.Field.ID) {
				t.Errorf("%s is asked", f.Field.ID)
			}
		}
		must(t, k.CarryOn(ctx, id, step))
	}
	if fields < 40 {
		t.Errorf("%d fields were asked", fields)
	}
	p, err := k.ProfileOf(ctx, id)
	must(t, err)
	if len(p.Answers) < 35 || p.Answers["settle.target"].Measure != (quantity.Measure{Number: "25", Unit: "degc"}) {
		t.Errorf("carrying on kept %d of the proposals", len(p.Answers))
	}
	if _, ok := p.Answers["floor.kind"]; ok || len(p.Marks) != 0 {
		t.Errorf("carrying on answered for the family's home, marks %v", p.Marks)
	}
	for _, own := range []care.FieldID{"stand.confirmed", "rinse.tank", "plug.heater", "kit.tank.have"} {
		var r *working.Refusal
		if err := k.Set(ctx, id, keeper.Edit{Field: own, Option: care.Ticked}); !errors.As(err, &r) {
			t.Errorf("%s: %v", own, err)
		}
	}
	r, err := k.Today(ctx, id)
	if err != nil || len(r.Last) != 0 {
		t.Errorf("the profile has a daybook: %+v %v", r.Last, err)
	}
	// Of the first fish it is said how many are too many, not that no test was made.
	v, _, err := k.FirstFill(ctx, id, care.FirstFish)
	must(t, err)
	if v.Page.Verdict != nil {
		t.Errorf("the first fish of a profile wait for %+v", v.Page.Verdict)
	}
	set(t, k, id, "fish.count", "9 piece")
	v, _, err = k.FirstFill(ctx, id, care.FirstFish)
	must(t, err)
	if x := v.Page.Verdict; x == nil || len(x.Lines) != 1 || x.Lines[0].Code != "find.care.fish_many" {
		t.Errorf("of nine at once it is said %+v", x)
	}
}

// What is handed out is an edition: the same again is the same one byte for byte, a
// change makes the next, and each family stands in the record.
func TestHandOuts(t *testing.T) {
	ctx, dir, c := context.Background(), t.TempDir(), noon()
	k := open(t, filepath.Join(dir, "shop"), c)
	defer k.Close()
	must(t, k.SetShop(ctx, slip.Shop{Name: "Corner shop"}, map[string]string{"en": "Bring a sample of water."}))
	id, err := k.StartProfile(ctx, "Starter", quantity.Metric)
	must(t, err)
	must(t, k.SetProfileNotes(ctx, id, map[string]string{"en": "Feed little."}))
	path := filepath.Join(dir, "a.dlprofile")
	edition := func(label string) (int, []byte) {
		t.Helper()
		r, err := k.HandOutFile(ctx, id, path, label)
		must(t, err)
		data, err := os.ReadFile(path)
		must(t, err)
		p, _, err := slip.ReadProfile(bytes.NewReader(data), int64(len(data)))
		if err != nil || p.Edition != r.Profile.Edition || p.Signature != r.Profile.Signature || !p.Signature.Signed() {
			t.Fatalf("%+v %v", p, err)
		}
		if !reflect.DeepEqual(p, r.Profile) {
			t.Fatalf("read\n%+v\nhanded out\n%+v", p, r.Profile)
		}
		return p.Edition, data
	}
	n, first := edition("Family 1")
	again, second := edition("")
	if n != 1 || again != 1 || !bytes.Equal(first, second) {
		t.Errorf("editions %d and %d", n, again)
	}
	set(t, k, id, "heater.watts", "75 W")
	if w, err := k.ProfileInWork(ctx, id); err != nil || !w.Changed || w.Edition != 1 || w.Profile.Edition != 2 || w.Profile.Notes["en"] != "Feed little.\n\nBring a sample of water." {
		t.Errorf("after a change: %+v %v", w, err)
	}
	c.t = c.t.Add(time.Hour)
	if n, _ := edition("Family 2"); n != 2 {
		t.Errorf("after a change: edition %d", n)
	}
	r, err := k.PrepareHandOut(ctx, id)
	must(t, err)
	must(t, k.NoteHandOuts(ctx, id, r, keeper.BySheet, "Family 3", "", ""))
	outs, err := k.HandOuts(ctx, id)
	must(t, err)
	var got []string
	for _, o := range outs {
		got = append(got, string(o.Way)+" "+o.Label)
	}
	slices.Sort(got)
	if want := []string{"file ", "file Family 1", "file Family 2", "sheet ", "sheet ", "sheet Family 3"}; !slices.Equal(got, want) {
		t.Errorf("the record says %v", got)
	}
	for _, o := range outs {
		if o.Label == "Family 3" {
			must(t, k.ForgetHandOut(ctx, id, o.ID))
		}
	}
	if outs, _ = k.HandOuts(ctx, id); len(outs) != 6 || slices.ContainsFunc(outs, func(o keeper.HandOut) bool { return o.Label == "Family 3" }) {
		t.Errorf("after forgetting a name: %+v", outs)
	}
	if label, _, _ := k.UndoLabel(ctx, id); label != "undo.answer" {
		t.Errorf("a hand-out can be taken back: %s", label)
	}
	many := make([]string, keeper.MaxSheets+1)
	if err := k.NoteHandOuts(ctx, id, r, keeper.BySheet, many...); err == nil {
		t.Error("51 sheets at a time")
	}
}

// A profile that fails its own stand check is handed out with the mark of it, and
// the keeper's side says so; where somebody took the mark off, the keeper's own
// check says it.
func TestMarkOfAFailedCheck(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	k := open(t, filepath.Join(dir, "shop"), noon())
	defer k.Close()
	id, err := k.StartProfile(ctx, "Heavy", quantity.Metric)
	must(t, err)
	good, err := k.ProfileInWork(ctx, id)
	if err != nil || len(good.Failed) != 0 || len(good.Profile.Marks) != 0 {
		t.Fatalf("as proposed: %v %v", good.Failed, err)
	}
	set(t, k, id, "stand.kind", "bought")
	set(t, k, id, "stand.rated", "20 kg")
	w, err := k.ProfileInWork(ctx, id)
	must(t, err)
	if want := []care.Step{care.StandFloor}; !slices.Equal(w.Failed, want) || !slices.Equal(w.Profile.Marks, want) {
		t.Fatalf("a stand for 20 kg: %v, marks %v", w.Failed, w.Profile.Marks)
	}
	path := filepath.Join(dir, "a.dlprofile")
	_, err = k.HandOutFile(ctx, id, path, "")
	must(t, err)
	home := open(t, filepath.Join(dir, "home"), noon())
	defer home.Close()
	codes := func() []string {
		_, found, err := home.OpenProfile(ctx, path)
		must(t, err)
		var out []string
		for _, f := range found {
			out = append(out, string(f.Code))
		}
		return out
	}
	if got := codes(); !slices.Contains(got, "find.slip.mark") || slices.Contains(got, "find.slip.fails") {
		t.Errorf("found %v", got)
	}
	p, _, err := home.OpenProfile(ctx, path)
	must(t, err)
	tank, err := home.TakeProfile(ctx, p)
	must(t, err)
	if h, ok, err := home.HandedBy(ctx, tank); !ok || err != nil || !slices.Equal(h.Marks, p.Marks) || h.Edition != 1 {
		t.Errorf("%+v %v", h, err)
	}
	p.Marks = nil
	plain(t, path, p)
	if got := codes(); slices.Contains(got, "find.slip.mark") || !slices.Contains(got, "find.slip.fails") {
		t.Errorf("without its mark: %v", got)
	}
}

// The care plan and the feeding of a profile go through a file, are taken in one
// step, are proposed as the shop's and stay marked until somebody changes them; the
// settings of the daybook stay as they were.
func TestPlanAndFeedingOfAProfile(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	shop := open(t, filepath.Join(dir, "shop"), noon())
	defer shop.Close()
	id, err := shop.StartProfile(ctx, "Starter", quantity.Metric)
	must(t, err)
	offer, err := shop.ProposeRounds(ctx, id, keeper.RoundBasis{})
	must(t, err)
	var take []keeper.Taking
	for _, p := range offer.Proposals {
		take = append(take, keeper.Taking{Proposal: p})
	}
	must(t, shop.TakeRounds(ctx, id, keeper.RoundBasis{}, take))
	_, err = shop.AddRound(ctx, id, rounds.Round{Code: rounds.Own, Title: "Show us a water sample", Rule: rounds.MustRule("FREQ=MONTHLY;BYMONTHDAY=5"), Start: "2026-12-05T17:00"})
	must(t, err)
	must(t, shop.SetFeedingBasis(ctx, id, keeper.FeedingBasis{Share: quantity.Measure{Number: "1.2", Unit: "percent"}, Fasting: keeper.Weekdays{time.Sunday: true, time.Wednesday: true}}))
	if label, _, ok := shop.UndoLabel(ctx, id); !ok || label != "undo.draft_feeding" {
		t.Errorf("feeding is undone as %s", label)
	}
	path := filepath.Join(dir, "a.dlprofile")
	_, err = shop.HandOutFile(ctx, id, path, "")
	must(t, err)

	home := open(t, filepath.Join(dir, "home"), noon())
	defer home.Close()
	p, found, err := home.OpenProfile(ctx, path)
	if err != nil || len(found) != 1 || len(p.Plan) != len(take)+1 {
		t.Fatalf("%d rounds, %v, %v", len(p.Plan), found, err)
	}
	tank, err := home.TakeProfile(ctx, p)
	must(t, err)
	if all, err := home.Rounds(ctx, tank); err != nil || len(all.All) != 0 {
		t.Errorf("taking it began %d rounds, %v", len(all.All), err)
	}
	if _, ok, _ := home.Setting(ctx, "feeding."+tank); ok {
		t.Error("taking it wrote a setting")
	}
	b, err := home.FeedingBasisOf(ctx, tank)
	if err != nil || b.Share.Number != "1.2" || !slices.Equal(b.Fasting.List(), []time.Weekday{time.Wednesday, time.Sunday}) {
		t.Errorf("feeding %+v %v", b, err)
	}
	offer, err = home.ProposeRounds(ctx, tank, keeper.RoundBasis{})
	must(t, err)
	code := func(c rounds.Code) (rounds.Proposal, bool) {
		i := slices.IndexFunc(offer.Proposals, func(p rounds.Proposal) bool { return p.Code == c })
		if i < 0 {
			return rounds.Proposal{}, false
		}
		return offer.Proposals[i], true
	}
	if own, ok := code(rounds.Own); !ok || !own.FromShop || own.Title != "Show us a water sample" || own.Start != "2026-12-05T17:00" {
		t.Errorf("the shop's own round is %+v", own)
	}
	if glass, ok := code(rounds.Glass); !ok || !glass.FromShop || glass.Why[0].Code != "why.rounds.shop" {
		t.Errorf("the glass is %+v", glass)
	}
	if _, ok := code(rounds.Feed); ok {
		t.Error("feeding is proposed for a tank without fish")
	}
	// A young filter is tested daily, whatever the plan says.
	if test, ok := code(rounds.Test); !ok || test.FromShop || test.Rule.String() != "FREQ=DAILY" {
		t.Errorf("the test is %+v", test)
	}
	take = nil
	for _, p := range offer.Proposals {
		take = append(take, keeper.Taking{Proposal: p, Note: p.Note})
	}
	must(t, home.TakeRounds(ctx, tank, keeper.RoundBasis{}, take))
	all, err := home.Rounds(ctx, tank)
	must(t, err)
	for _, s := range all.All {
		if s.FromShop != (s.Code != rounds.Test) {
			t.Errorf("%s is from the shop: %v", s.Code, s.FromShop)
		}
		if s.Code == rounds.Glass {
			s.Round.Rule = rounds.MustRule("FREQ=WEEKLY;INTERVAL=2;BYDAY=SA")
			must(t, home.ChangeRound(ctx, tank, s.Round))
		}
	}
	all, err = home.Rounds(ctx, tank)
	must(t, err)
	for _, s := range all.All {
		if s.Code == rounds.Glass && s.FromShop {
			t.Error("a round that was changed is still the shop's")
		}
	}
	_, err = home.AddEntry(ctx, tank, journal.Entry{Kind: journal.FishIn, Readings: []journal.Reading{{Name: journal.NameCount, Measure: quantity.Measure{Number: "6", Unit: "piece"}}}, At: "2026-11-24T10:00", Zone: "+01:00"})
	must(t, err)
	must(t, home.SetFeedingBasis(ctx, tank, keeper.FeedingBasis{Share: quantity.Measure{Number: "1.5", Unit: "percent"}}))
	f, err := home.Feeding(ctx, tank)
	if err != nil || f.FromShop || f.Basis.Share.Number != "1.5" {
		t.Errorf("after a person set it: %+v %v", f.Basis, err)
	}
}
