package journal

import (
	"fmt"
	"sort"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Kind says what an entry records.
type Kind string

// The kinds of entries.
const (
	Filled      Kind = "filled"      // the tank was filled
	Dosed       Kind = "dosed"       // conditioner, bacteria
	Powered     Kind = "powered"     // first power, after the electrical checks
	Temperature Kind = "temperature" // a reading of the thermometer
	Tested      Kind = "tested"      // a water test
	Fed         Kind = "fed"
	Changed     Kind = "changed" // part of the water
	Cleaned     Kind = "cleaned" // glass, filter, gravel
	Noticed     Kind = "noticed" // something about a fish or the tank
	FishIn      Kind = "fish_in"
	FishOut     Kind = "fish_out" // sold, given away, died
	Kit         Kind = "kit"      // new, serviced, failed
	PowerCut    Kind = "power_cut"
	HomeComing  Kind = "home_coming" // a bag acclimated
	StepDone    Kind = "step_done"   // a step of First fill finished
	Note        Kind = "note"
	Photo       Kind = "photo"      // pictures of a day that go with no other entry
	TapTested   Kind = "tap_tested" // a test of the tap water, not of the tank's
	ToppedUp    Kind = "topped_up"  // water for what evaporated: salts stay, so it is no change
)

// Written lists the kinds that a person writes, the commonest first; the others
// come from what is finished in First fill.
func Written() []Kind {
	return []Kind{Fed, Tested, Changed, Temperature, Note, Noticed, Dosed, Cleaned, ToppedUp, FishIn, FishOut, Kit, PowerCut, HomeComing, TapTested}
}

// Kinds lists all kinds.
func Kinds() []Kind {
	return []Kind{Filled, Dosed, Powered, Temperature, Tested, Fed, Changed, Cleaned, Noticed, FishIn, FishOut, Kit, PowerCut, HomeComing, StepDone, Note, Photo, TapTested, ToppedUp}
}

// Qualifier marks a value that is not a plain number.
type Qualifier string

// The qualifiers.
const (
	Plain       Qualifier = ""
	NotDetected Qualifier = "not_detected" // below what the kit can show; not zero
	OverRange   Qualifier = "over_range"   // beyond the kit's last step
)

// The names under which readings are kept.
const (
	NameTemperature = "temperature"
	NameAmmonia     = "ammonia"
	NameNitrite     = "nitrite"
	NameNitrate     = "nitrate"
	NamePH          = "ph"
	NameKH          = "kh"
	NameGH          = "gh"
	NameVolume      = "volume"
	NameDose        = "dose"
	NameFeed        = "feed"
	NameCount       = "count"
	NameDuration    = "duration"
	NameLength      = "length"
	NameChlorine    = "chlorine" // total chlorine
	NameOxygen      = "oxygen"
	NamePhosphate   = "phosphate" // as the ion
	NameTDS         = "tds"       // dissolved solids, or the conductivity that stands for them
)

// Reading is one value of an entry. What is no measure but a word (see Said)
// has the word as its Number and no unit.
type Reading struct {
	Name      string           `json:"name"`
	Measure   quantity.Measure `json:"measure"`
	Qualifier Qualifier        `json:"qualifier,omitempty"`
	Kit       string           `json:"kit,omitempty"` // the TestKit that showed it, by id
}

// Value returns the reading in the base unit of its kind. It reports false for
// a reading that is qualified or does not convert: there is no number then.
func (r Reading) Value() (quantity.Value, bool) {
	if r.Qualifier != Plain {
		return quantity.Value{}, false
	}
	v, err := r.Measure.Value()
	return v, err == nil
}

// Entry is one thing that happened.
type Entry struct {
	ID       string
	Kind     Kind
	At       Civil
	Zone     string // offset of the wall clock from UTC when written, "+01:00"
	Seq      int64  // order of insertion
	Note     string
	Step     string // the step of First fill it came from, if any
	Readings []Reading
	Edited   string // UTC instant of the last edit, or empty
	Sick     string // the case it belongs to, or empty
	Reply    string // the shop's reply it came from, or empty
}

// Get returns the named reading.
func (e Entry) Get(name string) (Reading, bool) {
	for _, r := range e.Readings {
		if r.Name == name {
			return r, true
		}
	}
	return Reading{}, false
}

// Civil is a date and time by the clock on the wall, to the minute, without a zone.
type Civil string

const civilLayout = "2006-01-02T15:04"

// CivilOf returns the wall-clock time of t in t's own zone.
func CivilOf(t time.Time) Civil { return Civil(t.Format(civilLayout)) }

// ZoneOf returns the offset of t's zone from UTC.
func ZoneOf(t time.Time) string { return t.Format("-07:00") }

// Parse returns the parts of c. Errors: a text that is no date between the
// years 1900 and 2999.
func (c Civil) Parse() (time.Time, error) {
	t, err := time.Parse(civilLayout, string(c))
	if err != nil {
		return time.Time{}, fmt.Errorf("journal: %q is no civil time: %w", string(c), err)
	}
	if t.Year() < 1900 || t.Year() > 2999 {
		return time.Time{}, fmt.Errorf("journal: year of %q is outside 1900 to 2999", string(c))
	}
	return t, nil
}

// Day returns the date part.
func (c Civil) Day() string {
	if len(c) < 10 {
		return string(c)
	}
	return string(c[:10])
}

// Instant returns the moment an entry was made: its civil time in its zone. It
// reports false when either cannot be read.
func (e Entry) Instant() (time.Time, bool) {
	t, err := time.Parse(civilLayout+"-07:00", string(e.At)+e.Zone)
	return t, err == nil
}

// DaysBetween counts civil days from a to b, negative when b is earlier.
func DaysBetween(a, b Civil) (int, error) {
	ta, err := a.Parse()
	if err != nil {
		return 0, err
	}
	tb, err := b.Parse()
	if err != nil {
		return 0, err
	}
	day := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC) }
	return int(day(tb).Sub(day(ta)).Hours() / 24), nil
}

// Sort orders entries by civil time, then insertion, earliest first.
func Sort(es []Entry) {
	sort.SliceStable(es, func(i, j int) bool {
		if es[i].At != es[j].At {
			return es[i].At < es[j].At
		}
		return es[i].Seq < es[j].Seq
	})
}

// Check refuses an entry that cannot be kept: an unreadable time, an unknown
// kind, a reading that is no number, a note beyond MaxNote runes.
func (e Entry) Check() error {
	if _, err := e.At.Parse(); err != nil {
		return working.Refuse("at", "refuse.journal.time")
	}
	known := false
	for _, k := range Kinds() {
		known = known || k == e.Kind
	}
	if !known {
		return working.Refuse("kind", "refuse.journal.kind")
	}
	if utf8.RuneCountInString(e.Note) > MaxNote {
		return working.Refuse("note", "refuse.journal.note_long")
	}
	if !utf8.ValidString(e.Note) || strings.ContainsRune(e.Note, 0) {
		return working.Refuse("note", "refuse.journal.note_text")
	}
	for _, r := range e.Readings {
		if err := r.Check(); err != nil {
			return err
		}
	}
	return nil
}

// MaxNote is the longest note, in runes; longer text belongs in a file of its own.
const MaxNote = 20000
