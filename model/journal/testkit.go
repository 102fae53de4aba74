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
	Steps      []string          // the colours of the card from the first to the last, in Unit, rising; may be empty
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
// it is a difference. It reports false when it is not known.
func (k TestKit) Step() (quantity.Value, bool) {
	u, ok := quantity.UnitOf(k.Unit)
	x, err := number(k.Resolution)
	if !ok || err != nil || x <= 0 {
		return quantity.Value{}, false
	}
	v := quantity.Value{Kind: u.Kind, X: u.ToBase(x) - u.ToBase(0)}
	if u.Kind == quantity.KindTemperature {
		v.Kind = quantity.KindTempDiff
	}
	return v, true
}

// Decimals returns how many places a value from this kit is shown with: no finer
// than its smallest step. It reports false when the step is not known.
func (k TestKit) Decimals() (int, bool) {
	if _, ok := k.Step(); !ok {
		return 0, false
	}
	x, _ := number(k.Resolution)
	s := strconv.FormatFloat(x, 'f', -1, 64)
	if _, places, ok := strings.Cut(s, "."); ok {
		return len(places), true
	}
	return 0, true
}

// Shown is a measure as this kit can tell it: with no more places than its smallest
// step has, halves away from nought. It is for a person to read; what was typed
// stays what is kept and reckoned with. A measure that is coarser already, one of
// another kind, and any of a kit whose step is not known are given back as they are.
func (k TestKit) Shown(m quantity.Measure) quantity.Measure {
	places, ok := k.Decimals()
	own, known := quantity.UnitOf(k.Unit)
	u, is := quantity.UnitOf(m.Unit)
	if !ok || !known || !is || u.Kind != own.Kind {
		return m
	}
	if u.Code != own.Code { // its step in the unit of the measure
		x, _ := number(k.Resolution)
		step := u.FromBase(own.ToBase(x)) - u.FromBase(own.ToBase(0))
		places = max(0, int(math.Ceil(-math.Log10(math.Abs(step))-1e-9)))
	}
	if _, fraction, _ := strings.Cut(m.Number, "."); len(fraction) <= places {
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
