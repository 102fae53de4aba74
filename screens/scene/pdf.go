package scene

import (
	"fmt"
	"strconv"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"example.org/driploop/screens/look"
)

// PDF draws scenes as vectors and selectable text into one fpdf document. Make
// one for each document and keep it, so that each font is embedded once. The
// document's unit must be the millimetre and a page must be open.
type PDF struct {
	doc      *fpdf.Fpdf
	families map[string]bool
	colour   look.Palette
	k        float64 // PDF units (1/72 in) per millimetre
	tall     float64 // page height in millimetres
	b        strings.Builder
}

// NewPDF gives the drawing pen of a document.
func NewPDF(doc *fpdf.Fpdf) *PDF {
	return &PDF{doc: doc, families: map[string]bool{}}
}

// Font selects a cut of the program's type family for the document's own text,
// at size points of 1/72 inch, embedding it when it is the first use. So page
// text and drawings share the fonts. Spare fonts are not consulted here.
func (p *PDF) Font(w Weight, size float64) {
	p.doc.SetFont(p.family(w.known(), -1), "", size)
}

// Draw fits the scene into the rectangle (x, y from the page's top left corner,
// w by h, all in millimetres) and draws it in the given palette. It gives the
// transform used, whose Scale is millimetres of paper per millimetre of the
// drawing, so that Ratio(1) is the drawing's scale on paper. The document's
// colours, line style, font and opacity are afterwards as before.
//
// Errors go to the document's own error, as with all of fpdf.
func (p *PDF) Draw(s *Scene, x, y, w, h float64, colours look.Palette) Transform {
	t := Fit(s, Frame{X: x, Y: y, W: w, H: h, Point: PointMM})
	p.DrawAt(s, t, colours)
	return t
}

// DrawAt draws the scene under a transform of the caller's, in millimetres from
// the page's top left corner.
func (p *PDF) DrawAt(s *Scene, t Transform, colours look.Palette) {
	doc := p.doc
	if doc.Err() {
		return
	}
	p.k = doc.GetConversionRatio()
	if p.k < 2.8 || p.k > 2.9 || doc.PageNo() == 0 {
		doc.SetErrorf("scene: the document must be in millimetres and have a page open")
		return
	}
	_, p.tall = doc.GetPageSize()
	p.colour = colours
	family, style := doc.GetFontFamily(), doc.GetFontStyle()
	size, _ := doc.GetFontSize()
	r, g, b := doc.GetTextColor()
	fillR, fillG, fillB := doc.GetFillColor()
	alpha, blend := doc.GetAlpha()

	doc.TransformBegin() // saves the page's graphics state
	d := drawing{t: t, out: p}
	for _, e := range s.entries {
		e.item.draw(&d)
	}
	p.flush()
	doc.TransformEnd()

	doc.SetFillColor(fillR, fillG, fillB)
	doc.SetTextColor(r, g, b)
	if a, m := doc.GetAlpha(); a != alpha || m != blend {
		doc.SetAlpha(alpha, blend)
	}
	if family != "" {
		doc.SetFont(family, style, size)
	}
	p.colour = nil
}

// Paths are written as PDF operators of their own within the saved graphics
// state, because fpdf remembers what its setters are told and has no way to ask
// for a dash pattern back.

func (p *PDF) num(v float64) {
	p.b.WriteString(strconv.FormatFloat(v, 'f', 3, 64))
	p.b.WriteByte(' ')
}

func (p *PDF) ink(c look.Name, alpha float64, operator string) {
	n := p.colour(c)
	p.fade(alpha)
	for _, v := range []uint8{n.R, n.G, n.B} {
		p.num(float64(v) / 255)
	}
	p.b.WriteString(operator)
}

func (p *PDF) fade(alpha float64) {
	if now, _ := p.doc.GetAlpha(); now != alpha {
		p.flush()
		p.doc.SetAlpha(alpha, "Normal")
	}
}

func (p *PDF) flush() {
	if p.b.Len() > 0 {
		p.doc.RawWriteStr(p.b.String())
		p.b.Reset()
	}
}

func (p *PDF) line(o []Point) {
	for i, q := range o {
		p.num(q.X * p.k)
		p.num((p.tall - q.Y) * p.k)
		if i == 0 {
			p.b.WriteString("m\n")
		} else {
			p.b.WriteString("l\n")
		}
	}
}

func (p *PDF) fill(outlines [][]Point, c look.Name, alpha float64) {
	p.ink(c, alpha, "rg\n")
	for _, o := range outlines {
		p.line(o)
		p.b.WriteString("h\n")
	}
	p.b.WriteString("f\n")
}

func (p *PDF) stroke(line []Point, closed bool, width float64, dash []float64, c look.Name, alpha float64) {
	p.ink(c, alpha, "RG\n")
	p.num(width * p.k)
	p.b.WriteString("w 1 j ")
	if len(dash) > 0 {
		p.b.WriteString("0 J [")
		for _, v := range dash {
			p.num(v * p.k)
		}
		p.b.WriteString("] 0 d\n")
	} else {
		p.b.WriteString("1 J [] 0 d\n")
	}
	p.line(line)
	if closed {
		p.b.WriteString("s\n")
	} else {
		p.b.WriteString("S\n")
	}
}

func (p *PDF) target([]Point) {}

// text writes a run, changing fonts where a spare one shows the glyphs.
func (p *PDF) text(r run) {
	p.fade(r.alpha)
	p.flush()
	n := p.colour(r.colour)
	// A text in the document's fill colour would be written without a colour of
	// its own and take that of the drawing before it: the fill must differ.
	p.doc.SetFillColor(int(255-n.R), int(n.G), int(n.B))
	p.doc.SetTextColor(int(n.R), int(n.G), int(n.B))
	pen := r.at
	for _, part := range split(r.s, r.weight.known()) {
		p.doc.SetFont(p.family(r.weight.known(), part.font), "", r.size*p.k)
		if r.turned {
			p.doc.TransformBegin()
			p.doc.TransformRotate(90, pen.X, pen.Y)
			p.doc.Text(pen.X, pen.Y, part.s)
			p.doc.TransformEnd()
			pen.Y -= part.advance * r.size
		} else {
			p.doc.Text(pen.X, pen.Y, part.s)
			pen.X += part.advance * r.size
		}
	}
}

type section struct {
	s       string
	font    int
	advance float64 // in ems
}

// split cuts a text where the font changes.
func split(s string, w Weight) []section {
	openBook()
	book.Lock()
	defer book.Unlock()
	var out []section
	for _, r := range s {
		g := glyph(w, r)
		if n := len(out); n == 0 || out[n-1].font != g.font {
			out = append(out, section{font: g.font})
		}
		last := &out[len(out)-1]
		last.s += string(r)
		last.advance += g.advance
	}
	return out
}

// family gives the document's name of a font, embedding it at its first use.
func (p *PDF) family(w Weight, spare int) string {
	openBook()
	book.Lock()
	defer book.Unlock()
	name, font := fmt.Sprintf("look%d", w), book.cut[w]
	if spare >= 0 {
		name, font = fmt.Sprintf("lookspare%d-%d", book.edition, spare), book.other(spare)
	}
	if !p.families[name] {
		p.families[name] = true
		p.doc.AddUTF8FontFromBytes(name, "", append([]byte(nil), font.data...))
	}
	return name
}
