package paper

import (
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Margins of every page in millimetres. judgement: what printers can reach, and
// holes for a binder at the left.
const (
	marginX      = 15.0
	marginTop    = 15.0
	marginBottom = 19.0
)

// A block stays on one page.
type block struct {
	height float64
	before float64 // free above it, unless it begins a page
	with   bool    // stays on the page of the block after it
	draw   func(p *page, y float64)
	again  *block // drawn above it where it begins a page: the head of a table
}

// A flow is the pages of a document as blocks are set one after the other.
type flow struct {
	size   Size
	blocks []block
	pages  []*page
	y      float64
	setting
}

// A setting says how close safety notes and lists are set: as usual; in small type; or
// with the notes not saying where they belong, too.
type setting int

const (
	usual setting = iota
	closer
	closest
)

// fonts are the type of what can be set closer.
func (s setting) fonts() (strong, body font) {
	if s == usual {
		return strongFont, bodyFont
	}
	return noteStrong, noteInk
}

func newFlow(s Size) *flow {
	if s.W <= 0 || s.H <= 0 {
		s = A4
	}
	return &flow{size: s}
}

func (f *flow) left() float64   { return marginX }
func (f *flow) width() float64  { return f.size.W - 2*marginX }
func (f *flow) right() float64  { return f.size.W - marginX }
func (f *flow) bottom() float64 { return f.size.H - marginBottom }

func (f *flow) add(bs ...block) { f.blocks = append(f.blocks, bs...) }

// lay sets all blocks.
func (f *flow) lay() []*page {
	f.turn()
	for i := 0; i < len(f.blocks); {
		end := i
		for f.blocks[end].with && end+1 < len(f.blocks) {
			end++
		}
		f.set(f.blocks[i : end+1])
		i = end + 1
	}
	f.blocks = nil
	return f.pages
}

// set puts blocks that belong together on one page, or, where they are too tall
// for any page, one after the other.
func (f *flow) set(group []block) {
	need := 0.0
	for i, b := range group {
		if i > 0 || !f.fresh() {
			need += b.before
		}
		need += b.height
	}
	if !f.fresh() && f.y+need > f.bottom() {
		f.turn()
	}
	for _, b := range group {
		gap := b.before
		if f.fresh() {
			gap = 0
		}
		if !f.fresh() && f.y+gap+b.height > f.bottom() {
			f.turn()
			gap = 0
		}
		if f.fresh() && b.again != nil && len(f.pages) > 1 {
			b.again.draw(f.page(), f.y)
			f.y += b.again.height
		}
		f.y += gap
		b.draw(f.page(), f.y)
		f.y += b.height
	}
}

func (f *flow) page() *page { return f.pages[len(f.pages)-1] }

// fresh tells whether nothing stands on the page yet.
func (f *flow) fresh() bool { return f.y <= marginTop }

func (f *flow) turn() {
	f.pages = append(f.pages, &page{scene: scene.New()})
	f.y = marginTop
}

// A stack is a column of lines and drawings, one below the other.
type stack struct {
	x, w   float64
	height float64
	items  []func(p *page, y float64)
}

// put adds something of height h.
func (s *stack) put(h float64, draw func(p *page, y float64)) {
	from := s.height
	s.items = append(s.items, func(p *page, y float64) { draw(p, y+from) })
	s.height += h
}

// gap leaves room.
func (s *stack) gap(h float64) { s.height += h }

// text adds a text, wrapped.
func (s *stack) text(t string, f font) {
	for _, line := range f.wrap(t, s.w) {
		s.put(f.lead(), func(p *page, y float64) { p.text(s.x, y, line, f) })
	}
}

func (s *stack) draw(p *page, y float64) {
	for _, it := range s.items {
		it(p, y)
	}
}

// block makes the stack one block.
func (s *stack) block(before float64) block {
	return block{height: s.height, before: before, draw: s.draw}
}

// framed is the block of what s holds, with a rule about it as wide as the page.
func (f *flow) framed(s *stack, before float64) block {
	return block{height: s.height, before: before, draw: func(p *page, y float64) {
		p.rect(f.left(), y, f.width(), s.height, 1, scene.Style{Stroke: look.Ink, Width: 1.3})
		s.draw(p, y)
	}}
}

// beside makes one block of columns that start at one height.
func beside(before float64, columns ...*stack) block {
	b := block{before: before, draw: func(p *page, y float64) {
		for _, c := range columns {
			c.draw(p, y)
		}
	}}
	for _, c := range columns {
		b.height = max(b.height, c.height)
	}
	return b
}

// inLine sets a few words and, in the same line, a text that belongs to them.
func (f *flow) inLine(words, text string, before float64) block {
	const between = 8.0
	left := &stack{x: f.left(), w: f.width()}
	left.text(words, strongFont)
	x := f.left() + strongFont.width(clean(words)) + between
	right := &stack{x: x, w: f.right() - x}
	right.text(text, bodyFont)
	return beside(before, left, right)
}

// heading is the heading of a section; it stays with what follows.
func (f *flow) heading(t string) block {
	s := &stack{x: f.left(), w: f.width()}
	s.text(t, sectionFont)
	s.gap(2)
	b := s.block(8)
	b.with = true
	return b
}

// manyLines is how long a text may be before the end of a page may part it.
const manyLines = 8

// text sets a text over the whole width. A long one may go over to the next page.
func (f *flow) text(t string, ft font, before float64) []block {
	return f.column(t, ft, f.left(), f.width(), before)
}

func (f *flow) column(t string, ft font, x, w, before float64) []block {
	lines := ft.wrap(t, w)
	if len(lines) <= manyLines {
		s := &stack{x: x, w: w}
		s.text(t, ft)
		return []block{s.block(before)}
	}
	var out []block
	for _, line := range lines {
		out = append(out, block{height: ft.lead(), before: before, draw: func(p *page, y float64) { p.text(x, y, line, ft) }})
		before = 0
	}
	return out
}
