package reckon

import (
	"encoding/csv"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const (
	testdata = "../../testdata"
	// The least number of rows that stand for something outside this program.
	leastRows = 1000
)

// tableFolders hold the reference tables of the domain.
var tableFolders = []string{"structure", "heat", "water", "quantity", "fish"}

// Tables that have no line of headings.
var noHeading = []string{"structure/frame2d_k_local.csv", "structure/frame3d_k_local.csv", "quantity/parse.csv"}

// listed is one line of testdata/rows.txt.
type listed struct {
	table                                  string
	rows, published, computed, memory, own int
	pkg, test, why                         string
}

func (l listed) outside() int { return l.published + l.computed + l.memory }
func (l listed) checked() int { return l.outside() + l.own }

func rowsList(t *testing.T) []listed {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(testdata, "rows.txt"))
	if err != nil {
		t.Fatal(err)
	}
	var out []listed
	for i, line := range strings.Split(strings.TrimSpace(string(raw)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		c := strings.Split(line, "|")
		if len(c) != 8 {
			t.Fatalf("rows.txt:%d: %d columns, want 8", i+1, len(c))
		}
		for j := range c {
			c[j] = strings.TrimSpace(c[j])
		}
		l := listed{table: c[0], why: c[7]}
		for j, n := range []*int{&l.rows, &l.published, &l.computed, &l.memory, &l.own} {
			if *n, err = strconv.Atoi(c[j+1]); err != nil || *n < 0 {
				t.Fatalf("rows.txt:%d: %q is no count", i+1, c[j+1])
			}
		}
		l.pkg, l.test, _ = strings.Cut(c[6], ":")
		out = append(out, l)
	}
	return out
}

// lines are the lines of a table with their comments and headings, and the places
// of its data rows among them. No row of a table runs over two lines.
func lines(t *testing.T, table string) (all []string, data []int) {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(testdata, table))
	if err != nil {
		t.Fatal(err)
	}
	all = strings.Split(strings.TrimRight(string(raw), "\n"), "\n")
	for i, line := range all {
		if !strings.HasPrefix(line, "#") && line != "" {
			data = append(data, i)
		}
	}
	if !slices.Contains(noHeading, table) && len(data) > 0 {
		data = data[1:]
	}
	return all, data
}

// Every table is in the list with all its rows, the named test reads it, and
// rows are left out for a reason only.
func TestNoTableDropsOut(t *testing.T) {
	list := rowsList(t)
	var there []string
	for _, folder := range tableFolders {
		found, err := filepath.Glob(filepath.Join(testdata, folder, "*.csv"))
		if err != nil || len(found) == 0 {
			t.Fatalf("%s: no tables (%v)", folder, err)
		}
		for _, f := range found {
			there = append(there, folder+"/"+filepath.Base(f))
		}
	}
	var total listed
	seen := map[string]bool{}
	for _, l := range list {
		if seen[l.table] || !slices.Contains(there, l.table) {
			t.Errorf("rows.txt: %s is twice in the list, or is no table", l.table)
			continue
		}
		seen[l.table] = true
		if _, data := lines(t, l.table); len(data) != l.rows {
			t.Errorf("rows.txt: %s has %d rows, the list says %d", l.table, len(data), l.rows)
		}
		if l.checked() > l.rows || l.checked() < l.rows && l.why == "" {
			t.Errorf("rows.txt: %s: %d of %d rows checked without a reason", l.table, l.checked(), l.rows)
		}
		if !reads(t, l) {
			t.Errorf("rows.txt: %s: %s of package %s does not name the table", l.table, l.test, l.pkg)
		}
		total.rows += l.rows
		total.published += l.published
		total.computed += l.computed
		total.memory += l.memory
		total.own += l.own
	}
	for _, table := range there {
		if !seen[table] {
			t.Errorf("%s is in no line of rows.txt", table)
		}
	}
	if n := total.published + total.computed; n < leastRows {
		t.Errorf("%d rows are checked against published or separately computed values, want at least %d", n, leastRows)
	}
	t.Logf("%d tables with %d rows: %d checked against published values, %d against values computed apart from this program, "+
		"%d against values from memory; %d rows state rules of our own", len(list), total.rows, total.published, total.computed, total.memory, total.own)
}

var testFiles = map[string][]*ast.File{}

// reads reports whether the body of the named test names the table.
func reads(t *testing.T, l listed) bool {
	t.Helper()
	if testFiles[l.pkg] == nil {
		paths, err := filepath.Glob(filepath.Join("..", l.pkg, "*_test.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range paths {
			f, err := parser.ParseFile(token.NewFileSet(), p, nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			testFiles[l.pkg] = append(testFiles[l.pkg], f)
		}
	}
	name := filepath.Base(l.table)
	found := false
	for _, f := range testFiles[l.pkg] {
		for _, d := range f.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || fn.Name.Name != l.test {
				continue
			}
			ast.Inspect(fn.Body, func(n ast.Node) bool {
				if s, ok := n.(*ast.BasicLit); ok && (s.Value == strconv.Quote(l.table) || s.Value == strconv.Quote(name) || s.Value == strconv.Quote(strings.TrimSuffix(name, ".csv"))) {
					found = true
				}
				return true
			})
		}
	}
	return found
}

// cells splits a row of a table; join puts it together again.
func cells(table, line string) ([]string, error) {
	if table == "quantity/parse.csv" {
		return strings.Split(line, "|"), nil
	}
	r := csv.NewReader(strings.NewReader(line))
	return r.Read()
}

func join(table string, c []string) string {
	if table == "quantity/parse.csv" {
		return strings.Join(c, "|")
	}
	var b strings.Builder
	w := csv.NewWriter(&b)
	if err := w.Write(c); err != nil {
		panic(err)
	}
	w.Flush()
	return strings.TrimSuffix(b.String(), "\n")
}
