package keeper

import (
	"cmp"
	"context"
	"maps"
	"math"
	"slices"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Why says why the number of a fish or a group changed.
type Why string

// The reasons. What is measured changes no number.
const (
	WhyCame     Why = "came"
	WhyBorn     Why = "born"
	WhyDied     Why = "died"
	WhySold     Why = "sold"
	WhyGiven    Why = "given"    // to somebody
	WhyReturned Why = "returned" // to the shop
	WhyLost     Why = "lost"     // not seen any more
	WhyCounted  Why = "counted"  // counted again
	WhyMeasured Why = "measured"
)

// Leavings lists the reasons for which animals leave, as they are offered.
func Leavings() []Why { return []Why{WhyDied, WhyLost, WhyReturned, WhyGiven, WhySold} }

// whyOf is what an entry says of why the number changed; empty where it says
// nothing.
func whyOf(e journal.Entry) Why {
	name := journal.NameReason
	if e.Kind != journal.FishOut {
		name = journal.NameCame
	}
	if r, ok := e.Get(name); ok {
		return Why(r.Measure.Number)
	}
	if e.Kind != journal.FishOut {
		return WhyCame
	}
	return ""
}

// tied is what one entry did to the number of one fish.
type tied struct {
	entry, fish string
	change      int
	why         Why
}

func tiedOf(r store.Row) tied {
	n, _ := r["change"].(int64)
	return tied{text(r["entry"]), text(r["fish"]), int(n), Why(text(r["why"]))}
}

func (t tied) row() store.Row {
	return store.Row{"entry": t.entry, "fish": t.fish, "change": int64(t.change), "why": string(t.why)}
}

// tiedTo lists what an entry did to the stock ("entry") or what was done to a fish
// ("fish").
func (k *Keeper) tiedTo(ctx context.Context, column, id string) ([]tied, error) {
	rows, err := k.st.Load(ctx, "fish_change", map[string]any{column: id}, "entry, fish")
	if err != nil {
		return nil, err
	}
	var out []tied
	for _, r := range rows {
		out = append(out, tiedOf(r))
	}
	return out, nil
}

// numberOps changes the numbers of fish by so many. A group that comes to nothing
// is gone from then on; one that comes back is not. Males that cannot be so many any
// more are no longer known. Refusal: fewer than none, more than MaxFish.
func (k *Keeper) numberOps(ctx context.Context, by map[string]int, at journal.Civil) ([]store.Op, error) {
	var ops []store.Op
	for _, id := range slices.Sorted(maps.Keys(by)) {
		if by[id] == 0 {
			continue
		}
		rows, err := k.st.Load(ctx, "fish", map[string]any{"id": id}, "")
		if err != nil {
			return nil, err
		}
		if len(rows) == 0 {
			return nil, working.Refuse("fish", "refuse.keeper.no_fish")
		}
		row := rows[0]
		was, _ := row["count"].(int64)
		is := was + int64(by[id])
		switch {
		case is < 0:
			return nil, working.Refuse("count", "refuse.keeper.fish_fewer")
		case is > MaxFish:
			return nil, working.Refuse("count", "refuse.keeper.fish_count")
		}
		op := store.Op{Table: "fish", Before: pick(row, "id", "count", "gone", "males"), After: pick(row, "id", "count", "gone", "males")}
		op.After["count"] = is
		switch {
		case is > 0:
			op.After["gone"] = nil
		case row["gone"] == nil:
			op.After["gone"] = string(at)
		}
		if m, ok := row["males"].(int64); ok && m > is {
			op.After["males"] = nil
		}
		ops = append(ops, op)
	}
	return ops, nil
}

// stockDeleted takes back what an entry did to the stock, as it goes into the bin.
func (k *Keeper) stockDeleted(ctx context.Context, tank string, e journal.Entry) ([]store.Op, error) {
	return k.stockBin(ctx, tank, e, -1)
}

// stockRestored does it again, as the entry leaves the bin.
func (k *Keeper) stockRestored(ctx context.Context, tank string, e journal.Entry) ([]store.Op, error) {
	return k.stockBin(ctx, tank, e, 1)
}

func (k *Keeper) stockBin(ctx context.Context, tank string, e journal.Entry, sign int) ([]store.Op, error) {
	ties, err := k.tiedTo(ctx, "entry", e.ID)
	if err != nil || len(ties) == 0 {
		return nil, err
	}
	by := map[string]int{}
	for _, t := range ties {
		by[t.fish] += sign * t.change
	}
	ops, err := k.numberOps(ctx, by, journal.CivilOf(k.now()))
	if err != nil {
		return nil, err
	}
	from, to := e, e
	if from.Readings = nil; sign < 0 {
		from, to = to, from
	}
	return k.lengthsFollow(ctx, tank, ties, from, to, ops)
}

// stockEdited brings the stock after an entry that is edited. The number that it
// says goes to the group that has most of it; a number taken away is taken from
// those that have most. Refusals: no number any more, fewer than there are.
func (k *Keeper) stockEdited(ctx context.Context, tank string, old, e journal.Entry) ([]store.Op, error) {
	ties, err := k.tiedTo(ctx, "entry", e.ID)
	if err != nil || len(ties) == 0 {
		return nil, err
	}
	total, sign := 0, 1
	for _, t := range ties {
		total += t.change
	}
	if total < 0 {
		total, sign = -total, -1
	}
	left := 0
	if total > 0 {
		r, ok := e.Get(journal.NameCount)
		v, known := r.Value()
		if !ok || !known {
			return nil, working.Refuse(journal.NameCount, "refuse.missing")
		}
		left = int(v.X) - total
	}
	slices.SortStableFunc(ties, func(a, b tied) int { return cmp.Compare(sign*b.change, sign*a.change) })
	var ops []store.Op
	by := map[string]int{}
	why := whyOf(e)
	for _, t := range ties {
		is := t
		if t.change != 0 {
			step := max(left, -sign*t.change)
			left -= step
			is.change += sign * step
			by[t.fish] += sign * step
			if why != "" {
				is.why = why
			}
		}
		switch {
		case is == t:
		case is.change == 0:
			ops = append(ops, store.Op{Table: "fish_change", Before: t.row()})
		default:
			ops = append(ops, store.Op{Table: "fish_change", Before: t.row(), After: is.row()})
		}
	}
	numbers, err := k.numberOps(ctx, by, e.At)
	if err != nil {
		return nil, err
	}
	ops = append(ops, numbers...)
	for _, t := range ties {
		for _, column := range []string{journal.NameSource, journal.NamePrice} { // the columns are called so too
			was, _ := old.Get(column)
			is, _ := e.Get(column)
			if was == is {
				continue
			}
			row, err := k.fishRow(ctx, tank, t.fish)
			if err == nil && text(row[column]) == was.Measure.Number {
				ops = append(ops, store.Op{Table: "fish", Before: pick(row, "id", column), After: store.Row{"id": t.fish, column: orNil(is.Measure.Number)}})
			}
		}
	}
	return k.lengthsFollow(ctx, tank, ties, old, e, ops)
}

// lengthsFollow adds what the lengths of the fish tied to an entry become, as it
// turns from old into e.
func (k *Keeper) lengthsFollow(ctx context.Context, tank string, ties []tied, old, e journal.Entry, ops []store.Op) ([]store.Op, error) {
	was, had := lengthIn(old)
	is, has := lengthIn(e)
	if was == is && had == has && old.At == e.At {
		return ops, nil
	}
	for _, t := range ties {
		op, err := k.lengthOp(ctx, tank, t.fish, &e)
		if err != nil {
			return nil, err
		}
		if op != nil {
			ops = append(ops, *op)
		}
	}
	return ops, nil
}

// lengthIn is the length of one of the animals that an entry tells of. The one that
// First fill writes is the adult length.
func lengthIn(e journal.Entry) (quantity.Measure, bool) {
	r, ok := e.Get(journal.NameLength)
	_, known := r.Value()
	if !ok || !known || e.Step == string(care.HomeComing) {
		return quantity.Measure{}, false
	}
	return r.Measure, true
}

// lengthOp makes the length of a fish the latest that its entries tell, with e as
// it is to be; nil where nothing changes.
func (k *Keeper) lengthOp(ctx context.Context, tank, id string, e *journal.Entry) (*store.Op, error) {
	row, err := k.fishRow(ctx, tank, id)
	if err != nil {
		return nil, err
	}
	past, err := k.FishPast(ctx, tank, id)
	if err != nil {
		return nil, err
	}
	entries := []journal.Entry{*e}
	if e.Seq == 0 { // it is to be written: the latest of its minute
		entries[0].Seq = math.MaxInt64
	}
	for _, c := range past {
		if c.Entry.ID != e.ID {
			entries = append(entries, c.Entry)
		}
	}
	journal.Sort(entries)
	after := store.Row{"id": id, "length_text": nil, "length_unit": nil, "length_at": nil}
	for _, x := range entries {
		if m, ok := lengthIn(x); ok {
			after = lengthRow(id, m, x.At)
		}
	}
	before := pick(row, "id", "length_text", "length_unit", "length_at")
	if maps.Equal(before, after) {
		return nil, nil
	}
	return &store.Op{Table: "fish", Before: before, After: after}, nil
}

func lengthRow(id string, m quantity.Measure, at journal.Civil) store.Row {
	return store.Row{"id": id, "length_text": m.Number, "length_unit": string(m.Unit), "length_at": string(at)}
}
