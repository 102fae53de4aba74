package care

import (
	"strconv"

	"example.org/driploop/model/quantity"
)

// FieldID names one thing that First fill asks.
type FieldID string

// Origin says who gave an answer.
type Origin string

// The origins of an answer.
const (
	FromPerson   Origin = "person"
	FromProfile  Origin = "profile" // from the shop's starter profile
	FromProposal Origin = "default" // proposed by the program, accepted by carrying on
)

// Answer is what stands in a field, exactly as it was given. Which part is used
// depends on the field's type.
type Answer struct {
	Measure quantity.Measure
	Choice  string
	Words   string
	Origin  Origin
}

// IsZero reports whether the answer holds nothing.
func (a Answer) IsZero() bool { return a.Measure.IsZero() && a.Choice == "" && a.Words == "" }

// Text is the canonical text of the answer, for comparing two of them: the same
// quantity typed in other units is another answer only if its value differs.
func (a Answer) Text() string {
	if !a.Measure.IsZero() {
		v, err := a.Measure.Value()
		if err != nil {
			return a.Measure.Number + string(a.Measure.Unit)
		}
		return strconv.FormatFloat(v.X, 'g', 10, 64)
	}
	return a.Choice + a.Words
}

// Ticked is the choice of a tick that is set.
const Ticked = "yes"

// Measured makes an answer from x in unit c, as a proposal.
func Measured(x float64, c quantity.UnitCode) Answer {
	return Answer{Measure: quantity.Of(x, c, 6), Origin: FromProposal}
}

// Chosen makes an answer from an option, as a proposal.
func Chosen(option string) Answer { return Answer{Choice: option, Origin: FromProposal} }
