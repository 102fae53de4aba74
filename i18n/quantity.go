package i18n

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Quantity writes v with the unit that suits the person's system and the
// magnitude, in at most three significant figures: 57.2 L, 6 mm, 150 lb. A
// missing value and one that is not a number show as a dash.
func (w *Words) Quantity(v quantity.Value) string {
	return w.in(v, w.unitFor(v), 3)
}

// For writes v in the unit that is customary for a purpose.
func (w *Words) For(v quantity.Value, p Purpose) string {
	return w.in(v, w.DefaultUnit(v.Kind, p), 3)
}

// QuantityIn writes v in unit c with at most sig significant figures. A unit of
// another kind shows as a dash.
func (w *Words) QuantityIn(v quantity.Value, c quantity.UnitCode, sig int) string {
	return w.in(v, c, sig)
}

// Both writes v in the person's units and then in the other system's, in
// parentheses: 68 kg (150 lb). Where both systems use one unit it stands once.
func (w *Words) Both(v quantity.Value) string {
	mine := w.Quantity(v)
	theirs := w.other().unitFor(v)
	second := w.in(v, theirs, 3)
	if second == mine {
		return mine
	}
	return w.T("quantity.both", Args{"First": mine, "Second": second})
}

// other is the same person reading the other family of units.
func (w *Words) other() *Words {
	o := *w
	switch {
	case w.system != quantity.Metric:
		o.system = quantity.Metric
	case w.region == "GB" || w.region == "IE":
		o.system = quantity.Imperial
	default:
		o.system = quantity.US
	}
	return &o
}

// Range writes low to high in one unit: 76 to 78 °F. Ends of different kinds,
// or a missing end, show as a dash.
func (w *Words) Range(low, high quantity.Value) string {
	if low.Kind != high.Kind || !low.Known() {
		return unknownNumber
	}
	c := w.unitFor(larger(low, high))
	a, b := w.in(low, c, 3), w.in(high, c, 3)
	if a == b {
		return a
	}
	if shared, ok := w.bare(low, c, 3); ok {
		return w.T("quantity.range", Args{"Low": shared, "High": b})
	}
	return w.T("quantity.range", Args{"Low": a, "High": b})
}

func larger(a, b quantity.Value) quantity.Value {
	if math.Abs(a.X) > math.Abs(b.X) {
		return a
	}
	return b
}

// Measure writes what a person typed, digit for digit, with its unit.
func (w *Words) Measure(m quantity.Measure) string {
	if m.IsZero() {
		return unknownNumber
	}
	u, ok := quantity.UnitOf(m.Unit)
	if !ok {
		return w.localise(m.Number)
	}
	return w.attach(w.localise(m.Number), operand(m.Number), u)
}

// Typed writes what a person typed, digit for digit, and beside a unit that is
// foreign to this person the same in one of theirs.
func (w *Words) Typed(m quantity.Measure) string {
	typed := w.Measure(m)
	if v, err := m.Value(); err == nil && w.Foreign(m.Unit) {
		return w.T("quantity.typed", Args{"Typed": typed, "Shown": w.Quantity(v)})
	}
	return typed
}

// Unit returns the symbol of a unit as it is shown beside several of it: L, °F,
// days. A currency is its code. A unit without a symbol (pieces) is "".
func (w *Words) Unit(c quantity.UnitCode) string {
	u, ok := quantity.UnitOf(c)
	if !ok {
		return ""
	}
	return w.symbol(u, "2")
}

// About writes a figure that is an estimate or a recommendation: as Quantity, with
// two figures.
func (w *Words) About(v quantity.Value) string { return w.in(v, w.unitFor(v), 2) }

// in writes v in unit c.
func (w *Words) in(v quantity.Value, c quantity.UnitCode, sig int) string {
	u, ok := quantity.UnitOf(c)
	if !ok || u.Kind != v.Kind || !quantity.Finite(u.FromBase(v.X)) {
		return unknownNumber
	}
	plain := w.digits(v, u, sig)
	return w.attach(w.localise(plain), operand(plain), u)
}

// bare writes v in unit c without the unit, for the lower end of a range. It
// reports false where the unit does not stand behind the number.
func (w *Words) bare(v quantity.Value, c quantity.UnitCode, sig int) (string, bool) {
	u, ok := quantity.UnitOf(c)
	if !ok || u.Kind != v.Kind || u.Kind == quantity.KindPH || u.Kind == quantity.KindMoney || !quantity.Finite(u.FromBase(v.X)) {
		return "", false
	}
	return w.localise(w.digits(v, u, sig)), true
}

// digits writes the number of v in u: the significant figures asked for, but no
// decimal beyond what instruments and people resolve.
func (w *Words) digits(v quantity.Value, u quantity.Unit, sig int) string {
	x := u.FromBase(v.X)
	if v.Kind == quantity.KindCount {
		return plainNumber(x, max(sig, countFigures(x)))
	}
	if v.Kind == quantity.KindMoney {
		return plainNumber(math.Round(x*100)/100, 15)
	}
	if d, ok := decimals[u.Code]; ok && sig <= 3 {
		scale := math.Pow(10, float64(d))
		if y := math.Round(x*scale) / scale; quantity.Finite(y) {
			x = y
		}
	}
	return plainNumber(x, sig)
}

// decimals caps the places after the decimal mark, by unit, where three figures
// would claim more than a thermometer or a test kit can tell.
// judgement: resolution of household instruments.
var decimals = map[quantity.UnitCode]int{
	"degc": 1, "degf": 1, "k_diff": 1, "f_diff": 1, "ph": 2, "percent": 2,
}

// attach puts the unit to the number.
func (w *Words) attach(number, operand string, u quantity.Unit) string {
	switch u.Code {
	case "percent":
		return w.T("quantity.percent", Args{"Number": number})
	case "ph":
		return w.T("quantity.ph", Args{"Number": number})
	case "deg":
		return number + w.symbol(u, operand)
	}
	s := w.symbol(u, operand)
	if s == "" {
		return number
	}
	if r, _ := utf8.DecodeRuneInString(s); w.Base() == "ja" && unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana) {
		return number + s // a counter in Japanese stands at its number: 2日
	}
	return number + noBreak + s
}

// symbol returns the message for a unit. What the US and Britain both call a
// gallon is named in full for anyone who reads neither system.
func (w *Words) symbol(u quantity.Unit, operand string) string {
	if u.Kind == quantity.KindMoney || u.Code == "piece" || u.Code == "one" {
		if u.Kind == quantity.KindMoney {
			return string(u.Code)
		}
		return ""
	}
	key := UnitKey(u.Code)
	if w.system == quantity.US {
		switch u.Code {
		case "gal_us", "floz_us", "gph_us":
			key += "_here"
		}
	}
	return strings.ReplaceAll(w.render(string(key), operand, nil), " ", noBreak)
}

var keyed = strings.NewReplacer("/", "_per_", ".", "_")

// UnitKey returns the key of the message that holds a unit's symbol.
func UnitKey(c quantity.UnitCode) working.Key {
	return working.Key("unit." + keyed.Replace(string(c)))
}
