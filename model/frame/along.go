package frame

import "math"

// span is what a member needs to answer between its ends: local axes
// throughout, own end rotations where it is hinged.
type span struct {
	length       float64
	axes         triad
	ea, eiy, eiz float64
	q            [3]float64  // line load, N/m
	u            [12]float64 // end displacements
	f            [12]float64 // end forces on the member
}

// Peak is the largest value along a member, by size, with its sign.
type Peak struct {
	Value float64
	At    float64 // m from the member's start
}

// Along sums up one member between its ends, exact for uniform loads.
type Along struct {
	MomentY, MomentZ Peak    // N m; about y positive with tension on the side of -z, about z with tension on the side of -y (sagging, with local y up)
	Compression      float64 // largest compression, N; zero if always in tension
	Sag              Peak    // largest distance from the straight line between the displaced ends, m, never negative
}

// Along gives a member's largest moments and sag. The error is an
// [InputError] for a member that is not there, or a mechanism.
func (r *Result) Along(member int) (Along, error) {
	if member < 0 || member >= len(r.spans) {
		return Along{}, &InputError{ItemMember, member, "member", Missing}
	}
	s := &r.spans[member]
	return Along{
		MomentY:     s.peakMoment(aboutY, s.q[2]),
		MomentZ:     s.peakMoment(aboutZ, s.q[1]),
		Compression: max(s.f[0], -s.f[6], 0),
		Sag:         s.peakSag(),
	}, nil
}

// moment is the bending moment at x, positive with tension on the negative
// side of the direction of movement.
func (s *span) moment(d bendingDOF, q, x float64) float64 {
	return -d.sign*s.f[d.turn1] + s.f[d.move1]*x + q*x*x/2
}

// peakMoment looks at the ends and where the shear vanishes.
func (s *span) peakMoment(d bendingDOF, q float64) Peak {
	best := Peak{Value: s.moment(d, q, 0)}
	try := func(x float64) {
		if m := s.moment(d, q, x); math.Abs(m) > math.Abs(best.Value) {
			best = Peak{m, x}
		}
	}
	if q != 0 {
		if x := -s.f[d.move1] / q; x > 0 && x < s.length {
			try(x)
		}
	}
	try(s.length)
	return best
}

// offChord is the movement along local y and z, less that of the straight
// line between the displaced ends: the Hermite cubic and the built-in beam.
func (s *span) offChord(x float64) (dv, dw float64) {
	l := s.length
	t := x / l
	h1, h2 := x*(1-t)*(1-t), -x*t*(1-t)
	bow := x * x * (l - x) * (l - x) / 24
	// The chord's own slope belongs to it: turn rotations into chord axes.
	slope := (s.u[7] - s.u[1]) / l
	dv = h1*(s.u[5]-slope) + h2*(s.u[11]-slope) + s.q[1]*bow/s.eiz
	slope = (s.u[8] - s.u[2]) / l
	dw = h1*(-s.u[4]-slope) + h2*(-s.u[10]-slope)
	if s.eiy > 0 {
		dw += s.q[2] * bow / s.eiy
	}
	return dv, dw
}

// peakSag samples the member and closes in on the best place by golden
// section; a quartic has no room for a peak between the samples.
func (s *span) peakSag() Peak {
	const samples = 16
	size := func(x float64) float64 {
		dv, dw := s.offChord(x)
		return math.Hypot(dv, dw)
	}
	step := s.length / samples
	var best Peak
	for i := 1; i < samples; i++ {
		if v := size(float64(i) * step); v > best.Value {
			best = Peak{v, float64(i) * step}
		}
	}
	if best.Value == 0 {
		return best
	}
	lo, hi := best.At-step, best.At+step
	const golden = 0.6180339887498949
	for range 24 { // leaves 1e-5 of a step: the peak is flat, its value good to 1e-9
		a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
		if size(a) < size(b) {
			lo = a
		} else {
			hi = b
		}
	}
	if v := size((lo + hi) / 2); v > best.Value {
		best = Peak{v, (lo + hi) / 2}
	}
	return best
}
