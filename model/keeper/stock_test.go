package keeper_test

import (
	"context"
	"errors"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

func stocked(t *testing.T) (*keeper.Keeper, *clock, string) {
	t.Helper()
	c := noon()
	k := open(t, t.TempDir(), c)
	t.Cleanup(func() { _ = k.Close() })
	id, err := k.StartTank(context.Background(), "Hall", quantity.Metric)
	must(t, err)
	return k, c, id
}

func counts(t *testing.T, k *keeper.Keeper, tank string) map[string]int {
	t.Helper()
	out := map[string]int{}
	all, err := k.Stock(context.Background(), tank)
	must(t, err)
	for _, l := range all {
		out[l.ID] = l.Count
	}
	return out
}

// An arrival is one change: the group, its entry and what ties them come and go
// together, and all that was typed is kept as typed.
func TestArrivalIsOneChange(t *testing.T) {
	ctx := context.Background()
	k, _, tank := stocked(t)
	two := 2
	id, entry, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: string(neon), Count: 6, Males: &two, Length: quantity.Measure{Number: "2.0", Unit: "cm"},
		Source: "corner shop", Price: "12,50 €", What: "neons"})
	must(t, err)
	all, err := k.Stock(ctx, tank)
	must(t, err)
	l := all[0]
	if len(all) != 1 || l.ID != id || l.Count != 6 || *l.Males != 2 || l.Length.Number != "2.0" || l.Source != "corner shop" || l.Price != "12,50 €" || l.Since != "2026-11-25T12:00" {
		t.Errorf("%+v", l)
	}
	if l.Today == nil || l.Today.Value().X < 0.0199 || l.Today.Value().X > 0.0201 || l.Grown.IsZero() || l.Trail == nil {
		t.Errorf("today %v, grown %v", l.Today, l.Grown)
	}
	e, err := k.Entry(ctx, tank, entry)
	must(t, err)
	if p, _ := e.Get(journal.NamePrice); e.Kind != journal.FishIn || p.Measure.Number != "12,50 €" {
		t.Errorf("%+v", e)
	}
	_, _, err = k.Undo(ctx, tank)
	must(t, err)
	if n := counts(t, k, tank); len(n) != 0 {
		t.Errorf("after undo: %v", n)
	}
	if _, err := k.Entry(ctx, tank, entry); err == nil {
		t.Error("the entry outlived its arrival")
	}
	_, _, err = k.Redo(ctx, tank)
	must(t, err)
	if n := counts(t, k, tank); n[id] != 6 {
		t.Errorf("after redo: %v", n)
	}
}

func TestArrivalRefusesWhatCannotBe(t *testing.T) {
	ctx := context.Background()
	k, _, tank := stocked(t)
	seven := 7
	for field, a := range map[string]keeper.Newcomers{
		"count": {Species: string(neon)}, "species": {Species: "nobody-knows", Count: 1}, "fish.name": {Count: 1}, "males": {Species: string(neon), Count: 6, Males: &seven},
		"length": {Species: string(neon), Count: 6, Length: quantity.Measure{Number: "30", Unit: "cm"}}, "at": {Species: string(neon), Count: 1, At: "2027-01-01T10:00"}, "fish": {Fish: "none", Count: 1}} {
		_, _, err := k.Arrive(ctx, tank, a)
		refusedField(t, err, field)
	}
	if n := counts(t, k, tank); len(n) != 0 {
		t.Errorf("something came in: %v", n)
	}
	// An animal that the catalogue does not have goes by its name.
	id, _, err := k.Arrive(ctx, tank, keeper.Newcomers{Name: "Glass knife", Count: 1})
	must(t, err)
	all, err := k.Stock(ctx, tank)
	must(t, err)
	if all[0].ID != id || all[0].Animal != nil || all[0].Today != nil || len(keeper.Lots(all)) != 0 {
		t.Errorf("%+v", all[0])
	}
}

func TestDeparturesAndMales(t *testing.T) {
	ctx := context.Background()
	k, _, tank := stocked(t)
	two, one := 2, 1
	id, _, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: string(neon), Count: 6, Males: &two})
	must(t, err)
	_, err = k.Depart(ctx, tank, keeper.Departure{Fish: id, Count: 7, Why: keeper.WhyDied})
	refusedField(t, err, "count")
	_, err = k.Depart(ctx, tank, keeper.Departure{Fish: id, Count: 1, Why: keeper.WhyCame})
	refusedField(t, err, "why")
	_, err = k.Depart(ctx, tank, keeper.Departure{Fish: id, Count: 1, Why: keeper.WhyDied, Seen: "plague"})
	refusedField(t, err, journal.NameSeen)
	_, err = k.Depart(ctx, tank, keeper.Departure{Fish: id, Count: 1, Males: &one, Why: keeper.WhyDied, Seen: "jumped"})
	must(t, err)
	all, _ := k.Stock(ctx, tank)
	if all[0].Count != 5 || *all[0].Males != 1 {
		t.Errorf("%+v", all[0].Fish)
	}
	_, err = k.Depart(ctx, tank, keeper.Departure{Fish: id, Count: 1, Why: keeper.WhySold})
	must(t, err)
	if all, _ = k.Stock(ctx, tank); all[0].Count != 4 || all[0].Males != nil {
		t.Errorf("one of unknown sex left, and the males are still %v", all[0].Males)
	}
	must(t, k.Recount(ctx, tank, id, 5, ""))
	_, err = k.Depart(ctx, tank, keeper.Departure{Fish: id, Count: 5, Why: keeper.WhyReturned})
	must(t, err)
	gone, err := k.Gone(ctx, tank)
	must(t, err)
	if len(gone) != 1 || gone[0].ID != id || gone[0].Gone == "" {
		t.Errorf("%+v", gone)
	}
}

// A death within a fortnight of an arrival is told for a fortnight.
func TestEarlyLosses(t *testing.T) {
	ctx := context.Background()
	k, c, tank := stocked(t)
	id, _, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: string(neon), Count: 6})
	must(t, err)
	c.t = c.t.AddDate(0, 0, 14)
	_, err = k.Depart(ctx, tank, keeper.Departure{Fish: id, Count: 2, Why: keeper.WhyLost})
	must(t, err)
	ls, err := k.EarlyLosses(ctx, tank)
	must(t, err)
	if len(ls) != 1 || ls[0].Fish.ID != id || ls[0].Count != 2 || ls[0].After != 14 {
		t.Errorf("%+v", ls)
	}
	c.t = c.t.AddDate(0, 0, 1)
	_, err = k.Depart(ctx, tank, keeper.Departure{Fish: id, Count: 1, Why: keeper.WhyDied})
	must(t, err)
	if ls, _ = k.EarlyLosses(ctx, tank); len(ls) != 1 || ls[0].Count != 2 {
		t.Errorf("a death after the fortnight counts: %+v", ls)
	}
	c.t = c.t.AddDate(0, 0, 14)
	if ls, _ = k.EarlyLosses(ctx, tank); len(ls) != 0 {
		t.Errorf("a month later: %+v", ls)
	}
}

// The latest measured length stands, whatever order the entries are written, edited
// and deleted in.
func TestMeasuredLengthFollowsItsEntries(t *testing.T) {
	ctx := context.Background()
	k, c, tank := stocked(t)
	cm := func(n string) quantity.Measure { return quantity.Measure{Number: n, Unit: "cm"} }
	id, _, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: string(neon), Count: 6, Length: cm("1.5")})
	must(t, err)
	long := func() string { all, _ := k.Stock(ctx, tank); return all[0].Length.Number }
	c.t = c.t.AddDate(0, 1, 0)
	must(t, k.MeasureFish(ctx, tank, id, cm("2.2"), "", ""))
	if long() != "2.2" {
		t.Errorf("measured 2.2, is %s", long())
	}
	must(t, k.MeasureFish(ctx, tank, id, cm("1.8"), "2026-12-05T10:00", "")) // written later, of an earlier day
	if long() != "2.2" {
		t.Errorf("an earlier length stands: %s", long())
	}
	past, err := k.FishPast(ctx, tank, id)
	must(t, err)
	if len(past) != 3 || past[2].Why != keeper.WhyMeasured || past[2].Change != 0 {
		t.Fatalf("%+v", past)
	}
	must(t, k.DeleteEntry(ctx, tank, past[2].Entry.ID))
	if long() != "1.8" {
		t.Errorf("after the latest is deleted: %s", long())
	}
	must(t, k.RestoreEntry(ctx, tank, past[2].Entry.ID))
	if long() != "2.2" {
		t.Errorf("after it is back: %s", long())
	}
}

func TestSplitAndMerge(t *testing.T) {
	ctx := context.Background()
	k, c, tank := stocked(t)
	id, arrival, err := k.Arrive(ctx, tank, keeper.Newcomers{Species: string(neon), Count: 6})
	must(t, err)
	c.t = c.t.AddDate(0, 0, 3)
	one, err := k.SplitFish(ctx, tank, id, 1, "Spot")
	must(t, err)
	_, err = k.SplitFish(ctx, tank, one, 1, "Dot")
	refusedField(t, err, "count")
	past, err := k.FishPast(ctx, tank, one)
	must(t, err)
	if n := counts(t, k, tank); n[id] != 5 || n[one] != 1 || len(past) != 1 || past[0].Entry.ID != arrival {
		t.Errorf("%v, %+v", n, past)
	}
	e, _ := k.Entry(ctx, tank, arrival)
	e.Readings = []journal.Reading{{Name: journal.NameCount, Measure: quantity.Measure{Number: "8", Unit: "piece"}}}
	must(t, k.EditEntry(ctx, tank, e))
	if n := counts(t, k, tank); n[id] != 7 || n[one] != 1 {
		t.Errorf("after the arrival was eight: %v", n)
	}
	must(t, k.MergeFish(ctx, tank, one, id))
	if n := counts(t, k, tank); n[id] != 8 || len(n) != 1 {
		t.Errorf("together: %v", n)
	}
	_, _, err = k.Undo(ctx, tank)
	must(t, err)
	if n := counts(t, k, tank); n[id] != 7 || n[one] != 1 {
		t.Errorf("apart again: %v", n)
	}
}

// The number of a fish is the sum of what its entries did to it, and each entry
// says the number that it did, for any walk of arrivals, births, departures, counts,
// splits, merges, edits, deletions, restorings, undos and redos.
func TestNumbersAreTheSumOfTheirChanges(t *testing.T) {
	ctx := context.Background()
	rapid.Check(t, func(rt *rapid.T) {
		dir := t.TempDir()
		c := &clock{noon().t}
		k := open(t, dir, c)
		defer k.Close()
		tank, err := k.StartTank(ctx, "Hall", quantity.Metric)
		must(t, err)
		var fish, entries []string
		pickOne := func(of []string, name string) string {
			if len(of) == 0 {
				return ""
			}
			return rapid.SampledFrom(of).Draw(rt, name)
		}
		for range rapid.IntRange(4, 14).Draw(rt, "steps") {
			c.t = c.t.Add(time.Hour)
			n := rapid.IntRange(1, 6).Draw(rt, "n")
			var err error
			switch rapid.IntRange(0, 10).Draw(rt, "what") {
			case 0, 1:
				var id, e string
				a := keeper.Newcomers{Species: string(neon), Count: n, Born: n == 3}
				if n%2 == 0 {
					a.Fish = pickOne(fish, "group")
				}
				if id, e, err = k.Arrive(ctx, tank, a); err == nil {
					fish, entries = append(fish, id), append(entries, e)
				}
			case 2, 3:
				var e string
				if e, err = k.Depart(ctx, tank, keeper.Departure{Fish: pickOne(fish, "fish"), Count: n, Why: rapid.SampledFrom(keeper.Leavings()).Draw(rt, "why")}); err == nil {
					entries = append(entries, e)
				}
			case 4:
				err = k.Recount(ctx, tank, pickOne(fish, "fish"), n, "")
			case 5:
				var id string
				if id, err = k.SplitFish(ctx, tank, pickOne(fish, "fish"), n, "Spot"); err == nil {
					fish = append(fish, id)
				}
			case 6:
				err = k.MergeFish(ctx, tank, pickOne(fish, "from"), pickOne(fish, "into"))
			case 7:
				var e journal.Entry
				if e, err = k.Entry(ctx, tank, pickOne(entries, "entry")); err == nil {
					for i := range e.Readings {
						if e.Readings[i].Name == journal.NameCount {
							e.Readings = append(e.Readings[:i:i], append([]journal.Reading{r(journal.NameCount, strconv.Itoa(n), "piece", "")}, e.Readings[i+1:]...)...)
						}
					}
					err = k.EditEntry(ctx, tank, e)
				}
			case 8:
				if e := pickOne(entries, "entry"); k.DeleteEntry(ctx, tank, e) != nil {
					err = k.RestoreEntry(ctx, tank, e)
				}
			case 9:
				_, _, err = k.Undo(ctx, tank)
			case 10:
				_, _, err = k.Redo(ctx, tank)
			}
			var refusal *working.Refusal
			if err != nil && !errors.As(err, &refusal) && !errors.Is(err, store.ErrNothing) {
				rt.Fatal(err)
			}
			summed(rt, k, tank)
		}
	})
}

func summed(rt *rapid.T, k *keeper.Keeper, tank string) {
	ctx := context.Background()
	all, err := k.FishOf(ctx, tank)
	if err != nil {
		rt.Fatal(err)
	}
	by := map[string]int{}
	for _, f := range all {
		past, err := k.FishPast(ctx, tank, f.ID)
		if err != nil {
			rt.Fatal(err)
		}
		sum := 0
		for _, c := range past {
			sum += c.Change
			by[c.Entry.ID] += c.Change
		}
		if sum != f.Count || (f.Count == 0) != (f.Gone != "") {
			rt.Fatalf("%s counts %d, gone %q, its changes make %d: %+v", f.ID, f.Count, f.Gone, sum, past)
		}
	}
	rec, err := k.Record(ctx, tank)
	if err != nil {
		rt.Fatal(err)
	}
	for _, e := range rec.Entries {
		if c, ok := e.Get(journal.NameCount); ok {
			v, _ := c.Value()
			if n := by[e.ID]; max(n, -n) != int(v.X) {
				rt.Fatalf("%s says %v, and did %d", e.ID, v.X, n)
			}
		}
	}
}
