package journal

import (
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// TestKit is a test of the person's own and one thing that it measures, as its
// card or its instructions print it. A box with several bottles is several of
// one name.
type TestKit struct {
	ID         string
	Name       string            // as the person calls it, 1 to 80 runes
	Reading    string            // what it measures, one of Tests
	Unit       quantity.UnitCode // that its card prints
	Basis      quantity.Basis    // for ammonia, nitrite and nitrate: required
	Resolution string            // smallest step that can be told apart, in Unit, as typed with a point; empty when not known
	Steps      []string          // the colours of the card from the first to the last, in Unit, rising; may be empty. They tell more than Resolution
}

// Tests lists the readings of a water test, in the order in which they are offered.
func Tests() []string {
	return []string{NameAmmonia, NameNitrite, NameNitrate, NamePH, NameKH, NameGH, NameTemperature, NameChlorine, NameOxygen, NamePhosphate, NameTDS}
}

// HasBasis reports whether a reading is of a nitrogen compound, so that its basis
// is asked.
func HasBasis(name string) bool {
	return name == NameAmmonia || name == NameNitrite || name == NameNitrate
}

const (
	maxKitName  = 80 // runes // judgement
	maxKitSteps = 24 // judgement: colours on a card
)

// Check refuses a kit whose name, reading, unit, basis, smallest step or colours
// cannot be: steps are numbers that rise, each a reading that can be kept.
func (k TestKit) Check() error {
	n := utf8.RuneCountInString(strings.TrimSpace(k.Name))
	switch {
	case n == 0 || !utf8.ValidString(k.Name) || strings.ContainsFunc(k.Name, unicode.IsControl):
		return working.Refuse("name", "refuse.journal.kit_name")
	case n > maxKitName:
		return working.Refuse("name", "refuse.journal.words_long")
	}
	if !slices.Contains(Tests(), k.Reading) {
		return working.Refuse("reading", "refuse.journal.reading")
	}
	u, ok := quantity.UnitOf(k.Unit)
	if !ok || !slices.Contains(KindsOf(k.Reading), u.Kind) {
		return working.Refuse("unit", "refuse.journal.reading")
	}
	if HasBasis(k.Reading) != (k.Basis == quantity.AsN || k.Basis == quantity.AsIon) {
		return working.Refuse("basis", "refuse.journal.kit_basis")
	}
	if k.Resolution != "" {
		x, err := number(k.Resolution)
		if err != nil || x <= 0 {
			return working.Refuse("resolution", "refuse.journal.kit_step")
		}
	}
	if len(k.Steps) > maxKitSteps {
		return working.Refuse("steps", "refuse.journal.kit_steps")
	}
	last := 0.0
	for i, s := range k.Steps {
		x, err := number(s)
		if err != nil || i > 0 && x <= last {
			return working.Refuse("steps", "refuse.journal.kit_steps")
		}
		if err := k.of(s).Check(); err != nil {
			return working.Refuse("steps", "refuse.journal.kit_steps")
		}
		last = x
	}
	return nil
}

func number(s string) (float64, error) {
	m := quantity.Measure{Number: s, Unit: "one"}
	v, err := m.Value()
	return v.X, err
}

func (k TestKit) of(number string) Reading {
	return Reading{Name: k.Reading, Measure: quantity.Measure{Number: number, Unit: k.Unit, Basis: k.Basis}, Kit: k.ID}
}

// Step returns the smallest step in the base unit of the kind; for a thermometer
// it is a difference. Where it was not written down it is that of the card: its
// first colour above nought, or the least way between two, whichever is less. It
// reports false when neither is known.
func (k TestKit) Step() (quantity.Value, bool) {
	x, err := number(k.Resolution)
	if err != nil || x <= 0 {
		card := k.card()
		if card == nil {
			return quantity.Value{}, false
		}
		x = math.Inf(1)
		for i, c := range card {
			if c > 0 {
				x = min(x, c)
			}
			if i > 0 {
				x = min(x, c-card[i-1])
			}
		}
	}
	return k.difference(x)
}

// difference is a difference of x in the unit of the kit, in the base unit.
func (k TestKit) difference(x float64) (quantity.Value, bool) {
	u, ok := quantity.UnitOf(k.Unit)
	if !ok || !quantity.Finite(x) {
		return quantity.Value{}, false
	}
	v := quantity.Value{Kind: u.Kind, X: u.ToBase(x) - u.ToBase(0)}
	if u.Kind == quantity.KindTemperature {
		v.Kind = quantity.KindTempDiff
	}
	return v, true
}

// card is the colours of the card as numbers in the unit of the kit; nil where there
// are fewer than two, which say nothing of what lies between them.
func (k TestKit) card() []float64 {
	if len(k.Steps) < 2 {
		return nil
	}
	out := make([]float64, len(k.Steps))
	for i, s := range k.Steps {
		x, err := number(s)
		if err != nil {
			return nil
		}
		out[i] = x
	}
	return out
}

// HasCard reports whether the kit has a card with colours to tell between.
func (k TestKit) HasCard() bool { return k.card() != nil }

// near is how close a number must be to a colour of the card to be that colour, as a
// share of the way between two: other units and bases bring their rounding. // judgement
const near = 0.02

// halves gives, in the unit of the kit, how far the truth may lie below and above x
// read from the card: to the middle of the way to the colour beside it, and half of
// the way between the two colours about a value that was read in between. Below the
// first colour and above the last the way is as long as the one beside it; nothing
// is below nought. at is the colour that x is, -1 where it is none.
func halves(card []float64, x float64) (below, above float64, at int) {
	n := len(card)
	i := 0
	for i < n-2 && x >= card[i+1] {
		i++
	}
	way := card[i+1] - card[i] // the one about x, the first or the last
	below, above, at = way/2, way/2, -1
	for j, c := range card {
		if math.Abs(x-c) > near*way {
			continue
		}
		at = j
		if j > 0 {
			below = (c - card[j-1]) / 2
		}
		if j < n-1 {
			above = (card[j+1] - c) / 2
		}
	}
	if x >= 0 {
		below = min(below, x)
	}
	return below, above, at
}

// Room returns how far the truth may lie below and above what the kit shows: half of
// the way to the colours of the card beside it, or half of the smallest step where
// the card has none. v is on the basis of the kit; what is returned is a difference
// in the base unit of its kind. It reports false where neither is known, and for a
// value of another kind.
func (k TestKit) Room(v quantity.Value) (below, above quantity.Value, ok bool) {
	u, known := quantity.UnitOf(k.Unit)
	if !known || v.Kind != u.Kind {
		return below, above, false
	}
	var a, b float64
	if card := k.card(); card != nil {
		a, b, _ = halves(card, u.FromBase(v.X))
	} else {
		x, err := number(k.Resolution)
		if err != nil || x <= 0 {
			return below, above, false
		}
		a, b = x/2, x/2
	}
	below, _ = k.difference(a)
	above, ok = k.difference(b)
	return below, above, ok
}

// places returns how many places m is shown with, whose unit is of the kit's kind: a
// colour of the card with those that the card prints; what was read between two
// colours no finer than half of the way; else no finer than the smallest step. It
// reports false when nothing is known.
func (k TestKit) places(m quantity.Measure) (int, bool) {
	own, _ := quantity.UnitOf(k.Unit)
	u, _ := quantity.UnitOf(m.Unit)
	way, same := 0.0, u.Code == own.Code
	if card := k.card(); card != nil {
		x, err := number(m.Number)
		if err != nil {
			return 0, false
		}
		below, above, at := halves(card, own.FromBase(u.ToBase(x)))
		if at >= 0 && same {
			return fraction(k.Steps[at]), true
		}
		way = max(below, above)
		if at >= 0 {
			way = min(below, above)
			if way == 0 { // nought is the first colour
				way = above
			}
		}
	} else if x, err := number(k.Resolution); err != nil || x <= 0 {
		return 0, false
	} else if way = x; same {
		return fraction(strconv.FormatFloat(x, 'f', -1, 64)), true
	}
	way = math.Abs(u.FromBase(own.ToBase(way)) - u.FromBase(own.ToBase(0))) // in the unit of the measure
	if !(way > 0) {
		return 0, false
	}
	return max(0, int(math.Ceil(-math.Log10(way)-1e-9))), true
}

// fraction is how many places a number has.
func fraction(number string) int {
	_, places, _ := strings.Cut(number, ".")
	return len(places)
}

// Shown is a measure as this kit can tell it: with no more places than its card
// prints, or than its smallest step has, halves away from nought. It is for a person
// to read; what was typed stays what is kept and reckoned with. A measure that is
// coarser already, one of another kind, and any of a kit of which neither is known
// are given back as they are.
func (k TestKit) Shown(m quantity.Measure) quantity.Measure {
	own, known := quantity.UnitOf(k.Unit)
	u, is := quantity.UnitOf(m.Unit)
	if !known || !is || u.Kind != own.Kind {
		return m
	}
	places, ok := k.places(m)
	if !ok || fraction(m.Number) <= places {
		return m
	}
	x, good := new(big.Rat).SetString(m.Number)
	if _, err := m.Value(); err != nil || !good {
		return m
	}
	m.Number = x.FloatString(places)
	if strings.Trim(m.Number, "-0.") == "" {
		m.Number = strings.TrimPrefix(m.Number, "-")
	}
	return m
}

// Last returns the last colour of the card; false when there are none.
func (k TestKit) Last() (quantity.Measure, bool) {
	if len(k.Steps) == 0 {
		return quantity.Measure{}, false
	}
	return k.of(k.Steps[len(k.Steps)-1]).Measure, true
}
