package care

import (
	"math"

	"example.org/driploop/model/quantity"
)

// Facts reads a Record: each field's answer, or what is proposed where none was
// given, and the calculations that follow, each made once. It belongs to one
// Record and one goroutine.
type Facts struct {
	r    *Record
	memo map[FieldID]Answer
	busy map[FieldID]bool
	made made
}

// NewFacts starts reading r, which must not change meanwhile; its Now
// may move on, since nothing that is kept depends on it.
func NewFacts(r *Record) *Facts {
	return &Facts{r: r, memo: map[FieldID]Answer{}, busy: map[FieldID]bool{}}
}

// Answer returns what stands in a field and whether it was given rather than
// proposed. An unknown field has no answer.
func (f *Facts) Answer(id FieldID) (Answer, bool) {
	if a, ok := f.r.Answers[id]; ok && !a.IsZero() {
		return a, true
	}
	if a, ok := f.memo[id]; ok {
		return a, false
	}
	field, ok := FieldOf(id)
	if !ok || field.Propose == nil || f.busy[id] {
		return Answer{}, false
	}
	f.busy[id] = true
	a := field.Propose(f)
	delete(f.busy, id)
	f.memo[id] = a
	return a, false
}

// Known reports whether a field has an answer, given or proposed.
func (f *Facts) Known(id FieldID) bool {
	a, _ := f.Answer(id)
	return !a.IsZero()
}

// value returns a measured field in base units, missing when there is none.
func (f *Facts) value(id FieldID) quantity.Value {
	a, _ := f.Answer(id)
	if a.Measure.IsZero() {
		return quantity.Value{}
	}
	v, err := a.Measure.Value()
	if err != nil {
		return quantity.Value{}
	}
	return v
}

// x returns a measured field as a number, NaN when it is missing so that nothing
// computes on with a silent zero.
func (f *Facts) x(id FieldID) float64 {
	v := f.value(id)
	if !v.Known() {
		return math.NaN()
	}
	return v.X
}

// or returns a measured field, or other when it is missing.
func (f *Facts) or(id FieldID, other float64) float64 {
	if v := f.value(id); v.Known() {
		return v.X
	}
	return other
}

func (f *Facts) choice(id FieldID) string {
	a, _ := f.Answer(id)
	return a.Choice
}

// Ticked reports whether a tick is set.
func (f *Facts) Ticked(id FieldID) bool { return f.choice(id) == Ticked }

// us reports whether round figures are proposed in US customary units.
func (f *Facts) us() bool { return f.r.System == quantity.US }

// round proposes x (in base units) in unit c with two significant digits, which
// is as sharp as a proposal ever is.
func round(x float64, c quantity.UnitCode, digits int) Answer {
	u := quantity.MustUnit(c)
	return Answer{Measure: quantity.Of(u.FromBase(x), c, digits), Origin: FromProposal}
}

// byUS proposes a in the US customary system and b elsewhere.
func byUS(a, b Answer) func(*Facts) Answer {
	return func(f *Facts) Answer {
		if f.us() {
			return a
		}
		return b
	}
}

func always(a Answer) func(*Facts) Answer { return func(*Facts) Answer { return a } }
