package frame

import "math"

// What the tests ask of a frame and the program does not.

func (d DOF) String() string {
	if d < UX || d > RZ {
		return "?"
	}
	return [...]string{"ux", "uy", "uz", "rx", "ry", "rz"}[d]
}

// Solve is Assemble and then [Assembled.Solve] for a single case.
func (f *Frame) Solve(c Case) (*Result, error) {
	a, err := f.Assemble()
	if err != nil {
		return nil, err
	}
	return a.Solve(c)
}

// Point is the state of a member at one place along it.
type Point struct {
	Displacement Vector  // global axes, m
	Axial        float64 // N, tension positive
	MomentY      float64 // N m about local y; positive: tension on the side of -z
	MomentZ      float64 // N m about local z; positive: tension on the side of -y (sagging, with local y up)
}

// At gives the state of a member x metres from its start, 0 <= x <= length.
func (r *Result) At(member int, x float64) Point {
	s := &r.spans[member]
	t := x / s.length
	local := [12]float64{0: s.u[0]*(1-t) + s.u[6]*t + s.q[0]*x*(s.length-x)/(2*s.ea)}
	dv, dw := s.offChord(x)
	local[1] = s.u[1]*(1-t) + s.u[7]*t + dv
	local[2] = s.u[2]*(1-t) + s.u[8]*t + dw
	g := s.axes.globalEnds(&local)
	return Point{
		Displacement: Vector{g[0], g[1], g[2]},
		Axial:        -s.f[0] - s.q[0]*x,
		MomentY:      s.moment(aboutY, s.q[2], x),
		MomentZ:      s.moment(aboutZ, s.q[1], x),
	}
}

// rectangle is a solid section: height along local y, width along local z, in m.
// J is the Saint-Venant series. Source: S. Timoshenko and J. N. Goodier, Theory of
// Elasticity, article 109 (from memory).
func rectangle(width, height float64) Section {
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
	return s
}

// squareTube is a square hollow section with sharp corners: outside side and wall in m.
// J is Bredt's thin-wall formula. Source: header of frame3d_reference.csv.
func squareTube(side, wall float64) Section {
	inner := side - 2*wall
	i := (side*side*side*side - inner*inner*inner*inner) / 12
	mid := side - wall
	return Section{A: 4 * wall * mid, Iy: i, Iz: i, J: wall * mid * mid * mid, Wy: 2 * i / side, Wz: 2 * i / side}
}
