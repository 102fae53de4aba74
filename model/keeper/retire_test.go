package keeper_test

import (
	"context"
	"errors"
	"io"
	"path/filepath"
	"testing"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/working"
)

// A tank out of use stays readable, its rounds rest, and undo and taking it into
// use again bring them back.
func TestARetiredTankRests(t *testing.T) {
	ctx := context.Background()
	k, tank := taken(t, noon())
	states := func() (resting, running int) {
		v, err := k.Rounds(ctx, tank)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range v.All {
			if s.State == rounds.Paused || s.State == rounds.Over {
				resting++
			} else {
				running++
			}
		}
		return resting, running
	}
	_, before := states()
	if before == 0 {
		t.Fatal("nothing recurs at the example")
	}
	retired := func() bool {
		ts, err := k.Tanks(ctx)
		if err != nil || len(ts) != 1 {
			t.Fatal(ts, err)
		}
		return !ts[0].Retired.IsZero()
	}
	if err := k.RetireTank(ctx, tank); err != nil {
		t.Fatal(err)
	}
	if _, running := states(); running != 0 || !retired() {
		t.Errorf("%d rounds go on", running)
	}
	if l, err := k.Ledger(ctx, tank, keeper.LedgerFilter{}); err != nil || l.Len() == 0 {
		t.Errorf("the daybook cannot be read: %v", err)
	}
	if label, _, err := k.Undo(ctx, tank); err != nil || label != "undo.tank_retire" {
		t.Fatalf("%s, %v", label, err)
	}
	if _, running := states(); running != before || retired() {
		t.Errorf("after undo %d of %d rounds run", running, before)
	}
	for range 2 { // a second time changes nothing
		if err := k.RetireTank(ctx, tank); err != nil {
			t.Fatal(err)
		}
	}
	if err := k.ReuseTank(ctx, tank); err != nil {
		t.Fatal(err)
	}
	if _, running := states(); running != before || retired() {
		t.Errorf("in use again %d of %d rounds run", running, before)
	}
}

// What is of a tank out of use stays as it is: every way to write into it says so
// and how to take it back; it is read, printed from and written to a file as before.
func TestARetiredTankStaysAsItIs(t *testing.T) {
	ctx := context.Background()
	k, tank := taken(t, noon())
	fed, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Fed})
	must(t, err)
	sickID, err := k.OpenCase(ctx, tank, keeper.Who{About: "the pale one"}, sick.One)
	must(t, err)
	v, err := k.Rounds(ctx, tank)
	must(t, err)
	round := v.All[0]
	must(t, k.RetireTank(ctx, tank))
	for name, write := range map[string]func() error{
		"an entry": func() error { _, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Fed}); return err },
		"an edit": func() error {
			return k.EditEntry(ctx, tank, journal.Entry{ID: fed, Kind: journal.Fed, At: "2026-11-24T09:00", Note: "late"})
		},
		"deleting": func() error { return k.DeleteEntry(ctx, tank, fed) },
		"a round": func() error {
			_, err := k.AddRound(ctx, tank, rounds.Round{Code: rounds.Feed, Rule: rounds.Weekly(), Start: "2026-11-26T09:00"})
			return err
		},
		"a pause": func() error { return k.PauseRound(ctx, tank, round.ID, false) },
		"a case":  func() error { _, err := k.OpenCase(ctx, tank, keeper.Who{About: "another"}, sick.One); return err },
		"closing": func() error { return k.CloseCase(ctx, tank, sickID, keeper.Well, "", nil) },
		"a fish":  func() error { _, err := k.AddFish(ctx, tank, keeper.Fish{Name: "Otto", Count: 1}); return err },
		"away": func() error {
			_, err := k.AddAway(ctx, tank, keeper.Away{First: "2026-12-01", Last: "2026-12-03"}, false, "")
			return err
		},
		"pictures": func() error {
			_, err := k.AddPhotos(ctx, tank, []photo.Source{{Path: t.TempDir()}}, keeper.AddOptions{}, nil)
			return err
		},
		"First fill": func() error {
			return k.Set(ctx, tank, keeper.Edit{Field: "room.low", Text: "18 °C"})
		},
	} {
		var r *working.Refusal
		if err := write(); !errors.As(err, &r) || r.Field != "tank" || r.Code != "refuse.keeper.retired" {
			t.Errorf("%s: %v", name, err)
		}
	}
	days, err := k.Days(ctx, tank)
	if err != nil || len(days) == 0 {
		t.Errorf("it cannot be read: %v", err)
	}
	if did, err := k.SaveArchive(ctx, filepath.Join(t.TempDir(), "all.dlarchive"), keeper.ArchiveOptions{Language: "en", Page: func(w io.Writer, c keeper.Contents) error { return nil }}, nil); err != nil {
		t.Errorf("it cannot be written out: %+v, %v", did, err)
	}
	must(t, k.RenameTank(ctx, tank, "The old one"))
	must(t, k.ReuseTank(ctx, tank))
	_, err = k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Fed})
	must(t, err)
}

// What is waited for at a tank ends when it goes out of use, and runs on when that
// is taken back.
func TestTimersOfARetiredTankEnd(t *testing.T) {
	ctx := context.Background()
	k, tank := taken(t, noon())
	must(t, k.StartTimer(ctx, tank))
	runs := func() bool {
		v, _, err := k.FirstFill(ctx, tank, care.HomeComing)
		must(t, err)
		return v.Page.Curve != nil && v.Page.Curve.Timer != nil && !v.Page.Curve.Timer.Ended
	}
	if !runs() {
		t.Fatal("the timer does not run")
	}
	must(t, k.RetireTank(ctx, tank))
	if runs() {
		t.Error("the timer of a tank out of use runs on")
	}
	if _, _, err := k.Undo(ctx, tank); err != nil || !runs() {
		t.Errorf("taken back, the timer does not run: %v", err)
	}
}
