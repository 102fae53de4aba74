package keeper

import (
	"context"
	"slices"
	"strings"
	"time"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Pinch is what one pinch of a food weighs between a person's fingers.
type Pinch struct {
	ID     string
	Food   string           // in the person's words
	Twenty quantity.Measure // twenty of them on the scale, as typed
	One    quantity.Mass
	At     time.Time
	Trail  *working.Trail
}

// Pinches lists the foods whose pinch was weighed, the latest first.
func (k *Keeper) Pinches(ctx context.Context) ([]Pinch, error) {
	rows, err := k.st.Load(ctx, "pinch", map[string]any{"deleted": nil}, "at, id")
	if err != nil {
		return nil, err
	}
	var out []Pinch
	for _, r := range rows {
		p := Pinch{ID: text(r["id"]), Food: text(r["food"]), Twenty: quantity.Measure{Number: text(r["text"]), Unit: quantity.UnitCode(text(r["unit"]))}, At: unstamp(r["at"])}
		if p.One, p.Trail, err = pinchOf(p.Twenty); err == nil { // one that cannot be is not reckoned with
			out = append(out, p)
		}
	}
	slices.Reverse(out)
	return out, nil
}

func pinchOf(twenty quantity.Measure) (quantity.Mass, *working.Trail, error) {
	x, ok, err := valueOf(twenty, "twenty", quantity.KindMass)
	if err == nil && !ok {
		err = working.Refuse("twenty", "refuse.missing")
	}
	if err != nil {
		return 0, nil, err
	}
	return fish.PinchOf(quantity.Mass(x))
}

// WeighPinch keeps what twenty pinches of a food weigh; it replaces an earlier
// weighing of that food. The change stands in the history of the tank at which it
// was made. Refusals: "food" without a name or overlong; "twenty", 0.1 to 10 g.
func (k *Keeper) WeighPinch(ctx context.Context, tank, food string, twenty quantity.Measure) (string, error) {
	food = strings.Join(strings.Fields(food), " ")
	if food == "" {
		return "", working.Refuse("food", "refuse.missing")
	}
	if err := journal.Said(journal.NameWhat, food).Check(); err != nil {
		return "", renamed(err, journal.NameWhat, "food")
	}
	if _, _, err := pinchOf(twenty); err != nil {
		return "", err
	}
	if _, err := k.tankRow(ctx, tank); err != nil {
		return "", err
	}
	rows, err := k.st.Load(ctx, "pinch", map[string]any{"deleted": nil}, "id")
	if err != nil {
		return "", err
	}
	now, id := stamp(k.now()), k.newID()
	c := store.Change{Tank: tank, Label: "undo.pinch", Values: map[string]string{"Name": food}, At: now}
	for _, r := range rows {
		if strings.EqualFold(text(r["food"]), food) {
			c.Ops = append(c.Ops, store.Op{Table: "pinch", Before: store.Row{"id": r["id"], "deleted": nil}, After: store.Row{"id": r["id"], "deleted": now}})
		}
	}
	c.Ops = append(c.Ops, store.Op{Table: "pinch", After: store.Row{"id": id, "food": food, "text": twenty.Number, "unit": string(twenty.Unit), "at": now}})
	return id, k.apply(ctx, c)
}

// DropPinch forgets a weighing. It can be undone at that tank. Refusal: there is
// none ("pinch").
func (k *Keeper) DropPinch(ctx context.Context, tank, id string) error {
	rows, err := k.st.Load(ctx, "pinch", map[string]any{"id": id, "deleted": nil}, "")
	if err != nil {
		return err
	}
	if len(rows) == 0 {
		return working.Refuse("pinch", "refuse.keeper.no_pinch")
	}
	now := stamp(k.now())
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.pinch_drop", Values: map[string]string{"Name": text(rows[0]["food"])}, At: now,
		Ops: []store.Op{{Table: "pinch", Before: store.Row{"id": id, "deleted": nil}, After: store.Row{"id": id, "deleted": now}}}})
}
