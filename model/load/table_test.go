package load

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// table reads a reference table without its '#' lines and its header, and
// fails when it holds another number of rows than expected.
func table(t *testing.T, name string, rows int) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "structure", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(all)-1 != rows {
		t.Fatalf("%s: %d rows, expected %d", name, len(all)-1, rows)
	}
	return all[1:]
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// close fails unless got is within the relative tolerance of want.
func closeTo(t *testing.T, source, row string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s, %s: expected %.6g, got %.6g (tolerance %g)", source, row, want, got, tol)
	}
}
