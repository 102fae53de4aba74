package tank

import (
	"math"

	"example.org/driploop/model/quantity"
)

const sqrt3 = 1.7320508075688772

// Plan is the outline of a tank seen from above. Its sizes follow Tank: Length
// is a diameter for Cylinder and measured across corners for Hexagon.
type Plan struct {
	Shape  Shape
	Length quantity.Length
	Width  quantity.Length
	Bow    quantity.Length
}

// Plan returns the outer outline of t.
func (t Tank) Plan() Plan {
	p := Plan{Shape: t.Shape, Length: t.Length, Width: t.Width}
	switch t.Shape {
	case Cube, Cylinder:
		p.Width = t.Length
	case Hexagon:
		p.Width = t.Length * sqrt3 / 2
	case BowFront:
		p.Bow = t.Bow
	}
	return p
}

// Area returns the area inside the outline. Source: exact geometry.
func (p Plan) Area() quantity.Area {
	l, w := float64(p.Length), float64(p.Width)
	switch p.Shape {
	case Cylinder:
		return quantity.Area(math.Pi * l * l / 4)
	case Hexagon: // side a is half the width across corners: 3·√3/2·a²
		return quantity.Area(1.5 * sqrt3 * (l / 2) * (l / 2))
	case BowFront:
		return quantity.Area(l*w) + p.segment()
	}
	return quantity.Area(l * w)
}

// Radius returns the radius of a bow front's arc, R = (c²/4 + s²)/(2s), and
// zero for a straight front.
func (p Plan) Radius() quantity.Length {
	c, s := float64(p.Length), float64(p.Bow)
	if s <= 0 {
		return 0
	}
	return quantity.Length((c*c/4 + s*s) / (2 * s))
}

// Arc returns the length of a bow front's arc, R·θ.
func (p Plan) Arc() quantity.Length {
	r, theta := p.bowAngle()
	if r == 0 {
		return p.Length
	}
	return quantity.Length(r * theta)
}

// bowAngle returns the radius and the angle θ = 2·asin(c/2R) of the arc, written
// as 4·atan(2s/c), which stays exact near a half circle.
func (p Plan) bowAngle() (r, theta float64) {
	r = float64(p.Radius())
	if r == 0 {
		return 0, 0
	}
	return r, 4 * math.Atan(2*float64(p.Bow)/float64(p.Length))
}

// segment is the area between chord and arc, R²/2·(θ − sin θ).
func (p Plan) segment() quantity.Area {
	r, theta := p.bowAngle()
	return quantity.Area(r * r / 2 * (theta - math.Sin(theta)))
}

// depth returns the overall size front to back.
func (p Plan) depth() float64 { return float64(p.Width) + float64(p.Bow) }

// centroid returns how far the area's centroid lies from the back.
func (p Plan) centroid() float64 {
	if p.Shape != BowFront || p.Bow <= 0 {
		return p.depth() / 2
	}
	l, w := float64(p.Length), float64(p.Width)
	r, theta := p.bowAngle()
	seg := float64(p.segment())
	fromCentre := 4 * r * math.Pow(math.Sin(theta/2), 3) / (3 * (theta - math.Sin(theta)))
	centre := w + float64(p.Bow) - r
	return (l*w*w/2 + seg*(centre+fromCentre)) / (l*w + seg)
}

// inset returns the outline moved inwards by the wall thickness.
func (p Plan) inset(wall quantity.Length) Plan {
	in := p
	switch p.Shape {
	case Hexagon: // each face moves in by the wall, a corner by wall/cos 30°
		in.Length -= 4 * wall / sqrt3
		in.Width = in.Length * sqrt3 / 2
	case BowFront:
		if p.Bow <= 0 {
			in.Length, in.Width = p.Length-2*wall, p.Width-2*wall
			break
		}
		r, c := float64(p.Radius()), float64(p.Length)
		centre := p.depth() - r // of the arc, from the back
		ri, half := r-float64(wall), c/2-float64(wall)
		// √(ri² − half²), written so that it stays exact near a half circle:
		// r − c/2 is (c/2 − s)²/(2s).
		s := float64(p.Bow)
		side := math.Abs(c/2-s) * math.Sqrt(math.Max(0, ri+half)/(2*s))
		in.Length = p.Length - 2*wall
		in.Width = quantity.Length(centre+side) - wall
		in.Bow = quantity.Length(ri - side)
	default:
		in.Length, in.Width = p.Length-2*wall, p.Width-2*wall
	}
	return in
}
