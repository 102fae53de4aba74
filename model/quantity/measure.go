package quantity

import (
	"strconv"
	"strings"
)

// Measure is a quantity as a person gave it: digits, unit and basis. Number is
// the canonical decimal (a point as decimal mark, no grouping) with exactly the
// digits that were typed, so that 0.50 stays 0.50.
type Measure struct {
	Number string   `json:"number"`
	Unit   UnitCode `json:"unit"`
	Basis  Basis    `json:"basis,omitempty"`
}

// IsZero reports whether m holds nothing at all (missing, which is not zero).
func (m Measure) IsZero() bool { return m.Number == "" && m.Unit == "" }

// Value converts m into the base unit of its kind. Errors: ParseError with
// CodeNotNumber or CodeUnknownUnit.
func (m Measure) Value() (Value, error) {
	u, ok := UnitOf(m.Unit)
	if !ok {
		return Value{}, &ParseError{Code: CodeUnknownUnit, Text: m.Number, Token: string(m.Unit)}
	}
	x, err := strconv.ParseFloat(m.Number, 64)
	if err != nil || !plain(m.Number) || !Finite(x) || !Finite(u.ToBase(x)) {
		return Value{}, &ParseError{Code: CodeNotNumber, Text: m.Number, Kind: u.Kind}
	}
	return Value{u.Kind, u.ToBase(x)}, nil
}

// plain reports whether s is written as Measure.Number is: digits, a point, a
// leading minus. Powers of ten, hexadecimal and words for infinity are not.
func plain(s string) bool {
	for i, r := range s {
		if (r < '0' || r > '9') && r != '.' && (r != '-' || i > 0) {
			return false
		}
	}
	return s != ""
}

// Of writes value x of unit c as a Measure with up to digits significant
// digits and no trailing zeros. It is meant for defaults, never for storing a
// value that a person typed.
func Of(x float64, c UnitCode, digits int) Measure {
	s := strconv.FormatFloat(x, 'g', digits, 64)
	if strings.ContainsAny(s, "eE") {
		if y, err := strconv.ParseFloat(s, 64); err == nil {
			s = strconv.FormatFloat(y, 'f', -1, 64)
		}
	}
	return Measure{Number: s, Unit: c}
}
