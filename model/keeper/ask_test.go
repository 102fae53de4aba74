package keeper_test

import (
	"context"
	"math"
	"testing"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
)

// What a caller does to the record it was given changes nothing in the keeper.
func TestRecordIsACopy(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.MakeExample(ctx, words())
	if err != nil {
		t.Fatal(err)
	}
	r, err := k.Record(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Done) != 9 || len(r.Acks) != 13 || !r.Now.Equal(c.now()) {
		t.Fatalf("%d steps done, %d confirmations, now %v; want 9, 13 (seven notes, six checks), %v", len(r.Done), len(r.Acks), r.Now, c.now())
	}
	want := r.Acks[0].Shown
	reading := -1
	for i, e := range r.Entries {
		if len(e.Readings) > 0 {
			reading = i
		}
	}
	number := r.Entries[reading].Readings[0].Measure.Number
	basis := len(r.Done[care.StandFloor].Basis)
	clear(r.Done[care.StandFloor].Basis)
	clear(r.Done)
	clear(r.Answers)
	r.Acks[0].Shown = "other"
	r.Entries[reading].Readings[0].Measure.Number = "other"
	again, err := k.Record(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	if len(again.Done) != 9 || len(again.Done[care.StandFloor].Basis) != basis || len(again.Answers) == 0 || again.Acks[0].Shown != want ||
		again.Entries[reading].Readings[0].Measure.Number != number {
		t.Error("the keeper's own record has changed")
	}
	if _, err := k.Record(ctx, "gone"); err == nil {
		t.Error("a tank that is not there has a record")
	}
}

// Doses follow the label: 5 mL for 10 US gal, as the example's bottle says.
func TestDosesFollowTheLabel(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.MakeExample(ctx, words())
	if err != nil {
		t.Fatal(err)
	}
	d, err := k.Doses(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	const perCubicMetre = 5e-6 / (10 * 3.785411784e-3)
	for name, x := range map[string]keeper.Dose{"whole": d.Whole, "bucket": d.Bucket, "change": d.Change} {
		if want := float64(x.Water) * perCubicMetre; !(math.Abs(x.Amount.X-want) < 1e-12) || x.Amount.Kind != quantity.KindVolume {
			t.Errorf("%s: %v for %v, want %g m³ by the label", name, x.Amount, x.Water, want)
		}
	}
	if want := float64(d.Whole.Water) / 4; math.Abs(float64(d.Change.Water)-want) > 1e-12 || d.Share != 0.25 {
		t.Errorf("a change of %v (%v), want a quarter of %v", d.Change.Water, d.Share, d.Whole.Water)
	}
	// Tap water straight into the tank: a change takes the dose of the whole tank.
	if err := k.Set(ctx, id, keeper.Edit{Field: "treat.way", Option: "whole_tank"}); err != nil {
		t.Fatal(err)
	}
	straight, err := k.Doses(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	if straight.Change.Amount != straight.Whole.Amount || straight.Bucket != (keeper.Dose{}) {
		t.Errorf("straight into the tank: change %v, bucket %v; want %v and none", straight.Change.Amount, straight.Bucket, straight.Whole.Amount)
	}
}
