package journal

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// The names of readings that are words and no measures.
const (
	NameReason = "reason" // why a fish left: sold, given, died, given back, not seen again, counted again
	NameState  = "state"  // of a piece of kit: new, serviced, failed
	NameLeft   = "left"   // food left over: none, some, much
	NamePart   = "part"   // what was cleaned
	NameWhat   = "what"   // a food, a product, a device, a fish, in the person's words
	NameCame   = "came"   // how a fish came that was not brought home: born here, counted again
	NameSeen   = "seen"   // how a fish that died was found; no diagnosis
	NameSource = "source" // where a fish came from, in the person's words
	NamePrice  = "price"  // what was paid for all, as typed
)

// vocabulary holds the words that a reading may be; none for free words.
var vocabulary = map[string][]string{
	NameReason: {"sold", "given", "died", "returned", "lost", "counted"},
	NameCame:   {"born", "counted"},
	NameSeen:   {"unknown", "found_dead", "jumped", "eaten", "old_age"},
	NameSource: nil,
	NamePrice:  nil,
	NameState:  {"new", "serviced", "failed"},
	NameLeft:   {"none", "some", "much"},
	NamePart:   {"glass", "filter", "gravel", "plants", "all"},
	NameWhat:   nil,
}

// Vocabulary lists the codes of the words that a reading of that name may be,
// empty where any words will do. It reports false for a reading that is a measure.
func Vocabulary(name string) ([]string, bool) {
	v, ok := vocabulary[name]
	return slices.Clone(v), ok
}

// Said makes a reading that is a word.
func Said(name, word string) Reading {
	return Reading{Name: name, Measure: quantity.Measure{Number: word}}
}

// Word returns what a reading says in words; false for a measure.
func (r Reading) Word() (string, bool) {
	_, ok := vocabulary[r.Name]
	return r.Measure.Number, ok
}

// MaxWords is the longest free word of a reading, in runes. // judgement
const MaxWords = 200

func (r Reading) checkWord() error {
	v, text := vocabulary[r.Name], r.Measure.Number
	switch {
	case r.Qualifier != Plain, r.Measure.Unit != "", v != nil && !slices.Contains(v, text):
		return working.Refuse(r.Name, "refuse.journal.reading")
	case strings.TrimSpace(text) == "", !utf8.ValidString(text), strings.ContainsFunc(text, unicode.IsControl):
		return working.Refuse(r.Name, "refuse.journal.words")
	case utf8.RuneCountInString(text) > MaxWords:
		return working.Refuse(r.Name, "refuse.journal.words_long")
	}
	return nil
}

// OfTank reports whether the readings of such an entry tell of the tank's own
// water, and not of the tap's, of new water or of a bag.
func (k Kind) OfTank() bool {
	return k != TapTested && k != Changed && k != ToppedUp && k != HomeComing
}
