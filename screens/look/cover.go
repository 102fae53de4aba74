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
	if !coverage(font).has(words) {
		return nil
	}
	return font
}

// covers holds, by font, which runes it draws.
var covers struct {
	sync.Mutex
	sets map[fyne.Resource]*runeSet
}

// runeSet says which runes below its length a font draws; of those above, none.
type runeSet [lastCovered]bool

// lastCovered ends the runes that are looked up: Latin with its extensions,
// Cyrillic and Greek, punctuation, sub- and superscripts, arrows, operators and
// the simple shapes. Everything else goes the toolkit's own way.
const lastCovered = 0x2600

func coverage(font fyne.Resource) *runeSet {
	covers.Lock()
	defer covers.Unlock()
	if s := covers.sets[font]; s != nil {
		return s
	}
	s := &runeSet{}
	if f, err := sfnt.Parse(font.Content()); err == nil {
		var buf sfnt.Buffer
		for r := rune(' '); r < lastCovered; r++ {
			i, err := f.GlyphIndex(&buf, r)
			s[r] = err == nil && i != 0
		}
	}
	if covers.sets == nil {
		covers.sets = map[fyne.Resource]*runeSet{}
	}
	covers.sets[font] = s
	return s
}

func (s *runeSet) has(words string) bool {
	for _, r := range words {
		if r >= lastCovered || !s[r] {
			return false
		}
	}
	return true
}
