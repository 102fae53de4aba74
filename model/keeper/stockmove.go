package keeper

import (
	"context"
	"strings"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Newcomers are animals of one kind that came in or were born.
type Newcomers struct {
	Fish    string // the group that they join; empty makes a new one
	Name    string // of a new one; empty where it goes by its kind
	Species string // of a new one: a fish.Code, or empty
	Count   int    // 1 to MaxFish
	Males   *int   // of them; nil is not known
	Length  quantity.Measure
	Source  string // where they came from
	Price   string // paid for all, as typed
	Born    bool   // here, and not brought home
	// What is what the daybook calls them.
	What string
	At   journal.Civil // empty is now
	Note string
	// Entry is an entry of the daybook that tells of them already; empty writes one.
	Entry string
}

func (a Newcomers) why() Why {
	if a.Born {
		return WhyBorn
	}
	return WhyCame
}

// Arrive takes animals into the stock and writes of them in the daybook, as one
// change. It returns the fish or group and the entry. Refusals: "count", "males",
// "length" (an animal of that kind is never so long), "species", "fish.name" (a new
// one has neither name nor kind), "source", "price", "at", "note"; an unknown group
// or entry.
func (k *Keeper) Arrive(ctx context.Context, tank string, a Newcomers) (id, entry string, err error) {
	if a.Fish == "" && a.Species == "" && strings.TrimSpace(a.Name) == "" {
		return "", "", working.Refuse("fish.name", "refuse.missing")
	}
	ops, id, entry, err := k.arriveOps(ctx, tank, a)
	if err != nil {
		return "", "", err
	}
	label := "undo.fish_came"
	if a.Born {
		label = "undo.fish_born"
	}
	return id, entry, k.apply(ctx, store.Change{Tank: tank, Label: label, Values: map[string]string{"Name": a.What}, At: stamp(k.now()), Ops: ops})
}

// arriveOps is what Arrive writes.
func (k *Keeper) arriveOps(ctx context.Context, tank string, a Newcomers) (ops []store.Op, id, entry string, err error) {
	e, ops, err := k.arrivalEntry(ctx, tank, a)
	if err != nil {
		return nil, "", "", err
	}
	if a.Count < 1 || a.Count > MaxFish {
		return nil, "", "", countOutside("count", "q.fish.count", a.Count, 1, MaxFish)
	}
	if a.Males != nil && (*a.Males < 0 || *a.Males > a.Count) {
		return nil, "", "", countOutside("males", "q.fish.males", *a.Males, 0, a.Count)
	}
	species := a.Species
	if a.Fish != "" {
		row, err := k.fishRow(ctx, tank, a.Fish)
		if err != nil {
			return nil, "", "", err
		}
		species = text(row["species"])
		more, err := k.joinOps(ctx, row, a, e.At)
		if err != nil {
			return nil, "", "", err
		}
		id, ops = a.Fish, append(ops, more...)
	} else {
		row, err := k.newGroup(tank, a, e.At)
		if err != nil {
			return nil, "", "", err
		}
		id, ops = text(row["id"]), append(ops, store.Op{Table: "fish", After: row})
	}
	if err := lengthOf(species, a.Length); err != nil {
		return nil, "", "", err
	}
	ops = append(ops, store.Op{Table: "fish_change", After: tied{e.ID, id, a.Count, a.why()}.row()})
	if !a.Born {
		granted, err := k.grantOps(ctx, tank, fish.Code(species), a.Count)
		if err != nil {
			return nil, "", "", err
		}
		ops = append(ops, granted...)
	}
	return ops, id, e.ID, nil
}

func countOutside(field string, name working.Key, is, low, high int) error {
	v := func(n int) quantity.Value { return quantity.Count(n).Value() }
	return working.Outside(field, name, v(is), v(low), v(high))
}

// lengthOf refuses a length that no animal of its kind has.
func lengthOf(species string, m quantity.Measure) error {
	if m.IsZero() {
		return nil
	}
	if err := (journal.Reading{Name: journal.NameLength, Measure: m}).Check(); err != nil {
		return err
	}
	if a, err := fish.Get(fish.Code(species)); err == nil {
		v, err := m.Value()
		if err != nil {
			return working.Refuse("length", "refuse.not_a_number")
		}
		_, _, err = fish.WeightOf(a.Code, quantity.Length(v.X))
		return err
	}
	return nil
}

// arrivalEntry is the entry that tells of an arrival: a new one with what writes
// it, or the one that there is.
func (k *Keeper) arrivalEntry(ctx context.Context, tank string, a Newcomers) (journal.Entry, []store.Op, error) {
	if a.Entry != "" {
		e, err := k.Entry(ctx, tank, a.Entry)
		if err != nil {
			return e, nil, err
		}
		count := journal.Reading{Name: journal.NameCount, Measure: quantity.Of(float64(a.Count), "piece", 6)}
		if was, had := e.Get(journal.NameCount); had {
			return e, []store.Op{{Table: "entry_value", Before: readingRow(e.ID, was), After: readingRow(e.ID, count)}}, count.Check()
		}
		return e, []store.Op{{Table: "entry_value", After: readingRow(e.ID, count)}}, count.Check()
	}
	e := journal.Entry{Kind: journal.FishIn, At: a.At, Note: a.Note}
	if a.Born {
		e.Readings = append(e.Readings, journal.Said(journal.NameCame, string(WhyBorn)))
	}
	return k.stockEntry(tank, e, a.Count, a.What, a.Length, map[string]string{journal.NameSource: a.Source, journal.NamePrice: a.Price})
}

// stockEntry completes an entry that tells of the stock and gives what writes it.
func (k *Keeper) stockEntry(tank string, e journal.Entry, count int, what string, length quantity.Measure, words map[string]string) (journal.Entry, []store.Op, error) {
	now := k.now()
	if e.At == "" {
		e.At = journal.CivilOf(now)
	}
	e.Zone, e.ID, e.Note = journal.ZoneOf(now), k.newID(), strings.TrimSpace(e.Note)
	if count != 0 {
		e.Readings = append(e.Readings, journal.Reading{Name: journal.NameCount, Measure: quantity.Of(float64(count), "piece", 6)})
	}
	if !length.IsZero() {
		e.Readings = append(e.Readings, journal.Reading{Name: journal.NameLength, Measure: length})
	}
	if words == nil {
		words = map[string]string{}
	}
	words[journal.NameWhat] = what
	for _, name := range []string{journal.NameWhat, journal.NameSource, journal.NamePrice, journal.NameSeen} {
		if word := strings.Join(strings.Fields(words[name]), " "); word != "" {
			e.Readings = append(e.Readings, journal.Said(name, word))
		}
	}
	if err := checkEntry(e, now); err != nil {
		return e, nil, err
	}
	return e, entryOps(tank, e), nil
}

// settle takes animals that an entry tells of into the stock, as a group of their own.
func (k *Keeper) settle(ctx context.Context, tank string, a Newcomers, e journal.Entry) ([]store.Op, error) {
	row, err := k.newGroup(tank, a, e.At)
	if err != nil {
		return nil, err
	}
	granted, err := k.grantOps(ctx, tank, fish.Code(a.Species), a.Count)
	if err != nil {
		return nil, err
	}
	return append([]store.Op{{Table: "fish", After: row}, {Table: "fish_change", After: tied{e.ID, text(row["id"]), a.Count, WhyCame}.row()}}, granted...), nil
}

// newGroup is the row of a group that an arrival makes.
func (k *Keeper) newGroup(tank string, a Newcomers, at journal.Civil) (store.Row, error) {
	name := ""
	if strings.TrimSpace(a.Name) != "" {
		var err error
		if name, err = checkFish(a.Name); err != nil {
			return nil, err
		}
	}
	if a.Species != "" {
		if _, err := fish.Get(fish.Code(a.Species)); err != nil {
			return nil, working.Refuse("species", "refuse.fish.unknown")
		}
	}
	row := store.Row{"id": k.newID(), "tank": tank, "name": name, "species": orNil(a.Species), "count": int64(a.Count), "since": string(at),
		"source": orNil(strings.TrimSpace(a.Source)), "price": orNil(strings.TrimSpace(a.Price))}
	if a.Males != nil {
		row["males"] = int64(*a.Males)
	}
	if !a.Length.IsZero() {
		for c, v := range lengthRow(text(row["id"]), a.Length, at) {
			row[c] = v
		}
	}
	return row, nil
}

// joinOps takes so many more into a group: males as far as they are known of all,
// the length as the latest measured.
func (k *Keeper) joinOps(ctx context.Context, row store.Row, a Newcomers, at journal.Civil) ([]store.Op, error) {
	id := text(row["id"])
	ops, err := k.numberOps(ctx, map[string]int{id: a.Count}, at)
	if err != nil {
		return nil, err
	}
	after := ops[0].After
	males, known := row["males"].(int64)
	switch {
	case known && a.Males != nil:
		after["males"] = males + int64(*a.Males)
	default:
		after["males"] = nil
	}
	if !a.Length.IsZero() && string(at) >= text(row["length_at"]) {
		ops = append(ops, store.Op{Table: "fish", Before: pick(row, "id", "length_text", "length_unit", "length_at"), After: lengthRow(id, a.Length, at)})
	}
	return ops, nil
}

// Departure is animals that left.
type Departure struct {
	Fish  string
	Count int
	Males *int   // of them; nil is not known
	Why   Why    // one of Leavings
	Seen  string // how a dead one was found: a word of journal.NameSeen, or empty
	What  string // what the daybook calls them
	At    journal.Civil
	Note  string
}

// Depart takes animals out of the stock and writes of them in the daybook, as one
// change; it returns the entry. Refusals: "count" (more than there are), "males",
// "why", "seen", "at", "note"; an unknown fish.
func (k *Keeper) Depart(ctx context.Context, tank string, d Departure) (string, error) {
	id, ops, err := k.departOps(ctx, tank, d, "")
	if err != nil {
		return "", err
	}
	return id, k.apply(ctx, store.Change{Tank: tank, Label: "undo.fish_out", Values: map[string]string{"Name": d.What}, At: stamp(k.now()), Ops: ops})
}

// departOps is what Depart writes, with the id of its entry, which belongs to a
// case where one is given.
func (k *Keeper) departOps(ctx context.Context, tank string, d Departure, sick string) (string, []store.Op, error) {
	row, err := k.fishRow(ctx, tank, d.Fish)
	if err != nil {
		return "", nil, err
	}
	f := fishOf(row)
	ok := false
	for _, w := range Leavings() {
		ok = ok || w == d.Why
	}
	if !ok {
		return "", nil, working.Refuse("why", "refuse.keeper.fish_why")
	}
	if d.Count < 1 || d.Count > f.Count {
		return "", nil, countOutside("count", "q.fish.count", d.Count, 1, f.Count)
	}
	if d.Males != nil && (*d.Males < 0 || *d.Males > d.Count || f.Males != nil && *d.Males > *f.Males) {
		return "", nil, countOutside("males", "q.fish.males", *d.Males, 0, d.Count)
	}
	words := map[string]string{}
	if d.Why == WhyDied {
		words[journal.NameSeen] = d.Seen
	}
	e, ops, err := k.stockEntry(tank, journal.Entry{Kind: journal.FishOut, At: d.At, Sick: sick, Note: d.Note, Readings: []journal.Reading{journal.Said(journal.NameReason, string(d.Why))}},
		d.Count, d.What, quantity.Measure{}, words)
	if err != nil {
		return "", nil, err
	}
	numbers, err := k.numberOps(ctx, map[string]int{d.Fish: -d.Count}, e.At)
	if err != nil {
		return "", nil, err
	}
	if f.Males != nil {
		numbers[0].After["males"] = leftMales(f, d)
	}
	ops = append(append(ops, numbers...), store.Op{Table: "fish_change", After: tied{e.ID, d.Fish, -d.Count, d.Why}.row()})
	return e.ID, ops, nil
}

// leftMales is how many males are left, nil where that is not known any more.
func leftMales(f Fish, d Departure) any {
	left := f.Count - d.Count
	switch {
	case d.Males != nil:
		return int64(*f.Males - *d.Males)
	case *f.Males == 0:
		return int64(0)
	case *f.Males == f.Count:
		return int64(left)
	}
	return nil
}

// Recount says how many there are by a new count, and writes the difference in the
// daybook; nothing where there is none. Refusals: "count", "at"; an unknown fish.
func (k *Keeper) Recount(ctx context.Context, tank, id string, count int, what string) error {
	row, err := k.fishRow(ctx, tank, id)
	if err != nil {
		return err
	}
	f := fishOf(row)
	if count < 0 || count > MaxFish {
		return countOutside("count", "q.fish.count", count, 0, MaxFish)
	}
	by := count - f.Count
	if by == 0 {
		return nil
	}
	kind, name, n := journal.FishIn, journal.NameCame, by
	if by < 0 {
		kind, name, n = journal.FishOut, journal.NameReason, -by
	}
	e, ops, err := k.stockEntry(tank, journal.Entry{Kind: kind, Readings: []journal.Reading{journal.Said(name, string(WhyCounted))}}, n, what, quantity.Measure{}, nil)
	if err != nil {
		return err
	}
	numbers, err := k.numberOps(ctx, map[string]int{id: by}, e.At)
	if err != nil {
		return err
	}
	ops = append(append(ops, numbers...), store.Op{Table: "fish_change", After: tied{e.ID, id, by, WhyCounted}.row()})
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.fish_counted", Values: map[string]string{"Name": what}, At: stamp(k.now()), Ops: ops})
}
