package keeper

import (
	"context"
	"encoding/json"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// CarryOn finishes a step: the proposals that stood on its page become answers,
// the step is noted as done with what it relied on, and what was done with one's
// hands becomes entries of the daybook. Errors: *Blocked when it still waits.
func (k *Keeper) CarryOn(ctx context.Context, tank string, step care.Step) error {
	return k.carryOn(ctx, tank, step, k.now())
}

func (k *Keeper) carryOn(ctx context.Context, tank string, step care.Step, at time.Time) error {
	r, err := k.record(ctx, tank)
	if err != nil {
		return err
	}
	r.Now = at
	if step == care.FirstFish {
		if r.First, err = k.first(ctx, tank, r); err != nil {
			return err
		}
	}
	_, draft, err := k.draft(ctx, tank)
	if err != nil {
		return err
	}
	f := care.NewFacts(r)
	page := f.Page(step)
	if draft {
		page = narrowedPage(page)
		if !slip.Marked(step) {
			return working.Refuse("step", "refuse.keeper.at_home")
		}
	}
	if page.State == care.Finished {
		return nil
	}
	if len(page.Blocked) > 0 {
		return &Blocked{step, page.Blocked}
	}
	c := store.Change{Tank: tank, Label: "undo.step_done", Values: map[string]string{"Step": string(step)}, At: stamp(at)}
	for _, v := range page.Fields {
		if draft && care.OfHome(v.Field.ID) { // what nobody said of a family's home is proposed there
			continue
		}
		if !v.Given && !v.Answer.IsZero() {
			a := v.Answer
			a.Origin = care.FromProposal
			c.Ops = append(c.Ops, k.answerOp(tank, v.Field.ID, nil, a, at))
		}
	}
	basis, err := json.Marshal(f.Basis(step))
	if err != nil {
		return err
	}
	done := store.Op{Table: "done", After: store.Row{"tank": tank, "step": string(step), "at": stamp(at), "basis": string(basis)}}
	rows, err := k.st.Load(ctx, "done", map[string]any{"tank": tank, "step": string(step)}, "")
	if err != nil {
		return err
	}
	again := len(rows) > 0
	if again {
		done.Before = rows[0]
	}
	c.Ops = append(c.Ops, done)
	if draft { // nothing was done with anybody's hands
		return k.apply(ctx, c)
	}
	for _, e := range k.stepEntries(f, r.Bags, step, again, at) {
		c.Ops = append(c.Ops, entryOps(tank, e)...)
		stock, err := k.stepStock(ctx, tank, e)
		if err != nil {
			return err
		}
		c.Ops = append(c.Ops, stock...)
	}
	for _, t := range r.Timers {
		if step == care.HomeComing && !t.Ended && t.Bag == "" {
			c.Ops = append(c.Ops, store.Op{Table: "timer", Before: store.Row{"id": t.ID, "ended": nil}, After: store.Row{"id": t.ID, "ended": stamp(at)}})
		}
	}
	return k.apply(ctx, c)
}

// stepEntries is what finishing a step writes into the daybook.
func (k *Keeper) stepEntries(f *care.Facts, bags care.Bags, step care.Step, again bool, at time.Time) []journal.Entry {
	entry := func(kind journal.Kind, readings ...journal.Reading) journal.Entry {
		return journal.Entry{ID: k.newID(), Kind: kind, At: journal.CivilOf(at), Zone: journal.ZoneOf(at), Step: string(step), Readings: readings}
	}
	answer := func(name string, id care.FieldID) []journal.Reading {
		if a, _ := f.Answer(id); !a.Measure.IsZero() {
			return []journal.Reading{{Name: name, Measure: a.Measure}}
		}
		return nil
	}
	value := func(name string, v quantity.Value, unit quantity.UnitCode) []journal.Reading {
		return []journal.Reading{{Name: name, Measure: quantity.Of(v.In(quantity.MustUnit(unit)), unit, 6)}}
	}
	out := []journal.Entry{entry(journal.StepDone)}
	if again || step == care.HomeComing && bags.Closed > 0 {
		return out // what was done with one's hands was done once, or a bag wrote it
	}
	switch step {
	case care.FillTreat:
		filled := entry(journal.Filled)
		if full, err := f.Full(); err == nil {
			filled.Readings = append(filled.Readings, value(journal.NameVolume, full.Net.Value(), "l")...)
		}
		out = append(out, filled)
		if t, _, err := f.Treated(); err == nil {
			unit := quantity.UnitCode("ml")
			if t.Whole.Kind == quantity.KindMass {
				unit = "g"
			}
			out = append(out, entry(journal.Dosed, value(journal.NameDose, t.Whole, unit)...))
		}
	case care.PowerOn:
		out = append(out, entry(journal.Powered))
	case care.HomeComing:
		home := entry(journal.HomeComing, answer(journal.NameTemperature, "bag.temp")...)
		home.Readings = append(home.Readings, answer(journal.NameVolume, "bag.volume")...)
		fish := entry(journal.FishIn, answer(journal.NameCount, "fish.count")...)
		fish.Readings = append(fish.Readings, answer(journal.NameLength, "fish.adult")...)
		if a, _ := f.Answer("fish.kind"); a.Words != "" {
			fish.Note = a.Words
		}
		out = append(out, home, fish)
	}
	return out
}
