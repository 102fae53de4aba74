package rounds

import (
	"slices"
	"sort"
	"time"

	"example.org/driploop/model/journal"
)

// State is how an occurrence stands.
type State string

// The states.
const (
	Due     State = "due"     // its time has come, today
	Late    State = "late"    // its day is past
	Coming  State = "coming"  // not yet
	Done    State = "done"    // by the record
	Skipped State = "skipped" // with a reason
	Handed  State = "handed"  // somebody else does it while one is away
	Paused  State = "paused"  // the round rests
	Over    State = "over"    // nothing comes any more
)

// Round is something that recurs.
type Round struct {
	ID     string
	Code   Code
	Title  string // of an own round
	Rule   Rule
	Start  journal.Civil
	Paused journal.Civil // since when it rests; empty when it does not
	Note   string
	// FromShop marks one that a shop proposed and nobody has changed since.
	FromShop bool
}

// Handled says that an occurrence was done or skipped.
type Handled struct {
	Due    journal.Civil
	State  State // Done or Skipped
	Reason string
	Entry  string // what it wrote, if anything
}

// Span is a time away, whole civil days, both included.
type Span struct {
	First, Last string // 2026-12-20
}

// Holds reports whether the day of c lies in the span.
func (s Span) Holds(c journal.Civil) bool { return c.Day() >= s.First && c.Day() <= s.Last }

// History is what the record says of one round.
type History struct {
	Handled []Handled
	Entries []journal.Entry // of the tank, earliest first
	Away    []Span
}

// Occurrence is one time that a round is due.
type Occurrence struct {
	Due    journal.Civil
	State  State
	Reason string // why it was skipped
	Entry  string // what did it, if an entry did
}

// Standing is how a round stands now.
type Standing struct {
	Round
	// Newest is the latest occurrence whose time has come; its Due is empty when
	// there was none yet.
	Newest Occurrence
	// DaysLate counts civil days from its day to today, 0 unless it is Late.
	DaysLate int
	// Missed is how many occurrences were left undone in a row, the newest included,
	// counted over the last 400 days.
	Missed int
	// Next is the first occurrence still to come that was not done or skipped
	// beforehand; empty when there is none.
	Next journal.Civil
	// State is that of what matters: Newest while it is Due or Late, else Coming,
	// Paused or Over.
	State State
}

// Stand tells how a round stands at now, in the zone of now.
func Stand(r Round, h History, now time.Time) Standing {
	s := Standing{Round: r}
	if r.Paused != "" {
		s.State = Paused
		return s
	}
	past := reached(r, now)
	next := following(r, now)
	s.Next = h.open(r, next, now)
	s.State = Coming
	if s.Next == "" {
		s.State = Over
	}
	w := windows{past, next}
	for i := len(past) - 1; i >= 0; i-- {
		o := h.of(r, past[i], w.at(i))
		if i == len(past)-1 {
			s.Newest = o
		}
		if o.State != Due {
			break
		}
		s.Missed++
	}
	if s.Newest.State == Due {
		s.State = Due
		if n, err := journal.DaysBetween(s.Newest.Due, journal.CivilOf(now)); err == nil && n > 0 {
			s.State, s.Newest.State, s.DaysLate = Late, Late, n
		}
	}
	return s
}

// lookBack is how far back missed occurrences are counted. Judgement: a year, and
// a little; no more is said of them than their number.
const lookBack = 400 // days

// reached lists the occurrences whose moment has come at now, earliest first,
// those of lookBack, or all where there were none in it.
func reached(r Round, now time.Time) []journal.Civil {
	wall := Wall(now)
	for _, from := range []time.Time{wall.AddDate(0, 0, -lookBack), {}} {
		var out []journal.Civil
		// A time inside a gap comes after it, and a clock set back shows a moment
		// past as one to come: look a day on and ask for the moment.
		for _, c := range r.Rule.Between(r.Start, from, wall.Add(24*time.Hour)) {
			if come(c, now) && there(c, now.Location()) {
				out = append(out, c)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

// following is the first occurrence still to come.
func following(r Round, now time.Time) journal.Civil {
	from := Wall(now).Add(-24 * time.Hour)
	for range 3 * MaxADay {
		c, ok := r.Rule.After(r.Start, from)
		if !ok {
			return ""
		}
		if !come(c, now) && there(c, now.Location()) {
			return c
		}
		if from, _ = c.Parse(); from.IsZero() {
			return ""
		}
		from = from.Add(time.Minute)
	}
	return ""
}

// open is the first occurrence from c on that nothing did beforehand. What was
// done beforehand is no long row.
func (h History) open(r Round, c journal.Civil, now time.Time) journal.Civil {
	for range MaxAhead {
		if c == "" {
			return ""
		}
		o, ok := Find(r, h, c, now)
		if !ok || o.State == Coming {
			return c
		}
		at, err := c.Parse()
		if err != nil {
			return ""
		}
		c, _ = r.Rule.After(r.Start, at.Add(time.Minute))
	}
	return c
}

// MaxAhead is how many occurrences may be done or skipped beforehand. Judgement:
// a time away at its longest, twelve times a day.
const MaxAhead = 60 * MaxADay

// come reports whether the moment of c has come at now.
func come(c journal.Civil, now time.Time) bool {
	at, ok := Instant(c, now.Location())
	return ok && !at.After(now)
}

// of tells how an occurrence stands whose moment has come: Due when nothing did it.
func (h History) of(r Round, c journal.Civil, w window) Occurrence {
	o := Occurrence{Due: c, State: Due}
	for _, x := range h.Handled {
		if x.Due == c {
			o.State, o.Reason, o.Entry = x.State, x.Reason, x.Entry
			return o
		}
	}
	if id, ok := h.entryIn(r.Code, w); ok {
		o.State, o.Entry = Done, id
		return o
	}
	if r.Code.ByNeighbour() {
		for _, s := range h.Away {
			if s.Holds(c) {
				o.State = Handed
			}
		}
	}
	return o
}

// entryIn finds an entry that does a round within a window.
func (h History) entryIn(code Code, w window) (string, bool) {
	kinds := code.CountedBy()
	if len(kinds) == 0 {
		return "", false
	}
	i := sort.Search(len(h.Entries), func(i int) bool { return h.Entries[i].At >= w.from })
	for ; i < len(h.Entries) && (w.to == "" || h.Entries[i].At < w.to); i++ {
		for _, k := range kinds {
			if h.Entries[i].Kind == k && !h.used(h.Entries[i].ID) {
				return h.Entries[i].ID, true
			}
		}
	}
	return "", false
}

// used reports whether an entry was written for an occurrence of this round: it
// does no other.
func (h History) used(entry string) bool {
	for _, x := range h.Handled {
		if x.Entry == entry {
			return true
		}
	}
	return false
}

// LastDone tells when a round was last done by the record: when its newest entry
// was written for, or the day of the occurrence where it writes none. Empty where it
// was never done.
func LastDone(r Round, h History) journal.Civil {
	var last journal.Civil
	for _, x := range h.Handled {
		if x.State != Done {
			continue
		}
		at := x.Due
		for _, e := range h.Entries {
			if e.ID == x.Entry && x.Entry != "" {
				at = e.At
			}
		}
		last = max(last, at)
	}
	for _, e := range h.Entries {
		if slices.Contains(r.Code.CountedBy(), e.Kind) {
			last = max(last, e.At)
		}
	}
	return last
}
