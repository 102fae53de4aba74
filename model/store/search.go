package store

import (
	"context"
	"strings"
	"unicode"
)

// SearchEntries gives the seq of every entry whose words hold each of the words
// of text at the beginning of a word of theirs, in any order; accents and case
// make no difference. An entry in the bin or of another tank may be among them:
// the caller knows its own. A text without a letter or digit finds nothing.
// Errors: *OpError.
func (s *Store) SearchEntries(ctx context.Context, words string) ([]int64, error) {
	match := matching(words)
	if match == "" {
		return nil, nil
	}
	rows, err := s.db.QueryContext(ctx, "SELECT docid FROM entry_text WHERE entry_text MATCH ?", match)
	if err != nil {
		return nil, opError("search", "entry_text", err)
	}
	defer rows.Close()
	var out []int64
	for rows.Next() {
		var n int64
		if err := rows.Scan(&n); err != nil {
			return nil, opError("search", "entry_text", err)
		}
		out = append(out, n)
	}
	return out, opError("search", "entry_text", rows.Err())
}

// matching writes typed words as a full-text query in which nothing that was
// typed is an operator: every word is quoted, and may go on.
func matching(words string) string {
	var out []string
	for _, w := range strings.FieldsFunc(words, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) && !unicode.IsMark(r) }) {
		out = append(out, `"`+w+`*"`)
	}
	return strings.Join(out, " ")
}
