package keeper

import (
	"context"
	"strings"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// Edit is one answer on its way in: the text as typed or the option chosen.
type Edit struct {
	Field   care.FieldID
	Text    string           // of a measure or words
	Option  string           // of a choice; care.Ticked or "" of a tick
	Reading quantity.Reading // how the person writes numbers
}

// parse turns an edit into an answer. An empty text is an empty answer.
func (e Edit) parse() (care.Answer, error) {
	f, ok := care.FieldOf(e.Field)
	if !ok {
		return care.Answer{}, working.Refuse(string(e.Field), "refuse.keeper.no_field")
	}
	a := care.Answer{Origin: care.FromPerson}
	switch f.Type {
	case care.TypeMeasure:
		if strings.TrimSpace(e.Text) == "" {
			if f.Optional {
				return care.Answer{}, nil
			}
			return care.Answer{}, &working.Refusal{Field: string(f.ID), Code: "refuse.care.empty", Accept: f.Accept()}
		}
		m, err := quantity.Parse(e.Text, f.Kind, e.Reading)
		if err != nil && f.Mass { // a powder's dose is a mass; without a unit it stays a volume
			if asMass, no := quantity.Parse(e.Text, quantity.KindMass, quantity.Reading{System: e.Reading.System, Decimal: e.Reading.Decimal}); no == nil {
				m, err = asMass, nil
			}
		}
		if err != nil {
			return care.Answer{}, err
		}
		a.Measure = m
	case care.TypeChoice, care.TypeTick:
		if e.Option == "" {
			return care.Answer{}, nil
		}
		a.Choice = e.Option
	case care.TypeWords:
		a.Words = strings.TrimSpace(e.Text)
		if a.Words == "" {
			return care.Answer{}, nil
		}
	}
	return a, f.Check(a)
}

// Set keeps an edit as the answer of its field; an empty text or option takes
// the answer away again where that is allowed. Errors: *quantity.ParseError,
// *working.Refusal; nothing is changed then.
func (k *Keeper) Set(ctx context.Context, tank string, e Edit) error {
	a, err := e.parse()
	if err != nil {
		return err
	}
	return k.put(ctx, tank, e.Field, a, k.now())
}

func (k *Keeper) put(ctx context.Context, tank string, id care.FieldID, a care.Answer, at time.Time) error {
	r, err := k.record(ctx, tank)
	if err != nil {
		return err
	}
	if _, draft, err := k.draft(ctx, tank); err != nil {
		return err
	} else if draft && !slip.Settable(id) {
		return working.Refuse(string(id), "refuse.keeper.at_home")
	}
	if old, had := r.Answers[id]; had && old == a || !had && a.IsZero() {
		return nil
	}
	return k.putAll(ctx, tank, r, id, withEffects(r, id, a), at)
}

// putAll keeps answers as one change, which is named by the field of one of them.
func (k *Keeper) putAll(ctx context.Context, tank string, r *care.Record, id care.FieldID, set map[care.FieldID]care.Answer, at time.Time) error {
	ops := []store.Op{}
	for fid, na := range set {
		old, had := r.Answers[fid]
		switch {
		case had && na.IsZero():
			ops = append(ops, store.Op{Table: "answer", Before: answerRow(tank, fid, old, "")})
		case had && old != na:
			ops = append(ops, k.answerOp(tank, fid, &old, na, at))
		case !had && !na.IsZero():
			ops = append(ops, k.answerOp(tank, fid, nil, na, at))
		}
	}
	if len(ops) == 0 {
		return nil
	}
	for i, op := range ops { // a removal names every column, as it was read
		if op.After == nil {
			rows, err := k.st.Load(ctx, "answer", map[string]any{"tank": tank, "field": op.Before["field"]}, "")
			if err != nil || len(rows) == 0 {
				return err
			}
			ops[i].Before = rows[0]
		}
	}
	return k.apply(ctx, store.Change{Tank: tank, Label: "undo.answer", Values: map[string]string{"Field": string(id)}, At: stamp(at), Ops: ops})
}

// withEffects is the answer with what it brings along: choosing a size from the
// list takes back sizes typed before; typing a size that differs leaves the list
// and keeps the other sizes as they stood.
func withEffects(r *care.Record, id care.FieldID, a care.Answer) map[care.FieldID]care.Answer {
	set := map[care.FieldID]care.Answer{id: a}
	sizes := []care.FieldID{"tank.length", "tank.width", "tank.height", "tank.wall", "tank.edge"}
	switch id {
	case "tank.nominal":
		if a.Choice == care.Custom {
			keepProposals(r, set, sizes)
			break
		}
		for _, s := range sizes {
			set[s] = care.Answer{}
		}
		set["tank.shape"] = care.Answer{}
	case "tank.length", "tank.width", "tank.height":
		if r.Answers["tank.nominal"].Choice == care.Custom {
			break
		}
		if now, _ := care.NewFacts(r).Answer(id); now.Text() != a.Text() {
			keepProposals(r, set, sizes)
			set["tank.nominal"] = care.Answer{Choice: care.Custom, Origin: care.FromPerson}
		}
	}
	return set
}

func keepProposals(r *care.Record, set map[care.FieldID]care.Answer, ids []care.FieldID) {
	facts := care.NewFacts(r)
	for _, id := range ids {
		if _, mine := set[id]; mine {
			continue
		}
		if a, given := facts.Answer(id); !given && !a.IsZero() {
			set[id] = a
		}
	}
}

func (k *Keeper) answerOp(tank string, id care.FieldID, old *care.Answer, a care.Answer, at time.Time) store.Op {
	op := store.Op{Table: "answer", After: answerRow(tank, id, a, stamp(at))}
	if old != nil {
		op.Before = answerRow(tank, id, *old, "")
		delete(op.Before, "at")
		delete(op.After, "at")
	}
	return op
}

func answerRow(tank string, id care.FieldID, a care.Answer, at string) store.Row {
	row := store.Row{"tank": tank, "field": string(id), "origin": string(a.Origin), "unit": nil, "basis": nil, "at": at}
	switch {
	case !a.Measure.IsZero():
		row["kind"], row["text"], row["unit"], row["basis"] = kindMeasure, a.Measure.Number, string(a.Measure.Unit), orNil(string(a.Measure.Basis))
	case a.Choice != "":
		row["kind"], row["text"] = kindChoice, a.Choice
	default:
		row["kind"], row["text"] = kindWords, a.Words
	}
	return row
}
