package durable

import (
	"fmt"
	"os"
	"testing"
)

// drillLog is where a drill notes what it did, for the table at the end of it.
const drillLog = "DRIPLOOP_DRILL_LOG"

// tally notes a drill that has been passed so far: which, what, how many, and how
// much was lost. The table is printed from these notes.
func tally(t testing.TB, id, what string, count, lost int) {
	t.Helper()
	path := os.Getenv(drillLog)
	t.Logf("%s: %s: %d, lost %d", id, what, count, lost)
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
