package fauna

import (
	"math"

	"example.org/driploop/screens/scene"
)

// A node is a point of a contour, in lengths of the animal: x from -0.5 at the
// tail's end to 0.5 at the snout, y upwards. A sharp one is a corner.
type node struct {
	scene.Point
	sharp bool
}

func at(x, y float64) node    { return node{scene.Pt(x, y), false} }
func angle(x, y float64) node { return node{scene.Pt(x, y), true} }

// A contour is a curve through nodes (Catmull-Rom as Bézier pieces, straight
// into corners), closed or open.
type contour struct {
	nodes []node
	open  bool
}

func closed(n ...node) contour { return contour{nodes: n} }
func open(n ...node) contour   { return contour{n, true} }

// pieces gives the Bézier pieces of the contour under a change of place.
func (c contour) pieces(move func(scene.Point) scene.Point, begin func(scene.Point), piece func(a, b, to scene.Point)) {
	n := len(c.nodes)
	if n < 2 {
		return
	}
	get := func(i int) node {
		if c.open {
			return c.nodes[max(0, min(n-1, i))]
		}
		return c.nodes[(i+n)%n]
	}
	begin(move(c.nodes[0].Point))
	last := n
	if c.open {
		last = n - 1
	}
	for i := range last {
		a, b, d, e := get(i-1), get(i), get(i+1), get(i+2)
		u, v := b.Add(d.Sub(a.Point).Mul(1.0/6)), d.Sub(e.Sub(b.Point).Mul(1.0/6))
		if b.sharp {
			u = b.Add(d.Sub(b.Point).Mul(1.0 / 3))
		}
		if d.sharp {
			v = d.Sub(d.Sub(b.Point).Mul(1.0 / 3))
		}
		piece(move(u), move(v), move(d.Point))
	}
}

// add draws the contour into a path.
func (c contour) add(p *scene.Path, move func(scene.Point) scene.Point) {
	c.pieces(move, func(q scene.Point) { p.MoveTo(q) }, func(a, b, to scene.Point) { p.CubicTo(a, b, to) })
	if !c.open && len(c.nodes) > 1 {
		p.Close()
	}
}

// extent gives the exact box of the contour.
func (c contour) extent() scene.Box {
	b := scene.EmptyBox()
	var from scene.Point
	same := func(p scene.Point) scene.Point { return p }
	c.pieces(same, func(p scene.Point) { from = p; b.Add(p) }, func(u, v, to scene.Point) {
		b.Add(to)
		for _, t := range append(turns(from.X, u.X, v.X, to.X), turns(from.Y, u.Y, v.Y, to.Y)...) {
			s := 1 - t
			b.Add(from.Mul(s * s * s).Add(u.Mul(3 * s * s * t)).Add(v.Mul(3 * s * t * t)).Add(to.Mul(t * t * t)))
		}
		from = to
	})
	return b
}

// turns gives where within (0, 1) a cubic of one coordinate turns back.
func turns(a, b, c, d float64) []float64 {
	// The derivative is p t² + q t + r, times 3.
	p, q, r := d-3*c+3*b-a, 2*(c-2*b+a), b-a
	var out []float64
	keep := func(t float64) {
		if t > 0 && t < 1 {
			out = append(out, t)
		}
	}
	if math.Abs(p) < 1e-12 {
		if math.Abs(q) > 1e-12 {
			keep(-r / q)
		}
		return out
	}
	if disc := q*q - 4*p*r; disc >= 0 {
		keep((-q + math.Sqrt(disc)) / (2 * p))
		keep((-q - math.Sqrt(disc)) / (2 * p))
	}
	return out
}

func hold(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }
