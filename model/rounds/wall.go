package rounds

import (
	"time"

	"example.org/driploop/model/journal"
)

// Wall is what the clock on the wall shows at t, as a time without a zone.
func Wall(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
}

// Instant is the moment at which a civil time comes in a zone. A time that comes
// twice is the first of the two; one that is left out is reckoned with the
// offset before the gap, so that it comes after it. Source: RFC 5545 section
// 3.3.5, form 3.
func Instant(c journal.Civil, loc *time.Location) (time.Time, bool) {
	wall, err := c.Parse()
	if err != nil {
		return time.Time{}, false
	}
	at := func(near time.Duration) time.Time {
		_, offset := wall.Add(near).In(loc).Zone()
		return wall.Add(-time.Duration(offset) * time.Second).In(loc)
	}
	// Offsets reach 14 hours and a gap a whole day: look well to either side.
	before, after := at(-40*time.Hour), at(40*time.Hour)
	fits := func(t time.Time) bool { return Wall(t).Equal(wall) }
	switch {
	case fits(before) && (!fits(after) || before.Before(after)):
		return before, true
	case fits(after):
		return after, true
	}
	return before, true
}

// there reports whether a civil day exists in a zone: Apia had no 30 December
// 2011.
func there(c journal.Civil, loc *time.Location) bool {
	t, ok := Instant(c, loc)
	return ok && journal.CivilOf(t).Day() == c.Day()
}
