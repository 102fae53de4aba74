package frame

import "math"

// Buckling is the verdict on elastic stability.
type Buckling struct {
	Mechanism bool
	Free      Motion // only with Mechanism

	Buckles bool    // false: no member is compressed enough to buckle at any multiple of the loads
	Factor  float64 // multiply all loads by this to reach buckling, > 0; only with Buckles
}

// MaxDivisions is the largest number of pieces a member may be cut into.
const MaxDivisions = 32

// Buckling finds the smallest positive factor on the loads of c at which the
// frame buckles. Each member is cut into the given number of pieces, 1 to
// [MaxDivisions]: 4 give 0.05 % on a pin-ended column, 1 gives 22 %. The error
// is an [InputError].
func (f *Frame) Buckling(c Case, divisions int) (Buckling, error) {
	if divisions < 1 || divisions > MaxDivisions {
		return Buckling{}, &InputError{ItemBuckle, 0, "divisions", OutOfRange}
	}
	if err := f.check(); err != nil {
		return Buckling{}, err
	}
	if err := f.checkCase(c); err != nil {
		return Buckling{}, err
	}
	fine, fineCase, order := f.divide(c, divisions)
	a, k, err := fine.prepare(order)
	if err != nil {
		return Buckling{}, err
	}
	a.named = len(f.Nodes)
	geometric := newSkyline(k.first)
	a.factor(k)
	r, err := a.Solve(fineCase)
	if err != nil {
		return Buckling{}, err
	}
	if r.Mechanism {
		return Buckling{Mechanism: true, Free: r.Free}, nil
	}
	force := a.addGeometric(geometric, r)
	if force == 0 {
		return Buckling{}, nil
	}
	inverse, err := a.largestInverse(geometric)
	if err != nil || inverse == 0 {
		return Buckling{}, err
	}
	factor := 1 / inverse / force
	if !isFinite(factor) { // loads too small to speak of
		return Buckling{}, nil
	}
	return Buckling{Buckles: true, Factor: factor}, nil
}

// divide cuts every member into equal pieces. The frame's own nodes keep
// their numbers. The order puts each member's inner nodes before the frame's
// nodes, which keeps the factors of the stiffness small.
func (f *Frame) divide(c Case, divisions int) (Frame, Case, []int) {
	fine := Frame{Plane: f.Plane, Supports: f.Supports, Panels: f.Panels}
	fine.Nodes = append([]Node(nil), f.Nodes...)
	for _, m := range f.Members {
		a, b := f.Nodes[m.Start], f.Nodes[m.End]
		if m.Up == (Vector{}) {
			// The whole member's axes, so that rounding cannot turn a piece.
			_, t, _ := f.axes(m)
			m.Up = Vector{t[1][0], t[1][1], t[1][2]}
		}
		previous := m.Start
		for i := 1; i <= divisions; i++ {
			piece := m
			piece.Start = previous
			if i > 1 {
				piece.StartRelease = Release{}
			}
			if i < divisions {
				t := float64(i) / float64(divisions)
				piece.End = len(fine.Nodes)
				piece.EndRelease = Release{}
				fine.Nodes = append(fine.Nodes, Node{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y), a.Z + t*(b.Z-a.Z)})
			}
			previous = piece.End
			fine.Members = append(fine.Members, piece)
		}
	}
	fineCase := Case{Nodes: c.Nodes, Gravity: c.Gravity}
	for _, l := range c.Lines {
		for i := range divisions {
			fineCase.Lines = append(fineCase.Lines, LineLoad{l.Member*divisions + i, l.Load})
		}
	}
	order := make([]int, 0, len(fine.Nodes))
	for n := len(f.Nodes); n < len(fine.Nodes); n++ {
		order = append(order, n)
	}
	for n := range f.Nodes {
		order = append(order, n)
	}
	return fine, fineCase, order
}

// addGeometric sums the geometric stiffness of the axial forces, as shares of
// the largest end force, which it returns; zero if no member has an axial
// force beyond rounding.
func (a *Assembled) addGeometric(k *skyline, r *Result) float64 {
	largest := 0.0
	for i := range r.spans {
		for _, d := range []int{0, 1, 2, 6, 7, 8} {
			largest = max(largest, math.Abs(r.spans[i].f[d]))
		}
	}
	found := false
	for i, m := range a.frame.Members {
		tension := (r.spans[i].f[6] - r.spans[i].f[0]) / 2
		if math.Abs(tension) <= 1e-9*largest { // rounding
			continue
		}
		found = true
		local := localGeometric(a.elements[i].length)
		for j := range a.elements[i].hinges {
			a.elements[i].hinges[j].reduce(&local)
		}
		g := a.elements[i].axes.globalMatrix(&local)
		for x := range g {
			for y := range g[x] {
				g[x][y] *= tension / largest
			}
		}
		a.scatter(k, m, &g)
	}
	if !found {
		return 0
	}
	return largest
}

// largestInverse is the largest eigenvalue of D^-1/2 L^-1 (-Kg) L'^-1 D^-1/2:
// one over the smallest positive factor on the forces in Kg. Zero if none is
// positive.
func (a *Assembled) largestInverse(geometric *skyline) (float64, error) {
	n := a.stiff.size()
	root := make([]float64, n) // D^-1/2, zero for equations left out
	for i := range root {
		if d := a.stiff.pivot(i); d > 0 {
			root[i] = 1 / math.Sqrt(d)
		}
	}
	work := make([]float64, n)
	return largestEigenvalue(n, func(dst, src []float64) {
		for i := range work {
			work[i] = src[i] * root[i]
		}
		a.stiff.backward(work)
		geometric.multiply(dst, work)
		a.stiff.forward(dst)
		for i := range dst {
			dst[i] *= -root[i]
		}
	})
}
