package drill

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// Table reads a reference table of testdata by its path there, without its lines of comment:
// the names of its columns, and its rows.
func Table(t testing.TB, path string) (columns []string, rows [][]string) {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", filepath.FromSlash(path)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %d lines, %v", path, len(all), err)
	}
	return all[0], all[1:]
}

// Named reads a reference table as Table does, each row by the names of the columns. A row of
// another length than the columns fails.
func Named(t testing.TB, path string) []map[string]string {
	t.Helper()
	columns, rows := Table(t, path)
	var out []map[string]string
	for i, row := range rows {
		if len(row) != len(columns) {
			t.Fatalf("%s, row %d: %d cells for %d columns", path, i+1, len(row), len(columns))
		}
		m := map[string]string{}
		for c, name := range columns {
			m[name] = row[c]
		}
		out = append(out, m)
	}
	return out
}

// Number reads a cell of a table.
func Number(t testing.TB, cell string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		t.Fatalf("%q is no number", cell)
	}
	return x
}
