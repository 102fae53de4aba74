package frame

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// Euler's columns. Source: S. Timoshenko and J. M. Gere, Theory of Elastic
// Stability, chapter 2 (from memory): pi2/4, pi2, 20.1907, 4 pi2 times EI/L2.
func TestEulerColumns(t *testing.T) {
	for _, c := range []struct {
		name      string
		foot, top [6]bool
		want      float64
	}{
		{"free top", held, [6]bool{}, math.Pi * math.Pi / 4},
		{"hinged", hinged, [6]bool{UX: true}, math.Pi * math.Pi},
		{"held and hinged", held, [6]bool{UX: true}, 20.1907},
		{"held and guided", held, [6]bool{UX: true, RZ: true}, 4 * math.Pi * math.Pi},
	} {
		for _, n := range []struct {
			pieces    int
			tolerance float64
		}{{4, 8e-3}, {8, 6e-4}, {32, 1e-5}} {
			near(t, c.name, buckling(t, column(c.foot, c.top), pressed(1), n.pieces), c.want, n.tolerance)
		}
	}
	// The accuracy that the documentation promises.
	pinned := column(hinged, [6]bool{UX: true})
	near(t, "hinged, 4 pieces", buckling(t, pinned, pressed(1), 4), math.Pi*math.Pi, 6e-4)
	near(t, "hinged, 1 piece (12/pi2)", buckling(t, pinned, pressed(1), 1), 12, 1e-9)
}

// In space a column takes its weak axis, whichever it is and however it leans.
func TestSpaceColumnTakesWeakAxis(t *testing.T) {
	for _, s := range []Section{
		{A: 1e-3, Iy: 2e-8, Iz: 5e-8, J: 1e-8},
		{A: 1e-3, Iy: 5e-8, Iz: 2e-8, J: 1e-8},
	} {
		for _, tip := range []Node{{0, 0, 1.5}, {1, -1, .5}, {1.5, 0, 0}} {
			length := math.Sqrt(tip.X*tip.X + tip.Y*tip.Y + tip.Z*tip.Z)
			f := &Frame{
				Nodes:    []Node{{}, tip},
				Members:  []Member{{Start: 0, End: 1, Material: steel, Section: s}},
				Supports: []Support{{Node: 0, Fixed: held}},
			}
			press := 1000 / length
			c := Case{Nodes: []NodeLoad{{1, Vec6{-tip.X * press, -tip.Y * press, -tip.Z * press}}}}
			want := math.Pi * math.Pi * 210e9 * 2e-8 / (4 * length * length) / 1000
			near(t, "free column in space", buckling(t, f, c, 8), want, 1e-4)
		}
	}
}

// A hinged bar between held nodes buckles as Euler's hinged column.
func TestHingedMemberBuckles(t *testing.T) {
	f := column(held, [6]bool{UX: true, RZ: true})
	f.Members[0].StartRelease, f.Members[0].EndRelease = Pinned(), Pinned()
	near(t, "hinged ends", buckling(t, f, pressed(1), 8), math.Pi*math.Pi, 1e-4)
}

// Tension and idle frames have no buckling factor.
func TestNothingBucklesInTension(t *testing.T) {
	pull := Case{Nodes: []NodeLoad{{1, Vec6{UY: 1}}}}
	for name, c := range map[string]Case{"tension": pull, "no load": {}} {
		b, err := column(held, [6]bool{}).Buckling(c, 8)
		if err != nil || b.Mechanism || b.Buckles || b.Factor != 0 {
			t.Errorf("%s: %+v %v", name, b, err)
		}
	}
}

// The iteration agrees with the dense generalized problem through Cholesky,
// on random frames with members in tension and compression.
func TestBucklingAgainstDense(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFrame(t)
		c := drawCase(t, f)
		divisions := rapid.IntRange(1, 3).Draw(t, "divisions")
		b, err := f.Buckling(c, divisions)
		if err != nil {
			t.Fatal(err)
		}
		want, size := denseBuckling(t, f, c, divisions)
		got := 0.0
		if b.Buckles {
			got = 1 / b.Factor
		}
		if math.Abs(got-want) > 1e-6*want+2*noneLimit*size {
			t.Fatalf("inverse factor: iteration %g, dense %g, largest by size %g", got, want, size)
		}
	})
}

// denseBuckling is the largest eigenvalue of L^-1 (-Kg) L'^-1 by gonum's dense
// routines: one over the smallest positive factor, and the largest by size.
func denseBuckling(t *rapid.T, f *Frame, c Case, divisions int) (inverse, size float64) {
	fine, fineCase, order := f.divide(c, divisions)
	a, k, err := fine.prepare(order)
	if err != nil {
		t.Fatal(err)
	}
	n := k.size()
	if n == 0 {
		return 0, 0
	}
	stiff, geometric := dense(k), newSkyline(k.first)
	a.factor(k)
	r, err := a.Solve(fineCase)
	if err != nil {
		t.Fatal(err)
	}
	force := a.addGeometric(geometric, r)
	if force == 0 {
		return 0, 0
	}
	var chol mat.Cholesky
	if !chol.Factorize(stiff) {
		t.Fatal("stiffness is not positive definite")
	}
	var lower mat.TriDense
	chol.LTo(&lower)
	var left, both mat.Dense
	if err := left.Solve(&lower, dense(geometric)); err != nil {
		if _, poor := err.(mat.Condition); !poor {
			t.Fatal(err)
		}
	}
	if err := both.Solve(&lower, left.T()); err != nil {
		if _, poor := err.(mat.Condition); !poor {
			t.Fatal(err)
		}
	}
	sym := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			sym.SetSym(i, j, -(both.At(i, j)+both.At(j, i))/2)
		}
	}
	var e mat.EigenSym
	if !e.Factorize(sym, true) { // values alone can panic inside gonum 0.17 on tiny blocks
		t.Fatal("no eigenvalues")
	}
	values := e.Values(nil)
	return force * max(0, values[n-1]), force * max(math.Abs(values[0]), math.Abs(values[n-1]))
}

func dense(k *skyline) *mat.SymDense {
	d := mat.NewSymDense(k.size(), nil)
	for i := range k.size() {
		for j, v := range k.row(i) {
			d.SetSym(i, k.first[i]+j, v)
		}
	}
	return d
}
