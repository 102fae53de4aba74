package keeper_test

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/working"
)

func started(t *testing.T) (*keeper.Keeper, *clock, string) {
	t.Helper()
	c := noon()
	k := open(t, t.TempDir(), c)
	t.Cleanup(func() { k.Close() })
	id, err := k.StartTank(context.Background(), "Hall", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	return k, c, id
}

func refused(t *testing.T, err error, code working.Key) {
	t.Helper()
	var r *working.Refusal
	if !errors.As(err, &r) || r.Code != code {
		t.Errorf("got %v, want the refusal %s", err, code)
	}
}

// A case goes from the first sign to its closing, counted by civil days, and
// every step of it can be taken back and made again.
func TestCaseFromOpeningToClosing(t *testing.T) {
	ctx := context.Background()
	k, c, tank := started(t)
	id, err := k.OpenCase(ctx, tank, keeper.Who{About: "  the  grey   danio "}, sick.One, "clamped_fins", "clamped_fins")
	must(t, err)
	second, err := k.OpenCase(ctx, tank, keeper.Who{}, "")
	must(t, err)
	must(t, k.TickSign(ctx, tank, id, "not_eating"))
	must(t, k.TickSign(ctx, tank, id, "not_eating"))
	_, err = k.NoteCase(ctx, tank, id, "Stays behind the filter.")
	must(t, err)
	c.t = time.Date(2026, 11, 27, 0, 5, 0, 0, c.t.Location()) // a minute past midnight counts as another day
	v, err := k.Case(ctx, tank, id)
	must(t, err)
	if v.Case.Day != 3 || v.Case.About != "the grey danio" || len(v.Entries) != 1 || len(v.Case.Signs) != 2 || v.Case.Looked {
		t.Errorf("case is %+v with %d entries", v.Case, len(v.Entries))
	}
	if v.Urgency.Level != sick.TwoDays || v.Urgency.Vet.Code != "find.sick.vet_lasting" || v.Urgency.State != working.Act {
		t.Errorf("urgency %v, vet %s, state %v", v.Urgency.Level, v.Urgency.Vet.Code, v.Urgency.State)
	}
	must(t, k.UntickSign(ctx, tank, id, "not_eating"))
	if v, _ = k.Case(ctx, tank, id); len(v.Case.Signs) != 2 || v.Case.Signs[1].Gone == "" || len(v.Urgency.Signs) != 1 {
		t.Errorf("a sign that went is %+v, urgent are %v", v.Case.Signs, v.Urgency.Signs)
	}
	must(t, k.CloseCase(ctx, tank, id, keeper.Well, "Eats again.", nil))
	refused(t, k.TickSign(ctx, tank, id, "flashing"), "refuse.keeper.case_closed")
	refused(t, k.CloseCase(ctx, tank, id, keeper.Died, "", nil), "refuse.keeper.case_closed")
	cs, err := k.Cases(ctx, tank)
	must(t, err)
	if len(cs) != 2 || cs[0].ID != second || cs[1].Open() || cs[1].Outcome != keeper.Well {
		t.Errorf("cases are %+v", cs)
	}
	undone := []working.Key{"undo.case_close", "undo.sign_untick", "undo.entry_add", "undo.sign_tick", "undo.case_open", "undo.case_open"}
	for _, want := range undone {
		if got, _, err := k.Undo(ctx, tank); err != nil || got != want {
			t.Fatalf("undo took back %s (%v), want %s", got, err, want)
		}
	}
	if cs, _ := k.Cases(ctx, tank); len(cs) != 0 {
		t.Errorf("%d cases are left after undo", len(cs))
	}
	for range undone {
		_, _, err := k.Redo(ctx, tank)
		must(t, err)
	}
	if again, err := k.Cases(ctx, tank); err != nil || len(again) != 2 || again[1].Note != "Eats again." {
		t.Errorf("after redo: %+v, %v", again, err)
	}
	must(t, k.ReopenCase(ctx, tank, id))
	must(t, k.DeleteCase(ctx, tank, id))
	_, err = k.Case(ctx, tank, id)
	refused(t, err, "refuse.keeper.no_case")
}

// A tick that was a slip leaves no trace; one of another day stays with its end.
func TestUntickSameDayIsASlip(t *testing.T) {
	ctx := context.Background()
	k, c, tank := started(t)
	id, err := k.OpenCase(ctx, tank, keeper.Who{}, "", "flashing")
	must(t, err)
	must(t, k.UntickSign(ctx, tank, id, "flashing"))
	if v, _ := k.Case(ctx, tank, id); len(v.Case.Signs) != 0 {
		t.Errorf("signs are %+v", v.Case.Signs)
	}
	must(t, k.TickSign(ctx, tank, id, "flashing"))
	c.t = c.t.Add(24 * time.Hour)
	must(t, k.UntickSign(ctx, tank, id, "flashing"))
	must(t, k.TickSign(ctx, tank, id, "flashing"))
	v, err := k.Case(ctx, tank, id)
	must(t, err)
	if len(v.Case.Signs) != 2 || len(v.Urgency.Signs) != 1 {
		t.Errorf("signs are %+v", v.Case.Signs)
	}
}

func TestCaseRefusals(t *testing.T) {
	ctx := context.Background()
	k, _, tank := started(t)
	_, err := k.OpenCase(ctx, tank, keeper.Who{Fish: "nobody"}, "")
	refused(t, err, "refuse.keeper.no_fish")
	_, err = k.OpenCase(ctx, tank, keeper.Who{}, "a few")
	refused(t, err, "refuse.keeper.many")
	_, err = k.OpenCase(ctx, tank, keeper.Who{}, "", "blue")
	refused(t, err, "refuse.keeper.no_sign")
	id, err := k.OpenCase(ctx, tank, keeper.Who{}, "")
	must(t, err)
	refused(t, k.TickSign(ctx, tank, id, "blue"), "refuse.keeper.no_sign")
	refused(t, k.TickSign(ctx, tank, "none", "flashing"), "refuse.keeper.no_case")
	refused(t, k.CloseCase(ctx, tank, id, "", "", nil), "refuse.keeper.outcome")
	_, err = k.NoteCase(ctx, tank, id, "  ")
	refused(t, err, "refuse.journal.empty")
	_, err = k.AddFish(ctx, tank, keeper.Fish{Name: "Blue", Count: 0})
	refused(t, err, "refuse.keeper.fish_count")
	_, err = k.AddFish(ctx, tank, keeper.Fish{Name: " ", Count: 1})
	refused(t, err, "refuse.missing")
}

// The fish offered are those that came in, once each, and not those that have a
// name already.
func TestArrivalsAndNames(t *testing.T) {
	ctx := context.Background()
	k, _, tank := started(t)
	for _, note := range []string{"Zebra danio", "cherry barb", "zebra  danio", ""} {
		_, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.FishIn, Note: note})
		must(t, err)
	}
	id, err := k.AddFish(ctx, tank, keeper.Fish{Name: "Cherry barb", Count: 4})
	must(t, err)
	got, err := k.Arrivals(ctx, tank)
	must(t, err)
	if !slices.Equal(got, []string{"zebra danio"}) {
		t.Errorf("arrivals are %q", got)
	}
	sickID, err := k.OpenCase(ctx, tank, keeper.Who{Fish: id}, sick.Several)
	must(t, err)
	must(t, k.RenameFish(ctx, tank, id, "The four barbs"))
	v, err := k.Case(ctx, tank, sickID)
	must(t, err)
	if v.Case.About != "The four barbs" {
		t.Errorf("the case is about %q", v.Case.About)
	}
	fish, err := k.FishOf(ctx, tank)
	if err != nil || len(fish) != 1 || fish[0].Count != 4 || fish[0].Since.Day() != "2026-11-25" {
		t.Errorf("fish are %+v, %v", fish, err)
	}
}

// The water raises the urgency only while the test is fresh.
func TestWaterRaisesWhileFresh(t *testing.T) {
	ctx := context.Background()
	k, c, tank := started(t)
	_, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{
		{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "5", Unit: "mg/l", Basis: quantity.AsIon}}}})
	must(t, err)
	id, err := k.OpenCase(ctx, tank, keeper.Who{}, "", "pale_colour")
	must(t, err)
	v, err := k.Case(ctx, tank, id)
	must(t, err)
	if v.Urgency.Level != sick.SameDay || !v.Fresh || v.Water == nil || v.Water.State != working.Act {
		t.Errorf("level %v with water %+v", v.Urgency.Level, v.Water)
	}
	for _, n := range v.Tests {
		if n.Fresh != (n.Name == journal.NameNitrite) {
			t.Errorf("%s is fresh: %v", n.Name, n.Fresh)
		}
	}
	c.t = c.t.Add(25 * time.Hour)
	if v, _ = k.Case(ctx, tank, id); v.Urgency.Level != sick.Watch || v.Fresh {
		t.Errorf("a day later: level %v, fresh %v", v.Urgency.Level, v.Fresh)
	}
}

// Each safety note that a sign asks for is one that can be shown.
func TestEveryCautionIsANote(t *testing.T) {
	ctx := context.Background()
	k, _, tank := started(t)
	for _, s := range sick.Signs() {
		id, err := k.OpenCase(ctx, tank, keeper.Who{}, "", s.Code)
		must(t, err)
		v, err := k.Case(ctx, tank, id)
		must(t, err)
		if len(v.Notes) != len(sick.Notes([]sick.Sign{s})) || len(v.Notes) == 0 {
			t.Errorf("%s shows %d notes", s.Code, len(v.Notes))
		}
	}
}
