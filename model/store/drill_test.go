package store

import (
	"context"
	"database/sql"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/driploop/model/drill"
)

// TestOthersLookIn (D2-07): another program that holds a reading transaction, and
// one that copies the file, hold nothing up; the log stays bounded and our own copy
// is sound.
func TestOthersLookIn(t *testing.T) {
	const mostLog = 64 << 20 // judgement
	for round := range otherRounds {
		dir := t.TempDir()
		s := open(t, dir)
		addTank(t, s, "t1")
		for n := range 20 {
			if err := s.Apply(t.Context(), entryChange("t1", n+1)); err != nil {
				t.Fatal(err)
			}
		}
		reader := start(t, "reader", dir)
		if said := reader.line(); said != "reading 20" {
			t.Fatalf("round %d: reader said %q", round, said)
		}
		for n := range 200 {
			if err := s.Apply(t.Context(), entryChange("t1", n+21)); err != nil {
				t.Fatalf("round %d: %v", round, err)
			}
			if n == 100 {
				copyByOtherProgram(t, filepath.Join(dir, FileName), filepath.Join(t.TempDir(), "copy"))
			}
		}
		path, err := s.Snapshot(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if h, err := Look(t.Context(), path); err != nil || h.Rows["entry"] != 220 {
			t.Errorf("round %d: the copy holds %+v, %v", round, h, err)
		}
		if n := size(filepath.Join(dir, FileName+"-wal")); n > mostLog {
			t.Errorf("round %d: a log of %d bytes", round, n)
		}
		reader.kill(t)
		if n := entriesOK(t, s); n != 220 {
			t.Errorf("round %d: %d entries", round, n)
		}
		mustClose(t, s)
	}
	drill.Tally(t, "D2-07", "written and copied while others read and copy", otherRounds, 0)
}

// reader is a child that reads in a transaction and holds it.
func reader(dir string) {
	db, err := openFile(context.Background(), filepath.Join(dir, FileName), readOnly)
	if err != nil {
		fmt.Println("failed", err)
		return
	}
	tx, err := db.BeginTx(context.Background(), nil)
	if err != nil {
		fmt.Println("failed", err)
		return
	}
	var n int
	if err := tx.QueryRow("SELECT count(*) FROM entry").Scan(&n); err != nil {
		fmt.Println("failed", err)
		return
	}
	fmt.Println("reading", n)
	_, _ = os.Stdin.Read(make([]byte, 1)) // ends with the parent at the latest
}

// TestProgramComesAnew (D2-12): opening, checking and closing by a program with
// another catalogue changes no row.
func TestProgramComesAnew(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s)
	before := dump(t, s.db)
	mustClose(t, s)
	for range 3 {
		s := open(t, dir)
		if got := dump(t, s.db); got != before {
			t.Fatalf("it is now\n%s\nand was\n%s", got, before)
		}
		mustClose(t, s)
	}
	drill.Tally(t, "D2-12", "starts that change no row", 3, 0)
}

// ofFirstSchema makes a database of the first schema with so many entries more.
func ofFirstSchema(t *testing.T, path string, many int) {
	t.Helper()
	db, err := sql.Open("sqlite3", fileURI(path)+"?mode=rwc")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec(string(readFile(t, filepath.Join(schemas, "0001.sql")))); err != nil {
		t.Fatal(err)
	}
	for _, q := range []string{
		"WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ?) INSERT INTO entry (id, tank, kind, at, zone, seq, note) " +
			"SELECT 'many-' || i, 't1', 'note', '2020-01-01T08:10', '+01:00', 1000 + i, 'clear water, day ' || i FROM n",
		"WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ?) INSERT INTO entry_value (entry, name, text, unit, qualifier) " +
			"SELECT 'many-' || i, 'temperature', '24.5', 'degc', '' FROM n",
	} {
		if _, err := db.Exec(q, many); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestUpgradeOfManyEntries (D2-14): a daybook of the first schema with many entries
// comes to this one with every row.
func TestUpgradeOfManyEntries(t *testing.T) {
	dir := t.TempDir()
	ofFirstSchema(t, filepath.Join(dir, FileName), manyEntries)
	began := time.Now()
	s := open(t, dir)
	t.Logf("%d entries upgraded in %v", manyEntries, time.Since(began).Round(time.Millisecond))
	r, err := s.Verify(t.Context())
	if err != nil || !r.OK() || r.Version != newest || r.Rows["entry"] != int64(manyEntries+3) || r.Rows["entry_value"] != int64(manyEntries+6) {
		t.Fatalf("%+v, %v", r, err)
	}
	if n := number0(t, s, "SELECT count(*) FROM entry_text WHERE entry_text MATCH 'clear'"); n != int64(manyEntries) {
		t.Errorf("%d entries are found by their words", n)
	}
	drill.Tally(t, "D2-14", "entries brought to the present schema", manyEntries, 0)
}

// walkStep makes the i-th step of a random walk: an entry more, an edit, a deletion,
// an undo or a redo, chosen by seed and number alone, so that it can be made again.
func walkStep(s *Store, seed uint64, i int) error {
	ctx, r := context.Background(), rand.New(rand.NewPCG(seed, uint64(i)))
	rows, err := s.Load(ctx, "entry", map[string]any{"tank": "t1", "deleted": nil}, "id")
	if err != nil {
		return err
	}
	at := fixedNow().Add(time.Duration(i) * time.Minute).Format(time.RFC3339)
	edit := func(column, value string) error {
		row := rows[r.IntN(len(rows))]
		return s.Apply(ctx, Change{Tank: "t1", Label: "walk", At: at, Ops: []Op{{Table: "entry",
			Before: Row{"id": row["id"], column: row[column]}, After: Row{"id": row["id"], column: value}}}})
	}
	switch n := r.IntN(10); {
	case n < 3 || len(rows) == 0 && n < 6:
		return s.Apply(ctx, entryChange("t1", 10_000+i))
	case n < 5:
		return edit("note", fmt.Sprint("note ", i))
	case n < 6:
		return edit("deleted", at)
	case n < 8:
		_, err = s.Undo(ctx, "t1")
	default:
		_, err = s.Redo(ctx, "t1")
	}
	if err == ErrNothing {
		return nil
	}
	return err
}

// walker is a child that walks from a step on and says each step it has made.
func walker(dir, task string) {
	var seed uint64
	var from int
	if _, err := fmt.Sscanf(task, "%d %d", &seed, &from); err != nil {
		fmt.Println("failed", err)
		return
	}
	s, err := Open(context.Background(), dir, options)
	if err != nil {
		fmt.Println("failed", err)
		return
	}
	fmt.Println("open")
	for i := from; ; i++ {
		if err := walkStep(s, seed, i); err != nil {
			fmt.Println("failed", err)
			return
		}
		fmt.Println("ack", i)
	}
}

// TestWalkWithCrashes (D2-51): a walk of edits, deletions, undos and redos that is
// killed again and again is, after each kill, the same walk made without one.
func TestWalkWithCrashes(t *testing.T) {
	kills := 0
	for walk := range crashWalks {
		dir, refDir := t.TempDir(), t.TempDir()
		for _, d := range []string{dir, refDir} {
			s := open(t, d)
			c := change("t1", Op{Table: "tank", After: tankRow("t1")})
			c.Silent = true // no step of the walk takes the tank away
			if err := s.Apply(t.Context(), c); err != nil {
				t.Fatal(err)
			}
			mustClose(t, s)
		}
		ref := open(t, refDir)
		random := rand.New(rand.NewPCG(uint64(walk), 99))
		done := 0 // steps that the reference has made
		for done < crashSteps {
			t.Setenv(childTo, fmt.Sprintf("%d %d", walk, done+1))
			p := start(t, "walk", dir)
			if said := p.line(); said != "open" {
				t.Fatalf("walk %d: child said %q", walk, said)
			}
			time.Sleep(time.Duration(5+random.IntN(60)) * time.Millisecond)
			acked := max(p.kill(t), done)
			kills++
			s := open(t, dir)
			got := dump(t, s.db)
			mustClose(t, s)
			for ; done < acked; done++ {
				if err := walkStep(ref, uint64(walk), done+1); err != nil {
					t.Fatal(err)
				}
			}
			if got == dump(t, ref.db) {
				continue
			}
			// The step under way may have become durable before it was told.
			done++
			if err := walkStep(ref, uint64(walk), done); err != nil {
				t.Fatal(err)
			}
			if got != dump(t, ref.db) {
				t.Fatalf("walk %d: after the kill at step %d it is no step of the walk", walk, acked)
			}
		}
		mustClose(t, ref)
	}
	drill.Tally(t, "D2-51", fmt.Sprintf("walks of %d steps, killed %d times", crashSteps, kills), crashWalks, 0)
}

// drillChild is what children of the drills in this file do.
func drillChild(mode, dir string) bool {
	switch mode {
	case "reader":
		reader(dir)
	case "walk":
		walker(dir, os.Getenv(childTo))
	default:
		return false
	}
	return true
}
