package i18n

import (
	"math"
	"strconv"
	"strings"

	"golang.org/x/text/currency"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// noBreak keeps a number and its unit, and the groups of a long number, on one line.
const noBreak = "\u00a0"

// unknownNumber stands for what is missing. Missing is never shown as zero.
const unknownNumber = "–"

// Number writes x with at most sig significant figures (1 to 15) and without
// trailing zeros: 24.5, 1230, 12 300. A number too large or too small to be
// read that way is written as a power of ten. NaN and infinities show as a dash.
func (w *Words) Number(x float64, sig int) string {
	return w.localise(plainNumber(x, sig))
}

// Percent writes a fraction of one as a percentage.
func (w *Words) Percent(fraction float64) string {
	return w.T("quantity.percent", Args{"Number": w.Number(fraction*100, 3)})
}

// Money writes an amount in an ISO 4217 currency with its customary decimals. A
// currency that is not known is written by its code.
func (w *Words) Money(x float64, code string) string {
	if !quantity.Finite(x) {
		return unknownNumber
	}
	symbol, decimals := code, 2
	if u, err := currency.ParseISO(code); err == nil {
		decimals, _ = currency.Standard.Rounding(u)
		symbol = message.NewPrinter(w.tag).Sprint(currency.Symbol(u))
	}
	amount := w.localise(strconv.FormatFloat(math.Abs(x), 'f', decimals, 64))
	switch {
	case len(symbol) == 3 && symbol == code:
		amount = symbol + noBreak + amount
	case w.lang == "es" && w.region != "" && w.region != "ES": // Source: CLDR, es-419 "¤#,##0.00"
		amount = symbol + amount
	default:
		amount = strings.ReplaceAll(w.T("quantity.money", Args{"Symbol": symbol, "Number": amount}), " ", noBreak)
	}
	if x < 0 {
		amount = minus + amount
	}
	return amount
}

const minus = "−"

// List joins items as a person would: one, two and three.
func (w *Words) List(items []string) string { return w.join(items, "list.and") }

// Either joins choices as a person would: one, two or three.
func (w *Words) Either(items []string) string { return w.join(items, "list.or") }

func (w *Words) join(items []string, last working.Key) string {
	switch len(items) {
	case 0:
		return ""
	case 1:
		return items[0]
	}
	n := len(items) - 1
	return w.T(last, Args{"Items": strings.Join(items[:n], w.T("list.between", nil)), "Last": items[n]})
}

// plainNumber writes x with a point, no grouping, at most sig significant
// figures and no trailing zeros.
func plainNumber(x float64, sig int) string {
	if !quantity.Finite(x) {
		return unknownNumber
	}
	sig = min(max(sig, 1), 15)
	s := strconv.FormatFloat(x, 'e', sig-1, 64)
	digits, exponent, _ := strings.Cut(s, "e")
	power, _ := strconv.Atoi(exponent)
	if x != 0 && (power < -4 || power > 11) {
		return trimZeros(digits) + "e" + strconv.Itoa(power)
	}
	rounded, _ := strconv.ParseFloat(s, 64)
	s = trimZeros(strconv.FormatFloat(rounded, 'f', max(sig-1-power, 0), 64))
	if s == "-0" {
		return "0"
	}
	return s
}

func trimZeros(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// countFigures is enough figures to show a whole number in full, and three for
// any other.
func countFigures(x float64) int {
	if x == math.Trunc(x) && math.Abs(x) < 1e12 {
		return 12
	}
	return 3
}

// operand is the number from which the plural form is chosen: that of the
// digits shown.
func operand(plain string) string {
	plain = strings.TrimPrefix(plain, "-")
	if plain == unknownNumber || strings.ContainsRune(plain, 'e') {
		return "0"
	}
	return plain
}

// localise gives plain digits the person's decimal mark, the true minus sign and
// groups of three from 10 000 on.
func (w *Words) localise(plain string) string {
	mantissa, power, scientific := strings.Cut(plain, "e")
	negative := strings.HasPrefix(mantissa, "-")
	whole, fraction, _ := strings.Cut(strings.TrimPrefix(mantissa, "-"), ".")
	if len(whole) > 4 {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + noBreak + whole[i:]
		}
	}
	if fraction != "" {
		whole += string(w.decimal) + fraction
	}
	if negative {
		whole = minus + whole
	}
	if scientific {
		whole += "×10" + superscript(power)
	}
	return whole
}

var raised = strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")

func superscript(s string) string { return raised.Replace(s) }

// decimalMark returns the decimal mark of a language and region. Source: CLDR,
// through golang.org/x/text.
func decimalMark(t language.Tag) rune {
	if strings.Contains(message.NewPrinter(t).Sprint(number.Decimal(1.5)), ",") {
		return ','
	}
	return '.'
}
