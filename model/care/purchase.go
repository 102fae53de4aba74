package care

import (
	"math"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Purchase is how many fish to bring home first.
type Purchase struct {
	Low, High int
	Capacity  quantity.Length // adult length that the length rule gives the whole tank
	Trail     *working.Trail
}

// The first purchase. Common practice, no source: one inch of adult fish a US
// gallon in all, a quarter of it at first; two or three fish for 10 US gallons.
const (
	lengthPerVolume = 0.0254 / 3.785411784e-3 // m a m³: one inch a US gallon
	firstShare      = 0.25
	mostShare       = 0.40
	longestForRule  = 0.075 // m: the length rule fails above 7.5 cm
	swimLengths     = 6.0   // tank length over adult length
)

// FirstPurchase says how many fish of the given adult length this volume takes
// at first. Refusals: an adult too long for the tank to swim in.
func (f *Facts) FirstPurchase() (Purchase, error) {
	full, err := f.Full()
	if err != nil {
		return Purchase{}, err
	}
	adult := f.x("fish.adult")
	if math.IsNaN(adult) {
		return Purchase{}, ErrNotKnown
	}
	length, _, _ := f.Tank().Outer()
	if most := float64(length) / swimLengths; adult > most {
		r := working.Outside("fish.adult", "field.fish.adult", quantity.Length(adult).Value(), quantity.Length(0.01).Value(), quantity.Length(most).Value())
		r.Code = "refuse.care.fish_long"
		return Purchase{}, r
	}
	capacity := lengthPerVolume * float64(full.Net)
	low := int(math.Floor(capacity * firstShare / adult))
	high := int(math.Floor(capacity * mostShare / adult))
	// A shoaling fish alone is no start: two at least, as long as two fit the whole rule.
	low, high = max(low, 2), max(high, 3)
	if most := int(capacity / adult); high > most {
		high, low = max(most, 1), min(low, max(most, 1))
	}
	t := working.New("ask.care.first_fish").As(working.RuleOfThumb).
		Given("V", "q.care.net_volume", full.Net.Value()).
		Given("l", "field.fish.adult", quantity.Length(adult).Value()).
		Constant("k", "q.care.length_rule", quantity.Value{Kind: quantity.KindCount, X: lengthPerVolume}, working.Trade).
		Step("C", "q.care.capacity", "C = k·V", quantity.Length(capacity).Value(), working.Trade).
		Step("n", "q.care.first_count", "n = max(2; ⌊0.25·C/l⌋)", quantity.Count(low).Value(), working.Trade).
		Between(quantity.Count(low).Value(), quantity.Count(high).Value(), "assume.care.first_share").
		Assume("assume.care.length_rule", "assume.care.first_share")
	if adult > longestForRule {
		t.Assume("assume.care.length_fails")
	}
	return Purchase{Low: low, High: high, Capacity: quantity.Length(capacity), Trail: t}, nil
}

// lastTest finds the newest reading of name after power-on: its value as
// nitrogen, whether it was "not detected", and when.
func (f *Facts) lastTest(name string, species quantity.Species) (n quantity.Concentration, nothing, found bool, at time.Time) {
	powered, ok := f.poweredAt()
	if !ok {
		return 0, false, false, time.Time{}
	}
	for i := len(f.r.Entries) - 1; i >= 0; i-- {
		e := f.r.Entries[i]
		r, has := e.Get(name)
		when, okT := e.Instant()
		if !has || !okT || when.Before(powered.Add(-time.Minute)) {
			continue
		}
		if r.Qualifier == journal.NotDetected {
			return 0, true, true, when
		}
		if r.Qualifier == journal.OverRange {
			return quantity.Concentration(math.Inf(1)), false, true, when
		}
		v, okV := r.Value()
		if !okV || v.Kind != quantity.KindConcentration {
			continue
		}
		basis := r.Measure.Basis
		if basis == quantity.BasisNone {
			continue // a basis is never guessed
		}
		c, okN := quantity.ToN(quantity.Concentration(v.X), species, basis)
		if okN {
			return c, false, true, when
		}
	}
	return 0, false, false, time.Time{}
}
