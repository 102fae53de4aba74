package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"example.org/driploop/model/drill"
)

var update = flag.Bool("update", false, "write the dump of the newest schema, before its release")

const schemas = "../../testdata/schemas"

// newest is the version of the built-in schema.
const newest = 6

// second is a later migration as a release could bring one.
var second = `-- +goose Up
CREATE TABLE later (id TEXT NOT NULL PRIMARY KEY) STRICT;
INSERT INTO later SELECT id FROM entry;
ALTER TABLE tank ADD COLUMN remark TEXT;
PRAGMA user_version = ` + fmt.Sprint(newest+1) + `;
`

// withSecond gives the built-in migrations and one more.
func withSecond() fs.FS { return withNext(second) }

func withNext(next string) fs.FS {
	all := fstest.MapFS{}
	names, err := embedded.ReadDir("migrations")
	if err != nil {
		panic(err)
	}
	for _, n := range names {
		data, err := embedded.ReadFile("migrations/" + n.Name())
		if err != nil {
			panic(err)
		}
		all[n.Name()] = &fstest.MapFile{Data: data}
	}
	all[fmt.Sprintf("%04d_next.sql", len(names)+1)] = &fstest.MapFile{Data: []byte(next)}
	return all
}

// ours leaves out what SQLite keeps for itself and for the search index, whose
// triggers fill it again as the rows go in.
const ours = `name NOT LIKE 'sqlite\_%' ESCAPE '\' AND name NOT LIKE 'entry\_text\_%' ESCAPE '\'`

// dump writes a database as SQL: mark, version, schema and rows, in a fixed order.
func dump(t testing.TB, db *sql.DB) string {
	t.Helper()
	ctx := context.Background()
	var b strings.Builder
	for _, p := range []string{"application_id", "user_version"} {
		n, err := number(ctx, db, "PRAGMA "+p)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "PRAGMA %s = %d;\n", p, n)
	}
	schema, err := lines(ctx, db, "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL AND "+ours+" ORDER BY type DESC, name")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range schema {
		if !strings.HasPrefix(s, "CREATE TRIGGER") {
			b.WriteString(s + ";\n")
		}
	}
	triggers, err := lines(ctx, db, "SELECT sql FROM sqlite_schema WHERE type = 'trigger' ORDER BY name")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range triggers {
		b.WriteString(s + ";\n")
	}
	names, err := lines(ctx, db, "SELECT name FROM sqlite_schema WHERE type = 'table' AND "+ours+" AND name <> 'entry_text' ORDER BY name")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		cols, err := lines(ctx, db, "SELECT group_concat('quote(' || iif(name = 'tstamp', '''2026-11-25 08:10:00''', name) || ')', '||'', ''||') FROM pragma_table_info('"+name+"')")
		if err != nil {
			t.Fatal(err)
		}
		rows, err := lines(ctx, db, "SELECT "+cols[0]+" FROM "+name+" ORDER BY 1")
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			fmt.Fprintf(&b, "INSERT INTO %s VALUES (%s);\n", name, r)
		}
	}
	return b.String()
}

// fill puts a row or more into every table.
func fill(t testing.TB, s *Store) {
	t.Helper()
	addTank(t, s, "t1")
	const at = "2026-11-25T07:10:00Z"
	change := Change{Tank: "t1", Label: "set", Values: map[string]string{"name": "O'Brien é 水"}, At: at, Ops: []Op{
		{Table: "answer", After: Row{"tank": "t1", "field": "length", "kind": "number", "text": "60,5", "unit": "cm", "origin": "person", "at": at}},
		{Table: "answer", After: Row{"tank": "t1", "field": "place", "kind": "choice", "text": "floor", "origin": "profile", "at": at}},
		{Table: "done", After: Row{"tank": "t1", "step": "place", "at": at, "basis": `{"place":"floor"}`}},
		{Table: "ack", After: Row{"id": "a1", "tank": "t1", "step": "place", "note": "load", "lang": "de", "shown": "Ein Satz.", "source_hash": "ab12", "at": at}},
		{Table: "timer", After: Row{"id": "w1", "tank": "t1", "kind": "acclimate", "started": at, "elapsed_ms": int64(90_000), "last_seen": at}},
	}}
	if err := s.Apply(context.Background(), change); err != nil {
		t.Fatal(err)
	}
	for n := range 3 {
		if err := s.Apply(context.Background(), entryChange("t1", n+1)); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.SetSetting(context.Background(), "language", "de"); err != nil {
		t.Fatal(err)
	}
}

// TestReleasedSchemas (D2-10): every schema that ever was is kept as a dump, is
// what its migrations still make, and opens with today's program.
func TestReleasedSchemas(t *testing.T) {
	m, err := readMigrations(nil)
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		s := open(t, t.TempDir())
		fill(t, s)
		writeFile(t, filepath.Join(schemas, fmt.Sprintf("%04d.sql", m.latest)), []byte(dump(t, s.db)))
	}
	for v := 1; v <= m.latest; v++ {
		data := readFile(t, filepath.Join(schemas, fmt.Sprintf("%04d.sql", v)))
		dir := t.TempDir()
		db, err := sql.Open("sqlite3", fileURI(filepath.Join(dir, FileName))+"?mode=rwc")
		if err != nil {
			t.Fatal(err)
		}
		if _, err := db.Exec(string(data)); err != nil {
			t.Fatal(err)
		}
		// What is read back is the dump itself, or the dump tells too little.
		if got := dump(t, db); got != string(data) {
			t.Errorf("schema %d: dump differs after reading it back:\n%s", v, got)
		}
		_ = db.Close()
		s := open(t, dir)
		r, err := s.Verify(t.Context())
		if err != nil || !r.OK() || r.Version != m.latest {
			t.Fatalf("schema %d: %+v, %v", v, r, err)
		}
		for table, n := range map[string]int64{"tank": 1, "answer": 2, "done": 1, "ack": 1, "entry": 3, "entry_value": 6, "timer": 1, "setting": 1} {
			if r.Rows[table] != n {
				t.Errorf("schema %d: %d rows in %s, want %d", v, r.Rows[table], table, n)
			}
		}
		if v == m.latest {
			fresh := open(t, t.TempDir())
			fill(t, fresh)
			if got := dump(t, fresh.db); got != string(data) {
				t.Errorf("schema %d: the migrations make something else now:\n%s\nkept:\n%s", v, got, data)
			}
		}
		mustClose(t, s)
	}
	drill.Tally(t, "D2-10", "schemas ever released, upgraded", m.latest, 0)
}

// TestWhitelistIsTheSchema holds tables.go against the migrations.
func TestWhitelistIsTheSchema(t *testing.T) {
	s := open(t, t.TempDir())
	checked := 0
	for _, tb := range tables {
		rows, err := s.db.Query("SELECT name, type, \"notnull\", pk FROM pragma_table_info(?) ORDER BY cid", tb.name)
		if err != nil {
			t.Fatal(err)
		}
		i := 0
		for rows.Next() {
			var name, kind string
			var notNull, pk int
			if err := rows.Scan(&name, &kind, &notNull, &pk); err != nil {
				t.Fatal(err)
			}
			if i >= len(tb.columns) {
				t.Fatalf("%s.%s is not listed", tb.name, name)
			}
			c := tb.columns[i]
			if c.name != name || string(c.kind) != kind || c.required != (notNull == 1) || c.key != (pk > 0) {
				t.Errorf("%s: schema has %s %s notnull %d pk %d, list has %+v", tb.name, name, kind, notNull, pk, c)
			}
			i++
			checked++
		}
		if i != len(tb.columns) {
			t.Errorf("%s: %d columns in the schema, %d listed", tb.name, i, len(tb.columns))
		}
		_ = rows.Close()
	}
	if checked != 225 {
		t.Errorf("%d columns compared, want 225", checked)
	}
	strict, err := lines(t.Context(), s.db, "SELECT name FROM pragma_table_list WHERE schema = 'main' AND strict = 0 AND type = 'table' AND name NOT LIKE 'sqlite%'")
	if err != nil || len(strict) != 1 || strict[0] != stepTable {
		t.Errorf("not strict: %v (%v), want only %s", strict, err, stepTable)
	}
}

// TestUpgrade: a snapshot is there before the first statement, the rows are the
// same, and the history is cleared.
func TestUpgrade(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s)
	before := dump(t, s.db)
	mustClose(t, s)
	o := options
	o.migrations = withSecond()
	s, err := Open(t.Context(), dir, o)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	r, err := s.Verify(t.Context())
	if err != nil || !r.OK() || r.Version != newest+1 || r.Rows["later"] != 3 || r.Rows["entry"] != 3 || r.Rows["undo"] != 0 {
		t.Errorf("after the upgrade: %+v, %v", r, err)
	}
	if _, err := s.Undo(t.Context(), "t1"); !errors.Is(err, ErrNothing) {
		t.Errorf("undo across an upgrade: %v", err)
	}
	snaps, err := Snapshots(dir)
	if err != nil || len(snaps) != 1 || snaps[0].Version != newest || !snaps[0].At.Equal(fixedNow()) {
		t.Fatalf("snapshots: %+v, %v", snaps, err)
	}
	db, err := openFile(t.Context(), snaps[0].Path, asIs)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if got := dump(t, db); got != before {
		t.Errorf("snapshot:\n%s\nwant\n%s", got, before)
	}
}

// TestUpgradeThatFails leaves the old database, and says what failed.
func TestUpgradeThatFails(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s)
	mustClose(t, s)
	for _, next := range []string{
		"-- +goose Up\nCREATE TABLE later (x TEXT) STRICT;\nPRAGMA user_version = 5;\nINSERT INTO nowhere VALUES (1);\n",
		"-- +goose Up\nCREATE TABLE tank (x TEXT) STRICT;\n",
	} {
		o := options
		o.migrations = withNext(next)
		_, err := Open(t.Context(), dir, o)
		var oe *OpenError
		if !errors.As(err, &oe) || oe.Code != CodeMigration {
			t.Fatalf("got %v, want %s", err, CodeMigration)
		}
		s := open(t, dir)
		if r, err := s.Verify(t.Context()); err != nil || !r.OK() || r.Version != newest || r.Rows["entry"] != 3 || r.Rows["later"] != 0 {
			t.Errorf("after a failed upgrade: %+v, %v", r, err)
		}
		mustClose(t, s)
	}
	// A migration that forgets its version number is found out.
	o := options
	o.migrations = withNext("-- +goose Up\nCREATE TABLE later (x TEXT) STRICT;\n")
	_, err := Open(t.Context(), t.TempDir(), o)
	var oe *OpenError
	if !errors.As(err, &oe) || oe.Code != CodePragma || oe.Name != "user_version" {
		t.Errorf("got %v, want %s user_version", err, CodePragma)
	}
}

// TestNoUpgradeWithoutSnapshot: when the copy cannot be made nothing is upgraded.
func TestNoUpgradeWithoutSnapshot(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s)
	mustClose(t, s)
	writeFile(t, filepath.Join(dir, SnapshotFolder), []byte("a file in the way"))
	o := options
	o.migrations = withSecond()
	_, err := Open(t.Context(), dir, o)
	var oe *OpenError
	if !errors.As(err, &oe) {
		t.Fatalf("got %v", err)
	}
	s = open2(t, dir)
	if r, err := s.Verify(t.Context()); err != nil || r.Version != newest || r.Rows["undo"] == 0 {
		t.Errorf("%+v, %v", r, err)
	}
}

// open2 opens the folder once the file in the way is gone.
func open2(t testing.TB, dir string) *Store {
	t.Helper()
	if err := os.Remove(filepath.Join(dir, SnapshotFolder)); err != nil {
		t.Fatal(err)
	}
	return open(t, dir)
}

// TestKilledWhileUpgrading (D2-10): the upgrade goes on, or the old database is
// whole; its rows are the same either way.
func TestKilledWhileUpgrading(t *testing.T) {
	src, data := sound(t, 30)
	mustClose(t, open(t, src))
	random := rand.New(rand.NewPCG(9, 10))
	o := options
	o.migrations = withSecond()
	cut := 0
	for round := range upgradeKills {
		dir := filepath.Join(t.TempDir(), fmt.Sprint(round))
		if err := os.Mkdir(dir, 0o700); err != nil {
			t.Fatal(err)
		}
		writeFile(t, filepath.Join(dir, FileName), data)
		p := start(t, "upgrade", dir)
		time.Sleep(time.Duration(random.IntN(60_000)) * time.Microsecond)
		p.kill(t)
		if was, err := inspect(t.Context(), filepath.Join(dir, FileName)); err != nil {
			t.Fatalf("round %d: %v", round, err)
		} else if was.version == newest {
			cut++
		}
		s, err := Open(t.Context(), dir, o)
		if err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		r, err := s.Verify(t.Context())
		if err != nil || !r.OK() || r.Version != newest+1 || r.Rows["entry"] != 30 || r.Rows["later"] != 30 || r.Rows["entry_value"] != 60 {
			t.Errorf("round %d: %+v, %v", round, r, err)
		}
		mustClose(t, s)
		snaps, err := Snapshots(dir)
		if err != nil || len(snaps) == 0 || snaps[len(snaps)-1].Version != newest {
			t.Errorf("round %d: snapshots %+v, %v", round, snaps, err)
		}
	}
	drill.Tally(t, "D2-10", fmt.Sprintf("kills while upgrading, %d before it was through", cut), upgradeKills, 0)
}

// TestNothingOnStdout: a program that answers in JSON on stdout opens a store.
func TestNothingOnStdout(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	oldOut, oldErr := os.Stdout, os.Stderr
	os.Stdout, os.Stderr = w, w
	s, openErr := Open(context.Background(), t.TempDir(), options)
	os.Stdout, os.Stderr = oldOut, oldErr
	_ = w.Close()
	var said bytes.Buffer
	if _, err := said.ReadFrom(r); err != nil {
		t.Fatal(err)
	}
	if openErr != nil {
		t.Fatal(openErr)
	}
	mustClose(t, s)
	if said.Len() > 0 {
		t.Errorf("printed %q", said.String())
	}
}
