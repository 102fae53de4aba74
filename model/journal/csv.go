package journal

import (
	"encoding/csv"
	"io"
	"strings"
)

// Columns are the columns of WriteCSV, in order:
//
//   - entry: key of the entry; its readings share it
//   - at: time by the clock on the wall with its offset from UTC, ISO 8601 to the minute
//   - kind: what the entry records, a Kind
//   - step: the step of First fill it came from
//   - reading: name of one value, empty for an entry without values
//   - number: that value as it was typed, with a decimal point, or the word that it is; empty where it is qualified
//   - unit: code of its unit
//   - basis: n or ion for a compound of nitrogen
//   - qualifier: not_detected or over_range; a value not detected is not zero
//   - note: the person's own words
func Columns() []string {
	return []string{"entry", "at", "kind", "step", "reading", "number", "unit", "basis", "qualifier", "note"}
}

// WriteCSV writes entries as a table in UTF-8 by RFC 4180: one row for each
// reading, and one for an entry without any; the note stands in an entry's first
// row. A text that a spreadsheet would take for a formula begins with an
// apostrophe. Errors: those of w.
func WriteCSV(w io.Writer, entries []Entry) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	rows := [][]string{Columns()}
	for _, e := range entries {
		row := []string{e.ID, string(e.At) + e.Zone, string(e.Kind), e.Step, "", "", "", "", "", PlainText(e.Note)}
		if len(e.Readings) == 0 {
			rows = append(rows, row)
		}
		for i, r := range e.Readings {
			one := append([]string(nil), row...)
			number := r.Measure.Number
			if r.Qualifier != Plain {
				number = ""
			}
			if _, word := r.Word(); word {
				number = PlainText(number)
			}
			copy(one[4:9], []string{r.Name, number, string(r.Measure.Unit), string(r.Measure.Basis), string(r.Qualifier)})
			if i > 0 {
				one[9] = ""
			}
			rows = append(rows, one)
		}
	}
	return c.WriteAll(rows)
}

// PlainText keeps a spreadsheet from taking a text for a formula.
func PlainText(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r＝＋－＠", []rune(s)[0]) {
		return "'" + s
	}
	return s
}
