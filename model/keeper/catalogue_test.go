package keeper

import (
	"context"
	"fmt"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
)

// TestAnotherCatalogue (D2-12): a daybook with animals that this program's catalogue
// does not have, as after an update that removed or renamed them, is read, counted,
// shown, changed and carried elsewhere, and no row of it is touched.
func TestAnotherCatalogue(t *testing.T) {
	ctx := context.Background()
	dir := t.TempDir()
	k := openAt(t, dir)
	tank, err := k.StartTank(ctx, "Hall", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	unknown := []string{"of-yesterday", "Of Yesterday", "x", "ünbekannt", "zebra_danio_"}
	for i, s := range unknown {
		id := fmt.Sprint("f", i)
		row := store.Row{"id": id, "tank": tank, "name": "", "species": s, "count": int64(i + 1), "since": "2026-11-01"}
		if err := k.apply(ctx, store.Change{Tank: tank, Label: "undo.fish_add", At: stamp(still()), Ops: []store.Op{{Table: "fish", After: row}}}); err != nil {
			t.Fatal(err)
		}
	}
	before, err := k.whole(ctx)
	if err != nil {
		t.Fatal(err)
	}
	look := func(k *Keeper) {
		t.Helper()
		fs, err := k.FishOf(ctx, tank)
		if err != nil || len(fs) != len(unknown) {
			t.Fatalf("%d fish, %v", len(fs), err)
		}
		for i, f := range fs {
			if f.Species != unknown[i] || f.Count != i+1 {
				t.Errorf("%+v", f)
			}
		}
		ls, err := k.Stock(ctx, tank)
		if err != nil || len(ls) != len(unknown) {
			t.Errorf("%d live there, %v", len(ls), err)
		}
		if _, err := k.Today(ctx, tank); err != nil {
			t.Error(err)
		}
		if err := k.RenameFish(ctx, tank, "f0", "Old one"); err != nil {
			t.Error(err)
		}
		if _, _, err := k.Undo(ctx, tank); err != nil {
			t.Error(err)
		}
		after, err := k.whole(ctx)
		if err != nil {
			t.Fatal(err)
		}
		for name, rows := range before.rows {
			if got, want := fmt.Sprint(after.rows[name]), fmt.Sprint(rows); got != want {
				t.Errorf("%s is now\n%s\nand was\n%s", name, got, want)
			}
		}
	}
	look(k)
	to := openAt(t, t.TempDir())
	if _, err := to.TakeArchive(ctx, onDisk(t, archive(t, k)), nil); err != nil {
		t.Fatal(err)
	}
	look(to)
	if err := k.Close(); err != nil {
		t.Fatal(err)
	}
	look(openAt(t, dir))
	for _, s := range unknown {
		if _, err := fish.Get(fish.Code(s)); err == nil {
			t.Errorf("%s is in the catalogue", s)
		}
	}
	drill.Tally(t, "D2-12", "animals that the catalogue lacks, here, elsewhere and opened anew", 3*len(unknown), 0)
}
