package parts

import (
	"image/color"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// pen draws a part, or only measures it when it has no pool. Positions are
// points from the part's top left corner.
type pen struct {
	w       fyne.Widget
	pool    *pool
	colours look.Palette
	k       float32 // text scale
	height  float32 // that the part was given; 0 when measuring
}

func newPen(w fyne.Widget, pl *pool) *pen {
	p := &pen{w: w, pool: pl, k: float32(look.ScaleFor(w))}
	if pl != nil {
		p.colours = look.PaletteFor(w)
		pl.begin()
	}
	return p
}

func (p *pen) size(c cut) float32 { return sizeOf(p.w, c.size) }

func (p *pen) measurer(c cut) measurer { return measure(p.size(c), c.style) }

func (p *pen) widthOf(s string, c cut) float32 { return p.measurer(c)(s) }

// line gives the height of one line of text.
func (p *pen) line(c cut) float32 { return rendered("Hg", p.size(c), c.style).Height }

// base gives how far below the top of a line its baseline lies.
func (p *pen) base(c cut) float32 {
	_, b := fyne.CurrentApp().Driver().RenderedTextSize("Hg", p.size(c), c.style, look.SourceFor(c.style, "Hg"))
	return b
}

// text draws one line with its top at y.
func (p *pen) text(s string, x, y float32, c cut) {
	if p.pool == nil || s == "" {
		return
	}
	t := p.pool.text()
	t.Text, t.TextSize, t.TextStyle, t.Color = s, p.size(c), c.style, p.colours(c.colour)
	t.FontSource, t.Alignment = look.SourceFor(c.style, s), fyne.TextAlignLeading
	place(t, x, y, p.widthOf(s, c), p.line(c))
}

// right draws one line that ends at x.
func (p *pen) right(s string, x, y float32, c cut) { p.text(s, x-p.widthOf(s, c), y, c) }

// wrapped draws text in lines no wider than width and gives where it ends.
func (p *pen) wrapped(s string, x, y, width float32, c cut) float32 {
	if s == "" {
		return y
	}
	for _, l := range wrap(s, width, p.measurer(c)) {
		p.text(l, x, y, c)
		y += p.line(c)
	}
	return y
}

// box is how a rectangle is painted; "" paints nothing.
type box struct {
	fill, stroke look.Name
	width        float32 // of the stroke
	radius       float32
	alpha        uint8 // of the fill; 0 means opaque
}

func (p *pen) rect(x, y, w, h float32, b box) {
	if p.pool == nil {
		return
	}
	r := p.pool.rect()
	r.FillColor, r.StrokeColor, r.StrokeWidth, r.CornerRadius = color.Transparent, color.Transparent, 0, b.radius
	if b.fill != "" {
		c := p.colours(b.fill)
		if b.alpha != 0 {
			c.A = b.alpha
		}
		r.FillColor = c
	}
	if b.stroke != "" { // the stroke runs within the box
		r.StrokeColor, r.StrokeWidth = p.colours(b.stroke), b.width
		x, y, w, h = x+b.width/2, y+b.width/2, w-b.width, h-b.width
	}
	place(r, x, y, w, h)
}

// ring draws the focus ring about a control.
func (p *pen) ring(x, y, w, h float32) {
	if p.pool == nil {
		return
	}
	r := p.pool.ring()
	r.StrokeColor, r.StrokeWidth, r.CornerRadius = p.colours(look.Teal), 2, 6
	place(r, x-ringGap, y-ringGap, w+2*ringGap, h+2*ringGap)
}

// ringGap is how far outside of its control the focus ring runs.
const ringGap = 3

// put places a child.
func (p *pen) put(o fyne.CanvasObject, x, y, w, h float32) {
	if p.pool == nil {
		return
	}
	p.pool.add(o)
	place(o, x, y, w, h)
}

// sketch paints a small drawing, whose millimetres count as points at 100 %,
// with its y upwards, into a box of w by h points.
func (p *pen) sketch(s *scene.Scene, x, y, w, h float32) *sketch {
	if p.pool == nil {
		return nil
	}
	g := p.pool.sketch()
	g.show(s, p.colours, w/p.k)
	place(g.Raster, x, y, w, h)
	return g
}

func place(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// end gives where text that begins at y would end when wrapped.
func (p *pen) end(s string, y, width float32, c cut) float32 {
	if s == "" {
		return y
	}
	return y + float32(len(wrap(s, width, p.measurer(c))))*p.line(c)
}
