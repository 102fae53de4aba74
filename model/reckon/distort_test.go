package reckon

import (
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// drill reports whether the tests run at the counts of a release.
func drill() bool { return os.Getenv("DRIPLOOP_DRILL") == "1" }

// TestRowsAreHeld distorts the rows of every table, one at a time, in a copy, and
// sees whether the test that is said to check them fails. In a drill it is every
// row, and as many must be noticed as rows.txt counts as checked; else the first
// that is noticed.
func TestRowsAreHeld(t *testing.T) {
	list := rowsList(t)
	binaries := map[string]string{}
	dir := t.TempDir()
	for _, l := range list {
		if binaries[l.pkg] != "" {
			continue
		}
		binaries[l.pkg] = filepath.Join(dir, l.pkg+".test")
		c := exec.Command("go", "test", "-c", "-o", binaries[l.pkg], "../"+l.pkg)
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("%s: %v\n%s", l.pkg, err, out)
		}
	}
	for _, l := range list {
		if l.checked() == 0 {
			continue
		}
		t.Run(l.table, func(t *testing.T) {
			t.Parallel()
			h := holder{listed: l, binary: binaries[l.pkg], root: t.TempDir()}
			h.copy(t)
			h.distort(t)
		})
	}
}

// holder runs the test of a table beside a copy of the tables.
type holder struct {
	listed
	binary, root string
}

// copy lays out the tables as the tests find them from the folder of their package.
func (h holder) copy(t *testing.T) {
	t.Helper()
	if err := os.MkdirAll(filepath.Join(h.root, "model", h.pkg), 0o700); err != nil {
		t.Fatal(err)
	}
	for _, folder := range tableFolders {
		if err := os.CopyFS(filepath.Join(h.root, "testdata", folder), os.DirFS(filepath.Join(testdata, folder))); err != nil {
			t.Fatal(err)
		}
	}
	if !h.passes(t) {
		t.Fatalf("%s fails on %s as it is", h.test, h.table)
	}
}

func (h holder) passes(t *testing.T) bool {
	t.Helper()
	c := exec.Command(h.binary, "-test.run", "^"+h.test+"$", "-rapid.checks=1", "-rapid.nofailfile")
	c.Dir = filepath.Join(h.root, "model", h.pkg)
	out, err := c.CombinedOutput()
	var failed *exec.ExitError
	switch {
	case err == nil:
		return true
	case errors.As(err, &failed) && strings.Contains(string(out), "--- FAIL: "+h.test):
		return false
	}
	t.Fatalf("%s: %v\n%s", h.test, err, out)
	return false
}

func (h holder) distort(t *testing.T) {
	all, data := lines(t, h.table)
	noticed := 0
	var unnoticed []string
	for _, at := range data {
		if h.notices(t, all, at) {
			noticed++
			if !drill() {
				return
			}
		} else {
			unnoticed = append(unnoticed, strconv.Itoa(at+1))
		}
	}
	if noticed == 0 || drill() && noticed != h.checked() {
		t.Errorf("%s notices %d of %d rows of %s, rows.txt says %d; it does not see lines %s", h.test, noticed, len(data), h.table, h.checked(), strings.Join(unnoticed, " "))
	}
}

// notices reports whether a figure of the line can be changed so that the test
// fails; the figures asked for stand at the end of a line.
func (h holder) notices(t *testing.T, all []string, at int) bool {
	t.Helper()
	was, err := cells(h.table, all[at])
	if err != nil {
		t.Fatalf("%s:%d: %v", h.table, at+1, err)
	}
	for i := len(was) - 1; i >= 0; i-- {
		other, ok := distorted(was[i], h.own > 0)
		if !ok {
			continue
		}
		row := append([]string(nil), was...)
		row[i] = other
		changed := append([]string(nil), all...)
		changed[at] = join(h.table, row)
		path := filepath.Join(h.root, "testdata", h.table)
		if err := os.WriteFile(path, []byte(strings.Join(changed, "\n")+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		if !h.passes(t) {
			return true
		}
	}
	return false
}

// distorted is a figure a quarter larger, or a range that begins elsewhere; of
// rules of our own also a word spelt otherwise.
func distorted(cell string, words bool) (string, bool) {
	x, err := strconv.ParseFloat(cell, 64)
	switch {
	case err == nil && math.Abs(x) < 1e-9: // the tables' zeros of a solver
		return "0.7", true
	case err == nil:
		return strconv.FormatFloat(x*1.25, 'g', -1, 64), true
	case cell != "" && cell[0] >= '0' && cell[0] <= '9':
		return string('0'+(cell[0]-'0'+4)%10) + cell[1:], true
	case words:
		return cell + "9", true
	}
	return "", false
}
