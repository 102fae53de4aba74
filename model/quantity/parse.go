package quantity

import (
	"math/big"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// ErrorCode says why a typed quantity was refused. The words for a person are
// found by this code in the message files.
type ErrorCode string

// The reasons for which Parse refuses.
const (
	CodeEmpty           ErrorCode = "empty"
	CodeTooLong         ErrorCode = "too_long"
	CodeNotNumber       ErrorCode = "not_number"
	CodeAmbiguousNumber ErrorCode = "ambiguous_number" // 1,234: one thousand or one point two?
	CodeAmbiguousUnit   ErrorCode = "ambiguous_unit"   // gallon without US or imperial
	CodeUnknownUnit     ErrorCode = "unknown_unit"
	CodeWrongKind       ErrorCode = "wrong_kind" // a unit, but of something else
)

// ParseError is a refusal of typed text. It never carries a guessed value.
type ParseError struct {
	Code  ErrorCode
	Text  string // what was typed
	Token string // the part that was not understood
	Kind  Kind   // what was asked for
}

// Error implements error for logs; people read the message for Code.
func (e *ParseError) Error() string {
	return "quantity: " + string(e.Code) + ": " + strconv.Quote(e.Text)
}

// Reading is how a person writes numbers: the unit meant when none is typed, the
// system that tells one gallon from another, and the decimal mark of their
// language ('.' or ','), which settles what 1,234 means.
type Reading struct {
	Unit    UnitCode
	System  System
	Decimal rune
	// Words are the names of units in the person's language, beside those that every
	// reader knows; may be nil.
	Words *UnitWords
}

// UnitWords are names of units in a language: small letters, single spaces. One name
// may serve a unit of each of several kinds.
type UnitWords map[string][]UnitCode

// A quantity is short; anything longer is a mistake.
const (
	maxTyped  = 64 // runes typed
	maxDigits = 32 // characters of the number, well beyond what a float64 resolves
)

// Parse reads text as a quantity of kind k: digits with either decimal mark,
// grouping where it is unambiguous, a fraction such as 20 1/2, then a unit of
// that kind or none. It refuses with a *ParseError and never guesses: 1,234 is
// refused unless the comma is the reader's decimal mark, and so is a gallon
// that is neither US nor imperial.
func Parse(text string, k Kind, r Reading) (Measure, error) {
	fail := func(c ErrorCode, token string) (Measure, error) {
		return Measure{}, &ParseError{Code: c, Text: text, Token: token, Kind: k}
	}
	if utf8.RuneCountInString(text) > maxTyped {
		return fail(CodeTooLong, "")
	}
	s := normalise(text)
	if s == "" {
		return fail(CodeEmpty, "")
	}
	if k == KindPH { // pH is written before its number
		if rest, ok := strings.CutPrefix(strings.ToLower(s), "ph"); ok {
			s = strings.TrimSpace(rest)
		}
	}
	end := numberEnd(s)
	digits, rest := strings.TrimSpace(s[:end]), strings.ToLower(strings.TrimSpace(s[end:]))
	number, code := readNumber(digits, r.Decimal)
	if code != "" {
		if digits == "" {
			return fail(CodeNotNumber, rest)
		}
		return fail(code, digits)
	}
	if len(number) > maxDigits {
		return fail(CodeTooLong, "")
	}
	unit := r.Unit
	if rest != "" {
		u, code := readUnit(rest, k, r)
		if code != "" {
			return fail(code, rest)
		}
		unit = u
	}
	m := Measure{Number: number, Unit: unit}
	v, err := m.Value()
	if err != nil {
		return fail(CodeUnknownUnit, string(unit))
	}
	if v.Kind != k {
		return fail(CodeWrongKind, rest)
	}
	return m, nil
}

// normalise trims, folds full-width digits, ready-made fractions and the many
// spaces and minus signs into their plain forms, and drops what a person cannot
// see. Characters that turn the direction of writing stay and so spoil the
// number: with them, what is seen is not what is read.
func normalise(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r >= '０' && r <= '９':
			b.WriteRune('0' + r - '０')
		case r == '．':
			b.WriteByte('.')
		case r == '，':
			b.WriteByte(',')
		case r == '−' || r == '－' || r == '‒':
			b.WriteByte('-')
		case r == '½':
			b.WriteString(" 1/2")
		case r == '¼':
			b.WriteString(" 1/4")
		case r == '¾':
			b.WriteString(" 3/4")
		case unicode.IsSpace(r):
			b.WriteByte(' ')
		case r == '\u202b' || r == '\u202d' || r == '\u202e' || r == '\u2067':
			b.WriteRune(r)
		case unicode.Is(unicode.Cf, r):
		default:
			b.WriteRune(r)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// numberEnd returns where the number part of s ends.
func numberEnd(s string) int {
	for i, r := range s {
		if r >= '0' && r <= '9' || r == '.' || r == ',' || r == '/' || r == ' ' || r == '⁄' || (i == 0 && (r == '-' || r == '+')) {
			continue
		}
		if (r == '\'' || r == '’') && i > 0 && i+1 < len(s) && digitsAfter(s[i+utf8.RuneLen(r):]) >= 3 {
			continue // Swiss grouping 1'234; a foot mark is not followed by three digits
		}
		return i
	}
	return len(s)
}

func digitsAfter(s string) int {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

// readNumber turns typed digits into the canonical decimal.
func readNumber(s string, decimal rune) (string, ErrorCode) {
	sign := ""
	switch {
	case strings.HasPrefix(s, "-"):
		sign, s = "-", strings.TrimSpace(s[1:])
	case strings.HasPrefix(s, "+"):
		s = strings.TrimSpace(s[1:])
	}
	s = strings.ReplaceAll(s, "⁄", "/")
	if strings.Contains(s, "/") {
		return readFraction(sign, s)
	}
	s = strings.NewReplacer("'", " ", "’", " ").Replace(s)
	whole, code := ungroup(s)
	if code != "" {
		return "", code
	}
	dots, commas := strings.Count(whole, "."), strings.Count(whole, ",")
	switch {
	case dots+commas == 0:
	case dots > 0 && commas > 0: // the last mark is the decimal one
		if strings.LastIndex(whole, ".") > strings.LastIndex(whole, ",") {
			whole, code = twoMarks(whole, ",", ".")
		} else {
			whole, code = twoMarks(whole, ".", ",")
		}
	case dots > 1:
		whole, code = grouped(whole, ".")
	case commas > 1:
		whole, code = grouped(whole, ",")
	default:
		mark := "."
		if commas == 1 {
			mark = ","
		}
		left, right, _ := strings.Cut(whole, mark)
		mine := string(decimal) == mark
		if len(right) == 3 && len(left) >= 1 && len(left) <= 3 && left[0] != '0' && !mine {
			return "", CodeAmbiguousNumber
		}
		if right == "" && left == "" {
			return "", CodeNotNumber
		}
		whole = left + "." + right
	}
	if code != "" {
		return "", code
	}
	return canonical(sign, whole)
}

// ungroup joins digits grouped by spaces, 12 345; other spaces are not a number.
func ungroup(s string) (string, ErrorCode) {
	if !strings.Contains(s, " ") {
		return s, ""
	}
	parts := strings.Split(s, " ")
	for i, p := range parts[1:] {
		n := digitsAfter(p)
		last := i == len(parts)-2
		if n != 3 || (!last && len(p) != 3) {
			return "", CodeNotNumber
		}
	}
	if n := digitsAfter(parts[0]); n != len(parts[0]) || n < 1 || n > 3 {
		return "", CodeNotNumber
	}
	return strings.Join(parts, ""), ""
}

func twoMarks(s, group, decimal string) (string, ErrorCode) {
	left, right, _ := strings.Cut(s, decimal)
	if strings.Contains(right, group) || strings.Contains(right, decimal) {
		return "", CodeNotNumber
	}
	whole, code := grouped(left, group)
	return whole + "." + right, code
}

func grouped(s, mark string) (string, ErrorCode) {
	parts := strings.Split(s, mark)
	for i, p := range parts {
		if (i == 0 && (len(p) < 1 || len(p) > 3)) || (i > 0 && len(p) != 3) {
			return "", CodeNotNumber
		}
	}
	return strings.Join(parts, ""), ""
}

func canonical(sign, s string) (string, ErrorCode) {
	left, right, hasPoint := strings.Cut(s, ".")
	if left == "" && right == "" {
		return "", CodeNotNumber
	}
	for _, r := range left + right {
		if r < '0' || r > '9' {
			return "", CodeNotNumber
		}
	}
	left = strings.TrimLeft(left, "0")
	if left == "" {
		left = "0"
	}
	out := left
	if hasPoint && right != "" {
		out += "." + right
	}
	if sign == "-" && strings.Trim(out, "0.") != "" {
		out = "-" + out
	}
	return out, ""
}

// readFraction reads 1/2 and 20 1/2 into a decimal, exact where it is finite and
// to twelve places otherwise.
func readFraction(sign, s string) (string, ErrorCode) {
	whole := "0"
	frac := strings.ReplaceAll(strings.ReplaceAll(s, " /", "/"), "/ ", "/")
	if w, f, ok := strings.Cut(frac, " "); ok {
		whole, frac = w, f
	}
	top, bottom, _ := strings.Cut(frac, "/")
	for _, p := range []string{whole, top, bottom} {
		if p == "" || len(p) > 6 || digitsAfter(p) != len(p) {
			return "", CodeNotNumber
		}
	}
	t, _ := strconv.ParseInt(top, 10, 64)
	b, _ := strconv.ParseInt(bottom, 10, 64)
	w, _ := strconv.ParseInt(whole, 10, 64)
	if b == 0 {
		return "", CodeNotNumber
	}
	out := big.NewRat(w*b+t, b).FloatString(12)
	return canonical(sign, strings.TrimRight(strings.TrimRight(out, "0"), "."))
}

// readUnit finds the unit that rest names among those of kind k.
func readUnit(rest string, k Kind, r Reading) (UnitCode, ErrorCode) {
	if code, ok := systemUnit(rest, k, r.System); ok {
		if code == "" {
			return "", CodeAmbiguousUnit
		}
		return code, ""
	}
	known := false
	for _, u := range units {
		for _, n := range u.Names {
			if n != rest || n == "" {
				continue
			}
			if u.Kind == k {
				return u.Code, ""
			}
			known = true
		}
		if strings.EqualFold(string(u.Code), rest) && u.Kind == k {
			return u.Code, ""
		}
	}
	if r.Words != nil {
		for _, c := range (*r.Words)[rest] {
			if u, ok := UnitOf(c); ok && u.Kind == k {
				return c, ""
			}
			known = true
		}
	}
	if k == KindMoney && isCurrency(strings.ToUpper(rest)) {
		return UnitCode(strings.ToUpper(rest)), ""
	}
	if known {
		return "", CodeWrongKind
	}
	return "", CodeUnknownUnit
}

// systemUnit resolves the words that mean different things in the US and in
// Britain. In the metric system they are ambiguous: a gallon guessed wrongly is
// a dose wrong by a fifth.
func systemUnit(rest string, k Kind, sys System) (UnitCode, bool) {
	pick := func(us, imp UnitCode) (UnitCode, bool) {
		switch sys {
		case US:
			return us, true
		case Imperial:
			return imp, true
		}
		return "", true
	}
	switch {
	case k == KindVolume && oneOf(rest, "gal", "gal.", "gallon", "gallons", "galón", "galones", "galon"):
		return pick("gal_us", "gal_imp")
	case k == KindVolume && oneOf(rest, "fl oz", "floz", "fl. oz.", "oz", "fl.oz."):
		return pick("floz_us", "floz_imp")
	case k == KindFlow && oneOf(rest, "gal/h", "gph"):
		return pick("gph_us", "gph_imp")
	}
	return "", false
}

func oneOf(s string, list ...string) bool {
	for _, x := range list {
		if s == x {
			return true
		}
	}
	return false
}
