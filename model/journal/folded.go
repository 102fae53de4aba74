package journal

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Folded is a text for searching: without accents and in one case.
func Folded(s string) string {
	plain := true
	for i := 0; i < len(s) && plain; i++ {
		plain = s[i] < 0x80
	}
	if plain {
		return strings.ToLower(s)
	}
	return strings.ToLower(strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFKD.String(s)))
}
