package care

import (
	"sort"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Status is how one step stands.
type Status struct {
	Step    Step
	State   StepState
	Waits   []working.Finding // of a shut step
	Changed []FieldID         // of a reopened one
}

// Statuses returns how every step stands, in order.
func (f *Facts) Statuses() []Status {
	out := make([]Status, 0, len(Steps()))
	state := map[Step]StepState{}
	for _, s := range Steps() {
		st := f.status(s, state)
		state[s] = st.State
		out = append(out, st)
	}
	return out
}

// StatusOf returns how one step stands.
func (f *Facts) StatusOf(s Step) Status {
	for _, st := range f.Statuses() {
		if st.Step == s {
			return st
		}
	}
	return Status{Step: s, State: Shut}
}

func (f *Facts) status(s Step, before map[Step]StepState) Status {
	st := Status{Step: s, State: Open}
	if d, done := f.r.Done[s]; done {
		st.Changed = f.changed(d)
		st.State = Finished
		if len(st.Changed) > 0 {
			st.State = Reopened
		}
		return st
	}
	for _, n := range needs[s] {
		if before[n] != Finished {
			st.State = Shut
			code := working.Key("find.care.waits_for")
			if before[n] == Reopened {
				code = "find.care.waits_again"
			}
			st.Waits = append(st.Waits, working.Find(working.Wait, code).Word("Step", working.Key("step."+string(n))))
		}
	}
	return st
}

// changed names the answers that differ from those a finished step relied on.
func (f *Facts) changed(d Done) []FieldID {
	var out []FieldID
	for id, was := range d.Basis {
		a, _ := f.Answer(id)
		if a.Text() != was {
			out = append(out, id)
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	return out
}

// relies lists, for each step, the earlier steps whose answers it is built on.
// A change there reopens it; what was done with one's hands stays in the record.
var relies = map[Step][]Step{
	TankPlace:  {TankPlace},
	KitList:    {TankPlace, KitList},
	StandFloor: {TankPlace, StandFloor},
	Rinse:      {Rinse},
	PlaceDry:   {PlaceDry},
	FillTreat:  {FillTreat},
	PowerOn:    {},
	Settle:     {},
	FirstFish:  {},
	HomeComing: {HomeComing},
}

// also lists single answers that a step relies on besides.
var also = map[Step][]FieldID{
	Rinse:     {"gravel.kind", "gravel.front", "gravel.back", "tank.length", "tank.width"},
	FillTreat: {"tank.length", "tank.width", "tank.height", "tank.shape", "gravel.front", "gravel.back", "tank.gap"},
	PowerOn:   {"heater.watts", "heater.count"},
	Settle:    {"settle.target"},
}

// aside lists answers that a later step does not rely on although they belong
// to a step it does: where the socket is changes neither kit nor stand.
var aside = map[Step][]FieldID{
	KitList:    {"household", "socket.height", "socket.distance", "tank.history"},
	StandFloor: {"room.low", "room.high", "socket.height", "socket.distance"},
}

// Basis is what finishing a step now would rely on: the canonical text of each
// visible answer.
func (f *Facts) Basis(s Step) map[FieldID]string {
	basis := map[FieldID]string{}
	add := func(id FieldID) {
		field, ok := FieldOf(id)
		if !ok || field.Free || (field.When != nil && !field.When(f)) {
			return
		}
		a, _ := f.Answer(id)
		basis[id] = a.Text()
	}
	for _, from := range relies[s] {
		for _, field := range catalogue {
			if field.Step == from {
				add(field.ID)
			}
		}
	}
	for _, id := range also[s] {
		add(id)
	}
	for _, id := range aside[s] {
		delete(basis, id)
	}
	return basis
}

// heaterWait is how long a heater stands covered before its plug goes in.
// Common practice, no source: 15 to 30 minutes.
const heaterWait = 15 * time.Minute

// blocked says what carrying on from a page still waits for.
func (f *Facts) blocked(p *Page) []working.Finding {
	var out []working.Finding
	if p.State == Shut {
		return p.Waits
	}
	for _, v := range p.Fields {
		if v.Refused != nil {
			out = append(out, working.Find(working.Act, "find.care.field_refused").Word("Field", v.Field.Label()))
		} else if v.Answer.IsZero() && !v.Field.Optional && v.Field.Type != TypeTick {
			out = append(out, working.Find(working.Wait, "find.care.field_empty").Word("Field", v.Field.Label()))
		}
	}
	for _, t := range p.Ticks {
		if !t.Set {
			if t.Until != nil && !t.Ready {
				out = append(out, *t.Until)
			}
			if p.Step != TankPlace { // the place may be imperfect; it is said, not forced
				out = append(out, working.Find(working.Wait, "find.care.tick_open").Word("Tick", working.Key("tickname."+string(t.ID))))
			}
		}
	}
	for _, n := range p.Notes {
		if n.ConfirmedIn(p.Step) {
			if _, ok := f.r.Acknowledged(p.Step, n.ID); !ok {
				out = append(out, working.Find(working.Wait, "find.care.note_open").Word("Note", n.Hazard()))
			}
		}
	}
	switch p.Step {
	case StandFloor:
		out = append(out, f.standBlocks()...)
	case PlaceDry:
		for _, id := range []FieldID{"plug.heater", "plug.filter", "plug.light"} {
			if f.choice(id) == "in" {
				field, _ := FieldOf(id)
				out = append(out, working.Find(working.Act, "find.care.plug_in").Word("Plug", field.Label()))
			}
		}
	case PowerOn:
		if _, ok := f.filledAt(); !ok {
			out = append(out, working.Find(working.Act, "find.care.not_filled"))
		}
	case Settle:
		if s := f.Steadiness(); !s.Ready {
			out = append(out, f.settleWait(s))
		}
	case FirstFish:
		out = append(out, f.fishBlocks()...)
	case HomeComing:
		if f.r.Bags.Open > 0 {
			out = append(out, working.Find(working.Wait, "find.care.bags_open").With("Count", quantity.Count(f.r.Bags.Open).Value()))
		} else if f.r.Bags.Closed > 0 {
			break // they came home by the bags of that page
		} else if t, ok := f.Timer(f.homeTimer()); ok && !t.Ended && t.Left(f.r.Now) > 0 {
			out = append(out, working.Find(working.Wait, "find.care.timer_runs").With("Left", quantity.Time(t.Left(f.r.Now).Seconds()).Value()))
		} else if !ok {
			out = append(out, working.Find(working.Wait, "find.care.timer_unused"))
		}
	}
	return out
}

func (f *Facts) homeTimer() TimerKind {
	if f.choice("bag.way") == WayDrip {
		return TimerDrip
	}
	return TimerFloat
}

// Timer returns the newest timer of a kind of First fill's own.
func (f *Facts) Timer(k TimerKind) (Timer, bool) {
	for i := len(f.r.Timers) - 1; i >= 0; i-- {
		if f.r.Timers[i].Kind == k && f.r.Timers[i].Bag == "" {
			return f.r.Timers[i], true
		}
	}
	return Timer{}, false
}

// standBlocks: a stand, floor or glass that fails keeps the water out, unless a
// licensed person or the maker has confirmed it in writing.
func (f *Facts) standBlocks() []working.Finding {
	var out []working.Finding
	if f.choice("stand.confirmed") != yes {
		if a, err := f.Stand(); err != nil {
			out = append(out, working.Find(working.Act, "find.care.stand_unknown"))
		} else if a.State == working.Act {
			out = append(out, working.Find(working.Act, "find.care.stand_fails"))
		}
		if a, err := f.Floor(); err == nil && a.State == working.Act {
			out = append(out, working.Find(working.Act, "find.care.floor_ask"))
		}
	}
	if f.choice("tank.history") != "new" {
		if a, err := f.Glass(); err == nil && a.State == working.Act {
			out = append(out, working.Find(working.Act, "find.care.glass_fails"))
		}
		if f.choice("glass.wet_test") != "dry" {
			out = append(out, working.Find(working.Wait, "find.care.wet_test"))
		}
	}
	return out
}

func (f *Facts) settleWait(s Steadiness) working.Finding {
	switch {
	case len(s.Readings) == 0:
		return working.Find(working.Wait, "find.care.no_reading")
	case s.Since.IsZero():
		return working.Find(working.Wait, "find.care.outside_band").With("Target", s.Target.Value())
	}
	left := s.Need - s.Held
	if left <= 0 {
		return working.Find(working.Wait, "find.care.more_readings")
	}
	return working.Find(working.Wait, "find.care.hold_on").With("Left", quantity.Time(left.Seconds()).Value())
}

// fishBlocks is the gate to the first fish: what Gate waits for.
func (f *Facts) fishBlocks() []working.Finding {
	var out []working.Finding
	if _, err := f.FirstPurchase(); refusalOf(err) != nil {
		out = append(out, working.Find(working.Act, "find.care.fish_long"))
	}
	_, waits := f.Gate()
	return append(out, waits...)
}
