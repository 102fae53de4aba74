package keeper

import (
	"context"
	"time"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Wish is a number of one kind that a person means to add to a tank.
type Wish struct {
	ID      string
	Species fish.Code
	Count   int  // 1 to fish.MaxCount
	Males   *int // of them; nil is not known
	Added   time.Time
}

// MaxWishes is the most kinds that are wished for at a time. Judgement: a tank
// that wants more is several tanks.
const MaxWishes = 50

// Lot is the wish as animals to come.
func (w Wish) Lot() fish.Lot {
	return fish.Lot{Code: w.Species, Count: w.Count, Males: w.Males, Planned: true}
}

// Wishes lists what is wished for a tank, in the order in which it was.
func (k *Keeper) Wishes(ctx context.Context, tank string) ([]Wish, error) {
	rows, err := k.st.Load(ctx, "wish", map[string]any{"tank": tank, "deleted": nil}, "added, id")
	if err != nil {
		return nil, err
	}
	out := make([]Wish, 0, len(rows))
	for _, r := range rows {
		out = append(out, wishOf(r))
	}
	return out, nil
}

func wishOf(r store.Row) Wish {
	n, _ := r["count"].(int64)
	w := Wish{ID: text(r["id"]), Species: fish.Code(text(r["species"])), Count: int(n), Added: unstamp(r["added"])}
	if m, ok := r["males"].(int64); ok {
		males := int(m)
		w.Males = &males
	}
	return w
}

// check refuses what no wish can be: an unknown kind ("species"), a count
// ("count") or a number of males ("males") out of range.
func (w Wish) check() error {
	if _, err := fish.Get(w.Species); err != nil {
		return working.Refuse("species", "refuse.fish.unknown")
	}
	count := func(n int) quantity.Value { return quantity.Count(n).Value() }
	if w.Count < 1 || w.Count > fish.MaxCount {
		return working.Outside("count", "q.fish.count", count(w.Count), count(1), count(fish.MaxCount))
	}
	if w.Males != nil && (*w.Males < 0 || *w.Males > w.Count) {
		return working.Outside("males", "q.fish.males", count(*w.Males), count(0), count(w.Count))
	}
	return nil
}

// AddWish wishes for animals and returns the wish's ID. A kind that is wished for
// already counts so many more, its males as far as they are known of all. ID and
// Added of w are not read. Refusals: "species", "count", "males", "wish" (too many
// kinds), an unknown tank.
func (k *Keeper) AddWish(ctx context.Context, tank string, w Wish) (string, error) {
	if err := w.check(); err != nil {
		return "", err
	}
	if _, err := k.tankRow(ctx, tank); err != nil {
		return "", err
	}
	all, err := k.Wishes(ctx, tank)
	if err != nil {
		return "", err
	}
	for _, old := range all {
		if old.Species != w.Species {
			continue
		}
		w.ID, w.Count = old.ID, old.Count+w.Count
		if w.Males != nil && old.Males != nil {
			m := *old.Males + *w.Males
			w.Males = &m
		} else {
			w.Males = nil
		}
		if err := w.check(); err != nil {
			return "", err
		}
		return old.ID, k.changeWish(ctx, tank, "undo.wish_add", old, w)
	}
	if len(all) >= MaxWishes {
		return "", working.Refuse("wish", "refuse.keeper.wishes")
	}
	now := stamp(k.now())
	w.ID = k.newID()
	return w.ID, k.wishApply(ctx, tank, "undo.wish_add", w.Species,
		store.Op{Table: "wish", After: store.Row{"id": w.ID, "tank": tank, "species": string(w.Species), "count": int64(w.Count), "males": malesOf(w), "added": now}})
}

// SetWish gives a wish another count and number of males; its kind stays.
// Refusals: "count", "males", "wish" (no such wish).
func (k *Keeper) SetWish(ctx context.Context, tank string, w Wish) error {
	old, err := k.wish(ctx, tank, w.ID)
	if err != nil {
		return err
	}
	w.Species = old.Species
	if err := w.check(); err != nil {
		return err
	}
	return k.changeWish(ctx, tank, "undo.wish_set", old, w)
}

// RemoveWish puts a wish into the bin. Refusal: "wish" (no such wish).
func (k *Keeper) RemoveWish(ctx context.Context, tank, id string) error {
	old, err := k.wish(ctx, tank, id)
	if err != nil {
		return err
	}
	return k.wishApply(ctx, tank, "undo.wish_remove", old.Species,
		store.Op{Table: "wish", Before: store.Row{"id": id, "deleted": nil}, After: store.Row{"id": id, "deleted": stamp(k.now())}})
}

func (k *Keeper) wish(ctx context.Context, tank, id string) (Wish, error) {
	all, err := k.Wishes(ctx, tank)
	if err != nil {
		return Wish{}, err
	}
	for _, w := range all {
		if w.ID == id {
			return w, nil
		}
	}
	return Wish{}, working.Refuse("wish", "refuse.keeper.no_wish")
}

// changeWish keeps what differs; nothing where nothing does.
func (k *Keeper) changeWish(ctx context.Context, tank, label string, old, w Wish) error {
	if old.Count == w.Count && malesOf(old) == malesOf(w) {
		return nil
	}
	row := func(w Wish) store.Row {
		return store.Row{"id": w.ID, "count": int64(w.Count), "males": malesOf(w)}
	}
	return k.wishApply(ctx, tank, label, old.Species, store.Op{Table: "wish", Before: row(old), After: row(w)})
}

func malesOf(w Wish) any {
	if w.Males == nil {
		return nil
	}
	return int64(*w.Males)
}

func (k *Keeper) wishApply(ctx context.Context, tank, label string, kind fish.Code, op store.Op) error {
	return k.apply(ctx, store.Change{Tank: tank, Label: label, Values: map[string]string{"Species": string(kind)}, At: stamp(k.now()), Ops: []store.Op{op}})
}

// grantOps take so many animals that came off what is wished for: a wish that is
// granted whole goes, one that is not wants so many fewer.
func (k *Keeper) grantOps(ctx context.Context, tank string, kind fish.Code, came int) ([]store.Op, error) {
	all, err := k.Wishes(ctx, tank)
	if err != nil {
		return nil, err
	}
	for _, w := range all {
		if w.Species != kind || kind == "" {
			continue
		}
		if came >= w.Count {
			return []store.Op{{Table: "wish", Before: store.Row{"id": w.ID, "deleted": nil}, After: store.Row{"id": w.ID, "deleted": stamp(k.now())}}}, nil
		}
		rest := w
		if rest.Count -= came; rest.Males != nil && *rest.Males > rest.Count {
			rest.Males = nil // who came is not known by sex
		}
		return []store.Op{{Table: "wish", Before: store.Row{"id": w.ID, "count": int64(w.Count), "males": malesOf(w)},
			After: store.Row{"id": w.ID, "count": int64(rest.Count), "males": malesOf(rest)}}}, nil
	}
	return nil, nil
}
