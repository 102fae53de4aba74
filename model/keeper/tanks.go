package keeper

import (
	"context"
	"errors"
	"slices"
	"strings"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// TankOrigin says how a tank came into the daybook.
type TankOrigin string

// The origins.
const (
	Own         TankOrigin = "own"
	Example     TankOrigin = "example" // comes with the program; marked so and removable
	FromProfile TankOrigin = "profile"
	// Counter is a starter profile in work: no tank of anybody's. See Profiles.
	Counter TankOrigin = "counter"
)

// Tank is the summary of a tank.
type Tank struct {
	ID      string
	Name    string
	Origin  TankOrigin
	Created time.Time
	Retired time.Time // when it was taken out of use; the zero time while it is in use
}

// MaxName is the longest name of a tank, in runes.
const MaxName = 60

// Tanks lists the tanks that are not removed, those in use first and each kind
// oldest first. Starter profiles in work are not among them.
func (k *Keeper) Tanks(ctx context.Context) ([]Tank, error) {
	rows, err := k.st.Load(ctx, "tank", map[string]any{"deleted": nil}, "created, id")
	if err != nil {
		return nil, err
	}
	drafts, err := k.drafts(ctx)
	if err != nil {
		return nil, err
	}
	out := make([]Tank, 0, len(rows))
	for _, r := range rows {
		if _, ok := drafts[text(r["id"])]; !ok {
			out = append(out, tankOf(r))
		}
	}
	slices.SortStableFunc(out, func(a, b Tank) int { // false before true
		switch {
		case a.Retired.IsZero() == b.Retired.IsZero():
			return 0
		case a.Retired.IsZero():
			return -1
		}
		return 1
	})
	return out, nil
}

func tankOf(r store.Row) Tank {
	return Tank{ID: text(r["id"]), Name: text(r["name"]), Origin: TankOrigin(text(r["origin"])), Created: unstamp(r["created"]), Retired: unstamp(r["retired"])}
}

func checkName(name string) (string, error) {
	name = strings.Join(strings.Fields(name), " ")
	switch {
	case name == "":
		return "", working.Refuse("tank.name", "refuse.missing")
	case len([]rune(name)) > MaxName:
		return "", working.Refuse("tank.name", "refuse.care.words_long")
	}
	return name, nil
}

// StartTank begins First fill for a new tank. system decides which round
// figures are proposed, once and for all. Refusals: an empty or overlong name.
func (k *Keeper) StartTank(ctx context.Context, name string, system quantity.System) (string, error) {
	return k.startTank(ctx, name, system, Own, k.now())
}

func (k *Keeper) startTank(ctx context.Context, name string, system quantity.System, origin TankOrigin, at time.Time) (string, error) {
	name, err := checkName(name)
	if err != nil {
		return "", err
	}
	id := k.newID()
	ops := k.startOps(id, name, system, origin, at)
	return id, k.st.Apply(ctx, store.Change{Label: "undo.tank_start", Values: map[string]string{"Name": name}, At: stamp(at), Ops: ops})
}

// startOps are the rows that a tank begins with.
func (k *Keeper) startOps(id, name string, system quantity.System, origin TankOrigin, at time.Time) []store.Op {
	return []store.Op{{Table: "tank", After: store.Row{"id": id, "name": name, "origin": string(origin), "created": stamp(at)}},
		k.answerOp(id, "tank.system", nil, care.Answer{Choice: string(system), Origin: care.FromPerson}, at),
		k.answerOp(id, "tank.nominal", nil, care.Answer{Choice: care.DefaultNominal(system), Origin: care.FromProposal}, at)}
}

func (k *Keeper) tankRow(ctx context.Context, id string) (store.Row, error) {
	rows, err := k.st.Load(ctx, "tank", map[string]any{"id": id, "deleted": nil}, "")
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 {
		return nil, working.Refuse("tank", "refuse.keeper.no_tank")
	}
	if _, ok, err := k.draft(ctx, id); err != nil {
		return nil, err
	} else if ok {
		rows[0]["origin"] = string(Counter)
	}
	return rows[0], nil
}

// RenameTank gives a tank another name.
func (k *Keeper) RenameTank(ctx context.Context, id, name string) error {
	name, err := checkName(name)
	if err != nil {
		return err
	}
	row, err := k.tankRow(ctx, id)
	if err != nil || text(row["name"]) == name {
		return err
	}
	return k.apply(ctx, store.Change{Tank: id, Label: "undo.tank_rename", Values: map[string]string{"Name": name}, At: stamp(k.now()),
		Ops: []store.Op{{Table: "tank", Before: store.Row{"id": id, "name": row["name"]}, After: store.Row{"id": id, "name": name}}}})
}

// RetireTank takes a tank out of use: it stays readable, and what recurs at it
// rests. It can be undone, and taken back by ReuseTank at any time. A tank that is
// retired already stays as it is.
func (k *Keeper) RetireTank(ctx context.Context, id string) error {
	return k.setRetired(ctx, id, "undo.tank_retire", stamp(k.now()))
}

// ReuseTank takes a retired tank into use again, and what recurs at it with it.
func (k *Keeper) ReuseTank(ctx context.Context, id string) error {
	return k.setRetired(ctx, id, "undo.tank_reuse", nil)
}

func (k *Keeper) setRetired(ctx context.Context, id, label string, at any) error {
	row, err := k.tankRow(ctx, id)
	if err != nil || (row["retired"] == nil) == (at == nil) {
		return err
	}
	ops := []store.Op{{Table: "tank", Before: store.Row{"id": id, "retired": row["retired"]}, After: store.Row{"id": id, "retired": at}}}
	if at != nil { // what is waited for ends with it
		r, err := k.record(ctx, id)
		if err != nil {
			return err
		}
		for _, t := range r.Timers {
			if !t.Ended {
				ops = append(ops, endTimer(t, k.now()))
			}
		}
	}
	return k.apply(ctx, store.Change{Tank: id, Label: label, Values: map[string]string{"Name": text(row["name"])}, At: stamp(k.now()), Ops: ops})
}

const refuseRetired = working.Key("refuse.keeper.retired")

// InUse refuses what would write into a tank that is retired, or that there is not.
// Undo and redo, a new name, and taking it into use again are open to a retired one.
func (k *Keeper) InUse(ctx context.Context, id string) error {
	row, err := k.tankRow(ctx, id)
	if err != nil {
		return err
	}
	if row["retired"] != nil {
		return working.Refuse("tank", refuseRetired)
	}
	return nil
}

// RemoveTank puts a tank aside with everything in it. It can be undone.
func (k *Keeper) RemoveTank(ctx context.Context, id string) error {
	return k.removeTank(ctx, id, "undo.tank_remove")
}

func (k *Keeper) removeTank(ctx context.Context, id, label string) error {
	row, err := k.tankRow(ctx, id)
	if err != nil {
		return err
	}
	return k.apply(ctx, store.Change{Label: label, Values: map[string]string{"Name": text(row["name"])}, At: stamp(k.now()),
		Ops: []store.Op{{Table: "tank", Before: store.Row{"id": id, "deleted": nil}, After: store.Row{"id": id, "deleted": stamp(k.now())}}}})
}

// apply makes a change and forgets what was read before it.
// What is of a retired tank stays as it is; only the tank itself changes.
func (k *Keeper) apply(ctx context.Context, c store.Change) error {
	if c.Tank != "" && !slices.ContainsFunc(c.Ops, func(o store.Op) bool { return o.Table == "tank" }) {
		var r *working.Refusal
		if err := k.InUse(ctx, c.Tank); errors.As(err, &r) && r.Code == refuseRetired {
			return err
		}
	}
	err := k.st.Apply(ctx, c)
	if err == nil {
		k.waits.filled(c.Ops, k.now())
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if err == nil {
		k.follow(ctx, c.Ops)
	} else {
		k.forget() // a row was not as it was held
	}
	if c.Tank != "" {
		delete(k.records, c.Tank)
	} else {
		k.records = map[string]*care.Record{}
	}
	return err
}

// forget drops the journals and the kits that are held. The caller has locked k.
func (k *Keeper) forget() {
	k.books, k.pictures, k.cards = nil, map[string]*pictures{}, nil
}

// Step back and forth in the history of a tank.

// UndoLabel tells what Undo would take back; ok is false when there is nothing.
func (k *Keeper) UndoLabel(ctx context.Context, tank string) (label working.Key, values map[string]string, ok bool) {
	c, err := k.st.UndoLabel(ctx, tank)
	return working.Key(c.Label), c.Values, err == nil
}

// RedoLabel tells what Redo would make again; ok is false when there is nothing.
func (k *Keeper) RedoLabel(ctx context.Context, tank string) (label working.Key, values map[string]string, ok bool) {
	c, err := k.st.RedoLabel(ctx, tank)
	return working.Key(c.Label), c.Values, err == nil
}

// Undo takes back the latest change of a tank ("" for changes of the list of
// tanks) and says which it was. Errors: store.ErrNothing.
func (k *Keeper) Undo(ctx context.Context, tank string) (working.Key, map[string]string, error) {
	return k.walk(ctx, tank, k.st.Undo)
}

// Redo makes again what was taken back last. Errors: store.ErrNothing.
func (k *Keeper) Redo(ctx context.Context, tank string) (working.Key, map[string]string, error) {
	return k.walk(ctx, tank, k.st.Redo)
}

func (k *Keeper) walk(ctx context.Context, tank string, step func(context.Context, string) (store.Change, error)) (working.Key, map[string]string, error) {
	c, err := step(ctx, tank)
	k.mu.Lock()
	defer k.mu.Unlock()
	k.records = map[string]*care.Record{}
	if err == nil {
		k.follow(ctx, c.Ops)
	} else if !errors.Is(err, store.ErrNothing) {
		k.forget()
	}
	return working.Key(c.Label), c.Values, err
}
