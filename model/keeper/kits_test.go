package keeper_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// field is the field that an error refuses, "" for any other error.
func field(err error) string {
	var r *working.Refusal
	if errors.As(err, &r) {
		return r.Field
	}
	return ""
}

func card() journal.TestKit {
	return journal.TestKit{Name: "drops in the blue box", Reading: journal.NameAmmonia, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "0.25",
		Steps: []string{"0", "0.25", "0.5", "1", "2", "4"}}
}

func TestKitsAreKeptChangedAndUndone(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	k := open(t, dir, noon())
	id, err := k.AddKit(ctx, card())
	must(t, err)
	want := card()
	want.ID = id
	same := func(x journal.TestKit) {
		t.Helper()
		got, err := k.Kits(ctx)
		must(t, err)
		if len(got) != 1 || !slices.Equal(got[0].Steps, x.Steps) || got[0].Name != x.Name || got[0].Resolution != x.Resolution || got[0].Basis != x.Basis {
			t.Errorf("kits are %+v, want %+v", got, x)
		}
	}
	same(want)
	other := want
	other.Name, other.Steps, other.Resolution = "drops, new card", nil, "0.1"
	must(t, k.ChangeKit(ctx, other))
	same(other)
	tank, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	x := r(journal.NameAmmonia, "0.25", "mg/l", quantity.AsIon)
	x.Kit = id
	e, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{x}})
	must(t, err)
	must(t, k.DeleteKit(ctx, id))
	if got, _ := k.Kits(ctx); len(got) != 0 {
		t.Errorf("a deleted kit is listed: %+v", got)
	}
	if got, _ := k.Entry(ctx, tank, e); got.Readings[0].Kit != id {
		t.Error("the reading forgot its kit")
	}
	if field(k.DeleteKit(ctx, id)) != "kit" || field(k.ChangeKit(ctx, other)) != "kit" {
		t.Error("a kit that is gone was changed")
	}
	must(t, k.Close())
	k = open(t, dir, noon())
	defer k.Close()
	if label, _, err := k.Undo(ctx, ""); err != nil || label != "undo.kit_delete" {
		t.Fatalf("undo: %s, %v", label, err)
	}
	same(other)
}

func TestKitsThatCannotBeAreRefusedByField(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	for name, spoil := range map[string]func(*journal.TestKit){
		"name":       func(k *journal.TestKit) { k.Name = " " },
		"reading":    func(k *journal.TestKit) { k.Reading = journal.NameVolume },
		"unit":       func(k *journal.TestKit) { k.Unit = "cm" },
		"basis":      func(k *journal.TestKit) { k.Basis = "" },
		"resolution": func(k *journal.TestKit) { k.Resolution = "-1" },
		"steps":      func(k *journal.TestKit) { k.Steps = []string{"1", "0.5"} },
	} {
		x := card()
		spoil(&x)
		if _, err := k.AddKit(ctx, x); field(err) != name {
			t.Errorf("%s: %v", name, err)
		}
	}
	x := card()
	x.Steps = []string{"0", "5000"} // beyond what is believed of ammonia
	if _, err := k.AddKit(ctx, x); field(err) != "steps" {
		t.Errorf("unbelievable colour: %v", err)
	}
}
