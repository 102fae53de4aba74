package store

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func change(tank string, ops ...Op) Change {
	return Change{Tank: tank, Label: "changed", At: "2026-11-25T07:10:00Z", Ops: ops}
}

// with gives a copy of a row with one value set.
func with(r Row, name string, v any) Row {
	out := copyRow(r)
	out[name] = v
	return out
}

// TestRefused: what a statement cannot be made from is refused by table, column
// and reason, and nothing is written.
func TestRefused(t *testing.T) {
	s := open(t, t.TempDir())
	addTank(t, s, "t1")
	row := tankRow("t1")
	cases := []struct {
		name           string
		op             Op
		column, reason string
	}{
		{"no such table", Op{Table: "tank; DROP TABLE tank", After: Row{}}, "", ReasonTable},
		{"settings", Op{Table: "setting", After: Row{"name": "a", "value": "b"}}, "", ReasonTable},
		{"history", Op{Table: "undo", Before: Row{"seq": int64(1)}}, "", ReasonTable},
		{"schema", Op{Table: "sqlite_schema", Before: Row{"name": "tank"}}, "", ReasonTable},
		{"no such column", Op{Table: "tank", After: with(row, "name = 'x' --", "y")}, "name = 'x' --", ReasonColumn},
		{"float", Op{Table: "tank", After: with(row, "name", 1.5)}, "name", ReasonType},
		{"whole number in a text", Op{Table: "tank", After: with(row, "name", int64(1))}, "name", ReasonType},
		{"text in a whole number", Op{Table: "entry", After: Row{"seq": "1"}}, "seq", ReasonType},
		{"int", Op{Table: "entry", After: Row{"seq": 1}}, "seq", ReasonType},
		{"zero byte", Op{Table: "tank", After: with(row, "name", "a\x00b")}, "name", ReasonText},
		{"not UTF-8", Op{Table: "tank", After: with(row, "name", "a\xffb")}, "name", ReasonText},
		{"too long", Op{Table: "tank", After: with(row, "name", strings.Repeat("a", MaxText+1))}, "name", ReasonLong},
		{"NULL in a required column", Op{Table: "tank", After: with(row, "name", nil)}, "name", ReasonMissing},
		{"required column left out", Op{Table: "tank", After: Row{"id": "t2", "name": "x", "origin": "own"}}, "created", ReasonMissing},
		{"update without key", Op{Table: "tank", Before: Row{"name": "Tank t1"}, After: Row{"name": "x"}}, "id", ReasonMissing},
		{"update of the key", Op{Table: "tank", Before: Row{"id": "t1", "name": "Tank t1"}, After: Row{"id": "t2"}}, "id", ReasonKey},
		{"update of what was not read", Op{Table: "tank", Before: Row{"id": "t1"}, After: Row{"name": "x"}}, "name", ReasonNoBefore},
		{"update of nothing", Op{Table: "tank", Before: Row{"id": "t1"}, After: Row{"id": "t1"}}, "", ReasonEmpty},
		{"delete of part of a row", Op{Table: "tank", Before: Row{"id": "t1"}}, "name", ReasonMissing},
		{"neither before nor after", Op{Table: "tank"}, "", ReasonEmpty},
	}
	before := dump(t, s.db)
	for _, c := range cases {
		err := s.Apply(context.Background(), change("t1", c.op))
		var oe *OpError
		if !errors.As(err, &oe) || oe.Code != CodeRefused || oe.Reason != c.reason || oe.Column != c.column {
			t.Errorf("%s: got %v, want %s %s %s", c.name, err, CodeRefused, c.reason, c.column)
		}
	}
	var oe *OpError
	if err := s.Apply(context.Background(), change("t1")); !errors.As(err, &oe) || oe.Reason != ReasonEmpty {
		t.Errorf("no ops: %v", err)
	}
	if err := s.Apply(context.Background(), Change{Label: "\xff", Ops: []Op{{Table: "tank", After: tankRow("t3")}}}); !errors.As(err, &oe) || oe.Reason != ReasonText {
		t.Errorf("label: %v", err)
	}
	if after := dump(t, s.db); after != before {
		t.Errorf("refused changes left something:\n%s", after)
	}
	if err := s.Apply(context.Background(), change("t1", Op{Table: "tank", After: with(tankRow("t4"), "name", strings.Repeat("a", MaxText))})); err != nil {
		t.Errorf("longest text: %v", err)
	}
}

// TestConstraints: what the schema forbids is a typed error, and undoes the ops
// before it.
func TestConstraints(t *testing.T) {
	s := open(t, t.TempDir())
	addTank(t, s, "t1")
	entry := entryChange("t1", 1).Ops[0].After
	value := entryChange("t1", 1).Ops[1].After
	cases := []struct {
		name string
		op   Op
	}{
		{"no such tank", Op{Table: "entry", After: with(entry, "tank", "t9")}},
		{"no such entry", Op{Table: "entry_value", After: value}},
		{"origin", Op{Table: "tank", After: with(tankRow("t2"), "origin", "stolen")}},
		{"qualifier", Op{Table: "entry_value", After: with(value, "qualifier", "maybe")}},
		{"date-time", Op{Table: "entry", After: with(entry, "at", "25.11.2026")}},
		{"zone", Op{Table: "entry", After: with(entry, "zone", "CET")}},
		{"basis that is no JSON", Op{Table: "done", After: Row{"tank": "t1", "step": "s", "at": "x", "basis": "{"}}},
		{"time counted below zero", Op{Table: "timer", After: Row{"id": "w", "tank": "t1", "kind": "k", "started": "x", "elapsed_ms": int64(-1), "last_seen": "x"}}},
	}
	before := dump(t, s.db)
	for _, c := range cases {
		err := s.Apply(context.Background(), change("t1", Op{Table: "tank", After: tankRow("t5")}, c.op))
		var oe *OpError
		if !errors.As(err, &oe) || oe.Code != CodeConstraint || oe.Table != c.op.Table {
			t.Errorf("%s: got %v, want %s in %s", c.name, err, CodeConstraint, c.op.Table)
		}
	}
	if after := dump(t, s.db); after != before {
		t.Errorf("something was left:\n%s", after)
	}
}

// TestConflict: a row that is not as it was read is not overwritten.
func TestConflict(t *testing.T) {
	s := open(t, t.TempDir())
	addTank(t, s, "t1")
	row := tankRow("t1")
	if err := s.Apply(context.Background(), change("t1", Op{Table: "tank", Before: row, After: Row{"name": "First"}})); err != nil {
		t.Fatal(err)
	}
	first := with(row, "name", "First")
	before := dump(t, s.db)
	cases := []struct {
		name  string
		op    Op
		found Row
	}{
		{"lost update", Op{Table: "tank", Before: row, After: Row{"name": "Second"}}, first},
		{"update where a value was", Op{Table: "tank", Before: Row{"id": "t1", "retired": "2026"}, After: Row{"retired": nil}}, first},
		{"delete", Op{Table: "tank", Before: row}, first},
		{"insert", Op{Table: "tank", After: row}, first},
		{"update of what is gone", Op{Table: "tank", Before: tankRow("t9"), After: Row{"name": "x"}}, nil},
		{"delete of what is gone", Op{Table: "tank", Before: tankRow("t9")}, nil},
	}
	for _, c := range cases {
		err := s.Apply(context.Background(), change("t1", Op{Table: "tank", After: tankRow("t5")}, c.op))
		var ce *ConflictError
		if !errors.As(err, &ce) {
			t.Errorf("%s: got %v, want a conflict", c.name, err)
			continue
		}
		if ce.Table != "tank" || !maps.Equal(ce.Found, c.found) || !maps.Equal(ce.Expected, c.op.Before) || len(ce.Key) != 1 {
			t.Errorf("%s: %+v", c.name, ce)
		}
	}
	if after := dump(t, s.db); after != before {
		t.Errorf("a conflict left something:\n%s", after)
	}
	// NULL before is compared as NULL.
	if err := s.Apply(context.Background(), change("t1", Op{Table: "tank", Before: Row{"id": "t1", "retired": nil}, After: Row{"retired": "2026-12-01"}})); err != nil {
		t.Error(err)
	}
}

func TestInsertionOrder(t *testing.T) {
	s := open(t, t.TempDir())
	addTank(t, s, "t1")
	ctx := context.Background()
	// Three entries of one minute, the wall clock set back between them.
	for i, at := range []string{"2026-10-25T02:30", "2026-10-25T02:30", "2026-10-25T01:59"} {
		e := Row{"id": fmt.Sprint("z", 9-i), "tank": "t1", "kind": "note", "at": at, "zone": "+01:00"}
		if err := s.Apply(ctx, change("t1", Op{Table: "entry", After: e})); err != nil {
			t.Fatal(err)
		}
		if _, given := e["seq"]; given {
			t.Error("the caller's row was changed")
		}
	}
	for order, want := range map[string]string{"seq": "z9 z8 z7", "at, seq": "z7 z9 z8", "at desc, seq desc": "z8 z9 z7", " seq  desc ": "z7 z8 z9"} {
		rows, err := s.Load(ctx, "entry", map[string]any{"tank": "t1", "deleted": nil}, order)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, r := range rows {
			got = append(got, r["id"].(string))
		}
		if strings.Join(got, " ") != want {
			t.Errorf("order %q: %v, want %s", order, got, want)
		}
	}
	for _, c := range []struct {
		table, order string
		where        map[string]any
		reason       string
	}{
		{"undo", "", nil, ReasonTable}, {"entry", "at; DROP TABLE entry", nil, ReasonColumn}, {"entry", "at,", nil, ReasonColumn},
		{"entry", "at asc desc", nil, ReasonColumn}, {"entry", "", map[string]any{"1=1 OR id": "x"}, ReasonColumn},
		{"entry", "", map[string]any{"seq": "x"}, ReasonType}, {"entry", "", map[string]any{"id": []byte("x")}, ReasonType},
	} {
		_, err := s.Load(ctx, c.table, c.where, c.order)
		var oe *OpError
		if !errors.As(err, &oe) || oe.Code != CodeRefused || oe.Reason != c.reason {
			t.Errorf("load %v: %v", c, err)
		}
	}
}

func TestSettings(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	ctx := context.Background()
	if _, ok, err := s.Setting(ctx, "language"); ok || err != nil {
		t.Errorf("unset: %v, %v", ok, err)
	}
	for _, v := range []string{"de", "", "日本語'; DROP TABLE setting; --"} {
		if err := s.SetSetting(ctx, "language", v); err != nil {
			t.Fatal(err)
		}
		if got, ok, err := s.Setting(ctx, "language"); got != v || !ok || err != nil {
			t.Errorf("got %q, %v, %v, want %q", got, ok, err, v)
		}
	}
	for name, v := range map[string]string{"": "x", "a": "\xff", "b\x00": "x"} {
		var oe *OpError
		if err := s.SetSetting(ctx, name, v); !errors.As(err, &oe) || oe.Code != CodeRefused {
			t.Errorf("%q=%q: %v", name, v, err)
		}
	}
	mustClose(t, s)
	s = open(t, dir)
	if got, _, _ := s.Setting(ctx, "language"); got != "日本語'; DROP TABLE setting; --" {
		t.Errorf("after reopening: %q", got)
	}
}

// TestDiskFull (part of D2-04): a change that does not fit is refused whole, the
// rest stays, and writing goes on once there is room.
func TestDiskFull(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	addTank(t, s, "t1")
	ctx := context.Background()
	pages, err := number(ctx, s.db, "PRAGMA page_count")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.db.Exec(fmt.Sprintf("PRAGMA max_page_count=%d", pages+10)); err != nil {
		t.Fatal(err)
	}
	n := 1
	for ; ; n++ {
		err := s.Apply(ctx, entryChange("t1", n))
		if err == nil {
			continue
		}
		var oe *OpError
		if !errors.As(err, &oe) || oe.Code != CodeNoSpace {
			t.Fatalf("entry %d: got %v, want %s", n, err, CodeNoSpace)
		}
		break
	}
	if n < 5 {
		t.Fatalf("only %d entries fitted", n-1)
	}
	if have := entriesOK(t, s); have != n-1 {
		t.Errorf("%d entries, want %d", have, n-1)
	}
	if _, err := s.db.Exec("PRAGMA max_page_count=1000000"); err != nil {
		t.Fatal(err)
	}
	if err := s.Apply(ctx, entryChange("t1", n)); err != nil {
		t.Errorf("with room again: %v", err)
	}
	mustClose(t, s)
	if have := entriesOK(t, open(t, dir)); have != n {
		t.Errorf("%d entries after reopening, want %d", have, n)
	}
}

// TestCancelled: a context that has ended changes nothing and harms no later
// change.
func TestCancelled(t *testing.T) {
	s := open(t, t.TempDir())
	addTank(t, s, "t1")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var oe *OpError
	if err := s.Apply(ctx, entryChange("t1", 1)); !errors.As(err, &oe) || oe.Code != CodeCancelled {
		t.Errorf("got %v, want %s", err, CodeCancelled)
	}
	for n := range 30 { // end it somewhere inside
		ctx, cancel := context.WithTimeout(context.Background(), time.Duration(n*20)*time.Microsecond)
		_ = s.Apply(ctx, change("t1", Op{Table: "tank", After: tankRow(fmt.Sprint("c", n))}))
		cancel()
	}
	if err := s.Apply(context.Background(), entryChange("t1", 1)); err != nil {
		t.Error(err)
	}
	if n := entriesOK(t, s); n != 1 {
		t.Errorf("%d entries, want 1", n)
	}
	var level string
	if err := s.db.QueryRow("PRAGMA synchronous").Scan(&level); err != nil || level != "2" {
		t.Errorf("synchronous %q, %v", level, err)
	}
}

// TestBusy: another program that holds the file for writing is waited for, then
// named as the cause.
func TestBusy(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	addTank(t, s, "t1")
	other, err := openFile(context.Background(), filepath.Join(dir, FileName), readWrite)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	if _, err := s.db.Exec("PRAGMA busy_timeout=50"); err != nil {
		t.Fatal(err)
	}
	if _, err := other.Exec("BEGIN IMMEDIATE"); err != nil {
		t.Fatal(err)
	}
	var oe *OpError
	if err := s.Apply(context.Background(), entryChange("t1", 1)); !errors.As(err, &oe) || oe.Code != CodeBusy {
		t.Errorf("got %v, want %s", err, CodeBusy)
	}
	if _, err := other.Exec("ROLLBACK"); err != nil {
		t.Fatal(err)
	}
	if err := s.Apply(context.Background(), entryChange("t1", 1)); err != nil {
		t.Error(err)
	}
}
