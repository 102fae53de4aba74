package rounds

import (
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// What a test calls clean, and how long a tank has run before clean tests say
// that its filter keeps up rather than that nothing has begun.
const (
	cleanAmmonia = 0.25 // mg/L as nitrogen: what colour kits call zero. Common practice, no source
	cleanNitrite = 0.2  // mg/L as the ion. Source: OATA Water Quality Criteria
	cleanTests   = 2    // in a row, on different days. Judgement
	youngDays    = 21   // since power-on, unless ammonia or nitrite was seen. Judgement: FAO gives 1 to 6 weeks
)

// Young reports whether the filter is not yet known to keep up: until two tests
// in a row, on different days, read no ammonia and no nitrite, after either was
// seen or the tank has run for three weeks. A tank that was never tested is young.
func Young(entries []journal.Entry, today journal.Civil) bool {
	begun, seen := journal.Civil(""), false
	clean, last := 0, ""
	for _, e := range entries {
		if e.Kind == journal.Powered {
			begun, seen, clean, last = e.At, false, 0, ""
		}
		a, okA := asN(e, journal.NameAmmonia, quantity.Ammonia)
		n, okN := asN(e, journal.NameNitrite, quantity.Nitrite)
		if !okA && !okN {
			continue
		}
		perN, _ := quantity.Nitrite.IonPerN()
		dirty := okA && float64(a) >= cleanAmmonia || okN && float64(n)*perN > cleanNitrite
		switch {
		case dirty:
			seen, clean, last = true, 0, ""
		case okA && okN && e.At.Day() != last:
			clean, last = clean+1, e.At.Day()
		}
	}
	if clean < cleanTests {
		return true
	}
	days, err := journal.DaysBetween(begun, today)
	return !seen && (err != nil || days < youngDays)
}

// asN is a reading as nitrogen; "not detected" counts as nothing, "over range"
// as more than any line. A basis is never guessed.
func asN(e journal.Entry, name string, s quantity.Species) (quantity.Concentration, bool) {
	r, ok := e.Get(name)
	if !ok {
		return 0, false
	}
	switch r.Qualifier {
	case journal.NotDetected:
		return 0, true
	case journal.OverRange:
		return 1000, true
	}
	v, ok := r.Value()
	if !ok || v.Kind != quantity.KindConcentration || r.Measure.Basis == quantity.BasisNone {
		return 0, false
	}
	return quantity.ToN(quantity.Concentration(v.X), s, r.Measure.Basis)
}
