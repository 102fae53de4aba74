package keeper

import (
	"context"
	"strconv"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
)

// VisitWater is what the water tests of a visit slip say.
type VisitWater struct {
	// Judged are the water tests by their place among the entries of the visit, each
	// with what the slip tells of the time before it.
	Judged map[int]Judgement
	Traces Traces // of the span
}

// VisitWater judges the water tests of a visit slip as those of a tank are judged, with
// the lines set here, and gives their course. What the keeper's own kits can tell apart
// is not in a slip, so values are taken as they were typed.
func (k *Keeper) VisitWater(ctx context.Context, v slip.Visit) (VisitWater, error) {
	j, err := k.judgeAnywhere(ctx)
	if err != nil {
		return VisitWater{}, err
	}
	j.kits = map[string]journal.TestKit{}
	r := &care.Record{Name: v.Label, System: v.Units, Answers: v.Facts, Now: k.now()}
	if r.Answers == nil {
		r.Answers = map[care.FieldID]care.Answer{}
	}
	j.facts = judgeFactsOf(care.NewFacts(r))
	if x, err := v.Net.Value(); err == nil {
		j.net = quantity.Volume(x.X)
	}
	for i, e := range v.Entries {
		e.Entry.ID, e.Entry.Seq = strconv.Itoa(i), int64(i)
		if e.OfCase {
			e.Sick = v.ID
		}
		j.entries = append(j.entries, e.Entry)
	}
	journal.Sort(j.entries) // whoever wrote the slip may have had another order
	out := VisitWater{Judged: map[int]Judgement{}, Traces: j.traces(TraceNames(), v.From, v.To)}
	for id, x := range j.those(func(string) bool { return true }) {
		if i, err := strconv.Atoi(id); err == nil {
			out.Judged[i] = x
		}
	}
	return out, nil
}
