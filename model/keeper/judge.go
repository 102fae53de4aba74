package keeper

import (
	"context"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// Judgement is what a water test says: the gravest state, what was found, and
// what to do in order.
type Judgement struct {
	State    working.State
	Findings []working.Finding
}

// Judge interprets every water test of a tank, each with what was known at its
// time; by entry.
func (k *Keeper) Judge(ctx context.Context, tank string) (map[string]Judgement, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	typed, err := k.EmergencyLine(ctx)
	if err != nil {
		return nil, err
	}
	line, err := emergencyOf(typed)
	if err != nil && line == 0 {
		return nil, err
	} // a line that can be read and not be used gets a finding of its own
	out := map[string]Judgement{}
	var earlier *water.Tests
	for i, e := range r.Entries {
		if e.Kind != journal.Tested {
			continue
		}
		t := testsOf(r.Entries, i)
		t.Earlier, t.Emergency = earlier, line
		fs := water.Interpret(t)
		out[e.ID] = Judgement{State: working.WorstOf(fs), Findings: fs}
		t.Earlier = nil // one visit back is enough to see what changes too fast
		earlier = &t
	}
	return out, nil
}

// testsOf gathers the readings of an entry; temperature and pH, without which
// ammonia cannot be judged, come from the latest entry before it where it has none.
func testsOf(es []journal.Entry, i int) water.Tests {
	read := func(e journal.Entry, name string) water.Reading {
		r, ok := e.Get(name)
		if !ok {
			return water.Reading{}
		}
		v, ok := r.Value()
		if u, known := quantity.UnitOf(r.Measure.Unit); known && r.Qualifier == journal.NotDetected {
			v, ok = quantity.Value{Kind: u.Kind}, true // below any kit's step: judged as not detected, not as zero
		}
		if !ok {
			return water.Reading{}
		}
		at, _ := e.Instant()
		return water.Reading{Value: v, Basis: r.Measure.Basis, At: at}
	}
	before := func(name string) water.Reading {
		for j := i; j >= 0; j-- {
			if x := read(es[j], name); x.Value.Known() {
				return x
			}
		}
		return water.Reading{}
	}
	e := es[i]
	return water.Tests{Ammonia: read(e, journal.NameAmmonia), Nitrite: read(e, journal.NameNitrite), Nitrate: read(e, journal.NameNitrate),
		PH: before(journal.NamePH), KH: read(e, journal.NameKH), GH: read(e, journal.NameGH), Temperature: before(journal.NameTemperature)}
}
