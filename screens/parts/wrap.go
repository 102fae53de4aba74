package parts

import (
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// measurer gives the width of one line of text.
type measurer func(s string) float32

// wrap breaks text into lines that are no wider than width: at spaces, after hyphens, between
// the characters of scripts that are written without spaces, and inside a word
// only when the word alone is too wide. Line breaks in the text are kept. It
// gives at least one line.
func wrap(s string, width float32, m measurer) []string {
	var lines []string
	for _, para := range strings.Split(s, "\n") {
		lines = append(lines, wrapLine(para, width, m)...)
	}
	return lines
}

func wrapLine(s string, width float32, m measurer) []string {
	if s == "" || m(s) <= width {
		return []string{s}
	}
	space := m("n n") - m("nn")
	var lines []string
	line, wide := "", float32(0) // wide is what the line takes with its trailing spaces
	for _, piece := range scene.Pieces(s) {
		word := strings.TrimRight(piece, " ")
		w := m(word)
		if wide+w <= width {
			line += piece
			wide += w + float32(len(piece)-len(word))*space
			continue
		}
		if t := strings.TrimRight(line, " "); t != "" {
			lines = append(lines, t)
		}
		line, wide = piece, w+float32(len(piece)-len(word))*space
		for m(strings.TrimRight(line, " ")) > width { // a word that is too wide by itself
			head, tail := split(line, width, m)
			if tail == "" {
				break
			}
			lines = append(lines, head)
			line = tail
			wide = m(line)
		}
	}
	if t := strings.TrimRight(line, " "); t != "" || len(lines) == 0 {
		lines = append(lines, t)
	}
	return lines
}

// split cuts a word at the last character that fits; at least one is taken.
func split(s string, width float32, m measurer) (head, tail string) {
	rs := []rune(s)
	n := 1
	for n < len(rs) && m(string(rs[:n+1])) <= width {
		n++
	}
	return string(rs[:n]), string(rs[n:])
}

// shortened breaks text into at most so many lines and shortens the last of them
// where that does not hold it.
func shortened(s string, most int, width float32, m measurer) []string {
	lines := wrap(s, width, m)
	if len(lines) > most {
		lines = append(lines[:most-1], ellipsis(strings.Join(lines[most-1:], " "), width, m))
	}
	return lines
}

// ellipsis shortens text to width with "…" at its end.
func ellipsis(s string, width float32, m measurer) string {
	if m(s) <= width {
		return s
	}
	rs := []rune(s)
	for n := len(rs) - 1; n > 0; n-- {
		if t := strings.TrimRight(string(rs[:n]), " ") + "…"; m(t) <= width {
			return t
		}
	}
	return "…"
}

// measure gives the measurer of a text size and style.
func measure(size float32, st fyne.TextStyle) measurer {
	return func(s string) float32 { return rendered(s, size, st).Width }
}

// rendered gives the room that one line of text takes, in the font that it is
// drawn with.
func rendered(s string, size float32, st fyne.TextStyle) fyne.Size {
	room, _ := fyne.CurrentApp().Driver().RenderedTextSize(s, size, st, look.SourceFor(st, s))
	return room
}
