package scene

import "math"

// Point is a place in a drawing, in millimetres, y upwards. Inside back-ends the
// same type holds device pixels with y downwards; [Transform] goes between.
type Point struct{ X, Y float64 }

// Pt is Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// Add gives p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub gives the step from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul gives p stretched by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Len gives the distance of p from the origin.
func (p Point) Len() float64 { return math.Hypot(p.X, p.Y) }

func (p Point) finite() bool { return finite(p.X, p.Y) }

func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// Box is an upright rectangle with Min.X <= Max.X and Min.Y <= Max.Y.
type Box struct{ Min, Max Point }

// EmptyBox holds nothing; growing it by a point makes it that point.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{Point{inf, inf}, Point{-inf, -inf}}
}

// Empty tells whether the box holds no point at all.
func (b Box) Empty() bool { return b.Min.X > b.Max.X || b.Min.Y > b.Max.Y }

// W gives the width, 0 when empty.
func (b Box) W() float64 { return math.Max(0, b.Max.X-b.Min.X) }

// H gives the height, 0 when empty.
func (b Box) H() float64 { return math.Max(0, b.Max.Y-b.Min.Y) }

// Contains tells whether p lies in the box, its edges included.
func (b Box) Contains(p Point) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// Overlaps tells whether the two boxes share more than an edge.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// Grow gives the box widened by d on every side.
func (b Box) Grow(d float64) Box {
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

// Add widens the box so that it holds p.
func (b *Box) Add(p Point) {
	if p.X < b.Min.X {
		b.Min.X = p.X
	}
	if p.X > b.Max.X {
		b.Max.X = p.X
	}
	if p.Y < b.Min.Y {
		b.Min.Y = p.Y
	}
	if p.Y > b.Max.Y {
		b.Max.Y = p.Y
	}
}

// Union widens the box so that it holds all of c.
func (b *Box) Union(c Box) {
	if !c.Empty() {
		b.Add(c.Min)
		b.Add(c.Max)
	}
}

// Scatter gives an even-looking number in [0, 1) for the i-th of a series, the
// same every time.
func Scatter(i, series int) float64 {
	x := uint32(i)*0x9E3779B9 + uint32(series)*0x85EBCA6B + 0x2545F491
	x ^= x >> 16
	x *= 0x7FEB352D
	x ^= x >> 15
	x *= 0x846CA68B
	x ^= x >> 16
	return float64(x) / (1 << 32)
}
