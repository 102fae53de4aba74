package keeper_test

import (
	"context"
	"testing"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/rounds"
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
