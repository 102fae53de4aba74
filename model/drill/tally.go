package drill

import (
	"fmt"
	"os"
	"testing"
)

const (
	// asked is "1" where the counts of a release are asked for.
	asked = "DRIPLOOP_DRILL"
	// log names the file in which a drill notes what it did.
	log = "DRIPLOOP_DRILL_LOG"
)

// Listed reports whether the counts of a release are asked for.
func Listed() bool { return os.Getenv(asked) == "1" }

// Count is how often something is tried: few with every test, listed for a release.
func Count(few, listed int) int {
	if Listed() {
		return listed
	}
	return few
}

// Tally notes a drill as far as it went: its number in the trust plan, what, how
// many, and how much was lost.
func Tally(t testing.TB, id, what string, count, lost int) {
	t.Helper()
	t.Logf("%s: %s: %d, lost %d", id, what, count, lost)
	path := os.Getenv(log)
	if path == "" {
		return
	}
	passed := "passed"
	if t.Failed() || lost > 0 {
		passed = "FAILED"
	}
	f, err := os.OpenFile(path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := fmt.Fprintf(f, "%s\t%s\t%d\t%d\t%s\n", id, what, count, lost, passed); err != nil {
		t.Fatal(err)
	}
}
