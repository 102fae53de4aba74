package slip

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// seen reports whether a rune may stand in a text: what can be seen, spaces, and
// the joiners and marks that some scripts need. Letters that are drawn as nothing, such
// as the fillers of Hangul, do not count as seen (Unicode, UAX 44, Default_Ignorable).
// Runes that turn the direction of
// what follows are not among them: with them, what is read is not what is written.
func seen(r rune, lines bool) bool {
	switch r {
	case '\n':
		return lines
	case '\u200c', '\u200d', '\u200e', '\u200f': // joiners; marks of direction without reach
		return true
	}
	return (unicode.IsPrint(r) || unicode.Is(unicode.Zs, r)) && !unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r)
}

func plain(s string, lines bool) bool {
	if !utf8.ValidString(s) {
		return false
	}
	for _, r := range s {
		if !seen(r, lines) {
			return false
		}
	}
	return true
}

// Tidy makes a text of several lines fit for a slip: ends of lines and tabs
// become plain ones, and what cannot be seen is dropped.
func Tidy(s string) string {
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\t", " ").Replace(strings.ToValidUTF8(s, ""))
	return strings.Map(func(r rune) rune {
		if seen(r, true) {
			return r
		}
		return -1
	}, s)
}

// shownName is the longest name from a file that is shown or logged, in runes.
const shownName = 60 // judgement

// visible makes a name from a file fit to be shown: one line, short, nothing
// unseen.
func visible(s string) string {
	var b strings.Builder
	n := 0
	for _, r := range s { // an invalid byte is read as U+FFFD
		if n == shownName {
			b.WriteRune('…')
			break
		}
		if !seen(r, false) {
			r = '\uFFFD'
		}
		b.WriteRune(r)
		n++
	}
	return b.String()
}

// OneLine is Tidy for a text of one line.
func OneLine(s string) string { return strings.Join(strings.Fields(Tidy(s)), " ") }
