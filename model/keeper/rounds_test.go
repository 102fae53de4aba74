package keeper_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
)

// taken opens an example tank with all of its usual rounds.
func taken(t *testing.T, c *clock) (*keeper.Keeper, string) {
	t.Helper()
	ctx := context.Background()
	k := open(t, t.TempDir(), c)
	t.Cleanup(func() {
		if err := k.Close(); err != nil {
			t.Error(err)
		}
	})
	tank, err := k.MakeExample(ctx, words())
	if err != nil {
		t.Fatal(err)
	}
	offer, err := k.ProposeRounds(ctx, tank, keeper.RoundBasis{})
	if err != nil || offer.Refused != nil {
		t.Fatal(err, offer.Refused)
	}
	var take []keeper.Taking
	for _, p := range offer.Proposals {
		if len(p.Why) == 0 {
			t.Errorf("%s is proposed without a reason", p.Code)
		}
		take = append(take, keeper.Taking{Proposal: p})
	}
	if err := k.TakeRounds(ctx, tank, offer.Basis, take); err != nil {
		t.Fatal(err)
	}
	return k, tank
}

func standing(t *testing.T, k *keeper.Keeper, tank string, code rounds.Code) rounds.Standing {
	t.Helper()
	v, err := k.Rounds(context.Background(), tank)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range v.All {
		if s.Code == code {
			return s
		}
	}
	t.Fatalf("no round %s", code)
	return rounds.Standing{}
}

func refusedField(t *testing.T, err error, field string) {
	t.Helper()
	var r *working.Refusal
	if !errors.As(err, &r) || r.Field != field {
		t.Errorf("%v, want a refusal of %q", err, field)
	}
}

// Taking up the usual rounds is one step back.
func TestTakingRoundsIsOneUndo(t *testing.T) {
	ctx, c := context.Background(), noon()
	k, tank := taken(t, c)
	v, err := k.Rounds(ctx, tank)
	if err != nil || len(v.All) < 8 {
		t.Fatal(len(v.All), err)
	}
	if label, _, err := k.Undo(ctx, tank); err != nil || label != "undo.rounds_take" {
		t.Fatal(label, err)
	}
	if v, err = k.Rounds(ctx, tank); err != nil || len(v.All) != 0 {
		t.Errorf("%d rounds are left, %v", len(v.All), err)
	}
	if _, _, err := k.Redo(ctx, tank); err != nil {
		t.Fatal(err)
	}
}

// Doing a round writes its entry; one undo takes both back; deleting the entry in
// the daybook brings the occurrence back, and it can be done again.
func TestDoingARound(t *testing.T) {
	ctx, c := context.Background(), noon()
	k, tank := taken(t, c)
	s := standing(t, k, tank, rounds.Glass)
	at, _ := s.Next.Parse()
	c.t = time.Date(at.Year(), at.Month(), at.Day(), 12, 0, 0, 0, c.t.Location())
	s = standing(t, k, tank, rounds.Glass)
	if s.State != rounds.Due || s.Missed != 1 {
		t.Fatalf("%+v", s)
	}
	do := keeper.Doing{Round: s.ID, Due: s.Newest.Due}
	if err := k.DoRound(ctx, tank, do); err != nil {
		t.Fatal(err)
	}
	refusedField(t, k.DoRound(ctx, tank, do), "due")
	done := standing(t, k, tank, rounds.Glass)
	if done.State != rounds.Coming || done.Newest.State != rounds.Done || done.Newest.Entry == "" {
		t.Fatalf("%+v", done)
	}
	if _, _, err := k.Undo(ctx, tank); err != nil {
		t.Fatal(err)
	}
	if s = standing(t, k, tank, rounds.Glass); s.State != rounds.Due {
		t.Fatalf("after undo: %+v", s)
	}
	if _, _, err := k.Redo(ctx, tank); err != nil {
		t.Fatal(err)
	}
	done = standing(t, k, tank, rounds.Glass)
	if err := k.DeleteEntry(ctx, tank, done.Newest.Entry); err != nil {
		t.Fatal(err)
	}
	if s = standing(t, k, tank, rounds.Glass); s.State != rounds.Due {
		t.Fatalf("after the entry went: %+v", s)
	}
	if err := k.DoRound(ctx, tank, do); err != nil {
		t.Fatal(err)
	}
}

// A test written by hand does the test round of that day; a test without a
// reading does not.
func TestEntriesByHandDoRounds(t *testing.T) {
	ctx, c := context.Background(), noon()
	k, tank := taken(t, c)
	s := standing(t, k, tank, rounds.Test)
	at, err := s.Next.Parse()
	if err != nil {
		t.Fatal(err)
	}
	c.t = time.Date(at.Year(), at.Month(), at.Day(), 19, 0, 0, 0, c.t.Location()) // the evening of the day it is due
	s = standing(t, k, tank, rounds.Test)
	if s.State != rounds.Due {
		t.Fatalf("%+v", s)
	}
	refusedField(t, k.DoRound(ctx, tank, keeper.Doing{Round: s.ID, Due: s.Newest.Due}), "entry")
	id, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{
		{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0.1", Unit: "mg/l", Basis: quantity.AsIon}}}})
	if err != nil {
		t.Fatal(err)
	}
	if s = standing(t, k, tank, rounds.Test); s.State != rounds.Coming || s.Newest.Entry != id {
		t.Errorf("%+v", s)
	}
}

// Late says how many civil days, skipping keeps its reason, and doing late moves
// nothing unless asked.
func TestLateAndSkipped(t *testing.T) {
	ctx, c := context.Background(), noon()
	k, tank := taken(t, c)
	s := standing(t, k, tank, rounds.Glass)
	at, _ := s.Next.Parse()
	c.t = time.Date(at.Year(), at.Month(), at.Day()+3, 9, 0, 0, 0, c.t.Location())
	if s = standing(t, k, tank, rounds.Glass); s.State != rounds.Late || s.DaysLate != 3 {
		t.Fatalf("%+v", s)
	}
	next := s.Next
	if err := k.SkipRound(ctx, tank, s.ID, s.Newest.Due, "  was\n ill ", false); err != nil {
		t.Fatal(err)
	}
	if s = standing(t, k, tank, rounds.Glass); s.State != rounds.Coming || s.Newest.State != rounds.Skipped || s.Newest.Reason != "was ill" || s.Next != next {
		t.Fatalf("%+v", s)
	}
	if _, _, err := k.Undo(ctx, tank); err != nil {
		t.Fatal(err)
	}
	s = standing(t, k, tank, rounds.Glass)
	if err := k.DoRound(ctx, tank, keeper.Doing{Round: s.ID, Due: s.Newest.Due, FromToday: true}); err != nil {
		t.Fatal(err)
	}
	s = standing(t, k, tank, rounds.Glass)
	want := rounds.Wall(c.t).AddDate(0, 0, 7).Format("2006-01-02")
	if s.State != rounds.Coming || s.Next.Day() != want {
		t.Errorf("counted from today: %+v, want next on %s", s, want)
	}
}

// A clock put forward ten years shows each round once, with how many were missed;
// put back, nothing is due that was not.
func TestClockJumps(t *testing.T) {
	ctx, c := context.Background(), noon()
	k, tank := taken(t, c)
	begun := c.t
	before, err := k.Rounds(ctx, tank)
	if err != nil {
		t.Fatal(err)
	}
	for _, jump := range []time.Duration{-24 * time.Hour, 24 * time.Hour, 8 * time.Hour, 3652 * 24 * time.Hour, -56 * 365 * 24 * time.Hour} {
		c.t = begun.Add(jump)
		v, err := k.Rounds(ctx, tank)
		if err != nil {
			t.Fatal(err)
		}
		if len(v.All) != len(before.All) || len(v.Late())+len(v.Due()) > len(v.All) {
			t.Errorf("%v: %d rounds, %d late, %d due", jump, len(v.All), len(v.Late()), len(v.Due()))
		}
		if jump < 0 && len(v.Late()) > 0 {
			t.Errorf("%v: %d late", jump, len(v.Late()))
		}
		for _, s := range v.All {
			if s.DaysLate < 0 || s.Missed < 0 || s.Missed > 401 {
				t.Errorf("%v: %s is %d days late, %d missed", jump, s.Code, s.DaysLate, s.Missed)
			}
		}
		if jump > 3000*24*time.Hour {
			if s := standing(t, k, tank, rounds.Look); s.State != rounds.Due || s.Missed < 300 {
				t.Errorf("after ten years: %+v", s)
			}
		}
	}
}

// Paused rounds are never late, and go on in step.
func TestPausing(t *testing.T) {
	ctx, c := context.Background(), noon()
	k, tank := taken(t, c)
	s := standing(t, k, tank, rounds.Filter)
	first, _ := s.Next.Parse()
	if err := k.PauseRound(ctx, tank, s.ID, true); err != nil {
		t.Fatal(err)
	}
	c.t = c.t.AddDate(0, 6, 0)
	if s = standing(t, k, tank, rounds.Filter); s.State != rounds.Paused {
		t.Fatalf("%+v", s)
	}
	if err := k.PauseRound(ctx, tank, s.ID, false); err != nil {
		t.Fatal(err)
	}
	s = standing(t, k, tank, rounds.Filter)
	at, _ := s.Next.Parse()
	if days := int(at.Sub(first).Hours() / 24); s.State != rounds.Coming || days%28 != 0 && at.Day() != first.Day() {
		t.Errorf("%+v, %d days after the first", s, days)
	}
}

// While one is away the neighbour feeds; the water change is moved before it; all
// in one change.
func TestAway(t *testing.T) {
	ctx, c := context.Background(), noon()
	k, tank := taken(t, c)
	change := standing(t, k, tank, rounds.Change)
	at, _ := change.Next.Parse()
	at = at.AddDate(0, 0, 7) // every week: the next but one, so that there is a day before it
	if _, err := k.AddRound(ctx, tank, rounds.Round{Code: rounds.Feed, Rule: rounds.MustRule("FREQ=DAILY"), Start: "2026-11-25T18:00"}); err != nil {
		t.Fatal(err)
	}
	a := keeper.Away{First: at.AddDate(0, 0, -3).Format("2006-01-02"), Last: at.AddDate(0, 0, 4).Format("2006-01-02"), Who: "Ana"}
	moved, err := k.MovedBy(ctx, tank, a)
	if err != nil || len(moved) != 1 || moved[0].To.Day() >= a.First {
		t.Fatalf("%+v %v", moved, err)
	}
	if _, err := k.AddAway(ctx, tank, a, true, "away"); err != nil {
		t.Fatal(err)
	}
	s := standing(t, k, tank, rounds.ChangeAgain)
	if s.Next != moved[0].To {
		t.Errorf("%+v", s)
	}
	c.t = time.Date(at.Year(), at.Month(), at.Day(), 23, 0, 0, 0, c.t.Location())
	if s = standing(t, k, tank, rounds.Feed); s.Newest.State != rounds.Handed || s.State != rounds.Coming {
		t.Errorf("feeding while away: %+v", s)
	}
	if s = standing(t, k, tank, rounds.Change); s.Newest.State != rounds.Skipped {
		t.Errorf("change while away: %+v", s)
	}
	if label, _, err := k.Undo(ctx, tank); err != nil || label != "undo.away_add" {
		t.Fatal(label, err)
	}
	if v, _ := k.Rounds(ctx, tank); len(v.Away) != 0 {
		t.Error("the time away is still there")
	}
	for field, bad := range map[string]keeper.Away{"first": {First: "tomorrow", Last: "2026-12-20"}, "last": {First: "2026-12-20", Last: "2026-12-19"}} {
		_, err := k.AddAway(ctx, tank, bad, false, "")
		refusedField(t, err, field)
	}
	_, err = k.AddAway(ctx, tank, keeper.Away{First: "2026-01-01", Last: "2026-12-19"}, false, "")
	refusedField(t, err, "last")
}

// What is refused changes nothing.
func TestRoundsRefused(t *testing.T) {
	ctx, c := context.Background(), noon()
	k, tank := taken(t, c)
	start := journal.Civil("2026-11-25T09:00")
	for field, r := range map[string]rounds.Round{"title": {Code: rounds.Own, Rule: rounds.Once(), Start: start}, "rule": {Code: rounds.Own, Title: "x", Start: start},
		"start": {Code: rounds.Own, Title: "x", Rule: rounds.Once(), Start: "soon"}, "code": {Code: "other", Rule: rounds.Once(), Start: start}} {
		_, err := k.AddRound(ctx, tank, r)
		refusedField(t, err, field)
	}
	refusedField(t, k.DeleteRound(ctx, tank, "nothing"), "round")
	refusedField(t, k.SkipRound(ctx, tank, standing(t, k, tank, rounds.Look).ID, "1999-01-01T08:00", "", false), "due")
	refusedField(t, k.TakeRounds(ctx, tank, keeper.RoundBasis{}, nil), "rounds")
	offer, err := k.ProposeRounds(ctx, tank, keeper.RoundBasis{Tap: quantity.Measure{Number: "45", Unit: "mg/l", Basis: quantity.AsIon}})
	if err != nil {
		t.Fatal(err)
	}
	refusedField(t, offer.Refused, "tap")
}
