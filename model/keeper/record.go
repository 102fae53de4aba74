package keeper

import (
	"context"
	"encoding/json"
	"slices"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// record reads all that First fill knows of a tank, as of now. The caller gets a
// copy of the parts it may change.
func (k *Keeper) record(ctx context.Context, tank string) (*care.Record, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	now := k.now()
	r, err := k.held(ctx, tank, now)
	if err != nil {
		return nil, err
	}
	c := copyOf(r, now)
	k.waits.bring(c, now)
	return c, nil
}

// held is the record as it was read last, or reads it. The caller has locked k.
func (k *Keeper) held(ctx context.Context, tank string, now time.Time) (*care.Record, error) {
	if r, ok := k.records[tank]; ok {
		return r, nil
	}
	r, err := k.read(ctx, tank, now)
	if err != nil {
		return nil, err
	}
	k.records[tank] = r
	return r, nil
}

// copyOf copies r, as of now, with the parts that may be changed.
func copyOf(r *care.Record, now time.Time) *care.Record {
	c := *r
	c.Now = now
	c.Timers = slices.Clone(r.Timers)
	c.Answers = make(map[care.FieldID]care.Answer, len(r.Answers))
	for id, a := range r.Answers {
		c.Answers[id] = a
	}
	return &c
}

func (k *Keeper) read(ctx context.Context, tank string, now time.Time) (*care.Record, error) {
	row, err := k.tankRow(ctx, tank)
	if err != nil {
		return nil, err
	}
	r := &care.Record{Name: text(row["name"]), Region: k.region, System: quantity.Metric,
		Answers: map[care.FieldID]care.Answer{}, Done: map[care.Step]care.Done{}}
	mine := map[string]any{"tank": tank}
	if r.Kits, err = k.heldKits(ctx); err != nil {
		return nil, err
	}
	all, err := k.allFish(ctx, tank)
	if err != nil {
		return nil, err
	}
	r.Lived = slices.ContainsFunc(all, Fish.lives)
	rows, err := k.st.Load(ctx, "answer", mine, "field")
	if err != nil {
		return nil, err
	}
	for _, row := range rows {
		r.Answers[care.FieldID(text(row["field"]))] = answerOf(row)
	}
	if s := quantity.System(r.Answers["tank.system"].Choice); s != "" {
		r.System = s
	}
	if rows, err = k.st.Load(ctx, "done", mine, "at"); err != nil {
		return nil, err
	}
	for _, row := range rows {
		d := care.Done{At: unstamp(row["at"]), Basis: map[care.FieldID]string{}}
		// The column is JSON by the schema's own check.
		if err := json.Unmarshal([]byte(text(row["basis"])), &d.Basis); err != nil {
			return nil, err
		}
		r.Done[care.Step(text(row["step"]))] = d
	}
	if rows, err = k.st.Load(ctx, "ack", mine, "at, id"); err != nil {
		return nil, err
	}
	for _, row := range rows {
		r.Acks = append(r.Acks, care.Ack{Step: care.Step(text(row["step"])), Note: care.NoteID(text(row["note"])), Lang: text(row["lang"]),
			Shown: text(row["shown"]), Hash: text(row["source_hash"]), At: unstamp(row["at"])})
	}
	if r.Entries, err = k.entries(ctx, tank); err != nil {
		return nil, err
	}
	if r.Timers, err = k.timers(ctx, tank, now); err != nil {
		return nil, err
	}
	if rows, err = k.st.Load(ctx, "bag", map[string]any{"tank": tank, "deleted": nil}, "opened, id"); err != nil {
		return nil, err
	}
	for _, row := range rows {
		if text(row["closed"]) == "" {
			r.Bags.Open++
		} else {
			r.Bags.Closed++
		}
	}
	return r, nil
}

// entryOf is an entry without its readings.
func entryOf(row map[string]any) journal.Entry {
	seq, _ := row["seq"].(int64)
	return journal.Entry{ID: text(row["id"]), Kind: journal.Kind(text(row["kind"])), At: journal.Civil(text(row["at"])),
		Zone: text(row["zone"]), Seq: seq, Note: text(row["note"]), Step: text(row["step"]), Edited: text(row["edited"]), Sick: text(row["sick"]), Reply: text(row["reply"])}
}

// timers reads the timers of a tank. The caller has locked k.
func (k *Keeper) timers(ctx context.Context, tank string, now time.Time) ([]care.Timer, error) {
	rows, err := k.st.Load(ctx, "timer", map[string]any{"tank": tank}, "started, id")
	if err != nil {
		return nil, err
	}
	var out []care.Timer
	for _, row := range rows {
		ms, _ := row["elapsed_ms"].(int64)
		t := care.Timer{ID: text(row["id"]), Kind: care.TimerKind(text(row["kind"])), Bag: text(row["bag"]), Started: unstamp(row["started"]),
			Elapsed: time.Duration(ms) * time.Millisecond, Seen: unstamp(row["last_seen"]), Ended: text(row["ended"]) != ""}
		t.Wait = unstamp(row["due"]).Sub(t.Started)
		if detail := text(row["detail"]); detail != "" {
			if err := json.Unmarshal([]byte(detail), &t.Apart); err != nil {
				return nil, err
			}
		}
		out = append(out, t)
	}
	k.waits.follow(out, now)
	return out, nil
}

func readingOf(row map[string]any) journal.Reading {
	return journal.Reading{Name: text(row["name"]), Qualifier: journal.Qualifier(text(row["qualifier"])), Kit: text(row["kit"]),
		Measure: quantity.Measure{Number: text(row["text"]), Unit: quantity.UnitCode(text(row["unit"])), Basis: quantity.Basis(text(row["basis"]))}}
}

// Kinds of answers in the store.
const (
	kindMeasure = "measure"
	kindChoice  = "choice"
	kindWords   = "words"
)

func answerOf(row map[string]any) care.Answer {
	a := care.Answer{Origin: care.Origin(text(row["origin"]))}
	switch text(row["kind"]) {
	case kindMeasure:
		a.Measure = quantity.Measure{Number: text(row["text"]), Unit: quantity.UnitCode(text(row["unit"])), Basis: quantity.Basis(text(row["basis"]))}
	case kindChoice:
		a.Choice = text(row["text"])
	default:
		a.Words = text(row["text"])
	}
	return a
}
