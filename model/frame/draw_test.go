package frame

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// drawFrame makes a sound space frame: a random tree of members grown from a
// held node, some extra members, some more supports and springs.
func drawFrame(t *rapid.T) *Frame {
	f := &Frame{}
	coordinate := rapid.Float64Range(-1, 1)
	count := rapid.IntRange(2, 6).Draw(t, "nodes")
	for i := range count {
		// Apart from each other by construction: one metre a step along x.
		f.Nodes = append(f.Nodes, Node{float64(i) + .4*coordinate.Draw(t, "x"), coordinate.Draw(t, "y"), coordinate.Draw(t, "z")})
	}
	join := func(a, b int) {
		m := Member{Start: a, End: b, Material: steel}
		size := rapid.Float64Range(.02, .06)
		m.Section = rectangle(size.Draw(t, "width"), size.Draw(t, "height"))
		f.Members = append(f.Members, m)
	}
	for i := 1; i < count; i++ {
		join(rapid.IntRange(0, i-1).Draw(t, "parent"), i)
	}
	for range rapid.IntRange(0, 3).Draw(t, "extra") {
		a := rapid.IntRange(0, count-1).Draw(t, "a")
		b := rapid.IntRange(0, count-1).Draw(t, "b")
		if a != b {
			join(a, b)
			// A further bar may be hinged without harm: the tree holds.
			if rapid.Bool().Draw(t, "hinged") {
				f.Members[len(f.Members)-1].StartRelease = Pinned()
			}
		}
	}
	f.Supports = []Support{{Node: 0, Fixed: held}}
	if rapid.Bool().Draw(t, "second support") {
		s := Support{Node: count - 1, Fixed: held}
		if rapid.Bool().Draw(t, "sprung") {
			// Equal in all directions, so that a turned frame stays the same.
			s = Support{Node: count - 1, Spring: Vec6{1e5, 1e5, 1e5, 1e3, 1e3, 1e3}}
		}
		f.Supports = append(f.Supports, s)
	}
	return f
}

func drawCase(t *rapid.T, f *Frame) Case {
	var c Case
	force := rapid.Map(rapid.IntRange(-1000, 1000), func(n int) float64 { return float64(n) })
	for range rapid.IntRange(1, 3).Draw(t, "node loads") {
		l := NodeLoad{Node: rapid.IntRange(0, len(f.Nodes)-1).Draw(t, "node")}
		for d := range l.Load {
			l.Load[d] = force.Draw(t, "load")
		}
		c.Nodes = append(c.Nodes, l)
	}
	for range rapid.IntRange(0, 2).Draw(t, "line loads") {
		c.Lines = append(c.Lines, LineLoad{
			rapid.IntRange(0, len(f.Members)-1).Draw(t, "member"),
			Vector{force.Draw(t, "qx"), force.Draw(t, "qy"), force.Draw(t, "qz")},
		})
	}
	return c
}

func solved(t *rapid.T, f *Frame, c Case) *Result {
	r, err := f.Solve(c)
	if err != nil {
		t.Fatal(err)
	}
	if r.Mechanism {
		t.Fatalf("mechanism: %+v", r.Free)
	}
	return r
}

// gap is the largest difference of two lists of node values as a share of the
// largest value; forces or displacements only where from..to say so.
func gap(a, b []Vec6, from, to DOF) float64 {
	diff, size := 0.0, 0.0
	for n := range a {
		for d := from; d <= to; d++ {
			diff = max(diff, math.Abs(a[n][d]-b[n][d]))
			size = max(size, math.Abs(a[n][d]), math.Abs(b[n][d]))
		}
	}
	if size == 0 {
		return 0
	}
	return diff / size
}

// turned rotates both halves of a node value.
func turned(rot r3.Rotation, v Vec6) Vec6 {
	a := rot.Rotate(r3.Vec{X: v[0], Y: v[1], Z: v[2]})
	b := rot.Rotate(r3.Vec{X: v[3], Y: v[4], Z: v[5]})
	return Vec6{a.X, a.Y, a.Z, b.X, b.Y, b.Z}
}
