package keeper_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func feeding(t *testing.T, k *keeper.Keeper, tank string) keeper.Feeding {
	t.Helper()
	f, err := k.Feeding(context.Background(), tank)
	must(t, err)
	return f
}

func near(got, want, off float64) bool { return math.Abs(got-want) <= off*math.Abs(want) }

// Twelve neon tetras of 3 cm at 1.5 % of their mass are fed 63.8 mg a day; what of
// it reaches the water is 0.092 of its protein. Source: the checks of the
// reference on feeding, where a neon of 3 cm weighs 0.354 g; the catalogue's is
// lighter, and masses are known within a factor of 1.5 to 2.
func TestFeedingOfTheReference(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	if f := feeding(t, k, tank); f.Refused == nil || len(f.Kinds) != 0 {
		t.Errorf("a tank without animals has a ration: %+v", f.Ration)
	}
	a := danios()
	a.Name, a.Species, a.Count, a.Length = "Neons", "paracheirodon-innesi", m("12", "piece"), m("3", "cm")
	id, err := k.OpenBag(ctx, tank, a)
	must(t, err)
	must(t, k.CloseBag(ctx, tank, id, true))
	must(t, k.SetFeedingBasis(ctx, tank, keeper.FeedingBasis{Share: m("1.5", "percent"), Protein: m("45", "percent")}))
	f := feeding(t, k, tank)
	must(t, f.Refused)
	if got := float64(f.Ration.Day) * 1000; got < 63.8/1.7 || got > 63.8*1.7 {
		t.Errorf("%.1f mg a day, want 63.8 within a factor of 1.7", got)
	}
	if got := float64(f.Ration.Day) / (float64(f.Kinds[0].Mass) * 1000); !near(got, 0.015, 1e-9) {
		t.Errorf("%g of the mass a day", got)
	}
	if got := float64(f.Ration.Load.TAN) / float64(f.Ration.Day); !near(got, 0.45*0.092, 1e-9) {
		t.Errorf("ammonia over food %g", got)
	}
	net := f.Home.Net.Litres()
	if got, want := float64(f.Ration.Load.NitrateWeek), float64(f.Ration.Load.TAN)*1000/net*7*4.4268; !near(got, want, 1e-4) {
		t.Errorf("nitrate a week %g, want %g", got, want)
	}
	if f.Filter == nil || f.Filter.Area <= 0 || len(f.Kinds) != 1 || len(f.Kinds[0].Foods) == 0 {
		t.Errorf("%+v", f)
	}
}

// Leftovers lower the next ration and never raise it, a clean floor never lowers
// it; half and 1.3 times are the limits. Undo takes the word back.
func TestFeedingFollowsTheFloor(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	id, err := k.OpenBag(ctx, tank, danios())
	must(t, err)
	must(t, k.CloseBag(ctx, tank, id, true))
	base := feeding(t, k, tank).Ration.Day
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom([]string{"none", "some", "much"}), 1, 4).Draw(t, "left")
		last := feeding2(t, k, tank).Ration.Day
		for _, w := range words {
			if _, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Fed, Readings: []journal.Reading{journal.Said(journal.NameLeft, w)}}); err != nil {
				t.Fatal(err)
			}
			now := feeding2(t, k, tank).Ration.Day
			if x := float64(now / base); x < 0.5-1e-9 || x > 1.3+1e-9 {
				t.Fatalf("%g times the ration", x)
			}
			if _, _, err := k.Undo(ctx, tank); err != nil {
				t.Fatal(err)
			}
			if back := feeding2(t, k, tank).Ration.Day; back != last {
				t.Fatalf("after undo %v, want %v", back, last)
			}
		}
	})
	add := func(w string) quantity.MassRate {
		_, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Fed, Readings: []journal.Reading{journal.Said(journal.NameLeft, w)}})
		must(t, err)
		return feeding(t, k, tank).Ration.Day
	}
	one := add("some")
	two := add("much")
	three := add("none")
	if !(one < base && two < one && three > two && three < base) {
		t.Errorf("%v, then %v, %v, %v", base, one, two, three)
	}
	r, err := k.Prefill(ctx, tank, journal.Fed)
	must(t, err)
	got, ok := (journal.Entry{Readings: r}).Get(journal.NameFeed)
	v, _ := got.Value()
	if !ok || !near(v.X, float64(feeding(t, k, tank).Ration.Meal), 0.05) {
		t.Errorf("the form proposes %v", got.Measure)
	}
	if _, left := (journal.Entry{Readings: r}).Get(journal.NameLeft); left {
		t.Error("the form says how a meal ended that was not given yet")
	}
}

func feeding2(t *rapid.T, k *keeper.Keeper, tank string) keeper.Feeding {
	f, err := k.Feeding(context.Background(), tank)
	if err != nil || f.Refused != nil {
		t.Fatal(err, f.Refused)
	}
	return f
}

// Twenty pinches on the scale tell the ration in pinches, by food; one food is
// weighed once, and it can be undone.
func TestPinches(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	id, err := k.OpenBag(ctx, tank, danios())
	must(t, err)
	must(t, k.CloseBag(ctx, tank, id, true))
	if f := feeding(t, k, tank); f.Pinch != nil || f.Ration.Pinches != nil {
		t.Error("pinches that nobody weighed")
	}
	for field, ask := range map[string]struct {
		food   string
		twenty quantity.Measure
	}{"food": {" ", m("0.8", "g")}, "twenty": {"Flakes", m("40", "g")}} {
		_, err := k.WeighPinch(ctx, tank, ask.food, ask.twenty)
		var r *working.Refusal
		if !errors.As(err, &r) || r.Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
	_, err = k.WeighPinch(ctx, tank, "Granules", m("1.6", "g"))
	must(t, err)
	_, err = k.WeighPinch(ctx, tank, "Flakes", m("0,8", "g"))
	if err == nil {
		t.Error("a measure that is none is taken")
	}
	_, err = k.WeighPinch(ctx, tank, "Flakes", m("0.8", "g"))
	must(t, err)
	_, err = k.WeighPinch(ctx, tank, "flakes", m("0.4", "g"))
	must(t, err)
	f := feeding(t, k, tank)
	if len(f.Pinches) != 2 || f.Pinch.Food != "flakes" || !near(float64(*f.Ration.Pinches)*0.02e-3, float64(f.Ration.Meal), 1e-9) {
		t.Errorf("%+v", f.Pinches)
	}
	_, err = k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Fed, Readings: []journal.Reading{journal.Said(journal.NameWhat, "granules")}})
	must(t, err)
	if f := feeding(t, k, tank); f.Pinch.Food != "Granules" {
		t.Errorf("after granules the pinch is of %s", f.Pinch.Food)
	}
	for range 2 {
		_, _, err = k.Undo(ctx, tank)
		must(t, err)
	}
	if f := feeding(t, k, tank); f.Pinch.Food != "Flakes" || f.Pinch.Twenty.Number != "0.8" {
		t.Errorf("after undo %+v", f.Pinch)
	}
	must(t, k.DropPinch(ctx, tank, f.Pinches[1].ID))
	if n := len(feeding(t, k, tank).Pinches); n != 1 {
		t.Errorf("%d pinches", n)
	}
}

// The ration rises with the mass of the stock; the neighbour is asked for no more.
func TestFeedingRisesWithMass(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	last := quantity.MassRate(0)
	for range 3 {
		id, err := k.OpenBag(ctx, tank, danios())
		must(t, err)
		must(t, k.CloseBag(ctx, tank, id, true))
		f := feeding(t, k, tank)
		if f.Ration.Day <= last {
			t.Errorf("%v after %v", f.Ration.Day, last)
		}
		last = f.Ration.Day
	}
	_, err := k.AddAway(ctx, tank, keeper.Away{First: "2030-01-01", Last: "2030-01-10"}, false, "")
	must(t, err)
	n, err := k.Neighbour(ctx, tank)
	must(t, err)
	if !near(float64(n.Plan.Portion)*1000, float64(last), 1e-9) || n.Plan.Pinches < 1 {
		t.Errorf("a portion of %v for a ration of %v", n.Plan.Portion, last)
	}
	if _, ok := map[fish.Stage]bool{fish.Adult: true}[feeding(t, k, tank).Kinds[0].Growth]; !ok {
		t.Error("danios of no known length are not taken as adult")
	}
}

// What the ration is reckoned from is a change of the tank: undo and redo walk it.
// What version 0.3.0 kept among the settings holds until it is changed, and is
// taken up then.
func TestTheBasisOfTheRationIsUndone(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	is := func(share, protein string) {
		t.Helper()
		b, err := k.FeedingBasisOf(ctx, tank)
		must(t, err)
		if b.Share.Number != share || b.Protein.Number != protein {
			t.Errorf("share %q, protein %q; want %q, %q", b.Share.Number, b.Protein.Number, share, protein)
		}
	}
	must(t, k.SetFeedingBasis(ctx, tank, keeper.FeedingBasis{Share: m("1.5", "percent")}))
	must(t, k.SetFeedingBasis(ctx, tank, keeper.FeedingBasis{Share: m("1.5", "percent"), Protein: m("45", "percent")}))
	is("1.5", "45")
	refusedField(t, k.SetFeedingBasis(ctx, tank, keeper.FeedingBasis{Share: m("90", "percent")}), "share")
	undo := func() {
		t.Helper()
		_, _, err := k.Undo(ctx, tank)
		must(t, err)
	}
	undo()
	is("1.5", "")
	undo()
	is("", "")
	_, _, err := k.Redo(ctx, tank)
	must(t, err)
	is("1.5", "")
	must(t, k.SetFeedingBasis(ctx, tank, keeper.FeedingBasis{}))
	is("", "")

	must(t, k.SetSetting(ctx, "feeding."+tank, `{"share":{"number":"2","unit":"percent"},"protein":{"number":"40","unit":"percent"}}`))
	is("2", "40")
	must(t, k.SetFeedingBasis(ctx, tank, keeper.FeedingBasis{Protein: m("40", "percent")}))
	is("", "40")
	undo()
	is("2", "40")
}
