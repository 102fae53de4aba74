package frame

import "math"

// Section is a member's cross-section about its local axes. Bending about z
// moves the member along local y, bending about y moves it along local z.
type Section struct {
	A  float64 // area, m2, > 0
	Iy float64 // second moment of area about local y, m4, > 0 (a plane frame ignores it)
	Iz float64 // second moment of area about local z, m4, > 0
	J  float64 // torsion constant, m4, >= 0 (a plane frame ignores it)
	Wy float64 // elastic section modulus about local y, m3; not used in the solution
	Wz float64 // elastic section modulus about local z, m3; not used in the solution
}

// Rectangle is a solid rectangular section: height along local y, width along
// local z, both in m and > 0.
//
// J is the Saint-Venant series. Source: S. Timoshenko and J. N. Goodier,
// Theory of Elasticity, article 109 (from memory).
func Rectangle(width, height float64) (Section, error) {
	if err := firstFault(ItemSection, 0, positive("width", width), positive("height", height)); err != nil {
		return Section{}, err
	}
	s := Section{
		A:  width * height,
		Iy: height * width * width * width / 12,
		Iz: width * height * height * height / 12,
		Wy: height * width * width / 6,
		Wz: width * height * height / 6,
	}
	long, short := max(width, height), min(width, height)
	sum := 0.0
	for n := 1.0; n < 40; n += 2 { // terms fall as n^-5: the rest is below 1e-8 of the sum
		sum += math.Tanh(n*math.Pi*long/(2*short)) / (n * n * n * n * n)
	}
	s.J = long * short * short * short / 3 * (1 - 192/math.Pow(math.Pi, 5)*short/long*sum)
	return s, finiteSection(s)
}

// SquareTube is a square hollow section with sharp corners: outside side and
// wall thickness in m, 0 < wall < side/2.
//
// J is Bredt's thin-wall formula wall*(side-wall)^3, a little low for thick
// walls. Source: testdata/structure/frame3d_reference.csv.
func SquareTube(side, wall float64) (Section, error) {
	if err := firstFault(ItemSection, 0, positive("side", side), positive("wall", wall)); err != nil {
		return Section{}, err
	}
	if wall >= side/2 {
		return Section{}, &InputError{ItemSection, 0, "wall", OutOfRange}
	}
	inner := side - 2*wall
	i := (side*side*side*side - inner*inner*inner*inner) / 12
	mid := side - wall
	s := Section{A: 4 * wall * mid, Iy: i, Iz: i, J: wall * mid * mid * mid, Wy: 2 * i / side, Wz: 2 * i / side}
	return s, finiteSection(s)
}

// finiteSection refuses a section whose powers left the range of float64.
func finiteSection(s Section) error {
	return firstFault(ItemSection, 0, positive("A", s.A), positive("Iy", s.Iy), positive("Iz", s.Iz), positive("J", s.J))
}
