package store

import (
	"encoding/json"
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
	line, err := json.Marshal(map[string]any{"id": id, "what": what, "count": count, "lost": lost, "passed": !t.Failed() && lost == 0})
	if err != nil {
		t.Fatal(err)
	}
	f, err := os.OpenFile(path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := f.Write(append(line, '\n')); err != nil {
		t.Fatal(err)
	}
}
