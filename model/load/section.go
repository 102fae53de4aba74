package load

import (
	"math"

	"example.org/driploop/model/frame"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func (s Section) known() bool { return s.Width > 0 && s.Depth > 0 }

// check refuses a section that is none. An empty one is not known and passes.
func (s Section) check(field string) error {
	if s == (Section{}) {
		return nil
	}
	low, high := quantity.Millimetres(5).Value(), quantity.Millimetres(400).Value()
	for _, x := range []struct {
		name working.Key
		v    quantity.Length
	}{{"q.load.section_width", s.Width}, {"q.load.section_depth", s.Depth}} {
		if err := working.InRange(field, x.name, x.v.Value(), low, high); err != nil {
			return err
		}
	}
	if err := working.InRange(field, "q.load.section_wall", s.Wall.Value(), quantity.Length(0).Value(), quantity.Millimetres(50).Value()); err != nil {
		return err
	}
	if s.Wall > 0 && 2*s.Wall >= min(s.Width, s.Depth) {
		return working.Refuse(field, "refuse.load.wall_too_thick")
	}
	return nil
}

// hole returns the inner sizes; zero for a solid section.
func (s Section) hole() (w, d float64) {
	if s.Wall <= 0 {
		return 0, 0
	}
	return float64(s.Width - 2*s.Wall), float64(s.Depth - 2*s.Wall)
}

func (s Section) area() float64 {
	w, d := s.hole()
	return float64(s.Width*s.Depth) - w*d
}

// across is the second moment of area for bending along Depth; along, for
// bending along Width. Corners are taken sharp.
func (s Section) across() float64 {
	w, d := s.hole()
	return (float64(s.Width)*math.Pow(float64(s.Depth), 3) - w*d*d*d) / 12
}

func (s Section) along() float64 { return Section{s.Depth, s.Width, s.Wall}.across() }

// weak returns the lesser second moment of area and the radius of gyration.
func (s Section) weak() (inertia, radius float64) {
	inertia = min(s.across(), s.along())
	return inertia, math.Sqrt(inertia / s.area())
}

// beam makes the member a beam that bends along its Depth.
func (s Section) beam(span, e float64) beam {
	i := s.across()
	shearArea := s.area()
	if s.Wall > 0 { // the two webs carry the shear; 1.5 makes it the peak of a solid section
		shearArea = 1.5 * 2 * float64(s.Depth*s.Wall)
	}
	return beam{span: span, e: e, inertia: i, modulus: 2 * i / float64(s.Depth), area: shearArea}
}

// profile turns the section into the frame's: height is Depth of a rail, Width
// of a leg as seen from the front.
func (s Section) profile(g grade, leg bool) frame.Profile {
	up, side := s.across(), s.along()
	if leg {
		up, side = side, up
	}
	f := frame.Section{A: s.area(), Iz: up, Iy: side, J: s.torsion()}
	return frame.Profile{Material: frame.Material{E: float64(g.e), G: float64(g.g), Density: float64(g.density)}, Section: f}
}

// torsion is Bredt's formula for a tube, and for a solid bar the usual
// approximation by its sides. Source: Timoshenko, Strength of Materials, from memory.
func (s Section) torsion() float64 {
	b, d := float64(s.Width), float64(s.Depth)
	if t := float64(s.Wall); t > 0 {
		bm, dm := b-t, d-t
		return 2 * t * bm * bm * dm * dm / (bm + dm)
	}
	long, short := max(b, d), min(b, d)
	r := short / long
	return long * short * short * short * (1.0/3 - 0.21*r*(1-r*r*r*r/12))
}
