package nav

import (
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
)

// Measured is a box for a measure, kept as it was typed.
type Measured struct {
	*parts.Field
	words   *i18n.Words
	kind    quantity.Kind
	reading quantity.Reading
}

// NewMeasured gives a box with the measure that stands there, none for an empty
// one. Proposed holds where the program filled it in.
func NewMeasured(d Deps, id string, label working.Key, kind quantity.Kind, purpose i18n.Purpose, m quantity.Measure, proposed bool) *Measured {
	w := d.Present.W
	b := &Measured{words: w, kind: kind, reading: w.Reading(kind, purpose)}
	spec := parts.FieldSpec{ID: id, Label: w.T(label, nil)}
	if !m.IsZero() {
		if v, err := m.Value(); err == nil && w.Foreign(m.Unit) { // a proposal in units of elsewhere
			m = quantity.Of(v.In(quantity.MustUnit(b.reading.Unit)), b.reading.Unit, 3)
		}
		b.reading.Unit = m.Unit
		spec.Text, spec.Proposed = strings.Replace(m.Number, ".", string(w.Decimal()), 1), proposed
	}
	spec.Unit = w.Unit(b.reading.Unit)
	b.Field = parts.NewField(spec)
	return b
}

// Peek reads the box; a zero Measure is an empty one. Errors: *quantity.ParseError.
func (b *Measured) Peek() (quantity.Measure, error) {
	text := strings.TrimSpace(b.Text())
	if text == "" {
		return quantity.Measure{}, nil
	}
	return quantity.Parse(text, b.kind, b.reading)
}

// Read reads the box and says below it what cannot be read.
func (b *Measured) Read() (quantity.Measure, bool) {
	m, err := b.Peek()
	words := ""
	if err != nil {
		words, _ = b.words.Problem(err)
	}
	b.Fault(words)
	return m, err == nil
}

// Fault says below the box what was refused; no words take it away.
func (b *Measured) Fault(words string) { Fault(b.Field, words) }

// Fault says below a box what was refused; what was typed stays.
func Fault(b *parts.Field, words string) {
	if s := b.Spec(); s.Error != words {
		s.Error, s.Text = words, b.Text()
		b.Set(s)
	}
}
