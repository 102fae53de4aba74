package rounds

import (
	"time"

	"example.org/driploop/model/journal"
)

// Bell says of which occurrences a person is to be told, each once. It belongs to
// one goroutine; the zero Bell is to be started.
type Bell struct {
	since time.Time
	told  map[rung]bool
}

type rung struct {
	round string
	due   journal.Civil
}

// NewBell begins at now: what is due already is on the page and is not told.
func NewBell(now time.Time) *Bell { return &Bell{since: now, told: map[rung]bool{}} }

// Ring lists the rounds whose newest occurrence has come since it was asked last
// and was not told yet. However long ago that was, after a sleep or a clock put
// forward, a round is there once. A clock put back begins anew and tells nothing
// twice.
func (b *Bell) Ring(now time.Time, all []Standing) []Standing {
	if now.Before(b.since) {
		b.since = now
		return nil
	}
	var out []Standing
	for _, s := range all {
		if s.State != Due && s.State != Late {
			continue
		}
		at, ok := Instant(s.Newest.Due, now.Location())
		key := rung{s.ID, s.Newest.Due}
		if !ok || !at.After(b.since) || b.told[key] {
			continue
		}
		b.told[key] = true
		out = append(out, s)
	}
	b.since = now
	return out
}
