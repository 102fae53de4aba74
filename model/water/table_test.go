package water

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"pgregory.net/rapid"
)

// row is one line of a reference table.
type row struct {
	t    *testing.T
	file string
	line int
	cell map[string]string
}

// table reads a reference table and fails unless it has so many rows.
func table(t *testing.T, file string, rows int) []row {
	t.Helper()
	f, err := os.Open("../../testdata/water/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	var head []string
	var out []row
	for {
		rec, err := r.Read()
		if rec == nil {
			break
		}
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		if head == nil {
			head = rec
			continue
		}
		line, _ := r.FieldPos(0)
		x := row{t, file, line, map[string]string{}}
		for i, h := range head {
			x.cell[h] = rec[i]
		}
		out = append(out, x)
	}
	if len(out) != rows {
		t.Fatalf("%s: %d rows read, want %d", file, len(out), rows)
	}
	return out
}

// num reads a number from a column.
func (r row) num(column string) float64 {
	r.t.Helper()
	x, err := strconv.ParseFloat(r.cell[column], 64)
	if err != nil {
		r.t.Fatalf("%s:%d: %s: %v", r.file, r.line, column, err)
	}
	return x
}

// near holds a value against a column, within a tolerance.
func (r row) near(column, source string, got, tolerance float64) {
	r.t.Helper()
	if want := r.num(column); !(math.Abs(got-want) <= tolerance) {
		r.t.Errorf("%s:%d (%s) %v, %s: want %g ± %g, got %g", r.file, r.line, source, r.cell, column, want, tolerance, got)
	}
}

// fine fails on an error or a trail that is missing, empty or not finite.
func fine(t rapid.TB, tr *working.Trail, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	if tr == nil || !tr.Finite() || tr.Ask == "" || len(tr.Steps) == 0 {
		t.Fatalf("trail %+v", tr)
	}
}

// refused fails unless err refuses the field and no trail came with it.
func refused(t rapid.TB, field string, tr *working.Trail, err error) {
	t.Helper()
	var r *working.Refusal
	if !errors.As(err, &r) || r.Field != field || tr != nil {
		t.Errorf("got %v (trail %v), want a refusal of %s", err, tr != nil, field)
	}
}

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

func dkh(x float64) quantity.Hardness { return quantity.Hardness(x * degree) }

var nan = math.NaN()
