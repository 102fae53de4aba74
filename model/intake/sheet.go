package intake

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Limits of a table. A daybook of ten years with five values a day is about a
// tenth of them. // judgement
const (
	MaxBytes   = 32_000_000
	MaxRows    = 200_000
	MaxColumns = 200
	MaxCell    = 64_000 // bytes
)

// Sheet is a table as text.
type Sheet struct {
	Separator rune
	// Head is the first row where it is a heading, else nil.
	Head []string
	Rows [][]string
	// Lines is the line of the file on which each row begins, from 1.
	Lines []int
}

// separators are what may stand between cells, the likeliest first. Source: RFC
// 4180 for the comma; the others are common practice.
var separators = []rune{',', ';', '\t', '|'}

// Read reads a table. Errors: *working.Refusal for what is no such text, or too
// large; those of r.
func Read(r io.Reader) (*Sheet, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, err
	}
	if len(data) > MaxBytes {
		return nil, refuse("refuse.intake.too_big", MaxBytes/1e6)
	}
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		return nil, refuse("refuse.intake.not_utf8", 0)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	switch {
	case len(bytes.TrimSpace(data)) == 0:
		return nil, refuse("refuse.intake.empty", 0)
	case bytes.IndexByte(data, 0) >= 0:
		return nil, refuse("refuse.intake.not_text", 0)
	case !utf8.Valid(data):
		return nil, refuse("refuse.intake.not_utf8", 0)
	}
	data = bytes.ReplaceAll(bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n")), []byte("\r"), []byte("\n"))
	if crowded(data) {
		return nil, refuse("refuse.intake.columns", MaxColumns)
	}
	s, err := parse(data, separatorOf(data))
	if err != nil {
		return nil, err
	}
	if len(s.Rows) == 0 {
		return nil, refuse("refuse.intake.empty", 0)
	}
	if isHead(s.Rows) {
		s.Head, s.Rows, s.Lines = s.Rows[0], s.Rows[1:], s.Lines[1:]
	}
	return s, nil
}

func refuse(code working.Key, high float64) *working.Refusal {
	r := working.Refuse("table", code)
	if high > 0 {
		r.Accept.High = quantity.Count(high).Value()
	}
	return r
}

// crowded reports whether a line holds so many separators that cutting it up would
// take more memory than any table is worth; a quoted note may well hold some.
func crowded(data []byte) bool {
	const most = 100 * MaxColumns // judgement
	n := 0
	for _, b := range data {
		switch b {
		case '\n':
			n = 0
		case ',', ';', '\t', '|':
			if n++; n > most {
				return true
			}
		}
	}
	return false
}

// separatorOf picks the separator that cuts the first rows into the most cells of
// one number.
func separatorOf(data []byte) rune {
	const looked = 30 // rows. judgement
	start := data
	for n, i := 0, 0; i < len(data); i++ {
		if data[i] == '\n' {
			if n++; n == looked {
				start = data[:i]
				break
			}
		}
	}
	best, most := separators[0], 0
	for _, sep := range separators {
		s, err := parse(start, sep)
		if err != nil || len(s.Rows) == 0 {
			continue
		}
		counts := map[int]int{}
		for _, r := range s.Rows {
			counts[len(r)]++
		}
		score := 0
		for cells, rows := range counts {
			if cells > 1 {
				score = max(score, rows*100+cells)
			}
		}
		if score > most {
			best, most = sep, score
		}
	}
	return best
}

// parse cuts data into rows. A quote that stands where none belongs is a sign like
// any other; rows that are empty are left out.
func parse(data []byte, sep rune) (*Sheet, error) {
	s := &Sheet{Separator: sep}
	c := csv.NewReader(bytes.NewReader(data))
	c.Comma, c.FieldsPerRecord, c.LazyQuotes = sep, -1, true
	for {
		row, err := c.Read()
		if errors.Is(err, io.EOF) {
			return s, nil
		}
		if err != nil {
			return nil, refuse("refuse.intake.not_text", 0)
		}
		line, _ := c.FieldPos(0)
		if empty(row) {
			continue
		}
		if len(row) > MaxColumns {
			return nil, refuse("refuse.intake.columns", MaxColumns)
		}
		if len(s.Rows) > MaxRows {
			return nil, refuse("refuse.intake.rows", MaxRows)
		}
		for _, cell := range row {
			if len(cell) > MaxCell {
				return nil, refuse("refuse.intake.cell", MaxCell/1000)
			}
		}
		s.Rows, s.Lines = append(s.Rows, row), append(s.Lines, line)
	}
}

func empty(row []string) bool {
	for _, c := range row {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

// isHead reports whether the first row names the columns: it has words, and no cell
// that begins with a digit.
func isHead(rows [][]string) bool {
	words := false
	for _, c := range rows[0] {
		c = strings.TrimSpace(c)
		if c == "" {
			continue
		}
		if c[0] >= '0' && c[0] <= '9' || c[0] == '-' {
			return false
		}
		words = true
	}
	return words
}

// Columns is how many columns the widest row has.
func (s *Sheet) Columns() int {
	n := len(s.Head)
	for _, r := range s.Rows {
		n = max(n, len(r))
	}
	return n
}

// Name is the heading of a column, "" where it has none.
func (s *Sheet) Name(column int) string {
	if column < len(s.Head) {
		return strings.TrimSpace(s.Head[column])
	}
	return ""
}

// Sample gives up to n different cells of a column, the first ones.
func (s *Sheet) Sample(column, n int) []string {
	var out []string
	seen := map[string]bool{}
	for _, r := range s.Rows {
		if c := cell(r, column); c != "" && !seen[c] {
			seen[c] = true
			if out = append(out, c); len(out) == n {
				break
			}
		}
	}
	return out
}

func cell(row []string, column int) string {
	if column < 0 || column >= len(row) {
		return ""
	}
	return strings.TrimSpace(row[column])
}
