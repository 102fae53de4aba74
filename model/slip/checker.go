package slip

import (
	"encoding/json"
	"regexp"
	"slices"
	"time"
	"unicode/utf8"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// zoneForm is an offset of a clock from UTC.
var zoneForm = regexp.MustCompile(`^[+-][0-9]{2}:[0-9]{2}$`)

// maxCount is the most animals that are believed of one group. // judgement
const maxCount = 10_000

// checker keeps the first fault that is found.
type checker struct {
	part string
	err  error
}

func (c *checker) put(err error) {
	if c.err == nil && err != nil {
		c.err = err
	}
}

// is notes a fault where ok is false.
func (c *checker) is(ok bool, place string, code working.Key) {
	if !ok {
		c.put(&Error{Code: code, Part: c.part, Place: place})
	}
}

func (c *checker) most(place string, n, most int) {
	if n > most {
		e := above(CodeMany, c.part, float64(most))
		e.Place = place
		c.put(e)
	}
}

func (c *checker) line(place, s string, most int) { c.put(checkText(c.part, place, s, most, false)) }
func (c *checker) text(place, s string, most int) { c.put(checkText(c.part, place, s, most, true)) }

func (c *checker) id(place, s string) { c.is(idForm.MatchString(s), place, CodeID) }

func (c *checker) zone(place, s string, required bool) {
	c.is(zoneForm.MatchString(s) || s == "" && !required, place, CodeWhen)
}

func (c *checker) civil(place string, s journal.Civil, required bool) {
	_, err := s.Parse()
	c.is(err == nil || s == "" && !required, place, CodeWhen)
}

func (c *checker) day(place, s string, required bool) {
	t, err := time.Parse(time.DateOnly, s)
	c.is(err == nil && t.Year() >= 1900 && t.Year() <= 2999 || s == "" && !required, place, CodeWhen)
}

func (c *checker) maker(m Maker) {
	c.put(checkText(partManifest, "made_by.program", m.Program, MaxProgram, false))
	c.put(checkText(partManifest, "made_by.version", m.Version, MaxProgram, false))
}

// measure refuses one that is no number of the kind; none at all will do.
func (c *checker) measure(place string, m quantity.Measure, kind quantity.Kind, code working.Key) {
	if m.IsZero() && m.Basis == "" {
		return
	}
	v, err := m.Value()
	c.is(err == nil && v.Kind == kind && typed(m) && m.Basis == "", place, code)
}

// typed reports whether a measure is written as a person's typing is kept.
func typed(m quantity.Measure) bool {
	return len(m.Number) <= MaxNumber && numberForm.MatchString(m.Number) && m.Number == unsigned(m.Number)
}

// readings refuses readings that no entry can have: two of one name, a number that is
// not written as one, words that hide something.
func (c *checker) readings(place string, rs []journal.Reading, kits map[string]string) {
	c.most(place, len(rs), MaxReadings)
	named := map[string]bool{}
	for _, r := range rs {
		c.is(!named[r.Name] && r.Kit == "", place, CodeEntry)
		named[r.Name] = true
		switch word, said := r.Word(); {
		case said:
			c.line(place, word, journal.MaxWords)
		case r.Qualifier == journal.Plain:
			c.is(typed(r.Measure), place, CodeEntry)
		default: // of which only the kit's unit may be told
			_, unit := quantity.UnitOf(r.Measure.Unit)
			c.is((r.Measure.Number == "" || typed(r.Measure)) && (unit || r.Measure.Unit == "") && len(journal.KindsOf(r.Name)) > 0, place, CodeEntry)
			c.is(r.Qualifier == journal.NotDetected || r.Qualifier == journal.OverRange, place, CodeEntry)
		}
		c.is(r.Measure.Basis == "" || journal.HasBasis(r.Name) && (r.Measure.Basis == quantity.AsN || r.Measure.Basis == quantity.AsIon), place, CodeEntry)
		c.is(r.Check() == nil, place, CodeEntry)
	}
	for name, kit := range kits {
		c.is(named[name] && kit != "", place, CodeEntry)
		c.line(place, kit, MaxSaid)
	}
}

// others refuses members of a later version that could not be read again.
func (c *checker) others(more map[string]string, known []string) {
	for _, name := range sorted(more) {
		c.is(keeps(name) && !slices.Contains(known, name) && json.Valid([]byte(more[name])), "more", CodeShape)
	}
}

// keeps reports whether a member that is not known may be kept under its name.
func keeps(name string) bool {
	return name != "" && len(name) <= MaxName && utf8.ValidString(name) && plain(name, false)
}
