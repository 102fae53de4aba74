package load

import (
	"math"
	"testing"

	"example.org/driploop/model/drill"
)

// table reads a reference table without its '#' lines and its header, and
// fails when it holds another number of rows than expected.
func table(t *testing.T, name string, rows int) [][]string {
	t.Helper()
	_, all := drill.Table(t, "structure/"+name)
	if len(all) != rows {
		t.Fatalf("%s: %d rows, expected %d", name, len(all), rows)
	}
	return all
}

// close fails unless got is within the relative tolerance of want.
func closeTo(t *testing.T, source, row string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s, %s: expected %.6g, got %.6g (tolerance %g)", source, row, want, got, tol)
	}
}
