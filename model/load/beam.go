package load

import "example.org/driploop/model/quantity"

// beam is a straight member of constant section between two supports, or over
// a third support in the middle when middle is set.
type beam struct {
	span    float64 // m, over all
	e       float64 // Pa
	inertia float64 // m⁴
	modulus float64 // m³
	area    float64 // m²
	middle  bool
}

// rectangular makes a beam of a solid section.
func rectangular(span, width, depth, e float64) beam {
	return beam{span: span, e: e, inertia: width * depth * depth * depth / 12, modulus: width * depth * depth / 6, area: width * depth}
}

// bearing is how a load lies on a beam. The parts add up.
type bearing struct {
	uniform float64 // N/m along the whole span
	patch   float64 // N, even over the middle part of length
	length  float64 // m, of the patch
	ends    float64 // N each, at both ends of the patch
}

// effect is what a load does to a beam: greatest moment, shear and sag.
type effect struct{ moment, shear, sag float64 }

// under returns the effect of a load. A patch longer than the span loads the
// span with its share and puts its ends on the supports.
// Source: Gere 2009 appendix G.
func (b beam) under(l bearing) effect {
	if l.length >= b.span {
		l.uniform += l.patch / l.length
		l.patch, l.ends, l.length = 0, 0, 0
	}
	ei := b.e * b.inertia
	if b.middle {
		// Two equal spans under the densest even load along both: q·l²/8 at the
		// middle, 5/8·q·l of shear, 0.00542·q·l⁴/EI of sag.
		q, s := l.uniform, b.span/2
		if l.length > 0 {
			q += (l.patch + 2*l.ends) / l.length
		}
		return effect{q * s * s / 8, 0.625 * q * s, 0.00542 * q * s * s * s * s / ei}
	}
	s := b.span
	e := effect{l.uniform * s * s / 8, l.uniform * s / 2, 5 * l.uniform * s * s * s * s / (384 * ei)}
	if c := l.length; c > 0 {
		e.moment += l.patch * (2*s - c) / 8
		e.shear += l.patch / 2
		e.sag += l.patch * (8*s*s*s - 4*s*c*c + c*c*c) / (384 * ei)
		a := (s - c) / 2
		e.moment += l.ends * a
		e.shear += l.ends
		e.sag += l.ends * a * (3*s*s - 4*a*a) / (24 * ei)
	}
	return e
}

// bending and shearing return the stresses of an effect in a solid section.
func (b beam) bending(e effect) quantity.Pressure  { return quantity.Pressure(e.moment / b.modulus) }
func (b beam) shearing(e effect) quantity.Pressure { return quantity.Pressure(1.5 * e.shear / b.area) }

// nearSupport returns the greatest moment and shear of a simply supported beam
// under a load spread over the length c that starts at e from one support.
// Source: statics; M lies where the shear is nil, x = e + R·c/w.
func nearSupport(w, span, e, c float64) effect {
	r := w * (span - e - c/2) / span
	x := e + r*c/w
	return effect{moment: r*x - w*(x-e)*(x-e)/(2*c), shear: max(r, w-r)}
}
