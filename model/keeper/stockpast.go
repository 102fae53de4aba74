package keeper

import (
	"cmp"
	"context"
	"slices"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/store"
)

// FishChange is an entry of the daybook that tells of a fish or a group.
type FishChange struct {
	Entry  journal.Entry
	Fish   string
	Change int // so many more, or fewer; 0 where it changed no number
	Why    Why
}

// FishPast lists what the daybook tells of a fish or a group, the earliest first;
// what is in the bin is left out. Refusal: no such fish.
func (k *Keeper) FishPast(ctx context.Context, tank, id string) ([]FishChange, error) {
	if _, err := k.fishRow(ctx, tank, id); err != nil {
		return nil, err
	}
	return k.changes(ctx, tank, []string{id})
}

// changes lists what the daybook tells of some fish, the earliest first.
func (k *Keeper) changes(ctx context.Context, tank string, fish []string) ([]FishChange, error) {
	if len(fish) == 0 {
		return nil, nil
	}
	var ties []tied
	err := k.st.Each(ctx, store.Query{Table: "fish_change", Columns: []string{"entry", "fish", "change", "why"}, Column: "fish", Among: fish, Order: "entry, fish"}, func(v []any) error {
		n, _ := v[2].(int64)
		ties = append(ties, tied{text(v[0]), text(v[1]), int(n), Why(text(v[3]))})
		return nil
	})
	if err != nil || len(ties) == 0 {
		return nil, err
	}
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	wanted := map[string]journal.Entry{}
	for _, t := range ties {
		wanted[t.entry] = journal.Entry{}
	}
	for i := range r.Entries {
		if _, ok := wanted[r.Entries[i].ID]; ok {
			wanted[r.Entries[i].ID] = r.Entries[i]
		}
	}
	var out []FishChange
	for _, t := range ties {
		if e := wanted[t.entry]; e.ID != "" {
			out = append(out, FishChange{Entry: e, Fish: t.fish, Change: t.change, Why: t.why})
		}
	}
	slices.SortStableFunc(out, func(a, b FishChange) int {
		switch {
		case before(&a.Entry, &b.Entry):
			return -1
		case before(&b.Entry, &a.Entry):
			return 1
		}
		return 0
	})
	return out, nil
}

// Gone lists the fish and groups that lived in a tank and live there no more, those
// that left last leading. One whose every entry lies in the bin is no such.
func (k *Keeper) Gone(ctx context.Context, tank string) ([]Fish, error) {
	all, err := k.allFish(ctx, tank)
	if err != nil {
		return nil, err
	}
	var out []Fish
	var ids []string
	for _, f := range all {
		if f.Count == 0 || f.Gone != "" {
			out, ids = append(out, f), append(ids, f.ID)
		}
	}
	told, err := k.changes(ctx, tank, ids)
	if err != nil {
		return nil, err
	}
	known := map[string]bool{}
	for _, c := range told {
		known[c.Fish] = true
	}
	out = slices.DeleteFunc(out, func(f Fish) bool { return !known[f.ID] && f.Count == 0 })
	slices.SortStableFunc(out, func(a, b Fish) int { return cmp.Compare(b.Gone, a.Gone) })
	return out, nil
}

// Untied lists the entries that say that fish came in of which the stock knows
// nothing: written before it was kept, or taken from a table; the earliest first.
func (k *Keeper) Untied(ctx context.Context, tank string) ([]journal.Entry, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	var out []journal.Entry
	var ids []string
	for _, e := range r.Entries {
		if e.Kind == journal.FishIn {
			out, ids = append(out, e), append(ids, e.ID)
		}
	}
	if len(ids) == 0 {
		return nil, nil
	}
	known := map[string]bool{}
	err = k.st.Each(ctx, store.Query{Table: "fish_change", Columns: []string{"entry"}, Column: "entry", Among: ids, Order: "entry, fish"}, func(v []any) error {
		known[text(v[0])] = true
		return nil
	})
	return slices.DeleteFunc(out, func(e journal.Entry) bool { return known[e.ID] }), err
}

// fortnight is how long after an arrival a loss brings up the path for fish that
// look wrong, and how long it stays up. // judgement: two weeks show most of what
// travel, new water and new company do.
const fortnight = 14 // days

// EarlyLoss is a fish or a group that died or was not seen again within a fortnight
// after animals came into the tank.
type EarlyLoss struct {
	Fish  Fish
	Count int           // of them so far
	At    journal.Civil // of the latest
	After int           // civil days after the arrival
	Entry string        // of the latest
}

// EarlyLosses lists them, the latest first, for a fortnight from each loss.
func (k *Keeper) EarlyLosses(ctx context.Context, tank string) ([]EarlyLoss, error) {
	all, err := k.allFish(ctx, tank)
	if err != nil {
		return nil, err
	}
	by := map[string]Fish{}
	var ids []string
	for _, f := range all {
		by[f.ID], ids = f, append(ids, f.ID)
	}
	told, err := k.changes(ctx, tank, ids)
	if err != nil {
		return nil, err
	}
	now := journal.CivilOf(k.now())
	came := journal.Civil("")
	var out []EarlyLoss
	for _, c := range told {
		switch c.Why {
		case WhyCame:
			came = c.Entry.At
		case WhyDied, WhyLost:
			after, err := journal.DaysBetween(came, c.Entry.At)
			ago, err2 := journal.DaysBetween(c.Entry.At, now)
			if err != nil || err2 != nil || after > fortnight || ago > fortnight || ago < 0 {
				continue
			}
			i := slices.IndexFunc(out, func(l EarlyLoss) bool { return l.Fish.ID == c.Fish })
			if i < 0 {
				out = append(out, EarlyLoss{Fish: by[c.Fish]})
				i = len(out) - 1
			}
			out[i].Count -= c.Change
			out[i].At, out[i].After, out[i].Entry = c.Entry.At, after, c.Entry.ID
		}
	}
	slices.SortStableFunc(out, func(a, b EarlyLoss) int { return cmp.Compare(b.At, a.At) })
	return out, nil
}
