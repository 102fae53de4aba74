package frame

import (
	"math"
	"testing"

	"example.org/driploop/model/drill"
)

// readTable reads a table of testdata/structure, its first row too, and guards its row count.
func readTable(t *testing.T, name string, rows int) [][]string {
	t.Helper()
	first, rest := drill.Table(t, "structure/"+name)
	all := append([][]string{first}, rest...)
	if len(all) != rows {
		t.Fatalf("%s: read %d rows, expected %d", name, len(all), rows)
	}
	return all
}

// near compares within a relative tolerance; a zero is a zero within 1e-6 (the
// tables' own rule: values of order 1e-10 are zeros).
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	limit := tolerance * math.Abs(want)
	if math.Abs(want) < 1e-9 {
		limit = 1e-6
	}
	if math.IsNaN(got) || math.Abs(got-want) > limit {
		t.Errorf("%s: got %.8g, expected %.8g (tolerance %g)", what, got, want, tolerance)
	}
}

// checkRows compares every row model,quantity,value of a table with got, keyed
// "model|quantity"; a row without an answer fails, and an answer without a row.
func checkRows(t *testing.T, name string, rows int, got map[string]float64) {
	t.Helper()
	asked := map[string]bool{}
	for i, row := range readTable(t, name, rows)[1:] {
		key := row[0] + "|" + row[1]
		asked[key] = true
		v, ok := got[key]
		if !ok {
			t.Errorf("%s row %d: no answer for %q", name, i+1, key)
			continue
		}
		near(t, name+": "+key, v, drill.Number(t, row[2]), 1e-3)
	}
	for key := range got {
		if !asked[key] {
			t.Errorf("%s: answer %q belongs to no row", name, key)
		}
	}
}

func solve(t testing.TB, f *Frame, c Case) *Result {
	t.Helper()
	r, err := f.Solve(c)
	if err != nil {
		t.Fatal(err)
	}
	if r.Mechanism {
		t.Fatalf("unexpected mechanism at node %d %v", r.Free.Node, r.Free.DOF)
	}
	return r
}

func at(t testing.TB, r *Result, member int, x float64) Point {
	t.Helper()
	return r.At(member, x)
}

func along(t testing.TB, r *Result, member int) Along {
	t.Helper()
	a, err := r.Along(member)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func buckling(t testing.TB, f *Frame, c Case, divisions int) float64 {
	t.Helper()
	b, err := f.Buckling(c, divisions)
	if err != nil {
		t.Fatal(err)
	}
	if b.Mechanism || !b.Buckles {
		t.Fatalf("no buckling factor: %+v", b)
	}
	return b.Factor
}

var (
	held   = [6]bool{true, true, true, true, true, true}
	hinged = [6]bool{UX: true, UY: true, UZ: true}
)

// tube30 is the reference section SHS 30x30x2 and its steel.
// Source: header of frame3d_reference.csv.
var (
	steel  = Material{E: 210e9, G: 80.77e9, Density: 7850}
	tube30 = squareTube(0.030, 0.002)
)
