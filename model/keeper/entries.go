package keeper

import (
	"context"
	"io"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Day is the entries of one civil day, in order.
type Day struct {
	Date    string // 2026-11-25
	Entries []journal.Entry
}

// Days lists the daybook by day, the newest day first and, within a day, the
// newest entry first.
func (k *Keeper) Days(ctx context.Context, tank string) ([]Day, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	var out []Day
	for i := len(r.Entries) - 1; i >= 0; i-- {
		e := r.Entries[i]
		if n := len(out); n == 0 || out[n-1].Date != e.At.Day() {
			out = append(out, Day{Date: e.At.Day()})
		}
		d := &out[len(out)-1]
		d.Entries = append(d.Entries, e)
	}
	return out, nil
}

// WriteCSV writes the whole daybook of a tank, the oldest entry first, as
// journal.WriteCSV describes. Errors: those of an unknown tank, and of w.
func (k *Keeper) WriteCSV(ctx context.Context, tank string, w io.Writer) error {
	r, err := k.record(ctx, tank)
	if err != nil {
		return err
	}
	return journal.WriteCSV(w, r.Entries)
}

// Entry reads one entry.
func (k *Keeper) Entry(ctx context.Context, tank, id string) (journal.Entry, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return journal.Entry{}, err
	}
	for _, e := range r.Entries {
		if e.ID == id {
			return e, nil
		}
	}
	return journal.Entry{}, working.Refuse("entry", "refuse.keeper.no_entry")
}

// AddEntry writes an entry. An empty At is now; ID, Seq and Edited are set here.
// Refusals: see journal.Entry.Check; an entry without anything in it; a time
// later than tomorrow.
func (k *Keeper) AddEntry(ctx context.Context, tank string, e journal.Entry) (string, error) {
	return k.addEntry(ctx, tank, e, k.now())
}

// AddWithFollowUp is AddEntry that asks for something to be done again once, at a
// civil time, as one change. Refusals: as AddEntry and AddFollowUp.
func (k *Keeper) AddWithFollowUp(ctx context.Context, tank string, e journal.Entry, code rounds.Code, when journal.Civil) (string, error) {
	op, err := k.followUpOp(tank, code, when, "")
	if err != nil {
		return "", err
	}
	return k.addEntry(ctx, tank, e, k.now(), op)
}

func (k *Keeper) addEntry(ctx context.Context, tank string, e journal.Entry, now time.Time, more ...store.Op) (string, error) {
	if e.At == "" {
		e.At, e.Zone = journal.CivilOf(now), journal.ZoneOf(now)
	}
	if e.Zone == "" {
		e.Zone = journal.ZoneOf(now)
	}
	if err := checkEntry(e, now); err != nil {
		return "", err
	}
	if _, err := k.tankRow(ctx, tank); err != nil {
		return "", err
	}
	e.ID = k.newID()
	return e.ID, k.apply(ctx, store.Change{Tank: tank, Label: "undo.entry_add", Values: map[string]string{"Kind": string(e.Kind)}, At: stamp(now), Ops: append(entryOps(tank, e), more...)})
}

// bare are the kinds that say something by themselves: fed, cleaned.
var bare = map[journal.Kind]bool{journal.Fed: true, journal.Changed: true, journal.Dosed: true, journal.Cleaned: true, journal.PowerCut: true, journal.Filled: true,
	journal.Powered: true, journal.StepDone: true, journal.HomeComing: true, journal.ToppedUp: true, journal.FishIn: true, journal.FishOut: true, journal.Photo: true}

func checkEntry(e journal.Entry, now time.Time) error {
	if err := e.Check(); err != nil {
		return err
	}
	if len(e.Readings) == 0 && e.Note == "" && !bare[e.Kind] {
		return working.Refuse("entry", "refuse.journal.empty")
	}
	if e.At > journal.CivilOf(now.AddDate(0, 0, 1)) {
		return working.Refuse("at", "refuse.journal.future")
	}
	return nil
}

// EditEntry gives an entry another time, note and readings; its kind stays. How
// it was before is kept: see EntryPast. An edit that changes nothing does nothing.
// The stock follows an entry that changed it; refusals then also: "count", where it
// says no number any more or there are not so many.
func (k *Keeper) EditEntry(ctx context.Context, tank string, e journal.Entry) error {
	return k.editEntry(ctx, tank, e, "undo.entry_edit")
}

func (k *Keeper) editEntry(ctx context.Context, tank string, e journal.Entry, label string) error {
	old, err := k.Entry(ctx, tank, e.ID)
	if err != nil {
		return err
	}
	e.Kind, e.Step, e.Seq = old.Kind, old.Step, old.Seq
	if e.Zone == "" {
		e.Zone = old.Zone
	}
	if err := checkEntry(e, k.now()); err != nil {
		return err
	}
	if sameEntry(old, e) {
		return nil
	}
	now := stamp(k.now())
	past, err := k.pastOp(ctx, old, now)
	if err != nil {
		return err
	}
	c := store.Change{Tank: tank, Label: label, Values: map[string]string{"Kind": string(e.Kind)}, At: now, Ops: []store.Op{past}}
	c.Ops = append(c.Ops, store.Op{Table: "entry",
		Before: store.Row{"id": old.ID, "at": string(old.At), "zone": old.Zone, "note": orNil(old.Note), "edited": orNil(old.Edited)},
		After:  store.Row{"id": old.ID, "at": string(e.At), "zone": e.Zone, "note": orNil(e.Note), "edited": now}})
	for _, r := range old.Readings {
		if _, keep := e.Get(r.Name); !keep {
			c.Ops = append(c.Ops, store.Op{Table: "entry_value", Before: readingRow(old.ID, r)})
		}
	}
	for _, r := range e.Readings {
		was, had := old.Get(r.Name)
		switch {
		case !had:
			c.Ops = append(c.Ops, store.Op{Table: "entry_value", After: readingRow(old.ID, r)})
		case was != r:
			c.Ops = append(c.Ops, store.Op{Table: "entry_value", Before: readingRow(old.ID, was), After: readingRow(old.ID, r)})
		}
	}
	stock, err := k.stockEdited(ctx, tank, old, e)
	if err != nil {
		return err
	}
	c.Ops = append(c.Ops, stock...)
	return k.apply(ctx, c)
}

// DeleteEntry puts an entry into the bin, and takes back what it did to the stock. It
// can be undone. Refusal: "count", where the fish that it brought have left since.
func (k *Keeper) DeleteEntry(ctx context.Context, tank, id string) error {
	e, err := k.Entry(ctx, tank, id)
	if err != nil {
		return err
	}
	stock, err := k.stockDeleted(ctx, tank, e)
	if err != nil {
		return err
	}
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.entry_delete", Values: map[string]string{"Kind": string(e.Kind)}, At: stamp(k.now()),
		Ops: append(stock, store.Op{Table: "entry", Before: store.Row{"id": id, "deleted": nil}, After: store.Row{"id": id, "deleted": stamp(k.now())}})})
}

func entryOps(tank string, e journal.Entry) []store.Op {
	ops := []store.Op{{Table: "entry", After: store.Row{"id": e.ID, "tank": tank, "kind": string(e.Kind), "at": string(e.At), "zone": e.Zone,
		"note": orNil(e.Note), "step": orNil(e.Step), "sick": orNil(e.Sick), "reply": orNil(e.Reply)}}}
	for _, r := range e.Readings {
		ops = append(ops, store.Op{Table: "entry_value", After: readingRow(e.ID, r)})
	}
	return ops
}

func readingRow(entry string, r journal.Reading) store.Row {
	return store.Row{"entry": entry, "name": r.Name, "text": r.Measure.Number, "unit": orNil(string(r.Measure.Unit)),
		"basis": orNil(string(r.Measure.Basis)), "qualifier": string(r.Qualifier), "kit": orNil(r.Kit)}
}
