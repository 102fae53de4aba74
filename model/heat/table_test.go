package heat

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// row is one line of a reference table, by column name.
type row struct {
	t      *testing.T
	table  string
	line   int
	fields map[string]string
}

// table reads testdata/heat/NAME.csv and fails when it does not hold want rows.
func table(t *testing.T, name string, want int) []row {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("..", "..", "testdata", "heat", name+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(strings.NewReader(string(raw)))
	r.Comment = '#'
	r.FieldsPerRecord = -1
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []row
	for i, rec := range all[1:] {
		f := map[string]string{}
		for c, head := range all[0] {
			if c < len(rec) {
				f[head] = rec[c]
			}
		}
		rows = append(rows, row{t, name, i + 1, f})
	}
	if len(rows) != want {
		t.Fatalf("%s: %d rows read, expected %d", name, len(rows), want)
	}
	return rows
}

func (r row) num(column string) float64 {
	r.t.Helper()
	x, err := strconv.ParseFloat(r.fields[column], 64)
	if err != nil {
		r.t.Fatalf("%s row %d column %s: %v", r.table, r.line, column, err)
	}
	return x
}

// near fails unless got agrees with the column within a relative tolerance.
func (r row) near(source, column string, got, tolerance float64) {
	r.t.Helper()
	want := r.num(column)
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		r.t.Errorf("%s row %d (%s) %s: expected %g, got %g (tolerance %g %%); source: %s",
			r.table, r.line, r.fields[label(r.fields)], column, want, got, 100*tolerance, source)
	}
}

// within fails unless got agrees with the column within an absolute tolerance.
func (r row) within(source, column string, got, tolerance float64) {
	r.t.Helper()
	want := r.num(column)
	if !(math.Abs(got-want) <= tolerance) {
		r.t.Errorf("%s row %d %v %s: expected %g, got %g (tolerance %g); source: %s", r.table, r.line, r.fields, column, want, got, tolerance, source)
	}
}

// label names the column that tells a row apart.
func label(f map[string]string) string {
	for _, c := range []string{"case", "tank", "Tw_C"} {
		if _, ok := f[c]; ok {
			return c
		}
	}
	return ""
}
