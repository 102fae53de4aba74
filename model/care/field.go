package care

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// FieldType is how a field is answered.
type FieldType uint8

// The field types.
const (
	TypeMeasure FieldType = iota // digits and a unit
	TypeChoice                   // one of a list
	TypeWords                    // free text
	TypeTick                     // done or not
)

// Purpose says what a quantity is for, which decides the unit proposed: a board
// is measured in millimetres where a tank is measured in centimetres.
type Purpose string

// The purposes.
const (
	ForTank  Purpose = "tank"
	ForBoard Purpose = "board"
	ForDose  Purpose = "dose"
	ForLabel Purpose = "label" // the volume a bottle's label speaks of
	ForRoom  Purpose = "room"
	ForFish  Purpose = "fish"
	ForAny   Purpose = ""
)

// Field is one thing that First fill asks.
type Field struct {
	ID      FieldID
	Step    Step
	Group   string // fields of a group stand together under group.<Group>
	Type    FieldType
	Kind    quantity.Kind
	Purpose Purpose
	Name    working.Key // of the label, where several fields share one
	Options []string    // of a choice; labels are option.<id>.<option>
	// Low and High bound what is believable, in the base unit; a formula may ask
	// for less.
	Low, High float64
	Whole     bool // whole numbers only
	// Mass holds for a volume that may be given as a mass instead: a label's dose
	// of powder. LowMass and HighMass bound it, in kilograms.
	Mass              bool
	LowMass, HighMass float64
	Optional          bool // may stay empty: not known is an answer
	Propose           func(*Facts) Answer
	When              func(*Facts) bool // nil: always
	// Free holds for answers that no later step relies on: changing one reopens
	// nothing.
	Free bool
}

// Label is the key of the field's name.
func (f *Field) Label() working.Key {
	if f.Name != "" {
		return f.Name
	}
	return working.Key("field." + string(f.ID))
}

// OptionLabel is the key of an option's name.
func (f *Field) OptionLabel(option string) working.Key {
	return working.Key("option." + string(f.ID) + "." + option)
}

// Accept returns the believable range of a measure.
func (f *Field) Accept() working.Limit {
	return working.Limit{Name: f.Label(), Low: quantity.Value{Kind: f.Kind, X: f.Low}, High: quantity.Value{Kind: f.Kind, X: f.High}}
}

// Check refuses an answer that the field cannot take by itself.
func (f *Field) Check(a Answer) error {
	switch f.Type {
	case TypeMeasure:
		v, err := a.Measure.Value()
		if err != nil {
			return working.Refuse(string(f.ID), "refuse.not_a_number")
		}
		if f.Mass && v.Kind == quantity.KindMass {
			return working.InRange(string(f.ID), f.Label(), v, quantity.Mass(f.LowMass).Value(), quantity.Mass(f.HighMass).Value())
		}
		if v.Kind != f.Kind {
			return working.Refuse(string(f.ID), "refuse.not_a_number")
		}
		if f.Whole && v.X != float64(int64(v.X)) {
			return working.Refuse(string(f.ID), "refuse.whole_number")
		}
		l := f.Accept()
		return working.InRange(string(f.ID), l.Name, v, l.Low, l.High)
	case TypeChoice:
		for _, o := range f.Options {
			if o == a.Choice {
				return nil
			}
		}
		return working.Refuse(string(f.ID), "refuse.care.choice")
	case TypeTick:
		if a.Choice != Ticked && a.Choice != "" {
			return working.Refuse(string(f.ID), "refuse.care.choice")
		}
	case TypeWords:
		if len([]rune(a.Words)) > MaxWords {
			return working.Refuse(string(f.ID), "refuse.care.words_long")
		}
	}
	return nil
}

// MaxWords is the longest free text in a field, in runes.
const MaxWords = 120
