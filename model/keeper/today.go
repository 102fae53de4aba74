package keeper

import (
	"context"
	"slices"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Today is what matters now: the next thing to do, how the water stands, what
// was done last.
type Today struct {
	Tank    Tank
	Day     int // days since the fill by the calendar, the day of the fill is 1; 0 before it
	Steps   []care.Status
	Next    Next
	Last    []journal.Entry // the latest few, newest first
	Facts   []care.Line     // net volume, temperature, tests
	Picture care.Picture
	// Water is what the latest test says; nil when nothing was tested.
	Water *Judgement
	// Cases are the fish that look wrong: the open cases, the latest first.
	Cases []Case
	// Bags are on their way home, those that were opened first leading.
	Bags []BagView
	// Losses are the fish lost soon after animals came in, the latest first.
	Losses []EarlyLoss
}

// Next is the one thing to do now.
type Next struct {
	Step  care.Step
	State working.State
	Why   []working.Finding
	All   bool // First fill is finished
}

// lastShown is how many entries the page shows. Judgement: what fits.
const lastShown = 6

// Today looks at a tank as it stands.
func (k *Keeper) Today(ctx context.Context, tank string) (Today, error) {
	row, err := k.tankRow(ctx, tank)
	if err != nil {
		return Today{}, err
	}
	var t Today
	if err := k.look(ctx, tank, func(r *care.Record, f *care.Facts) { t = today(r, f) }); err != nil {
		return Today{}, err
	}
	t.Tank = tankOf(row)
	if t.Water, err = k.latestTest(ctx, tank); err != nil {
		return Today{}, err
	}
	if t.Picture.Stock, err = k.swimmers(ctx, tank); err != nil {
		return Today{}, err
	}
	if t.Bags, err = k.Bags(ctx, tank); err != nil {
		return Today{}, err
	}
	if t.Losses, err = k.EarlyLosses(ctx, tank); err != nil {
		return Today{}, err
	}
	cs, err := k.Cases(ctx, tank)
	for _, c := range cs {
		if c.Open() {
			t.Cases = append(t.Cases, c)
		}
	}
	return t, err
}

// Brief is a tank as it is named in short.
type Brief struct {
	Tank Tank
	Net  quantity.Value // its net volume, missing while it is not known
}

// Brief names a tank in short, for what needs no more of it than that.
func (k *Keeper) Brief(ctx context.Context, tank string) (Brief, error) {
	row, err := k.tankRow(ctx, tank)
	if err != nil {
		return Brief{}, err
	}
	b := Brief{Tank: tankOf(row)}
	err = k.look(ctx, tank, func(_ *care.Record, f *care.Facts) {
		if full, err := f.Full(); err == nil {
			b.Net = full.Net.Value()
		}
	})
	return b, err
}

// today is what the record says by itself.
func today(r *care.Record, f *care.Facts) Today {
	t := Today{Steps: f.Statuses()}
	t.Picture = f.Picture(current(t.Steps))
	t.Picture.ShowLoads = false
	t.Picture.Feet = slices.Clone(t.Picture.Feet)
	t.Next = next(f, t.Steps)
	for i := len(r.Entries) - 1; i >= 0 && len(t.Last) < lastShown; i-- {
		if r.Entries[i].Kind != journal.StepDone {
			t.Last = append(t.Last, r.Entries[i])
		}
	}
	for i := range r.Entries {
		if e := &r.Entries[i]; e.Kind == journal.Filled {
			if d, err := journal.DaysBetween(e.At, journal.CivilOf(r.Now)); err == nil && d >= 0 {
				t.Day = d + 1
			}
		}
	}
	if full, err := f.Full(); err == nil {
		t.Facts = append(t.Facts, care.Line{Name: "q.care.net_volume", Value: full.Net.Value()})
	}
	for _, want := range []struct {
		name string
		key  working.Key
	}{{journal.NameTemperature, "q.care.temperature"}, {journal.NameAmmonia, "q.care.ammonia"}, {journal.NameNitrite, "q.care.nitrite"},
		{journal.NameNitrate, "q.care.nitrate"}, {journal.NamePH, "q.care.ph"}} {
		if e, reading, ok := newest(r.Entries, want.name); ok {
			line := care.Line{Name: want.key}
			if v, ok := reading.Value(); ok {
				line.Value = v
			}
			note := working.Find(working.Steady, "find.keeper.measured_on").Say("Day", e.At.Day())
			if reading.Qualifier != journal.Plain {
				note = working.Find(working.Steady, working.Key("find.keeper."+string(reading.Qualifier))).Say("Day", e.At.Day())
			}
			if b := reading.Measure.Basis; b != quantity.BasisNone {
				note = note.Word("Basis", working.Key("word.basis."+string(b)))
			}
			line.Note = &note
			t.Facts = append(t.Facts, line)
		}
	}
	return t
}

// latestTest is what the latest water test says, nil when nothing was tested.
func (k *Keeper) latestTest(ctx context.Context, tank string) (*Judgement, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return nil, err
	}
	for i := len(r.Entries) - 1; i >= 0; i-- {
		if r.Entries[i].Kind != journal.Tested {
			continue
		}
		id := r.Entries[i].ID
		judged, err := k.JudgeOf(ctx, tank, id)
		if j, ok := judged[id]; ok {
			return &j, err
		}
		return nil, err
	}
	return nil, nil
}

// newest is the latest reading of the tank's own water.
func newest(es []journal.Entry, name string) (journal.Entry, journal.Reading, bool) {
	for i := len(es) - 1; i >= 0; i-- {
		if len(es[i].Readings) == 0 {
			continue
		}
		if r, ok := es[i].Get(name); ok && es[i].Kind.OfTank() {
			return es[i], r, true
		}
	}
	return journal.Entry{}, journal.Reading{}, false
}

// next finds the one thing to do: a step that an answer has reopened, before
// anything new; else the first open one.
func next(f *care.Facts, steps []care.Status) Next {
	pick := func(state care.StepState) (care.Step, bool) {
		for _, s := range steps {
			if s.State == state {
				return s.Step, true
			}
		}
		return "", false
	}
	step, ok := pick(care.Reopened)
	if !ok {
		if step, ok = pick(care.Open); !ok {
			return Next{All: true, Step: steps[len(steps)-1].Step}
		}
	}
	page := f.Page(step)
	n := Next{Step: step, Why: page.Blocked}
	n.State = working.WorstOf(page.Blocked)
	return n
}
