package i18n

import (
	"errors"
	"slices"
	"strings"
	"unicode"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Finding writes what a finding says.
func (w *Words) Finding(f working.Finding) string {
	args := Args{}
	for name, v := range f.Values {
		args[name] = v
		if b := f.Bases[name]; b != quantity.BasisNone {
			args[name] = w.Quantity(v) + " " + w.T(working.Key("word.basis."+string(b)), nil)
		}
	}
	for name, k := range f.Words {
		args[name] = k
	}
	for name, s := range f.Text {
		args[name] = s
	}
	return w.T(f.Code, args)
}

// State names a state: the word that stands beside its shape.
func (w *Words) State(s working.State) string {
	return w.T(working.Key("state."+s.String()), nil)
}

// Refusal says why an input was not taken and what would be.
func (w *Words) Refusal(r *working.Refusal) string {
	args := Args{"Name": unknownNumber, "Low": unknownNumber, "High": unknownNumber}
	for name, v := range r.Values {
		args[name] = v
	}
	if r.Accept.Name != "" {
		args["Name"] = r.Accept.Name
	}
	low, high := r.Accept.Low, r.Accept.High
	code := r.Code
	if v, ok := r.Values["Value"]; ok && (low.Known() || high.Known()) {
		args["Low"], args["High"], args["Value"] = w.apart(low, high, v)
	} else {
		if closed(low) {
			args["Low"] = low
		}
		if closed(high) {
			args["High"] = high
		}
	}
	if code == "refuse.outside" {
		switch {
		case closed(low) && !closed(high):
			code = "refuse.below"
		case closed(high) && !closed(low):
			code = "refuse.above"
		}
	}
	return w.T(code, args)
}

func closed(v quantity.Value) bool { return v.Known() && quantity.Finite(v.X) }

// apart writes the ends of a range and a value outside it in one unit, with as
// many figures as it takes to see that the value is outside.
func (w *Words) apart(low, high, v quantity.Value) (string, string, string) {
	biggest := v
	for _, x := range []quantity.Value{low, high} {
		if closed(x) {
			biggest = x
		}
	}
	unit := w.unitFor(biggest)
	for sig := 3; sig <= 12; sig++ {
		a, b, c := w.in(low, unit, sig), w.in(high, unit, sig), w.in(v, unit, sig)
		if (a != c || low.X == v.X) && (b != c || high.X == v.X) {
			return a, b, c
		}
	}
	return w.in(low, unit, 3), w.in(high, unit, 3), w.in(v, unit, 12)
}

// Problem writes an error that a person can do something about: a Refusal or a
// ParseError anywhere in the chain. For any other error it reports false.
func (w *Words) Problem(err error) (string, bool) {
	var r *working.Refusal
	if errors.As(err, &r) {
		return w.Refusal(r), true
	}
	var p *quantity.ParseError
	if errors.As(err, &p) {
		return w.ParseError(p), true
	}
	return "", false
}

// ParseError says what is wrong with a typed quantity and gives an example in
// the person's units.
func (w *Words) ParseError(e *quantity.ParseError) string {
	args := Args{
		"Text":    quote(e.Text),
		"Token":   quote(e.Token),
		"Example": w.Example(e.Kind),
		"Units":   w.choices(e.Kind),
	}
	if e.Code == quantity.CodeAmbiguousNumber {
		whole, decimal := w.readings(e.Token)
		args["Whole"], args["Decimal"] = whole, decimal
	}
	if e.Code == quantity.CodeAmbiguousUnit {
		return w.T(ambiguousUnit[e.Kind], args)
	}
	key, ok := parseKeys[e.Code]
	if !ok {
		key = "parse.not_number"
	}
	return w.T(key, args)
}

var parseKeys = map[quantity.ErrorCode]working.Key{
	quantity.CodeEmpty:           "parse.empty",
	quantity.CodeTooLong:         "parse.too_long",
	quantity.CodeNotNumber:       "parse.not_number",
	quantity.CodeAmbiguousNumber: "parse.ambiguous_number",
	quantity.CodeUnknownUnit:     "parse.unknown_unit",
	quantity.CodeWrongKind:       "parse.wrong_kind",
}

// ambiguousUnit: the three measures that have a US and an imperial form.
var ambiguousUnit = map[quantity.Kind]working.Key{
	quantity.KindVolume: "parse.ambiguous_unit",
	quantity.KindFlow:   "parse.ambiguous_flow",
}

// readings spells out the two meanings of 1,234: without the mark and with the
// person's own decimal mark.
func (w *Words) readings(token string) (whole, decimal string) {
	mark := func(r rune) bool { return r == '.' || r == ',' }
	whole = strings.Map(func(r rune) rune {
		if mark(r) {
			return -1
		}
		return r
	}, token)
	decimal = strings.Map(func(r rune) rune {
		if mark(r) {
			return w.decimal
		}
		return r
	}, token)
	return whole, decimal
}

// shown is the most that is shown of what was typed.
const shown = 30

// quote makes a person's text fit to stand in a sentence: one line, no invisible
// or direction-changing characters, not too long.
func quote(s string) string {
	var b strings.Builder
	n := 0
	for _, r := range s {
		if n == shown {
			b.WriteString("…")
			break
		}
		if unicode.IsSpace(r) {
			r = ' '
		}
		if !unicode.IsPrint(r) {
			continue
		}
		b.WriteRune(r)
		n++
	}
	return strings.TrimSpace(b.String())
}

// examples are typical values of a kind, in its base unit, for the sentence that
// says how to type one. judgement.
var examples = map[quantity.Kind]float64{
	quantity.KindCount: 6, quantity.KindRatio: 0.25, quantity.KindPH: 7.2, quantity.KindLength: 24 * 0.0254,
	quantity.KindArea: 0.18, quantity.KindVolume: 0.0568, quantity.KindMass: 12, quantity.KindPressure: 1915,
	quantity.KindForce: 500, quantity.KindPower: 100, quantity.KindEnergy: 3.6e6, quantity.KindTime: 7200,
	quantity.KindFlow: 300.0 / 3.6e6, quantity.KindTemperature: 25, quantity.KindTempDiff: 2, quantity.KindConcentration: 0.25,
	quantity.KindHardness: 71.4, quantity.KindAngle: 0.7853981633974483, quantity.KindVoltage: 230, quantity.KindCurrent: 2,
	quantity.KindDensity: 1500, quantity.KindInertia: 1e-6, quantity.KindModulus: 1e-5, quantity.KindMoney: 12.5,
}

// Example writes a typical value of a kind in the person's units: 15 gal.
func (w *Words) Example(k quantity.Kind) string {
	x, ok := examples[k]
	if !ok {
		x = 1
	}
	if k == quantity.KindMoney {
		return w.localise("12.50")
	}
	return w.in(quantity.Value{Kind: k, X: x}, w.DefaultUnit(k, General), 2)
}

// choices lists units that a field of kind k takes: the person's first, then
// those of the other systems, then others, five at most.
func (w *Words) choices(k quantity.Kind) string {
	const most = 5
	var names []string
	add := func(c quantity.UnitCode) {
		s := w.Unit(c)
		if s != "" && len(names) < most && !slices.Contains(names, s) {
			names = append(names, s)
		}
	}
	add(w.DefaultUnit(k, General))
	for _, sys := range quantity.Systems() {
		o := *w
		o.system = sys
		add(o.DefaultUnit(k, General))
	}
	for _, u := range quantity.UnitsOf(k) {
		add(u.Code)
	}
	if len(names) == 0 {
		return w.T("parse.no_unit", nil)
	}
	return w.Either(names)
}
