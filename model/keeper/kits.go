package keeper

import (
	"context"
	"encoding/json"
	"sort"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Kits belong to the person and to no tank: their changes are undone with the
// tank "".

// Kits lists the person's test kits by name, then in the order of journal.Tests.
func (k *Keeper) Kits(ctx context.Context) ([]journal.TestKit, error) {
	rows, err := k.st.Load(ctx, "kit", map[string]any{"deleted": nil}, "name, id")
	if err != nil {
		return nil, err
	}
	return kitsOf(rows)
}

// KitOf is the kit by its id, one that was deleted too: what was read from a kit
// stays read from it. It reports false where there is none or it cannot be read.
func (k *Keeper) KitOf(id string) (journal.TestKit, bool) {
	if id == "" {
		return journal.TestKit{}, false
	}
	all, err := k.kits(context.Background())
	t, ok := all[id]
	return t, ok && err == nil
}

// kits are all kits by id, deleted ones among them. They are read once, until one
// of them changes.
func (k *Keeper) kits(ctx context.Context) (map[string]journal.TestKit, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.heldKits(ctx)
}

// heldKits does so for a caller that has locked k.
func (k *Keeper) heldKits(ctx context.Context) (map[string]journal.TestKit, error) {
	if k.cards != nil {
		return k.cards, nil
	}
	rows, err := k.st.Load(ctx, "kit", nil, "id")
	if err != nil {
		return nil, err
	}
	list, err := kitsOf(rows)
	out := make(map[string]journal.TestKit, len(list))
	for _, t := range list {
		out[t.ID] = t
	}
	if err == nil {
		k.cards = out
	}
	return out, err
}

func kitsOf[R ~map[string]any](rows []R) ([]journal.TestKit, error) {
	out := make([]journal.TestKit, 0, len(rows))
	for _, row := range rows {
		t := journal.TestKit{ID: text(row["id"]), Name: text(row["name"]), Reading: text(row["reading"]), Unit: quantity.UnitCode(text(row["unit"])),
			Basis: quantity.Basis(text(row["basis"])), Resolution: text(row["resolution"])}
		if err := json.Unmarshal([]byte(text(row["steps"])), &t.Steps); err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	place := map[string]int{}
	for i, name := range journal.Tests() {
		place[name] = i
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Name != out[j].Name {
			return out[i].Name < out[j].Name
		}
		return place[out[i].Reading] < place[out[j].Reading]
	})
	return out, nil
}

// AddKit keeps a test kit of the person's own and gives its id. Refusals: see
// journal.TestKit.Check.
func (k *Keeper) AddKit(ctx context.Context, t journal.TestKit) (string, error) {
	t.ID = k.newID()
	row, err := kitRow(t)
	if err != nil {
		return "", err
	}
	return t.ID, k.applyKit(ctx, "undo.kit_add", t.Name, store.Op{Table: "kit", After: row})
}

// ChangeKit gives a kit other properties. What was read from it before keeps its
// number, unit and basis as they were written down. Refusals: no such kit, and
// those of AddKit.
func (k *Keeper) ChangeKit(ctx context.Context, t journal.TestKit) error {
	before, err := k.kitRow(ctx, t.ID)
	if err != nil {
		return err
	}
	after, err := kitRow(t)
	if err != nil {
		return err
	}
	return k.applyKit(ctx, "undo.kit_change", t.Name, store.Op{Table: "kit", Before: before, After: after})
}

// DeleteKit takes a kit from the list. Readings keep the name of the kit that
// showed them. Refusal: no such kit.
func (k *Keeper) DeleteKit(ctx context.Context, id string) error {
	row, err := k.kitRow(ctx, id)
	if err != nil {
		return err
	}
	return k.applyKit(ctx, "undo.kit_delete", text(row["name"]), store.Op{Table: "kit",
		Before: store.Row{"id": id, "deleted": nil}, After: store.Row{"id": id, "deleted": stamp(k.now())}})
}

func (k *Keeper) applyKit(ctx context.Context, label, name string, op store.Op) error {
	return k.apply(ctx, store.Change{Label: label, Values: map[string]string{"Name": name}, At: stamp(k.now()), Ops: []store.Op{op}})
}

func (k *Keeper) kitRow(ctx context.Context, id string) (store.Row, error) {
	rows, err := k.st.Load(ctx, "kit", map[string]any{"id": id, "deleted": nil}, "")
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 {
		return nil, working.Refuse("kit", "refuse.keeper.no_kit")
	}
	return rows[0], nil
}

func kitRow(t journal.TestKit) (store.Row, error) {
	t.Name = strings.TrimSpace(t.Name)
	if err := t.Check(); err != nil {
		return nil, err
	}
	steps, err := json.Marshal(append([]string{}, t.Steps...))
	if err != nil {
		return nil, err
	}
	return store.Row{"id": t.ID, "name": t.Name, "reading": t.Reading, "unit": string(t.Unit), "basis": orNil(string(t.Basis)),
		"resolution": orNil(t.Resolution), "steps": string(steps), "deleted": nil}, nil
}
