package scene

import (
	"math"
	"slices"
)

type verb uint8

const (
	moveTo verb = iota
	lineTo
	quadTo
	cubicTo
	closePath
)

// Path is an outline of straight lines and Bézier curves, in one or more pieces.
// Pieces that lie within each other and run the opposite way leave holes. Build
// it with its methods, each of which returns the path:
//
//	scene.NewPath(st).MoveTo(a).CubicTo(b, c, d).Close()
//
// A piece begins with MoveTo; a curve without one begins at the origin.
type Path struct {
	Style
	verbs  []verb
	points []Point
}

// NewPath gives an empty path painted in the given style.
func NewPath(st Style) *Path { return &Path{Style: st} }

// Grow makes room for so many more curves.
func (p *Path) Grow(curves int) *Path {
	p.verbs = slices.Grow(p.verbs, curves+2)
	p.points = slices.Grow(p.points, 3*curves+1)
	return p
}

func (p *Path) push(v verb, ps ...Point) *Path {
	p.verbs = append(p.verbs, v)
	p.points = append(p.points, ps...)
	return p
}

// MoveTo begins a new piece at a.
func (p *Path) MoveTo(a Point) *Path { return p.push(moveTo, a) }

// LineTo goes straight to a.
func (p *Path) LineTo(a Point) *Path { return p.push(lineTo, a) }

// QuadTo goes to b by a quadratic Bézier curve with the control point a.
func (p *Path) QuadTo(a, b Point) *Path { return p.push(quadTo, a, b) }

// CubicTo goes to c by a cubic Bézier curve with the control points a and b.
func (p *Path) CubicTo(a, b, c Point) *Path { return p.push(cubicTo, a, b, c) }

// Close ends the piece with a straight line to its beginning.
func (p *Path) Close() *Path { return p.push(closePath) }

func (p *Path) ok() bool {
	if p == nil {
		return false
	}
	for _, q := range p.points {
		if !q.finite() {
			return false
		}
	}
	return p.Style.ok()
}

func (p *Path) draw(d *drawing) {
	pieces, closed := p.flatten(d)
	if p.Fill != "" {
		d.out.fill(pieces, p.Fill, opacity(p.Alpha))
	}
	for i, line := range pieces {
		if p.Stroke != "" && len(line) > 1 {
			d.out.stroke(line, closed[i], d.pt(p.width()), d.dash(p.Dash), p.Stroke, opacity(p.Alpha))
		}
	}
}

// flatten gives the pieces as polylines in device units.
func (p *Path) flatten(d *drawing) (lines [][]Point, closed []bool) {
	var line []Point
	end := func(c bool) {
		if len(line) > 1 {
			lines, closed = append(lines, line), append(closed, c)
		}
		line = nil
	}
	ps := d.devs(p.points)
	pen, start := d.dev(Point{}), d.dev(Point{})
	begin := func() {
		if len(line) == 0 {
			line, start = append(line, pen), pen
		}
	}
	for _, v := range p.verbs {
		switch v {
		case moveTo:
			end(false)
			pen, ps = ps[0], ps[1:]
		case lineTo:
			begin()
			pen, ps = ps[0], ps[1:]
			line = append(line, pen)
		case quadTo:
			begin()
			line = quad(line, pen, ps[0], ps[1])
			pen, ps = ps[1], ps[2:]
		case cubicTo:
			begin()
			line = cubic(line, pen, ps[0], ps[1], ps[2])
			pen, ps = ps[2], ps[3:]
		case closePath:
			end(true)
			pen = start
		}
	}
	end(false)
	return lines, closed
}

func quad(line []Point, a, b, c Point) []Point {
	n := pieces(2 * a.Sub(b).Sub(b.Sub(c)).Len())
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		line = append(line, a.Mul(u*u).Add(b.Mul(2*u*t)).Add(c.Mul(t*t)))
	}
	return line
}

func cubic(line []Point, a, b, c, e Point) []Point {
	bend := 6 * math.Max(a.Sub(b).Sub(b.Sub(c)).Len(), b.Sub(c).Sub(c.Sub(e)).Len())
	n := pieces(bend)
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		line = append(line, a.Mul(u*u*u).Add(b.Mul(3*u*u*t)).Add(c.Mul(3*u*t*t)).Add(e.Mul(t*t*t)))
	}
	return line
}
