package i18n

import (
	"strconv"
	"strings"
	"unicode"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// TrailText is the working behind a figure in words, for a page, for paper and
// for plain text. Empty parts are absent from the trail.
type TrailText struct {
	Heading  string // "Show the working"
	Question string
	Strength string // how far the result may be trusted, in words
	Parts    []TrailPart
}

// TrailPart is a heading with its lines: what was given, the steps, the result,
// the range it holds for, the sources, the assumptions.
type TrailPart struct {
	Heading string
	Lines   []TrailLine
}

// TrailLine is one line of the working. Text is always there; the others where
// the line has them.
type TrailLine struct {
	Text     string // the name of the quantity, or the sentence
	Symbol   string // V
	Equation string // V = L·W·h
	Filled   string // the same with the values put in
	Value    string // 56.8 L
	Note     string // as typed, or the spread
	Cite     int    // number of the source it relies on, from 1; 0 for none
}

// Trail writes the working of a calculation. A nil trail gives an empty text.
func (w *Words) Trail(t *working.Trail) TrailText {
	if t == nil {
		return TrailText{}
	}
	out := TrailText{Heading: w.T("working.heading", nil), Question: w.T(t.Ask, nil)}
	if t.Strength != "" {
		out.Strength = w.T(working.Key("strength."+string(t.Strength)), nil)
	}
	cited := map[working.SourceID]int{}
	for i, id := range t.Sources {
		cited[id] = i + 1
	}
	known := map[string]string{}

	var lines []TrailLine
	for _, g := range t.Givens {
		lines = append(lines, w.given(g, cited))
		known[g.Symbol] = w.worked(g.Value)
	}
	out.add(w.T("working.given", nil), lines)

	lines = nil
	for _, s := range t.Steps {
		lines = append(lines, w.step(s, known, cited))
		known[s.Symbol] = w.worked(s.Value)
	}
	out.add(w.T("working.steps", nil), lines)

	if t.Result.Name != "" {
		r := TrailLine{Text: w.T(t.Result.Name, nil), Symbol: t.Result.Symbol, Value: w.worked(t.Result.Value), Cite: cited[t.Result.Source]}
		if t.Spread != nil {
			r.Note = w.T("working.spread", Args{"Range": w.span(t.Spread.Low, t.Spread.High)})
			if t.Spread.Why != "" {
				r.Note = Sentences(r.Note, w.T(t.Spread.Why, nil))
			}
		}
		out.add(w.T("working.result", nil), []TrailLine{r})
	}

	lines = nil
	for _, l := range t.Valid {
		lines = append(lines, TrailLine{Text: w.T(l.Name, nil), Value: w.Limit(l)})
	}
	out.add(w.T("working.valid", nil), lines)

	lines = nil
	for i, id := range t.Sources {
		if s, ok := working.LookUp(id); ok {
			lines = append(lines, TrailLine{Text: s.Cite, Note: w.Origin(s.Origin), Cite: i + 1})
		}
	}
	out.add(w.T("working.sources", nil), lines)

	lines = nil
	for _, k := range t.Assumes {
		lines = append(lines, TrailLine{Text: w.T(k, nil)})
	}
	out.add(w.T("working.assumed", nil), lines)
	return out
}

func (t *TrailText) add(heading string, lines []TrailLine) {
	if len(lines) > 0 {
		t.Parts = append(t.Parts, TrailPart{heading, lines})
	}
}

// Origin says how sure we are of a source.
func (w *Words) Origin(o working.Origin) string {
	return w.T(working.Key("origin."+string(o)), nil)
}

// Limit writes the range a formula holds in; an open end is told as such.
func (w *Words) Limit(l working.Limit) string {
	switch {
	case closed(l.Low) && closed(l.High):
		return w.span(l.Low, l.High)
	case closed(l.Low):
		return w.T("limit.from", Args{"Low": w.worked(l.Low)})
	case closed(l.High):
		return w.T("limit.to", Args{"High": w.worked(l.High)})
	}
	return unknownNumber
}

// worked writes a value inside the working. A ratio is a plain number there, for
// it stands in equations.
func (w *Words) worked(v quantity.Value) string {
	if v.Kind == quantity.KindRatio {
		return w.Number(v.X, 3)
	}
	return w.Quantity(v)
}

func (w *Words) span(low, high quantity.Value) string {
	if low.Kind == quantity.KindRatio && high.Kind == quantity.KindRatio {
		return w.T("quantity.range", Args{"Low": w.Number(low.X, 3), "High": w.Number(high.X, 3)})
	}
	return w.Range(low, high)
}

func (w *Words) given(g working.Given, cited map[working.SourceID]int) TrailLine {
	l := TrailLine{Text: w.T(g.Name, nil), Symbol: g.Symbol, Value: w.worked(g.Value), Cite: cited[g.Source]}
	if !g.Typed.IsZero() {
		if typed := w.Measure(g.Typed); typed != l.Value {
			l.Note = w.T("working.typed", Args{"Typed": typed})
		}
	}
	return l
}

func (w *Words) step(s working.Step, known map[string]string, cited map[working.SourceID]int) TrailLine {
	l := TrailLine{Text: w.T(s.Name, nil), Symbol: s.Symbol, Value: w.worked(s.Value), Cite: cited[s.Source]}
	l.Equation = w.formula(s.Formula)
	left, right, ok := strings.Cut(l.Equation, "=")
	if !ok {
		return l
	}
	if filled := fill(right, known); filled != right {
		l.Filled = left + "=" + filled
	}
	return l
}

// formula gives the numbers inside an equation the person's decimal mark.
func (w *Words) formula(s string) string {
	if w.decimal == '.' {
		return s
	}
	digit := func(i int) bool { return i >= 0 && i < len(s) && s[i] >= '0' && s[i] <= '9' }
	b := []byte(s)
	for i := range b {
		if b[i] == '.' && digit(i-1) && digit(i+1) {
			b[i] = byte(w.decimal)
		}
	}
	return string(b)
}

// fill puts the known values in place of their symbols. A symbol is a run of
// letters, subscripts, digits and marks that does not start with a digit. Where a
// power, a division or a minus would read otherwise, the value is bracketed.
func fill(formula string, known map[string]string) string {
	var b strings.Builder
	runes := []rune(formula)
	for i := 0; i < len(runes); {
		if !opensSymbol(runes[i]) {
			b.WriteRune(runes[i])
			i++
			continue
		}
		end := i + 1
		for end < len(runes) && (opensSymbol(runes[end]) || unicode.IsDigit(runes[end]) || runes[end] == '′' || runes[end] == '\'') {
			end++
		}
		word := string(runes[i:end])
		value, ok := known[word]
		switch {
		case !ok:
			b.WriteString(word)
		case end < len(runes) && (runes[end] == '^' || strings.ContainsRune("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", runes[end])),
			strings.HasPrefix(value, minus),
			strings.ContainsAny(value, "/·") && strings.HasSuffix(strings.TrimRight(b.String(), " "), "/"):
			b.WriteString("(" + value + ")")
		default:
			b.WriteString(value)
		}
		i = end
	}
	return b.String()
}

func opensSymbol(r rune) bool {
	return unicode.IsLetter(r) || r == '_' || unicode.IsMark(r) || (r >= '₀' && r <= '₉')
}

// PlainText writes the working line by line, for the command line and for
// people who read with their ears.
func (t TrailText) PlainText() string {
	var b strings.Builder
	b.WriteString(t.Question + "\n")
	if t.Strength != "" {
		b.WriteString(t.Strength + "\n")
	}
	for _, p := range t.Parts {
		b.WriteString("\n" + p.Heading + "\n")
		for _, l := range p.Lines {
			b.WriteString("  " + l.PlainText() + "\n")
		}
	}
	return b.String()
}

// PlainText writes one line of the working.
func (l TrailLine) PlainText() string {
	var b strings.Builder
	listed := l.Cite > 0 && l.Value == "" // an entry of the list of sources
	if listed {
		b.WriteString("[" + strconv.Itoa(l.Cite) + "] ")
	}
	b.WriteString(l.Text)
	switch {
	case l.Equation != "":
		b.WriteString(": " + l.Equation)
		if l.Filled != "" {
			_, right, _ := strings.Cut(l.Filled, "=")
			b.WriteString(" = " + strings.TrimSpace(right))
		}
		b.WriteString(" = " + l.Value)
	case l.Symbol != "":
		b.WriteString(": " + l.Symbol + " = " + l.Value)
	case l.Value != "":
		b.WriteString(": " + l.Value)
	}
	switch {
	case l.Note == "":
	case listed:
		b.WriteString(" (" + l.Note + ")")
	default:
		b.WriteString(". " + l.Note)
	}
	if l.Cite > 0 && !listed {
		b.WriteString(" [" + strconv.Itoa(l.Cite) + "]")
	}
	return b.String()
}
