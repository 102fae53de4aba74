package keeper_test

import (
	"context"
	"testing"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// After going back to a copy the daybook is that of the copy, also where it had been
// looked at before.
func TestGoingBackShowsTheCopysEntries(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	_, err = k.AddEntry(ctx, id, journal.Entry{Kind: journal.Note, Note: "before"})
	must(t, err)
	path, err := k.Snapshot(ctx)
	must(t, err)
	_, err = k.AddEntry(ctx, id, journal.Entry{Kind: journal.Note, Note: "after"})
	must(t, err)
	if days, err := k.Days(ctx, id); err != nil || len(days) != 1 || len(days[0].Entries) != 2 {
		t.Fatalf("%+v, %v", days, err)
	}
	_, err = k.GoBack(ctx, path)
	must(t, err)
	days, err := k.Days(ctx, id)
	must(t, err)
	if len(days) != 1 || len(days[0].Entries) != 1 || days[0].Entries[0].Note != "before" {
		t.Errorf("after going back: %+v", days)
	}
}
