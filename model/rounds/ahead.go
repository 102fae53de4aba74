package rounds

import (
	"time"

	"example.org/driploop/model/journal"
)

// Ahead lists the occurrences of a round from the beginning of today over the
// coming days, today being the first, with how each stands. A paused round has
// none.
func Ahead(r Round, h History, now time.Time, days int) []Occurrence {
	if r.Paused != "" {
		return nil
	}
	wall := Wall(now)
	today := time.Date(wall.Year(), wall.Month(), wall.Day(), 0, 0, 0, 0, time.UTC)
	last := today.AddDate(0, 0, days).Add(-time.Minute)
	// One to either side gives the windows of the first and the last.
	all := r.Rule.Between(r.Start, today.AddDate(0, 0, -lookBack), last)
	next, _ := r.Rule.After(r.Start, last.Add(time.Minute))
	w := windows{all, next}
	var out []Occurrence
	for i, c := range all {
		if c.Day() < today.Format("2006-01-02") || !there(c, now.Location()) {
			continue
		}
		o := h.of(r, c, w.at(i))
		if o.State == Due && !come(c, now) {
			o.State = Coming
		}
		out = append(out, o)
	}
	return out
}

// Find returns the occurrence of a round that is at due, with how it stands;
// false when the rule has none there.
func Find(r Round, h History, due journal.Civil, now time.Time) (Occurrence, bool) {
	at, err := due.Parse()
	if err != nil {
		return Occurrence{}, false
	}
	all := r.Rule.Between(r.Start, at.AddDate(0, 0, -lookBack), at)
	if n := len(all); n == 0 || all[n-1] != due {
		return Occurrence{}, false
	}
	next, _ := r.Rule.After(r.Start, at.Add(time.Minute))
	o := h.of(r, due, windows{all, next}.at(len(all)-1))
	if o.State == Due && !come(due, now) {
		o.State = Coming
	}
	return o, true
}
