package scene

import (
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// maskKey names one drawn glyph: which, how large, where between two pixels.
type maskKey struct {
	font    *cutFont
	index   sfnt.GlyphIndex
	size    fixed.Int26_6
	quarter uint8
	turned  bool
}

// mask is the coverage of a glyph and where it lies from the pen's pixel.
type mask struct {
	cover *image.Alpha
	at    image.Point
}

// text draws a run glyph by glyph. Across the baseline the pen is put on a whole
// pixel, along it on a quarter.
func (r *Raster) text(t run) {
	if !r.ink(t.colour, t.alpha) || t.size <= 0 || t.size > 4096 {
		return
	}
	if b := t.box().Grow(t.size); int(b.Max.X) < r.dst.Rect.Min.X || int(b.Min.X) > r.dst.Rect.Max.X ||
		int(b.Max.Y) < r.dst.Rect.Min.Y || int(b.Min.Y) > r.dst.Rect.Max.Y {
		return
	}
	openBook()
	book.Lock()
	defer book.Unlock()
	w := t.weight.known()
	pen := t.at
	for _, c := range t.s {
		g := glyph(w, c)
		font := book.cut[w]
		if g.font >= 0 {
			font = book.other(g.font)
		}
		r.glyph(font, g.index, t.size, pen, t.turned)
		if t.turned {
			pen.Y -= g.advance * t.size
		} else {
			pen.X += g.advance * t.size
		}
	}
}

func (r *Raster) glyph(f *cutFont, index sfnt.GlyphIndex, size float64, pen Point, turned bool) {
	along, across := pen.X, pen.Y
	if turned {
		along, across = pen.Y, pen.X
	}
	base := math.Floor(along)
	key := maskKey{f, index, fixed.Int26_6(math.Round(size * 64)), uint8((along - base) * 4), turned}
	m, ok := r.masks[key]
	if !ok {
		m = r.drawGlyph(key)
		if r.masks == nil || len(r.masks) > 4096 { // bounds the memory
			r.masks = map[maskKey]mask{}
		}
		r.masks[key] = m
	}
	if m.cover == nil {
		return
	}
	at := image.Pt(int(base), int(math.Round(across)))
	if turned {
		at = image.Pt(at.Y, at.X)
	}
	draw.DrawMask(r.dst, m.cover.Rect.Add(at.Add(m.at)), &r.src, image.Point{}, m.cover, image.Point{}, draw.Over)
}

// drawGlyph makes the coverage of one glyph; the book must be locked.
func (r *Raster) drawGlyph(k maskKey) mask {
	segments, err := k.font.font.LoadGlyph(&book.buf, k.index, k.size, nil)
	if err != nil || len(segments) == 0 {
		return mask{}
	}
	sub := (float64(k.quarter) + 0.5) / 4
	dev := func(p fixed.Point26_6) Point {
		x, y := float64(p.X)/64, float64(p.Y)/64
		if k.turned {
			return Point{y, sub - x}
		}
		return Point{x + sub, y}
	}
	box := EmptyBox()
	for _, s := range segments {
		n := 1
		switch s.Op {
		case sfnt.SegmentOpQuadTo:
			n = 2
		case sfnt.SegmentOpCubeTo:
			n = 3
		}
		for _, a := range s.Args[:n] {
			box.Add(dev(a))
		}
	}
	x, y := math.Floor(box.Min.X), math.Floor(box.Min.Y)
	w, h := int(math.Ceil(box.Max.X)-x), int(math.Ceil(box.Max.Y)-y)
	if w <= 0 || h <= 0 {
		return mask{}
	}
	r.z.Reset(w, h)
	f := func(p fixed.Point26_6) (float32, float32) {
		q := dev(p)
		return float32(q.X - x), float32(q.Y - y)
	}
	for i, s := range segments {
		ax, ay := f(s.Args[0])
		bx, by := f(s.Args[1])
		cx, cy := f(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				r.z.ClosePath()
			}
			r.z.MoveTo(ax, ay)
		case sfnt.SegmentOpLineTo:
			r.z.LineTo(ax, ay)
		case sfnt.SegmentOpQuadTo:
			r.z.QuadTo(ax, ay, bx, by)
		case sfnt.SegmentOpCubeTo:
			r.z.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	r.z.ClosePath()
	cover := image.NewAlpha(image.Rect(0, 0, w, h))
	r.z.Draw(cover, cover.Rect, image.Opaque, image.Point{})
	return mask{cover, image.Pt(int(x), int(y))}
}
