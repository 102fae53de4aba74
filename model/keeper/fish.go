package keeper

import (
	"context"
	"slices"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Fish is a fish, or a group of one kind, in a tank.
type Fish struct {
	ID      string
	Name    string // empty for a group that goes by the name of its kind
	Species string // the fish.Code of the catalogue, or empty
	Count   int    // how many there are, 1 for one that is known by itself
	Since   journal.Civil
	Gone    journal.Civil // empty while it lives here

	Males  *int             // of them; nil is not known
	Length quantity.Measure // of one of them, total, as typed; zero is not measured
	// LengthAt is when it was so long.
	LengthAt journal.Civil
	Source   string // where they came from, in the person's words
	Price    string // paid for all, as typed
}

func fishOf(r store.Row) Fish {
	n, _ := r["count"].(int64)
	f := Fish{ID: text(r["id"]), Name: text(r["name"]), Species: text(r["species"]), Count: int(n), Since: journal.Civil(text(r["since"])), Gone: journal.Civil(text(r["gone"])),
		Length: quantity.Measure{Number: text(r["length_text"]), Unit: quantity.UnitCode(text(r["length_unit"]))}, LengthAt: journal.Civil(text(r["length_at"])),
		Source: text(r["source"]), Price: text(r["price"])}
	if m, ok := r["males"].(int64); ok {
		males := int(m)
		f.Males = &males
	}
	return f
}

// FishOf lists the fish and groups of a tank that are not removed, by name. One that
// came and whose every entry lies in the bin was never there and is left out.
func (k *Keeper) FishOf(ctx context.Context, tank string) ([]Fish, error) {
	rows, err := k.st.Load(ctx, "fish", map[string]any{"tank": tank, "deleted": nil}, "name, id")
	if err != nil {
		return nil, err
	}
	gone, err := k.Gone(ctx, tank)
	if err != nil {
		return nil, err
	}
	out := make([]Fish, 0, len(rows))
	for _, r := range rows {
		f := fishOf(r)
		if f.Count > 0 || slices.ContainsFunc(gone, func(g Fish) bool { return g.ID == f.ID }) {
			out = append(out, f)
		}
	}
	return out, nil
}

// MaxFish is the most fish that one group may count.
const MaxFish = 10000 // as journal bounds a count

// AddFish gives a fish or group a name; Since empty is now. Refusals: an empty
// or overlong name, a count outside 1 to MaxFish, an unknown tank.
func (k *Keeper) AddFish(ctx context.Context, tank string, f Fish) (string, error) {
	op, id, err := k.newFish(ctx, tank, f)
	if err != nil {
		return "", err
	}
	return id, k.apply(ctx, store.Change{Tank: tank, Label: "undo.fish_add", Values: map[string]string{"Name": text(op.After["name"])}, At: stamp(k.now()), Ops: []store.Op{op}})
}

func (k *Keeper) newFish(ctx context.Context, tank string, f Fish) (store.Op, string, error) {
	name, err := checkFish(f.Name)
	if err != nil {
		return store.Op{}, "", err
	}
	if f.Count < 1 || f.Count > MaxFish {
		return store.Op{}, "", working.Refuse("fish.count", "refuse.keeper.fish_count")
	}
	if _, err := k.tankRow(ctx, tank); err != nil {
		return store.Op{}, "", err
	}
	if f.Since == "" {
		f.Since = journal.CivilOf(k.now())
	}
	id := k.newID()
	return store.Op{Table: "fish", After: store.Row{"id": id, "tank": tank, "name": name, "species": orNil(f.Species), "count": int64(f.Count), "since": string(f.Since)}}, id, nil
}

func checkFish(name string) (string, error) {
	name = strings.Join(strings.Fields(name), " ")
	switch {
	case name == "":
		return "", working.Refuse("fish.name", "refuse.missing")
	case len([]rune(name)) > MaxName:
		return "", working.Refuse("fish.name", "refuse.care.words_long")
	}
	return name, nil
}

func (k *Keeper) fishRow(ctx context.Context, tank, id string) (store.Row, error) {
	rows, err := k.st.Load(ctx, "fish", map[string]any{"id": id, "tank": tank, "deleted": nil}, "")
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 {
		return nil, working.Refuse("fish", "refuse.keeper.no_fish")
	}
	return rows[0], nil
}

// RenameFish gives a fish another name. Refusals as AddFish, and no such fish.
func (k *Keeper) RenameFish(ctx context.Context, tank, id, name string) error {
	name, err := checkFish(name)
	if err != nil {
		return err
	}
	row, err := k.fishRow(ctx, tank, id)
	if err != nil || text(row["name"]) == name {
		return err
	}
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.fish_rename", Values: map[string]string{"Name": name}, At: stamp(k.now()),
		Ops: []store.Op{{Table: "fish", Before: store.Row{"id": id, "name": row["name"]}, After: store.Row{"id": id, "name": name}}}})
}

// Arrivals lists what was written with fish that came in and is no name of the
// tank's fish yet, the latest first, each once: what a person may mean when they
// say which fish looks wrong.
func (k *Keeper) Arrivals(ctx context.Context, tank string) ([]string, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	named, err := k.FishOf(ctx, tank)
	if err != nil {
		return nil, err
	}
	known := map[string]bool{}
	for _, f := range named {
		known[strings.ToLower(f.Name)] = true
	}
	var out []string
	for i := len(r.Entries) - 1; i >= 0; i-- {
		e := r.Entries[i]
		if e.Kind != journal.FishIn && e.Kind != journal.HomeComing {
			continue
		}
		name, err := checkFish(e.Note)
		if err != nil || known[strings.ToLower(name)] { // a note that is empty or no name
			continue
		}
		known[strings.ToLower(name)] = true
		out = append(out, name)
	}
	return out, nil
}
