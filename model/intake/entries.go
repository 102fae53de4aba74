package intake

import (
	"slices"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Line is what became of a row.
type Line struct {
	Line  int    // of the file, from 1
	Entry int    // which entry it is part of, or -1
	Err   error  // why it was refused: *working.Refusal or *quantity.ParseError
	Text  string // the row, cut short
}

// Result is what a table makes.
type Result struct {
	Entries []journal.Entry
	Lines   []Line
}

// shownText is how much of a row a report repeats, in runes. // judgement
const shownText = 120

// Entries makes entries of the rows by a plan. An entry has neither ID nor Seq.
// check says whether the daybook would take it, or nil.
func (s *Sheet) Entries(p Plan, h Hints, check func(journal.Entry) error) Result {
	var out Result
	key := ""
	for n, row := range s.Rows {
		line := Line{Line: s.Lines[n], Entry: -1, Text: shown(row)}
		e, err := s.entry(row, p, h)
		same := s.rowKey(row, p)
		if err != nil {
			line.Err = err
			out.Lines = append(out.Lines, line)
			continue
		}
		if last := len(out.Entries) - 1; last >= 0 && same != "" && same == key {
			joined, err := join(out.Entries[last], e)
			if err == nil {
				err = check(joined)
			}
			if err == nil {
				out.Entries[last], line.Entry = joined, last
			}
			line.Err = err
			out.Lines = append(out.Lines, line)
			continue
		}
		if err := check(e); err != nil {
			line.Err = err
			out.Lines = append(out.Lines, line)
			continue
		}
		line.Entry, key = len(out.Entries), same
		out.Entries, out.Lines = append(out.Entries, e), append(out.Lines, line)
	}
	return out
}

func shown(row []string) string {
	r := []rune(strings.Join(row, " | "))
	if len(r) > shownText {
		return string(r[:shownText-1]) + "…"
	}
	return string(r)
}

// rowKey is what rows of one entry share: in a long table the entry's own key, or
// else its time and kind; "" where each row is an entry.
func (s *Sheet) rowKey(row []string, p Plan) string {
	if i := s.find(p, Entry); i >= 0 && cell(row, i) != "" {
		return cell(row, i)
	}
	if s.find(p, Name) < 0 {
		return ""
	}
	k := ""
	for _, r := range []Role{Date, Clock, Kind} {
		k += cell(row, s.find(p, r)) + "\n"
	}
	return k
}

// join adds the readings and the note of a further row.
func join(e, more journal.Entry) (journal.Entry, error) {
	if e.At != more.At || e.Kind != more.Kind {
		return e, working.Refuse("entry", "refuse.intake.other_entry")
	}
	e.Readings = slices.Clone(e.Readings)
	for _, r := range more.Readings {
		if _, twice := e.Get(r.Name); twice {
			return e, working.Refuse(r.Name, "refuse.intake.twice")
		}
		e.Readings = append(e.Readings, r)
	}
	if e.Note == "" {
		e.Note = more.Note
	} else if more.Note != "" && more.Note != e.Note {
		e.Note += "\n" + more.Note
	}
	return e, nil
}

// entry reads one row.
func (s *Sheet) entry(row []string, p Plan, h Hints) (journal.Entry, error) {
	var e journal.Entry
	at := func(r Role) string { return cell(row, s.find(p, r)) }
	var err error
	if e.At, e.Zone, err = when(at(Date), at(Clock), p.Order, h.Now.Location()); err != nil {
		return e, err
	}
	e.Note, e.Step = unquoted(at(Note)), at(Step)
	for i, as := range p.Columns {
		if as.Role != Value || cell(row, i) == "" {
			continue
		}
		r, err := reading(as, cell(row, i), p, h)
		if err != nil {
			return e, err
		}
		e.Readings = append(e.Readings, r)
	}
	if name := at(Name); name != "" {
		r, err := s.named(name, at, p, h)
		if err != nil {
			return e, err
		}
		e.Readings = append(e.Readings, r)
	}
	word := at(Kind)
	if word == "" {
		e.Kind = kindOf(e)
		return e, nil
	}
	k, ok := h.Kinds[Fold(word)]
	if !ok {
		return e, working.Refuse("kind", "refuse.journal.kind")
	}
	e.Kind = k
	return e, nil
}

// named reads the value of a row in a long table.
func (s *Sheet) named(name string, at func(Role) string, p Plan, h Hints) (journal.Reading, error) {
	as, ok := h.Heads[Fold(name)]
	if !ok || as.Role != Value {
		return journal.Reading{}, working.Refuse("reading", "refuse.intake.reading")
	}
	if _, word := journal.Vocabulary(as.Reading); word {
		return journal.Said(as.Reading, unquoted(at(Number))), nil
	}
	switch b := quantity.Basis(strings.ToLower(at(BasisOf))); b {
	case quantity.BasisNone, quantity.AsN, quantity.AsIon:
		as.Basis = b
	default:
		return journal.Reading{}, working.Refuse("basis", "refuse.intake.basis")
	}
	text := at(Number)
	if u := at(Unit); u != "" && text != "" {
		text += " " + u
	}
	if q := at(Qualifier); q != "" {
		text = q
		if u, ok := quantity.UnitOf(quantity.UnitCode(at(Unit))); ok {
			as.Unit = u.Code
		}
	}
	given := as.Basis
	r, err := reading(as.Complete(h), text, p, h)
	if s.find(p, BasisOf) >= 0 {
		r.Measure.Basis = given // a table that tells the basis tells it where there is none, too
	}
	return r, err
}

// reading reads one value. "<0.1" and "n.d." are not detected, "> 5" is beyond the
// kit: neither is a number.
func reading(as As, text string, p Plan, h Hints) (journal.Reading, error) {
	r := journal.Reading{Name: as.Reading}
	if _, word := journal.Vocabulary(as.Reading); word {
		return journal.Said(as.Reading, unquoted(text)), nil
	}
	r.Measure = quantity.Measure{Number: "0", Unit: as.Unit, Basis: as.Basis}
	if q, ok := h.Qualifiers[Fold(text)]; ok {
		r.Qualifier = q
		return r, nil
	}
	switch text[:min(len(text), 1)] {
	case "<":
		r.Qualifier, text = journal.NotDetected, text[1:]
	case ">":
		r.Qualifier, text = journal.OverRange, text[1:]
	}
	var first error
	for _, k := range journal.KindsOf(as.Reading) {
		how := h.Usual(k)
		how.Decimal = p.Decimal
		if u, ok := quantity.UnitOf(as.Unit); ok && u.Kind == k {
			how.Unit = as.Unit
		}
		m, err := quantity.Parse(text, k, how)
		if err == nil {
			m.Basis = as.Basis
			r.Measure = m
			return r, nil
		}
		if first == nil {
			first = err
		}
	}
	if first == nil {
		first = working.Refuse(as.Reading, "refuse.intake.reading")
	}
	return r, first
}

// kindOf says what an entry is whose table does not.
func kindOf(e journal.Entry) journal.Kind {
	has := func(name string) bool { _, ok := e.Get(name); return ok }
	switch {
	case len(e.Readings) == 0:
		return journal.Note
	case len(e.Readings) == 1 && has(journal.NameTemperature):
		return journal.Temperature
	case has(journal.NameVolume):
		return journal.Changed
	case has(journal.NameFeed):
		return journal.Fed
	case has(journal.NameDose):
		return journal.Dosed
	}
	return journal.Tested
}

// unquoted takes off the apostrophe that our own export puts before a text that a
// spreadsheet would take for a formula.
func unquoted(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && rest != "" && strings.ContainsRune("=+-@\t\r＝＋－＠", []rune(rest)[0]) {
		return rest
	}
	return s
}
