package store

import (
	"context"
	"flag"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/drill"
)

// How often the drills run: small counts with every test, those of the trust
// plan with DRIPLOOP_DRILL=1.
var (
	killRounds     = 12   // D2-01
	logRandom      = 60   // D2-02: random truncations, and as many flips
	logEdgeStep    = 5    // D2-02: every n-th frame edge
	flipRounds     = 80   // D2-08
	truncateRounds = 25   // D2-08
	twoRounds      = 6    // D2-06
	upgradeKills   = 8    // D2-10
	walks          = 25   // D2-51
	diskSizes      = 4    // D2-04, twice
	otherRounds    = 2    // D2-07
	manyEntries    = 3000 // D2-14
	crashWalks     = 2    // D2-51
	crashSteps     = 120
)

const (
	childMode = "DRIPLOOP_TEST_CHILD"
	childDir  = "DRIPLOOP_TEST_DIR"
	childTo   = "DRIPLOOP_TEST_TO"
)

func TestMain(m *testing.M) {
	if mode := os.Getenv(childMode); mode != "" {
		child(mode, os.Getenv(childDir))
		return
	}
	if drill.Listed() {
		killRounds, logRandom, logEdgeStep, flipRounds, truncateRounds = 10_000, 500, 1, 2000, 200
		twoRounds, upgradeKills, walks, diskSizes = 200, 100, 1000, 124
		otherRounds, manyEntries, crashWalks, crashSteps = 50, 100_000, 20, 1000
	}
	flag.Parse()
	if err := flag.Set("rapid.checks", strconv.Itoa(walks)); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}

// child is the program that a drill starts and kills.
func child(mode, dir string) {
	o := options
	if mode == "copy" {
		data, err := os.ReadFile(dir)
		if err == nil {
			err = os.WriteFile(os.Getenv(childTo), data, 0o600)
		}
		if err != nil {
			fmt.Println("failed", err)
			os.Exit(3)
		}
		return
	}
	if mode == "narrow" {
		narrow(os.Getenv(childTo))
		return
	}
	if drillChild(mode, dir) {
		return
	}
	if mode == "upgrade" {
		o.migrations = withSecond()
	}
	s, err := Open(context.Background(), dir, o)
	if err != nil {
		fmt.Println("refused", err)
		os.Exit(3)
	}
	fmt.Println("open")
	if mode == "goback" {
		all, err := Snapshots(dir)
		if err == nil {
			_, err = s.GoBack(context.Background(), all[0].Path, o)
		}
		if err != nil {
			fmt.Println("failed", err)
			os.Exit(3)
		}
	}
	if mode == "write" {
		rows, err := s.Load(context.Background(), "entry", nil, "seq")
		if err != nil {
			fmt.Println("failed", err)
			os.Exit(3)
		}
		for n := len(rows) + 1; ; n++ {
			if err := s.Apply(context.Background(), entryChange("t1", n)); err != nil {
				fmt.Println("failed", err)
				os.Exit(3)
			}
			fmt.Println("ack", n)
		}
	}
	_, _ = os.Stdin.Read(make([]byte, 1)) // ends with the parent at the latest
	os.Exit(0)
}

// entryChange is an entry with two readings that must come and go together.
// Its note makes it long enough to fill pages.
func entryChange(tank string, n int) Change {
	id := fmt.Sprintf("%s-e%06d", tank, n)
	at := time.Date(2026, 1, 1, 8, 0, 0, 0, time.UTC).Add(time.Duration(n) * time.Minute)
	value := func(name string) Op {
		return Op{Table: "entry_value", After: Row{"entry": id, "name": name, "text": strconv.Itoa(n), "unit": "mg/l", "basis": "ion", "qualifier": ""}}
	}
	return Change{Tank: tank, Label: "entry.added", Values: map[string]string{"n": strconv.Itoa(n)}, At: at.Format(time.RFC3339), Ops: []Op{
		{Table: "entry", After: Row{"id": id, "tank": tank, "kind": "test", "at": at.Format("2006-01-02T15:04"), "zone": "+01:00",
			"note": strings.Repeat("n", n%700)}},
		value("nitrite"), value("nitrate"),
	}}
}

// entriesOK checks that the entries of t1 are 1, 2, 3 … without a gap, each
// with both readings and its place in the undo history, and returns how many.
func entriesOK(t testing.TB, s *Store) int {
	t.Helper()
	ctx := context.Background()
	entries, err := s.Load(ctx, "entry", map[string]any{"tank": "t1"}, "seq")
	if err != nil {
		t.Fatal(err)
	}
	values, err := s.Load(ctx, "entry_value", nil, "")
	if err != nil {
		t.Fatal(err)
	}
	text := map[string]map[string]any{}
	for _, v := range values {
		id := v["entry"].(string)
		if text[id] == nil {
			text[id] = map[string]any{}
		}
		text[id][v["name"].(string)] = v["text"]
	}
	for i, e := range entries {
		id := fmt.Sprintf("t1-e%06d", i+1)
		want := strconv.Itoa(i + 1)
		if e["id"] != id || e["seq"] != int64(i+1) || text[id]["nitrite"] != want || text[id]["nitrate"] != want {
			t.Fatalf("entry %d: %v with %v", i+1, e, text[id])
		}
	}
	if len(values) != 2*len(entries) {
		t.Fatalf("%d readings of %d entries", len(values), len(entries))
	}
	n, err := number(ctx, s.db, "SELECT count(*) FROM undo WHERE label = 'entry.added'")
	if err != nil || int(n) != min(len(entries), UndoDepth) {
		t.Fatalf("%d undo rows (%v) of %d entries", n, err, len(entries))
	}
	r, err := s.Verify(ctx)
	if err != nil || !r.OK() {
		t.Fatalf("verify: %+v, %v", r, err)
	}
	return len(entries)
}
