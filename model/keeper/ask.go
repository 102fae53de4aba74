package keeper

import (
	"context"
	"maps"
	"slices"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// Record returns all that is known of a tank as of now: what was done when,
// which notes were confirmed with which text, the answers, entries and timers.
// It is a copy that the caller may keep and change. Refusal: the tank is gone.
func (k *Keeper) Record(ctx context.Context, tank string) (care.Record, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return care.Record{}, err
	}
	c := *r
	c.Done = make(map[care.Step]care.Done, len(r.Done))
	for s, d := range r.Done {
		d.Basis = maps.Clone(d.Basis)
		c.Done[s] = d
	}
	c.Acks = slices.Clone(r.Acks)
	c.Timers = slices.Clone(r.Timers)
	c.Entries = slices.Clone(r.Entries)
	for i := range c.Entries {
		c.Entries[i].Readings = slices.Clone(c.Entries[i].Readings)
	}
	return c, nil
}

// Dose is how much conditioner a batch of tap water takes by the bottle's label.
type Dose struct {
	Water  quantity.Volume // the tap water that it is for
	Amount quantity.Value  // a volume
}

// Doses are the conditioner doses that come back again and again with a tank.
type Doses struct {
	Whole  Dose // the whole fill
	Bucket Dose // one full bucket; zero where tap water runs straight into the tank
	Change Dose // a usual water change, treated the same way as the fill
	Share  quantity.Ratio
}

// usualChange is the part of the water that is changed as a rule.
// Common practice, no source: about a quarter.
const usualChange = quantity.Ratio(0.25)

// Doses works out the conditioner for the fill, a bucket and a usual change, by
// the label as it was given. Errors: care.ErrNotKnown where the label or the
// tank is not known; *working.Refusal for a label that cannot be meant so.
func (k *Keeper) Doses(ctx context.Context, tank string) (Doses, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return Doses{}, err
	}
	f := care.NewFacts(r)
	full, err := f.Full()
	if err != nil {
		return Doses{}, err
	}
	whole, _, err := f.Treated()
	if err != nil {
		return Doses{}, err
	}
	out := Doses{Whole: Dose{whole.Water, whole.Whole}, Share: usualChange}
	amount, _ := f.Answer("dose.amount")
	per, _ := f.Answer("dose.per")
	way, _ := f.Answer("treat.way")
	bucket, _ := f.Answer("bucket.volume")
	t := water.Treatment{Method: water.Method(way.Choice), NewWater: full.Net * quantity.Volume(usualChange), Tank: full.Net}
	if t.Label, err = labelOf(amount, per); err != nil {
		return Doses{}, err
	}
	if v, err := bucket.Measure.Value(); err == nil {
		t.Bucket = quantity.Volume(v.X)
	}
	change, _, err := water.Treat(t)
	if err != nil {
		return Doses{}, err
	}
	out.Change = Dose{t.NewWater, change.Whole}
	if whole.Buckets > 0 {
		out.Bucket = Dose{t.Bucket, whole.PerBucket}
	}
	return out, nil
}

func labelOf(amount, per care.Answer) (water.Label, error) {
	a, err := amount.Measure.Value()
	if err != nil {
		return water.Label{}, working.Refuse("dose.amount", "refuse.not_a_number")
	}
	p, err := per.Measure.Value()
	if err != nil {
		return water.Label{}, working.Refuse("dose.per", "refuse.not_a_number")
	}
	return water.LiquidLabel(quantity.Volume(a.X), quantity.Volume(p.X)), nil
}
