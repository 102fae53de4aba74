package care

import (
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// What counts as a steady temperature. Common practice, no source: a heater runs
// one or two days before fish; the gap is judgement, long enough for a night.
const (
	steadyBand = quantity.TemperatureDifference(1)
	steadyNeed = 24 * time.Hour
	steadyGap  = 14 * time.Hour // a longer silence starts the run anew
	steadyRuns = 3              // readings at least
)

// Steadiness says how long the readings since power-on have held the target.
// Only what was read counts: no reading, no steadiness.
func (f *Facts) Steadiness() Steadiness {
	s := Steadiness{Target: f.settled(), Band: steadyBand, Need: steadyNeed}
	powered, ok := f.poweredAt()
	if !ok {
		return s
	}
	var since, last time.Time
	run := 0
	for _, e := range f.r.Entries {
		r, has := e.Get(journal.NameTemperature)
		if !has {
			continue
		}
		v, okV := r.Value()
		at, okT := e.Instant()
		if !okV || !okT || at.Before(powered.Add(-time.Minute)) || v.Kind != quantity.KindTemperature {
			continue
		}
		t := quantity.Temperature(v.X)
		// A thermometer that shows whole degrees may sit on the edge of the band.
		in := t.Minus(s.Target) <= steadyBand+1e-6 && t.Minus(s.Target) >= -steadyBand-1e-6
		s.Readings = append(s.Readings, TemperatureReading{EntryID: e.ID, At: at, T: t, InBand: in})
		switch {
		case !in:
			since, run = time.Time{}, 0
		case since.IsZero() || at.Sub(last) > steadyGap:
			since, run = at, 1
		default:
			run++
		}
		last = at
	}
	if !since.IsZero() {
		s.Since, s.Held = since, last.Sub(since)
		s.Ready = s.Held >= steadyNeed && run >= steadyRuns
	}
	return s
}

// poweredAt is when the tank was first powered, by its entry.
func (f *Facts) poweredAt() (time.Time, bool) {
	return f.firstOf(journal.Powered)
}

func (f *Facts) filledAt() (time.Time, bool) { return f.firstOf(journal.Filled) }

// firstOf finds the latest entry of a kind that is written once a set-up.
func (f *Facts) firstOf(k journal.Kind) (time.Time, bool) {
	for i := len(f.r.Entries) - 1; i >= 0; i-- {
		if e := f.r.Entries[i]; e.Kind == k {
			return e.Instant()
		}
	}
	return time.Time{}, false
}
