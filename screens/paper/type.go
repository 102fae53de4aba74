package paper

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A font is a cut of the type family at a size in points of 1/96 inch.
type font struct {
	size   float64
	weight scene.Weight
	colour look.Name
}

// The fonts of the documents. Sizes are judgement: read at arm's length.
var (
	titleFont   = font{30, scene.Bold, look.Ink}
	numberFont  = font{36, scene.Bold, look.Ink}
	sectionFont = font{18, scene.Bold, look.Ink}
	strongFont  = font{13.5, scene.SemiBold, look.Ink}
	bodyFont    = font{13.5, scene.Regular, look.Ink}
	softFont    = font{13.5, scene.Regular, look.SoftInk}
	noteFont    = font{11.5, scene.Regular, look.SoftInk}
	noteInk     = font{11.5, scene.Regular, look.Ink}
	noteStrong  = font{11.5, scene.SemiBold, look.Ink}
	signFont    = font{13.5, scene.Bold, look.Ink}
)

func (f font) in(c look.Name) font { f.colour = c; return f }

// mm is the em in millimetres.
func (f font) mm() float64 { return f.size * scene.PointMM }

// lead is the height of a line in millimetres.
func (f font) lead() float64 { return f.mm() * 1.36 }

// base is how far below the top of its line the baseline lies, so that capitals
// stand in the middle of it.
func (f font) base() float64 {
	return (f.lead() + scene.TextSize("", f.weight, f.mm()).CapHeight) / 2
}

func (f font) width(s string) float64 { return scene.TextSize(s, f.weight, f.mm()).Width }

// clean makes a text fit for one line: runs of space are one space, what cannot
// be seen is dropped, and what lies beyond the 16-bit characters that a PDF font
// of this kind can hold becomes a box.
func clean(s string) string {
	var b strings.Builder
	space := false
	for _, r := range s {
		switch {
		case r == '\u00a0':
		case unicode.IsSpace(r):
			space = b.Len() > 0
			continue
		case !unicode.IsPrint(r):
			continue
		case r > 0xFFFF:
			r = '□'
		}
		if space {
			b.WriteByte(' ')
			space = false
		}
		b.WriteRune(r)
	}
	return b.String()
}

// wrap breaks a text into lines of at most w millimetres: at spaces, between Chinese
// and Japanese characters, and within a word only where the word alone is too long.
// Every line holds something.
func (f font) wrap(s string, w float64) []string {
	var lines []string
	line := ""
	s = clean(s)
	for _, p := range pieces(s) {
		next := line + p
		if line == "" {
			next = strings.TrimPrefix(p, " ")
		}
		if f.width(next) <= w {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = strings.TrimPrefix(p, " ")
		for f.width(line) > w && len([]rune(line)) > 1 {
			head := f.head(line, w)
			lines = append(lines, head)
			line = line[len(head):]
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	evened(lines, s)
	return lines
}

// evened gives a last line of a few square characters some more of the line before it.
func evened(lines []string, s string) {
	const few, enough = 2, 4 // judgement
	n := len(lines) - 1
	if n < 1 || len([]rune(lines[n])) > few {
		return
	}
	for cut := pieces(lines[n-1]); len(cut) > enough && len([]rune(lines[n])) < enough; {
		last := cut[len(cut)-1]
		cut = cut[:len(cut)-1]
		if strings.HasPrefix(last, " ") || !strings.Contains(s, last+lines[n]) { // a space lies between
			return
		}
		lines[n-1], lines[n] = strings.TrimSuffix(lines[n-1], last), last+lines[n]
	}
}

// pieces cuts a text where a line may end; what follows a space begins with it.
func pieces(s string) []string {
	var out []string
	from, last := 0, rune(0)
	for i, r := range s {
		if i > from && mayPart(last, r) {
			out = append(out, s[from:i])
			from = i
		}
		last = r
	}
	if from < len(s) {
		out = append(out, s[from:])
	}
	return out
}

// mayPart tells whether a line may end between two characters.
func mayPart(before, after rune) bool {
	switch {
	case after == ' ':
		return true
	case before == ' ', before == '\u00a0', strings.ContainsRune(noLineStart, after), strings.ContainsRune(noLineEnd, before):
		return false
	}
	return square(before) || square(after)
}

// following sets one sentence behind another, with a space where the script has them.
func following(one, next string) string {
	if last, _ := utf8.DecodeLastRuneInString(one); square(last) {
		return one + next
	}
	return one + " " + next
}

// square tells whether a character is one of those that are set without spaces.
func square(r rune) bool {
	return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana) || r >= 0x3000 && r <= 0x303F || r >= 0xFF01 && r <= 0xFF60
}

// head is the longest beginning of a word that is at most w wide, one rune at least.
func (f font) head(word string, w float64) string {
	end := 0
	for i, r := range word {
		next := i + len(string(r))
		if end > 0 && f.width(word[:next]) > w {
			break
		}
		end = next
	}
	return word[:end]
}

// noLineStart are marks that a line does not begin with in Chinese and Japanese, and
// noLineEnd those that it does not end with. Source: JIS X 4051 line composition rules,
// the common ones, from memory.
const (
	noLineStart = "、。，．：；？！）］｝」』】〉》〕・ー々〜～…”’ぁぃぅぇぉっゃゅょァィゥェォッャュョ"
	noLineEnd   = "（［｛「『【〈《〔“‘"
)

// twoLines cuts a text to two lines of at most w, with an ellipsis where it was cut.
func (f font) twoLines(s string, w float64) string {
	lines := f.wrap(s, w)
	if len(lines) <= 2 {
		return s
	}
	rest := strings.TrimSpace(strings.TrimPrefix(clean(s), lines[0]))
	return following(lines[0], f.short(rest, w))
}

// short cuts a text to one line of at most w, with an ellipsis where it was cut.
func (f font) short(s string, w float64) string {
	s = clean(s)
	if f.width(s) <= w {
		return s
	}
	return strings.TrimRight(f.head(s, w-f.width("…")), " ") + "…"
}
