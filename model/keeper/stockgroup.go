package keeper

import (
	"context"
	"slices"
	"strings"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// MeasureFish writes the length of one of a group in the daybook, as typed; an empty
// At is now. Growth is reckoned from the latest. Refusals: "length" (missing, or no
// animal of the kind is so long), "at"; an unknown fish.
func (k *Keeper) MeasureFish(ctx context.Context, tank, id string, m quantity.Measure, at journal.Civil, what string) error {
	row, err := k.fishRow(ctx, tank, id)
	if err != nil {
		return err
	}
	if m.IsZero() {
		return working.Refuse("length", "refuse.missing")
	}
	if err := lengthOf(text(row["species"]), m); err != nil {
		return err
	}
	e, ops, err := k.stockEntry(tank, journal.Entry{Kind: journal.Noticed, At: at}, 0, what, m, nil)
	if err != nil {
		return err
	}
	ops = append(ops, store.Op{Table: "fish_change", After: tied{e.ID, id, 0, WhyMeasured}.row()})
	op, err := k.lengthOp(ctx, tank, id, &e)
	if err != nil {
		return err
	}
	if op != nil {
		ops = append(ops, *op)
	}
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.fish_measured", Values: map[string]string{"Name": what}, At: stamp(k.now()), Ops: ops})
}

// SetFish gives a fish or a group another name, kind or number of males; the rest of
// f is not read. A group with a kind may go by no name. Refusals: "fish.name",
// "species", "males", "length" (it was measured longer than any of that kind); an
// unknown fish.
func (k *Keeper) SetFish(ctx context.Context, tank string, f Fish) error {
	row, err := k.fishRow(ctx, tank, f.ID)
	if err != nil {
		return err
	}
	old := fishOf(row)
	name := strings.Join(strings.Fields(f.Name), " ")
	if name != "" || f.Species == "" {
		if name, err = checkFish(f.Name); err != nil {
			return err
		}
	}
	if f.Species != "" && f.Species != old.Species {
		if _, err := fish.Get(fish.Code(f.Species)); err != nil {
			return working.Refuse("species", "refuse.fish.unknown")
		}
		if err := lengthOf(f.Species, old.Length); err != nil {
			return err
		}
	}
	if f.Males != nil && (*f.Males < 0 || *f.Males > old.Count) {
		return countOutside("males", "q.fish.males", *f.Males, 0, old.Count)
	}
	after := store.Row{"id": f.ID, "name": name, "species": orNil(f.Species), "males": nil}
	if f.Males != nil {
		after["males"] = int64(*f.Males)
	}
	before := pick(row, "id", "name", "species", "males")
	if before["name"] == after["name"] && before["species"] == after["species"] && before["males"] == after["males"] {
		return nil
	}
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.fish_set", Values: map[string]string{"Name": name}, At: stamp(k.now()),
		Ops: []store.Op{{Table: "fish", Before: before, After: after}}})
}

// SplitFish takes some out of a group under a name of their own and returns the new
// fish: what the daybook tells of how they came goes with them, the latest first.
// Refusals: "fish.name", "count" (none, or all of them); an unknown fish.
func (k *Keeper) SplitFish(ctx context.Context, tank, id string, count int, name string) (string, error) {
	row, err := k.fishRow(ctx, tank, id)
	if err != nil {
		return "", err
	}
	f := fishOf(row)
	if name, err = checkFish(name); err != nil {
		return "", err
	}
	if count < 1 || count >= f.Count {
		return "", countOutside("count", "q.fish.count", count, 1, f.Count-1)
	}
	past, err := k.FishPast(ctx, tank, id)
	if err != nil {
		return "", err
	}
	own := store.Row{"id": k.newID(), "tank": tank, "name": name, "species": row["species"], "count": int64(count), "since": row["since"],
		"length_text": row["length_text"], "length_unit": row["length_unit"], "length_at": row["length_at"], "source": row["source"]}
	fresh := text(own["id"])
	ops := []store.Op{{Table: "fish", After: own}}
	rest, err := k.numberOps(ctx, map[string]int{id: -count}, journal.CivilOf(k.now()))
	if err != nil {
		return "", err
	}
	rest[0].After["males"] = leftMalesOf(f, count)
	if f.Males != nil && *f.Males == f.Count {
		own["males"] = int64(count)
	} else if f.Males != nil && *f.Males == 0 {
		own["males"] = int64(0)
	}
	ops = append(ops, rest...)
	slices.Reverse(past)
	for _, c := range past {
		n := min(count, c.Change)
		if n <= 0 {
			continue
		}
		count -= n
		was := tied{c.Entry.ID, id, c.Change, c.Why}
		op := store.Op{Table: "fish_change", Before: was.row()}
		if n < c.Change {
			op.After = tied{c.Entry.ID, id, c.Change - n, c.Why}.row()
		}
		ops = append(ops, op, store.Op{Table: "fish_change", After: tied{c.Entry.ID, fresh, n, c.Why}.row()})
	}
	return fresh, k.apply(ctx, store.Change{Tank: tank, Label: "undo.fish_split", Values: map[string]string{"Name": name}, At: stamp(k.now()), Ops: ops})
}

func leftMalesOf(f Fish, gone int) any {
	if f.Males == nil {
		return nil
	}
	return leftMales(f, Departure{Count: gone})
}

// MergeFish takes a fish or a group into another, which keeps its name; its entries,
// pictures and cases go along. Refusals: both are one, or of two kinds; more than
// MaxFish together; an unknown fish.
func (k *Keeper) MergeFish(ctx context.Context, tank, from, into string) error {
	row, err := k.fishRow(ctx, tank, from)
	if err != nil {
		return err
	}
	to, err := k.fishRow(ctx, tank, into)
	if err != nil {
		return err
	}
	a, b := fishOf(row), fishOf(to)
	if from == into || a.Species != "" && b.Species != "" && a.Species != b.Species {
		return working.Refuse("fish", "refuse.keeper.fish_merge")
	}
	ops, err := k.numberOps(ctx, map[string]int{into: a.Count}, "")
	if err != nil {
		return err
	}
	if len(ops) > 0 {
		ops[0].After["males"] = nil
		if a.Males != nil && b.Males != nil {
			ops[0].After["males"] = int64(*a.Males + *b.Males)
		}
	}
	both := pick(to, "id", "species", "since", "length_text", "length_unit", "length_at")
	after := pick(to, "id", "species", "since", "length_text", "length_unit", "length_at")
	if b.Species == "" {
		after["species"] = row["species"]
	}
	if a.Since != "" && (b.Since == "" || a.Since < b.Since) {
		after["since"] = row["since"]
	}
	if a.LengthAt > b.LengthAt {
		after["length_text"], after["length_unit"], after["length_at"] = row["length_text"], row["length_unit"], row["length_at"]
	}
	now := stamp(k.now())
	ops = append(ops, store.Op{Table: "fish", Before: both, After: after},
		store.Op{Table: "fish", Before: store.Row{"id": from, "deleted": nil, "count": row["count"]}, After: store.Row{"id": from, "deleted": now, "count": int64(0)}})
	more, err := k.mergeTies(ctx, from, into)
	if err != nil {
		return err
	}
	ops = append(ops, more...)
	for _, table := range []string{"photo", "sick"} {
		rows, err := k.st.Load(ctx, table, map[string]any{"tank": tank, "fish": from}, "id")
		if err != nil {
			return err
		}
		for _, r := range rows {
			ops = append(ops, store.Op{Table: table, Before: pick(r, "id", "fish"), After: store.Row{"id": r["id"], "fish": into}})
		}
	}
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.fish_merge", Values: map[string]string{"Name": b.Name}, At: now, Ops: ops})
}

// mergeTies moves what entries did to one fish to another. An entry that did
// something to both does the sum of it.
func (k *Keeper) mergeTies(ctx context.Context, from, into string) ([]store.Op, error) {
	mine, err := k.tiedTo(ctx, "fish", from)
	if err != nil {
		return nil, err
	}
	theirs, err := k.tiedTo(ctx, "fish", into)
	if err != nil {
		return nil, err
	}
	var ops []store.Op
	for _, t := range mine {
		ops = append(ops, store.Op{Table: "fish_change", Before: t.row()})
		is := t
		is.fish = into
		op := store.Op{Table: "fish_change"}
		for _, o := range theirs {
			if o.entry == t.entry {
				op.Before = o.row()
				is.change += o.change
			}
		}
		op.After = is.row()
		ops = append(ops, op)
	}
	return ops, nil
}
