package elevation

import (
	"math"

	"example.org/driploop/screens/scene"
)

// smooth adds a curve through all the points to a path (Catmull-Rom, as Bézier
// pieces); closed joins the last to the first.
func smooth(p *scene.Path, pts []scene.Point, closed bool) *scene.Path {
	n := len(pts)
	if n < 2 {
		return p
	}
	at := func(i int) scene.Point {
		if closed {
			return pts[(i+n)%n]
		}
		return pts[max(0, min(n-1, i))]
	}
	p.MoveTo(pts[0])
	last := n - 1
	if closed {
		last = n
	}
	for i := range last {
		a, b, c, e := at(i-1), at(i), at(i+1), at(i+2)
		p.CubicTo(b.Add(c.Sub(a).Mul(1.0/6)), c.Sub(e.Sub(b).Mul(1.0/6)), c)
	}
	if closed {
		p.Close()
	}
	return p
}

// leaf adds a pointed leaf from a to b, so wide at its middle, bent to the left
// of its run by bend.
func leaf(p *scene.Path, a, b scene.Point, width, bend float64) *scene.Path {
	v := b.Sub(a)
	l := v.Len()
	if l == 0 {
		return p
	}
	n := scene.Pt(-v.Y/l, v.X/l)
	w := width * 0.67 // a cubic reaches three quarters of its controls
	at := func(along, side float64) scene.Point { return a.Add(v.Mul(along)).Add(n.Mul(side)) }
	return p.MoveTo(a).
		CubicTo(at(0.3, w+bend), at(0.7, w*0.8+bend), b).
		CubicTo(at(0.7, -w*0.8+bend), at(0.3, -w+bend), a).Close()
}

// A bezier is one cubic piece.
type bezier [4]scene.Point

func (b bezier) at(t float64) scene.Point {
	u := 1 - t
	return b[0].Mul(u * u * u).Add(b[1].Mul(3 * u * u * t)).Add(b[2].Mul(3 * u * t * t)).Add(b[3].Mul(t * t * t))
}

// lowest gives the least y on the piece.
func (b bezier) lowest() float64 {
	y := math.Inf(1)
	for i := range 33 {
		y = math.Min(y, b.at(float64(i)/32).Y)
	}
	return y
}
