package keeper

import (
	"context"
	"encoding/json"
	"slices"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Past is how an entry stood before an edit.
type Past struct {
	N     int       // counts from 1, the oldest first
	Until time.Time // when the edit replaced it
	Entry journal.Entry
}

// was is the form in which the table entry_past keeps an entry.
type was struct {
	At       string            `json:"at"`
	Zone     string            `json:"zone"`
	Note     string            `json:"note,omitempty"`
	Edited   string            `json:"edited,omitempty"`
	Readings []journal.Reading `json:"readings,omitempty"`
}

// EntryPast lists how an entry stood before each edit, the latest first. It is
// empty for an entry never edited. Refusal: no such entry.
func (k *Keeper) EntryPast(ctx context.Context, tank, id string) ([]Past, error) {
	e, err := k.Entry(ctx, tank, id)
	if err != nil {
		return nil, err
	}
	rows, err := k.st.Load(ctx, "entry_past", map[string]any{"entry": id}, "n")
	if err != nil {
		return nil, err
	}
	out := make([]Past, 0, len(rows))
	for _, row := range rows {
		var w was
		if err := json.Unmarshal([]byte(text(row["was"])), &w); err != nil {
			return nil, err
		}
		n, _ := row["n"].(int64)
		p := Past{N: int(n), Until: unstamp(row["at"]), Entry: e}
		p.Entry.At, p.Entry.Zone, p.Entry.Note, p.Entry.Edited, p.Entry.Readings = journal.Civil(w.At), w.Zone, w.Note, w.Edited, w.Readings
		out = append(out, p)
	}
	slices.Reverse(out)
	return out, nil
}

// RestorePast gives an entry back the time, note and readings that it had before
// edit n. That is an edit of its own: how it stood until now is kept as well.
// Refusal: no such entry, or no such edit.
func (k *Keeper) RestorePast(ctx context.Context, tank, id string, n int) error {
	past, err := k.EntryPast(ctx, tank, id)
	if err != nil {
		return err
	}
	for _, p := range past {
		if p.N == n {
			return k.editEntry(ctx, tank, p.Entry, "undo.entry_restore")
		}
	}
	return working.Refuse("entry", "refuse.keeper.no_past")
}

// pastOp keeps an entry as it stands before an edit.
func (k *Keeper) pastOp(ctx context.Context, e journal.Entry, at string) (store.Op, error) {
	rows, err := k.st.Load(ctx, "entry_past", map[string]any{"entry": e.ID}, "n")
	if err != nil {
		return store.Op{}, err
	}
	n := int64(1)
	if len(rows) > 0 {
		last, _ := rows[len(rows)-1]["n"].(int64)
		n = last + 1
	}
	b, err := json.Marshal(was{At: string(e.At), Zone: e.Zone, Note: e.Note, Edited: e.Edited, Readings: e.Readings})
	if err != nil {
		return store.Op{}, err
	}
	return store.Op{Table: "entry_past", After: store.Row{"entry": e.ID, "n": n, "at": at, "was": string(b)}}, nil
}

// sameEntry reports whether two states of one entry say the same.
func sameEntry(a, b journal.Entry) bool {
	if a.At != b.At || a.Zone != b.Zone || a.Note != b.Note || len(a.Readings) != len(b.Readings) {
		return false
	}
	for _, r := range a.Readings {
		if x, ok := b.Get(r.Name); !ok || x != r {
			return false
		}
	}
	return true
}

// Binned is an entry in the bin.
type Binned struct {
	Entry   journal.Entry
	Deleted time.Time
}

// Bin lists the deleted entries of a tank, the one deleted last first. Nothing
// leaves the bin by itself.
func (k *Keeper) Bin(ctx context.Context, tank string) ([]Binned, error) {
	if _, err := k.tankRow(ctx, tank); err != nil {
		return nil, err
	}
	rows, err := k.st.Load(ctx, "entry", map[string]any{"tank": tank}, "deleted, seq")
	if err != nil {
		return nil, err
	}
	var out []Binned
	for _, row := range rows {
		if row["deleted"] == nil {
			continue
		}
		e := entryOf(row)
		values, err := k.st.Load(ctx, "entry_value", map[string]any{"entry": e.ID}, "name")
		if err != nil {
			return nil, err
		}
		for _, v := range values {
			e.Readings = append(e.Readings, readingOf(v))
		}
		out = append(out, Binned{Entry: e, Deleted: unstamp(row["deleted"])})
	}
	slices.Reverse(out)
	return out, nil
}

// RestoreEntry takes an entry out of the bin, and does to the stock again what it
// did. Refusals: it is not there; "count", where the fish that it took out are no
// longer so many.
func (k *Keeper) RestoreEntry(ctx context.Context, tank, id string) error {
	rows, err := k.st.Load(ctx, "entry", map[string]any{"id": id, "tank": tank}, "")
	if err != nil {
		return err
	}
	if len(rows) == 0 || rows[0]["deleted"] == nil {
		return working.Refuse("entry", "refuse.keeper.not_in_bin")
	}
	e := entryOf(rows[0])
	values, err := k.st.Load(ctx, "entry_value", map[string]any{"entry": id}, "name")
	if err != nil {
		return err
	}
	for _, v := range values {
		e.Readings = append(e.Readings, readingOf(v))
	}
	stock, err := k.stockRestored(ctx, tank, e)
	if err != nil {
		return err
	}
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.entry_unbin", Values: map[string]string{"Kind": string(e.Kind)}, At: stamp(k.now()),
		Ops: append(stock, store.Op{Table: "entry", Before: store.Row{"id": id, "deleted": rows[0]["deleted"]}, After: store.Row{"id": id, "deleted": nil}})})
}
