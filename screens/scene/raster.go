package scene

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"

	"example.org/driploop/screens/look"
)

// Raster paints scenes into pixels, anti-aliased, on the processor alone. It
// keeps its buffers and drawn glyphs for the next time; use one from one
// goroutine. The zero value is ready.
//
// The same scene, transform and palette give the same bytes every time.
type Raster struct {
	z      vector.Rasterizer
	masks  map[maskKey]mask
	dst    *image.RGBA
	colour look.Palette
	src    image.Uniform
	piece  [][]Point
}

// Draw paints the scene over dst under t, one device unit being one pixel of
// dst. What lies outside dst is cut off.
func (r *Raster) Draw(dst *image.RGBA, s *Scene, t Transform, p look.Palette) {
	r.dst, r.colour = dst, p
	d := drawing{t: t, out: r}
	for _, e := range s.entries {
		e.item.draw(&d)
	}
	r.dst, r.colour = nil, nil
}

// ink sets the source colour and tells whether there is anything to paint.
func (r *Raster) ink(c look.Name, alpha float64) bool {
	n := r.colour(c)
	n.A = uint8(math.Round(float64(n.A) * alpha))
	r.src.C = color.RGBAModel.Convert(n)
	return n.A > 0
}

func (r *Raster) fill(outlines [][]Point, c look.Name, alpha float64) {
	if !r.ink(c, alpha) {
		return
	}
	if len(outlines) == 1 {
		if x0, y0, x1, y1, ok := upright(outlines[0]); ok {
			box := image.Rect(whole(x0), whole(y0), whole(x1), whole(y1))
			if !box.Empty() { // else thinner than a pixel: let it be blended
				draw.Draw(r.dst, box, &r.src, image.Point{}, draw.Over)
				return
			}
		}
	}
	r.rasterize(outlines)
}

func (r *Raster) stroke(line []Point, closed bool, width float64, dash []float64, c look.Name, alpha float64) {
	if width <= 0 || !r.ink(c, alpha) {
		return
	}
	line = crisp(line, width)
	r.piece = r.piece[:0]
	outline(line, closed, width, dash, func(p []Point) { r.piece = append(r.piece, p) })
	if alpha < 1 {
		r.rasterize(r.piece)
		return
	}
	// A long slanting line has a large, mostly empty box: paint it in lots,
	// which overlap by some pieces so that no seam shows.
	const overlap = 6
	if closed {
		r.piece = append(r.piece, r.piece[:min(overlap, len(r.piece))]...)
	}
	for at := 0; ; {
		box, end := EmptyBox(), at
		for end < len(r.piece) {
			grown := box
			for _, q := range r.piece[end] {
				grown.Add(q)
			}
			if end >= at+2*overlap && grown.W()*grown.H() > 4096 { // judgement: 64 x 64 pixels
				break
			}
			box, end = grown, end+1
		}
		r.rasterize(r.piece[at:end])
		if end == len(r.piece) {
			return
		}
		at = end - overlap
	}
}

func (r *Raster) target([]Point) {}

// rasterize paints the inside of the outlines with the source colour, working
// on no more pixels than their box.
func (r *Raster) rasterize(outlines [][]Point) {
	box := EmptyBox()
	for _, o := range outlines {
		for _, p := range o {
			box.Add(p)
		}
	}
	if box.Empty() {
		return
	}
	px := image.Rect(whole(math.Floor(box.Min.X)), whole(math.Floor(box.Min.Y)), whole(math.Ceil(box.Max.X)), whole(math.Ceil(box.Max.Y))).Intersect(r.dst.Bounds())
	if px.Empty() {
		return
	}
	r.z.Reset(px.Dx(), px.Dy())
	for _, o := range outlines {
		for i, p := range o {
			x, y := float32(held(p.X)-float64(px.Min.X)), float32(held(p.Y)-float64(px.Min.Y))
			if i == 0 {
				r.z.MoveTo(x, y)
			} else {
				r.z.LineTo(x, y)
			}
		}
		r.z.ClosePath()
	}
	r.z.Draw(r.dst, px, &r.src, image.Point{})
}

// reach bounds device coordinates, so that a drawing zoomed without measure
// costs no more than a usual one.
const reach = 1 << 16

func held(v float64) float64 { return clamp(v, -reach, reach) }
func whole(v float64) int    { return int(math.Round(held(v))) }

// upright gives the sides of a four-cornered outline whose edges all run along
// the axes.
func upright(o []Point) (x0, y0, x1, y1 float64, ok bool) {
	if len(o) != 4 {
		return
	}
	a, b, c, d := o[0], o[1], o[2], o[3]
	if !(a.Y == b.Y && b.X == c.X && c.Y == d.Y && d.X == a.X) && !(a.X == b.X && b.Y == c.Y && c.X == d.X && d.Y == a.Y) {
		return
	}
	return math.Min(a.X, c.X), math.Min(a.Y, c.Y), math.Max(a.X, c.X), math.Max(a.Y, c.Y), true
}

// crisp moves lines that run along the axes so that one of their edges falls
// between two pixels; otherwise a thin line would be two grey ones.
func crisp(line []Point, width float64) []Point {
	n := len(line)
	if n > 5 {
		return line
	}
	for i := range n - 1 {
		if line[i].X != line[i+1].X && line[i].Y != line[i+1].Y {
			return line
		}
	}
	h := width / 2
	edge := func(v float64) float64 { return math.Round(v-h) + h }
	out := make([]Point, n)
	for i, p := range line {
		out[i] = p
		// Only across the line, so that ends of dashes and lengths stay true.
		level := i > 0 && line[i-1].Y == p.Y || i+1 < n && line[i+1].Y == p.Y
		plumb := i > 0 && line[i-1].X == p.X || i+1 < n && line[i+1].X == p.X
		if level {
			out[i].Y = edge(p.Y)
		}
		if plumb {
			out[i].X = edge(p.X)
		}
	}
	return out
}
