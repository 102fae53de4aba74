package frame

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/num/quat"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// wrench sums forces and their moments about the origin.
func wrench(total Vec6, at Node, v Vec6) Vec6 {
	m := r3.Cross(r3.Vec(at), r3.Vec{X: v[0], Y: v[1], Z: v[2]})
	for d, add := range (Vec6{v[0], v[1], v[2], v[3] + m.X, v[4] + m.Y, v[5] + m.Z}) {
		total[d] += add
	}
	return total
}

func TestReactionsBalanceLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		c := drawCase(t, f)
		r := solved(t, f, c)
		var total Vec6
		size := 0.0
		for n, v := range r.Reactions {
			total = wrench(total, f.Nodes[n], v)
			for _, x := range v {
				size = max(size, math.Abs(x))
			}
		}
		for _, l := range c.Nodes {
			total = wrench(total, f.Nodes[l.Node], l.Load)
		}
		for _, l := range c.Lines {
			m := f.Members[l.Member]
			a, b := r3.Vec(f.Nodes[m.Start]), r3.Vec(f.Nodes[m.End])
			q := r3.Scale(r3.Norm(r3.Sub(b, a)), r3.Vec(l.Load))
			total = wrench(total, Node(r3.Scale(.5, r3.Add(a, b))), Vec6{q.X, q.Y, q.Z})
		}
		for d, v := range total {
			if math.Abs(v) > 1e-7*(1+size) {
				t.Fatalf("out of balance along %v: %g of %g", DOF(d), v, size)
			}
		}
	})
}

func TestLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		c1, c2 := drawCase(t, f), drawCase(t, f)
		s := rapid.Float64Range(-3, 3).Draw(t, "scale")
		both := Case{Nodes: append([]NodeLoad(nil), c1.Nodes...), Lines: append([]LineLoad(nil), c1.Lines...)}
		for _, l := range c2.Nodes {
			for d := range l.Load {
				l.Load[d] *= s
			}
			both.Nodes = append(both.Nodes, l)
		}
		for _, l := range c2.Lines {
			l.Load = Vector(r3.Scale(s, r3.Vec(l.Load)))
			both.Lines = append(both.Lines, l)
		}
		r1, r2, r := solved(t, f, c1), solved(t, f, c2), solved(t, f, both)
		sum := make([]Vec6, len(f.Nodes))
		for n := range sum {
			for d := range sum[n] {
				sum[n][d] = r1.Displacements[n][d] + s*r2.Displacements[n][d]
			}
		}
		// Cancelling parts leave their rounding behind: compare with the parts.
		limit := 0.0
		for n := range sum {
			for d := range sum[n] {
				limit = max(limit, math.Abs(r1.Displacements[n][d]), math.Abs(s*r2.Displacements[n][d]))
			}
		}
		for n := range sum {
			for d := range sum[n] {
				if diff := math.Abs(sum[n][d] - r.Displacements[n][d]); diff > 1e-7*limit {
					t.Fatalf("node %d %v: sum %g, together %g", n, DOF(d), sum[n][d], r.Displacements[n][d])
				}
			}
		}
	})
}

// Maxwell-Betti: the work of one load on the displacements of another is the
// work of the other on those of the first.
func TestReciprocal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		draw := func() NodeLoad {
			l := NodeLoad{Node: rapid.IntRange(0, len(f.Nodes)-1).Draw(t, "node")}
			l.Load[rapid.IntRange(0, 5).Draw(t, "freedom")] = 1000
			return l
		}
		a, b := draw(), draw()
		ra, rb := solved(t, f, Case{Nodes: []NodeLoad{a}}), solved(t, f, Case{Nodes: []NodeLoad{b}})
		work := func(l NodeLoad, r *Result) (w, size float64) {
			for d, p := range l.Load {
				w += p * r.Displacements[l.Node][d]
			}
			for _, v := range r.Displacements {
				for _, x := range v {
					size = max(size, 1000*math.Abs(x))
				}
			}
			return w, size
		}
		wa, sa := work(a, rb)
		wb, sb := work(b, ra)
		if math.Abs(wa-wb) > 1e-7*max(sa, sb) {
			t.Fatalf("work %g one way, %g the other", wa, wb)
		}
	})
}

// A frame turned with its loads deforms as before: displacements turn with
// it; end forces, peaks and the buckling factor stay.
func TestTurnedFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		for i := range f.Members { // Up must turn too: fix it
			_, axes, _ := f.axes(f.Members[i])
			f.Members[i].Up = Vector{axes[1][0], axes[1][1], axes[1][2]}
		}
		c := drawCase(t, f)
		angle := rapid.Float64Range(-3, 3)
		rot := r3.NewRotation(angle.Draw(t, "angle"), r3.Vec{X: 1, Y: angle.Draw(t, "y"), Z: angle.Draw(t, "z")})
		g, cg := f.copy(), Case{}
		for i, n := range g.Nodes {
			g.Nodes[i] = Node(rot.Rotate(r3.Vec(n)))
		}
		for i, m := range g.Members {
			g.Members[i].Up = Vector(rot.Rotate(r3.Vec(m.Up)))
		}
		for _, l := range c.Nodes {
			cg.Nodes = append(cg.Nodes, NodeLoad{l.Node, turned(rot, l.Load)})
		}
		for _, l := range c.Lines {
			cg.Lines = append(cg.Lines, LineLoad{l.Member, Vector(rot.Rotate(r3.Vec(l.Load)))})
		}
		r, rg := solved(t, f, c), solved(t, &g, cg)
		back := r3.Rotation(quat.Conj(quat.Number(rot)))
		for n := range rg.Displacements {
			rg.Displacements[n] = turned(back, rg.Displacements[n])
		}
		if d := gap(r.Displacements, rg.Displacements, UX, UZ); d > 1e-6 {
			t.Fatalf("displacements differ by %g", d)
		}
		var ends, endsG []Vec6
		for i := range r.Ends {
			ends = append(ends, r.Ends[i].Start, r.Ends[i].End)
			endsG = append(endsG, rg.Ends[i].Start, rg.Ends[i].End)
		}
		if d := gap(ends, endsG, UX, RZ); d > 1e-6 {
			t.Fatalf("end forces differ by %g", d)
		}
		b, err := f.Buckling(c, 2)
		bg, errG := g.Buckling(cg, 2)
		if err != nil || errG != nil {
			t.Fatal(err, errG)
		}
		// One over the factor: a frame all but free of compression has a factor
		// that is mostly rounding.
		inverse := func(b Buckling) float64 {
			if !b.Buckles {
				return 0
			}
			return 1 / b.Factor
		}
		if i, ig := inverse(b), inverse(bg); math.Abs(i-ig) > 1e-5*i+1e-9 {
			t.Fatalf("buckling %+v, turned %+v", b, bg)
		}
	})
}

// Cutting members into pieces changes no answer: uniform loads are exact.
func TestPiecesChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		c := drawCase(t, f)
		pieces := rapid.IntRange(2, 5).Draw(t, "pieces")
		fine, fineCase, _ := f.divide(c, pieces)
		r, rf := solved(t, f, c), solved(t, &fine, fineCase)
		if d := gap(r.Displacements, rf.Displacements[:len(f.Nodes)], UX, UZ); d > 1e-6 {
			t.Fatalf("displacements differ by %g", d)
		}
		size := 0.0
		for _, v := range rf.Displacements {
			size = max(size, math.Abs(v[UX]), math.Abs(v[UY]), math.Abs(v[UZ]))
		}
		for i := range f.Members {
			length := r.spans[i].length
			for j := 1; j < pieces; j++ {
				p := r.At(i, length*float64(j)/float64(pieces))
				n := rf.Displacements[fine.Members[i*pieces+j].Start]
				d := r3.Norm(r3.Sub(r3.Vec(p.Displacement), r3.Vec{X: n[UX], Y: n[UY], Z: n[UZ]}))
				if d > 1e-6*size {
					t.Fatalf("member %d piece %d is off by %g of %g", i, j, d, size)
				}
			}
		}
	})
}

// A plane frame is a space frame held out of its plane.
func TestPlaneIsSpaceHeld(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Float64Range(.3, 2)
		width, height := size.Draw(t, "width"), size.Draw(t, "height")
		q, p := size.Draw(t, "q"), size.Draw(t, "p")
		plane := portal(210e9, tube30.A, tube30.Iz, tube30.Iz, width, height, hinged, false)
		plane.Members[1].StartRelease.Z = rapid.Bool().Draw(t, "hinge")
		rp := solved(t, plane, withPush(onBeam(1000*q, 1), 1, 100*p))

		space := &Frame{}
		for _, n := range plane.Nodes {
			space.Nodes = append(space.Nodes, Node{n.X, 0, n.Y})
		}
		for _, m := range plane.Members {
			m.Material, m.Section = steel, tube30
			// y of the plane is z here: local z, the axis of bending, is -y.
			_, axes, _ := plane.axes(m)
			m.Up = Vector{axes[1][0], 0, axes[1][1]}
			space.Members = append(space.Members, m)
		}
		for i := range plane.Nodes {
			s := Support{Node: i, Fixed: [6]bool{UY: true, RX: true, RZ: true}}
			if i == 0 || i == 3 {
				s.Fixed[UX], s.Fixed[UZ] = true, true
			}
			space.Supports = append(space.Supports, s)
		}
		rs := solved(t, space, Case{
			Lines: []LineLoad{{1, Vector{Z: -1000 * q}}},
			Nodes: []NodeLoad{{1, Vec6{UX: 100 * p}}},
		})
		for n := range rp.Displacements {
			a, b := rp.Displacements[n], rs.Displacements[n]
			if math.Abs(a[UX]-b[UX])+math.Abs(a[UY]-b[UZ])+math.Abs(a[RZ]+b[RY]) > 1e-9 {
				t.Fatalf("node %d: plane %v, space %v", n, a, b)
			}
		}
	})
}

// Whatever numbers go in, the answer is a refusal, a verdict or finite.
func TestAnyNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wild := rapid.OneOf(
			rapid.Float64(),
			rapid.Float64Range(-2, 2),
			rapid.SampledFrom([]float64{0, 1, -1, math.NaN(), math.Inf(1), 1e300, -1e300, 1e-300, math.MaxFloat64}),
		)
		value := func(name string, sane float64) float64 {
			if rapid.IntRange(0, 9).Draw(t, "spoil") == 0 {
				return wild.Draw(t, name)
			}
			return sane
		}
		f := referenceStand(.61, .33, .7)
		f.Panels = []Panel{{Corners: [4]int{0, 1, 5, 4}, Shear: value("shear", 1e5)}}
		for i := range f.Nodes {
			f.Nodes[i].X = value("x", f.Nodes[i].X)
		}
		m := &f.Members[rapid.IntRange(0, 9).Draw(t, "member")]
		m.Material.E, m.Material.G = value("E", 1e10), value("G", 1e9)
		m.Section.A, m.Section.Iy, m.Section.J = value("A", 1e-3), value("Iy", 1e-8), value("J", 1e-8)
		m.Up = Vector{value("up", 0), value("up", 0), 0}
		f.Supports[1].Fixed = [6]bool{}
		f.Supports[1].Spring[UZ] = value("spring", 1e6)
		c := onLongRails(value("mass", 100), .61)
		c.Gravity = value("gravity", 9.8)
		r, err := f.Solve(c)
		if err == nil && !r.Mechanism {
			for i := range f.Members {
				a, err := r.Along(i)
				if err != nil {
					t.Fatal(err)
				}
				for _, v := range []float64{a.MomentY.Value, a.MomentY.At, a.MomentZ.Value, a.MomentZ.At, a.Compression, a.Sag.Value, a.Sag.At} {
					if !isFinite(v) {
						t.Fatalf("member %d: %+v", i, a)
					}
				}
			}
		}
		b, err := f.Buckling(c, 2)
		if err == nil && (!isFinite(b.Factor) || b.Factor < 0 || b.Buckles && b.Factor == 0) {
			t.Fatalf("%+v", b)
		}
	})
}
