package keeper_test

import (
	"context"
	"strconv"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
)

// tests notes a visit with both tests, so many hours before now.
func tests(t *testing.T, k *keeper.Keeper, c *clock, tank string, hours int, ammonia, nitrite string) string {
	t.Helper()
	r := func(name, number string, basis quantity.Basis) journal.Reading {
		if number == "" {
			return journal.Reading{Name: name, Qualifier: journal.NotDetected, Measure: quantity.Measure{Unit: "mg/l", Basis: basis}}
		}
		return journal.Reading{Name: name, Measure: quantity.Measure{Number: number, Unit: "mg/l", Basis: basis}}
	}
	id, err := k.AddEntry(context.Background(), tank, journal.Entry{Kind: journal.Tested, At: journal.CivilOf(c.t.Add(-time.Duration(hours) * time.Hour)), Zone: journal.ZoneOf(c.t),
		Readings: []journal.Reading{r(journal.NameAmmonia, ammonia, quantity.AsN), r(journal.NameNitrite, nitrite, quantity.AsIon)}})
	must(t, err)
	return id
}

func filledAgo(t *testing.T, k *keeper.Keeper, c *clock, tank string, days int) {
	t.Helper()
	at := c.t.AddDate(0, 0, -days)
	_, err := k.AddEntry(context.Background(), tank, journal.Entry{Kind: journal.Filled, At: journal.CivilOf(at), Zone: journal.ZoneOf(at)})
	must(t, err)
}

// The first step waits for the filter; tests that saw it rise and go to nothing,
// a day apart, open it, and the plan names them.
func TestPlanFollowsTheTests(t *testing.T) {
	ctx := context.Background()
	k, c, tank := started(t)
	_, err := k.AddWish(ctx, tank, keeper.Wish{Species: danio, Count: 6})
	must(t, err)
	plan := func() keeper.FishPlan {
		t.Helper()
		p, err := k.FishPlan(ctx, tank)
		must(t, err)
		return p
	}
	if p := plan(); len(p.Plan.Steps) == 0 || p.Plan.Steps[0].Open || p.Gate.Open || p.Wishes[0].Verdict == fish.No {
		t.Fatalf("an empty tank: %+v", p)
	}
	filledAgo(t, k, c, tank, 20)
	p := plan()
	if p.Ready.Likely.Before(c.t) || !p.Plan.Steps[0].In.Equal(p.Ready.Likely) || p.Ready.Trail == nil || !p.Ready.Low.Before(p.Ready.High) {
		t.Errorf("after 20 days: %+v, first step %v", p.Ready, p.Plan.Steps[0].In)
	}
	tests(t, k, c, tank, 40, "", "")
	tests(t, k, c, tank, 2, "", "")
	if p := plan(); !p.Gate.Open || p.Plan.Steps[0].Open {
		t.Errorf("water that never rose opens the tank: %+v", p.Plan.Steps[0])
	}
	tests(t, k, c, tank, 200, "1.0", "0.5")
	p = plan()
	if !p.Ready.Shown || !p.Plan.Steps[0].Open || len(p.Gate.Tests) != 2 || p.Gate.Tests[0].At >= p.Gate.Tests[1].At {
		t.Errorf("shown %v, open %v, by %+v", p.Ready.Shown, p.Plan.Steps[0].Open, p.Gate.Tests)
	}
	bad := tests(t, k, c, tank, 1, "0.5", "")
	p = plan()
	if p.Plan.Steps[0].Open || len(p.Gate.Tests) != 1 || p.Gate.Tests[0].ID != bad {
		t.Errorf("after ammonia: %+v", p.Gate)
	}
}

// What does not fit is kept out of the plan and says why; the rest is planned.
func TestWishesThatDoNotFit(t *testing.T) {
	ctx := context.Background()
	k, _, tank := started(t)
	must(t, k.Set(ctx, tank, keeper.Edit{Field: "tank.nominal", Option: "us_10"}))
	for _, w := range []keeper.Wish{{Species: danio, Count: 2}, {Species: pleco, Count: 1}} {
		_, err := k.AddWish(ctx, tank, w)
		must(t, err)
	}
	p, err := k.FishPlan(ctx, tank)
	must(t, err)
	if p.Wishes[0].Verdict != fish.Wait || p.Wishes[1].Verdict != fish.No || len(p.Wishes[1].Clashes) == 0 || p.Wishes[1].Clashes[0].Rule != fish.TankSize {
		t.Errorf("wishes: %+v", p.Wishes)
	}
	if len(p.Plan.Steps) != 1 || len(p.Plan.Steps[0].Lots) != 1 || p.Plan.Steps[0].Lots[0].Count != 2 {
		t.Errorf("steps: %+v", p.Plan.Steps)
	}
	six, err := k.WishFits(ctx, tank, keeper.Wish{Species: danio, Count: 6})
	must(t, err)
	crowd, err := k.WishFits(ctx, tank, keeper.Wish{Species: danio, Count: 60})
	must(t, err)
	if six.Verdict == fish.No || crowd.Verdict != fish.No || crowd.Room.Most < 6 || crowd.Room.Most >= 60 {
		t.Errorf("six: %v, sixty: %v, room for %d", six.Verdict, crowd.Verdict, crowd.Room.Most)
	}
}

// The quarantine is chosen per tank, and the choice can be taken back.
func TestQuarantineIsChosen(t *testing.T) {
	ctx := context.Background()
	k, _, tank := started(t)
	_, err := k.AddWish(ctx, tank, keeper.Wish{Species: danio, Count: 6})
	must(t, err)
	must(t, k.SetQuarantine(ctx, tank, fish.Apart))
	p, err := k.FishPlan(ctx, tank)
	must(t, err)
	if p.Quarantine != fish.Apart || !p.Plan.Steps[0].Buy.Before(p.Plan.Steps[0].In) {
		t.Errorf("apart: %v, %+v", p.Quarantine, p.Plan.Steps)
	}
	refused(t, k.SetQuarantine(ctx, tank, "cellar"), "refuse.care.choice")
	_, _, err = k.Undo(ctx, tank)
	must(t, err)
	if p, _ = k.FishPlan(ctx, tank); p.Quarantine != fish.InTheTank {
		t.Errorf("taken back: %v", p.Quarantine)
	}
}

// The page of the first fish and the plan over weeks bring the same home first: of
// what is wished for, or of a kind that is named there.
func TestFirstFishFollowThePlan(t *testing.T) {
	ctx := context.Background()
	k, _, tank := started(t)
	must(t, k.Set(ctx, tank, keeper.Edit{Field: "tank.nominal", Option: "us_10"}))
	field := func(id care.FieldID) care.Answer {
		t.Helper()
		v, _, err := k.FirstFill(ctx, tank, care.FirstFish)
		must(t, err)
		for _, f := range v.Page.Fields {
			if f.Field.ID == id {
				return f.Answer
			}
		}
		t.Fatalf("no field %s", id)
		return care.Answer{}
	}
	if a := field("fish.kind"); !a.IsZero() {
		t.Errorf("without a wish the kind is %q", a.Words)
	}
	must(t, k.Set(ctx, tank, keeper.Edit{Field: "fish.kind", Text: "zebra danio"}))
	named := field("fish.count").Measure.Number
	must(t, k.Set(ctx, tank, keeper.Edit{Field: "fish.kind"}))
	_, err := k.AddWish(ctx, tank, keeper.Wish{Species: danio, Count: 6})
	must(t, err)
	p, err := k.FishPlan(ctx, tank)
	must(t, err)
	want := strconv.Itoa(p.Plan.Steps[0].Lots[0].Count)
	if got := field("fish.count").Measure.Number; got != want || named != want {
		t.Errorf("first %s, by name %s; the plan brings %s", got, named, want)
	}
	if a := field("fish.kind"); a.Words != "Zebra danio" || a.Origin != care.FromProposal {
		t.Errorf("the kind is %+v", a)
	}
	if v, err := field("fish.adult").Measure.Value(); err != nil || v.X < 0.04 || v.X > 0.05 {
		t.Errorf("the adult length is %v, %v", v, err)
	}
	must(t, k.Set(ctx, tank, keeper.Edit{Field: "fish.kind", Text: "some fish from my aunt"}))
	if got := field("fish.adult").Measure.Number; got != "5" {
		t.Errorf("of a kind that nobody knows the adult length is %s", got)
	}
}
