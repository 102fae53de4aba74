package look

import (
	"sync"

	"fyne.io/fyne/v2"
	"golang.org/x/image/font/sfnt"
)

// SourceFor gives the font that a canvas.Text of this style and these words may
// name as its FontSource, nil where it must not. Left to itself the toolkit opens
// five fonts for every style before it draws its first word, for what our own may
// lack; words that our own covers need no other. Measure with the same source.
func SourceFor(style fyne.TextStyle, words string) fyne.Resource {
	th, ok := fyne.CurrentApp().Settings().Theme().(*Theme)
	if !ok || style.Monospace || style.Symbol {
		return nil
	}
	font := th.Font(style)
	if coverage(font).has(words) {
		return font
	}
	return spareFor(style, words)
}

// covers holds, by font, which runes it draws.
var covers struct {
	sync.Mutex
	sets map[fyne.Resource]*runeSet
}

// runeSet says which runes a font draws. Those below lastCovered are looked up at
// once: Latin with its extensions, Cyrillic and Greek, punctuation, sub- and
// superscripts, arrows, operators and the simple shapes. The thousands above are
// looked up when a text has them.
type runeSet struct {
	low  [lastCovered]bool
	font *sfnt.Font
	high map[rune]bool
}

const lastCovered = 0x2600

func coverage(font fyne.Resource) *runeSet {
	covers.Lock()
	defer covers.Unlock()
	if s := covers.sets[font]; s != nil {
		return s
	}
	s := &runeSet{high: map[rune]bool{}}
	if f, err := sfnt.Parse(font.Content()); err == nil {
		s.font = f
		for r := rune(' '); r < lastCovered; r++ {
			s.low[r] = s.draws(r)
		}
	}
	if covers.sets == nil {
		covers.sets = map[fyne.Resource]*runeSet{}
	}
	covers.sets[font] = s
	return s
}

func (s *runeSet) draws(r rune) bool {
	i, err := s.font.GlyphIndex(nil, r)
	return err == nil && i != 0
}

func (s *runeSet) has(words string) bool {
	for _, r := range words {
		if r < lastCovered {
			if r < 0 || !s.low[r] {
				return false
			}
		} else if !s.above(r) {
			return false
		}
	}
	return true
}

func (s *runeSet) above(r rune) bool {
	covers.Lock()
	defer covers.Unlock()
	if s.font == nil {
		return false
	}
	drawn, known := s.high[r]
	if !known {
		drawn = s.draws(r)
		s.high[r] = drawn
	}
	return drawn
}
