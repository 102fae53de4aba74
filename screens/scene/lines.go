package scene

import (
	"strings"
	"unicode"
)

// Pieces cuts text where a line may end: behind spaces, after hyphens, and between the
// characters of scripts that are written without spaces. Each piece keeps its trailing spaces.
func Pieces(s string) []string {
	var out []string
	start := 0
	rs := []rune(s)
	for i := 1; i < len(rs); i++ {
		if mayBreak(rs[i-1], rs[i]) {
			out = append(out, string(rs[start:i]))
			start = i
		}
	}
	return append(out, string(rs[start:]))
}

func mayBreak(before, after rune) bool {
	if after == ' ' || before == noBreak || after == noBreak || strings.ContainsRune(noLineStart, after) || strings.ContainsRune(noLineEnd, before) {
		return false
	}
	if before == '-' && unicode.IsLetter(after) {
		return true
	}
	return before == ' ' || Spaceless(before) || Spaceless(after)
}

// noBreak keeps a number and its unit together.
const noBreak = '\u00a0'

// Marks and small kana that a line does not begin with in Chinese and Japanese, and marks that
// it does not end with. Source: JIS X 4051 line composition rules, the common ones, from memory.
// The dot that stands between two things stays with the first of them, in every language.
const (
	noLineStart = "、。，．：；？！）］｝」』】〉》・·～〜ー々ぁぃぅぇぉっゃゅょゎァィゥェォッャュョヮ…”’,.;:!?)]}%"
	noLineEnd   = "（［｛「『【〈《“‘([{"
)

// Spaceless reports whether a character is of a script that is written without spaces.
func Spaceless(r rune) bool {
	return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana) || r >= 0x3000 && r <= 0x303F || r >= 0xFF00 && r <= 0xFFEF
}
