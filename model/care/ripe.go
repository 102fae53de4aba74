package care

import (
	"time"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// ReadingOf is a reading of an entry as it is judged: with what the kit that showed it
// can tell. Missing where there is none that can be read.
func ReadingOf(kits map[string]journal.TestKit, e journal.Entry, name string) water.Reading {
	r, ok := e.Get(name)
	if !ok {
		return water.Reading{}
	}
	at, _ := e.Instant()
	out := water.Reading{Basis: r.Measure.Basis, At: at}
	v, err := r.Measure.Value()
	u, known := quantity.UnitOf(r.Measure.Unit)
	switch {
	case r.Qualifier == journal.Plain && err != nil, !known:
		return water.Reading{}
	case r.Qualifier == journal.NotDetected:
		v = quantity.Value{Kind: u.Kind} // below any kit's step: judged as not detected, not as zero
	case r.Qualifier == journal.OverRange:
		out.Beyond = true
		if err != nil {
			v = quantity.Value{Kind: u.Kind}
		}
	}
	kit, ok := kits[r.Kit]
	out.Value = v
	if step, has := kit.Step(); ok && has && kit.Reading == name {
		out.Resolution = StepOn(step, name, kit.Basis, r.Measure.Basis)
		if below, above, has := kit.Room(StepOn(v, name, r.Measure.Basis, kit.Basis)); has && !out.Beyond {
			out.Below, out.Above = StepOn(below, name, kit.Basis, r.Measure.Basis), StepOn(above, name, kit.Basis, r.Measure.Basis)
		}
	}
	return out
}

// SpeciesOf is what the reading of a name counts, where it may be written as
// nitrogen or as the ion.
var SpeciesOf = map[string]quantity.Species{journal.NameAmmonia: quantity.Ammonium, journal.NameNitrite: quantity.Nitrite, journal.NameNitrate: quantity.Nitrate}

// StepOn converts a kit's step to the basis that a reading was written in.
func StepOn(step quantity.Value, name string, from, to quantity.Basis) quantity.Value {
	s, ok := SpeciesOf[name]
	if !ok || from == to {
		return step
	}
	convert := quantity.ToIon
	if to == quantity.AsN {
		convert = quantity.ToN
	}
	if c, ok := convert(quantity.Concentration(step.X), s, from); ok {
		step.X = float64(c)
	}
	return step
}

// Visits are the water tests since the tank was filled, as the gate to animals
// takes them, with the place of each among the entries.
func (f *Facts) Visits() (tests []water.Tests, at []int) {
	filled, _ := f.filledAt()
	for i, e := range f.r.Entries {
		if t, ok := e.Instant(); e.Kind != journal.Tested || !ok || t.Before(filled) {
			continue
		}
		tests = append(tests, water.Tests{Ammonia: ReadingOf(f.r.Kits, e, journal.NameAmmonia), Nitrite: ReadingOf(f.r.Kits, e, journal.NameNitrite)})
		at = append(at, i)
	}
	return tests, at
}

// Ripening is how far a filter is on its way.
type Ripening struct {
	Way string // as chosen in Settle
	// Shown says that tests have shown it: ammonia or nitrite rose and both went to
	// nothing.
	Shown bool
	// Low, Likely and High are when it is expected to keep up; zero where it has
	// shown it, where the tank is not filled, and where the model cannot tell.
	Low, Likely, High time.Time
	Takes             quantity.Time  // in the likely case, from the fill or from the first animals
	Trail             *working.Trail // of Takes; nil with it
}

// Ripening tells how far the filter is: what tests have shown counts before what
// the model expects.
func (f *Facts) Ripening() Ripening {
	r := Ripening{Way: f.choice("mature.way")}
	filled, ok := f.filledAt()
	visits, _ := f.Visits()
	if r.Shown = hasShown(visits); r.Shown || !ok {
		return r
	}
	for _, m := range f.Maturing() {
		if m.Way != r.Way {
			continue
		}
		from := filled
		if r.Way != MatureFishless && !f.r.Lived {
			from = f.r.Now // it begins with the first animals
		}
		at := func(t quantity.Time) time.Time { return from.Add(time.Duration(float64(t) * float64(time.Second))) }
		r.Low, r.Likely, r.High, r.Takes, r.Trail = at(m.Low), at(m.Likely), at(m.High), m.Likely, m.Trail
	}
	return r
}

// hasShown reports whether tests saw ammonia or nitrite, and later neither of them.
func hasShown(visits []water.Tests) bool {
	rose := false
	for _, v := range visits {
		if !v.Ammonia.Known() || !v.Nitrite.Known() {
			continue
		}
		zero := fish.GateOf([]water.Tests{v}, v.Nitrite.At).Says == "find.fish.gate_once"
		if rose && zero {
			return true
		}
		rose = rose || !zero
	}
	return false
}

// Gate is whether tests let animals into the tank now, and Waits what holds them
// back: the tests, and a filter that matures without fish and has not shown that it
// keeps up. First fill and the plan over weeks say the same by it.
func (f *Facts) Gate() (g fish.Gate, waits []working.Finding) {
	visits, _ := f.Visits()
	if g = fish.GateOf(visits, f.r.Now); !g.Open {
		waits = append(waits, g.Finding)
	}
	r := f.Ripening()
	if left := r.Likely.Sub(f.r.Now); r.Way == MatureFishless && !r.Shown && !f.r.Lived && !r.Likely.IsZero() && left > 0 {
		waits = append(waits, working.Find(working.Wait, "find.care.fishless_ahead").With("Time", quantity.Time(left.Seconds()).Value()))
	}
	return g, waits
}
