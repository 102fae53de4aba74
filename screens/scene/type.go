package scene

import (
	"fmt"
	"sync"

	"fyne.io/fyne/v2"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"example.org/driploop/assets"
	"example.org/driploop/screens/look"
)

// Metrics is the room that a line of text takes, in the unit of the size asked.
type Metrics struct {
	Width     float64 // sum of the advances
	Ascent    float64 // above the baseline, > 0
	Descent   float64 // below the baseline, > 0
	CapHeight float64 // height of a capital letter
}

// A cutFont is one parsed font with what measuring needs, in units of one em.
type cutFont struct {
	data                     []byte
	font                     *sfnt.Font
	em                       fixed.Int26_6 // ppem at which tables are read: the units per em
	ascent, descent, capital float64
}

// book is the set of fonts in use. It is shared by all back-ends and guarded,
// because documents may be made beside the window.
var book typeBook

type typeBook struct {
	sync.Mutex
	once    sync.Once
	cut     [weights]*cutFont
	spares  [2][]*spare // look.Spares, for the lighter and the heavier weights
	opened  []*spare    // those that were needed, in the order in which they were
	edition int         // changes when the order of the spares does
	buf     sfnt.Buffer
	glyphs  map[glyphKey]glyphInfo
}

type glyphKey struct {
	weight Weight
	r      rune
}

// glyphInfo says which font shows a rune, and how wide, in ems.
type glyphInfo struct {
	font    int // -1 the cut itself, else an index into opened
	index   sfnt.GlyphIndex
	advance float64
}

func parseFont(data []byte) (*cutFont, error) {
	f, err := sfnt.Parse(data)
	if err != nil {
		return nil, err
	}
	c := &cutFont{data: data, font: f, em: fixed.I(int(f.UnitsPerEm()))}
	var buf sfnt.Buffer
	m, err := f.Metrics(&buf, c.em, 0)
	if err != nil {
		return nil, err
	}
	em := float64(c.em)
	c.ascent, c.descent, c.capital = float64(m.Ascent)/em, float64(m.Descent)/em, float64(m.CapHeight)/em
	if c.capital <= 0 {
		c.capital = 0.7 // judgement: usual for a font that does not say
	}
	return c, nil
}

// open parses the embedded cuts. They are part of the program, so a failure
// here is a broken build.
func openBook() {
	book.once.Do(func() {
		for w, data := range [weights][]byte{assets.Regular, assets.SemiBold, assets.Bold, assets.Italic} {
			c, err := parseFont(data)
			if err != nil {
				panic(fmt.Sprintf("scene: embedded font %d: %v", w, err))
			}
			book.cut[w] = c
		}
		book.glyphs = map[glyphKey]glyphInfo{}
		book.takeSpares("")
	})
}

// A spare is a font for what our family lacks, opened when a text needs it first:
// some are of megabytes.
type spare struct {
	source fyne.Resource
	font   *cutFont // nil before, and where it cannot be read
	tried  bool
	at     int // in opened
}

// takeSpares orders the spare fonts for a language; the book must be locked or new.
func (b *typeBook) takeSpares(lang string) {
	known := map[fyne.Resource]*spare{}
	for _, list := range b.spares {
		for _, s := range list {
			known[s.source] = s
		}
	}
	for heavy := range b.spares {
		b.spares[heavy] = nil
		for _, r := range look.Spares(lang, heavy == 1) {
			if known[r] == nil {
				known[r] = &spare{source: r}
			}
			b.spares[heavy] = append(b.spares[heavy], known[r])
		}
	}
}

// Prefer says which language's forms of Han characters come first where a text is
// of another language. It acts on what is drawn afterwards.
func Prefer(lang string) {
	openBook()
	book.Lock()
	defer book.Unlock()
	book.takeSpares(lang)
	book.edition++
	book.glyphs = map[glyphKey]glyphInfo{}
}

// open reads a spare font, once; the book must be locked.
func (s *spare) open() *cutFont {
	if !s.tried {
		s.tried = true
		if c, err := parseFont(s.source.Content()); err == nil {
			s.font, s.at = c, len(book.opened)
			book.opened = append(book.opened, s)
		}
	}
	return s.font
}

// other is the font of a glyph that the cut lacks; the book must be locked.
func (b *typeBook) other(font int) *cutFont {
	return b.opened[font].font
}

// glyph looks up a rune; the book must be locked. What no font has is shown as
// the cut's own missing-glyph box.
func glyph(w Weight, r rune) glyphInfo {
	key := glyphKey{w, r}
	if g, ok := book.glyphs[key]; ok {
		return g
	}
	g := glyphInfo{font: -1}
	c := book.cut[w]
	g.index, _ = c.font.GlyphIndex(&book.buf, r)
	if g.index == 0 {
		list := book.spares[0]
		if w == SemiBold || w == Bold {
			list = book.spares[1]
		}
		if r < look.FirstIdeograph { // the others have megabytes to read
			list = list[:min(len(list), look.Western)]
		}
		for _, x := range list {
			f := x.open()
			if f == nil {
				continue
			}
			if i, err := f.font.GlyphIndex(&book.buf, r); err == nil && i != 0 {
				g.font, g.index, c = x.at, i, f
				break
			}
		}
	}
	if a, err := c.font.GlyphAdvance(&book.buf, g.index, c.em, 0); err == nil {
		g.advance = float64(a) / float64(c.em)
	}
	if len(book.glyphs) > 20000 { // bounds the memory of long sessions
		book.glyphs = map[glyphKey]glyphInfo{}
	}
	book.glyphs[key] = g
	return g
}

// Covers tells whether every rune of s can be shown, by the embedded family
// or a spare font.
func Covers(s string, w Weight) bool {
	openBook()
	book.Lock()
	defer book.Unlock()
	for _, r := range s {
		if glyph(w.known(), r).index == 0 {
			return false
		}
	}
	return true
}

// TextSize measures one line of text at the given size, in the size's unit. All
// back-ends advance glyphs exactly so; there is no kerning.
func TextSize(s string, w Weight, size float64) Metrics {
	openBook()
	book.Lock()
	defer book.Unlock()
	w = w.known()
	sum := 0.0
	for _, r := range s {
		sum += glyph(w, r).advance
	}
	c := book.cut[w]
	return Metrics{sum * size, c.ascent * size, c.descent * size, c.capital * size}
}

func (w Weight) known() Weight {
	if w >= weights {
		return Regular
	}
	return w
}
