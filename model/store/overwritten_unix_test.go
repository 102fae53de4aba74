//go:build unix

package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"example.org/driploop/model/drill"
)

// over lets another program write a whole file over the database, which keeps its
// name and its place on the disk. cp(1) opens an existing target and writes into it.
func over(t *testing.T, dir, file string) {
	t.Helper()
	path := filepath.Join(dir, FileName)
	before, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("cp", file, path).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	if after, err := os.Stat(path); err != nil || !os.SameFile(before, after) {
		t.Fatalf("it was replaced and not written over: %v", err)
	}
}

// wantOverwritten wants a change refused, and said.
func wantOverwritten(t *testing.T, s *Store) {
	t.Helper()
	var oe *OpError
	if err := s.Apply(t.Context(), entryChange("t1", 999)); !errors.As(err, &oe) || oe.Code != CodeGone || oe.Reason != ReasonOverwritten || oe.Path != s.path {
		t.Errorf("a change: %v", err)
	}
	if gone := s.Gone(); gone == nil || gone.Reason != ReasonOverwritten {
		t.Errorf("Gone says %v", gone)
	}
	if _, err := s.Snapshot(t.Context()); opCode(err) != CodeGone {
		t.Errorf("a snapshot: %v", err)
	}
	if _, err := s.Daily(t.Context()); opCode(err) != CodeGone {
		t.Errorf("a daily copy: %v", err)
	}
	if path, err := s.PutBack(t.Context()); err == nil || path != "" {
		t.Errorf("what may be of either file was put back: %q, %v", path, err)
	}
}

// dumpOf is what a file holds.
func dumpOf(t *testing.T, file string) string {
	t.Helper()
	db, err := openFile(t.Context(), file, asIs)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	return dump(t, db)
}

// overs are the states of a daybook in which a file may be written over it.
var overs = []struct {
	name string
	do   func(t *testing.T, s *Store)
}{
	{"just opened", func(*testing.T, *Store) {}},
	{"looked at", func(t *testing.T, s *Store) {
		if gone := s.Gone(); gone != nil {
			t.Fatal(gone)
		}
	}},
	{"with changes in the log", func(t *testing.T, s *Store) {
		for n := range 20 {
			if err := s.Apply(t.Context(), entryChange("t1", 100+n)); err != nil {
				t.Fatal(err)
			}
		}
	}},
	{"after the log was brought in", func(t *testing.T, s *Store) {
		if _, err := s.db.Exec("PRAGMA wal_autocheckpoint=10"); err != nil {
			t.Fatal(err)
		}
		for n := range 40 {
			if err := s.Apply(t.Context(), entryChange("t1", 100+n)); err != nil {
				t.Fatal(err)
			}
		}
	}},
}

// A file that another program wrote over the open database (D2-05, D2-07) is missed
// before the next change. One can go on with it as it stands: nothing of what was here
// gets into it, and what stood there before is set aside with the log.
func TestWrittenOverAndTaken(t *testing.T) {
	other := aSoundOther(t)
	theirs := dumpOf(t, other)
	for _, o := range overs {
		t.Run(o.name, func(t *testing.T) {
			dir := t.TempDir()
			s := open(t, dir)
			fill(t, s)
			o.do(t, s)
			over(t, dir, other)
			wantOverwritten(t, s)
			aside, err := s.TakeThere(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			if got := dump(t, s.db); got != theirs {
				t.Errorf("it holds\n%s\nand the file held\n%s", got, theirs)
			}
			if got := dumpOf(t, filepath.Join(aside, FileName)); got != theirs {
				t.Error("what was set aside is not what stood there")
			}
			if gone := s.Gone(); gone != nil {
				t.Errorf("still %v", gone)
			}
			addTank(t, s, "after")
			want := dump(t, s.db)
			mustClose(t, s)
			s = open(t, dir)
			if got := dump(t, s.db); got != want {
				t.Errorf("opened anew, it holds\n%s\nand held\n%s", got, want)
			}
			if r, err := s.Verify(t.Context()); err != nil || !r.OK() {
				t.Errorf("%+v, %v", r, err)
			}
		})
	}
	drill.Tally(t, "D2-07", "files written over the open daybook, missed before the next change", len(overs), 0)
}

// Or one goes back to a copy, whatever was written over the daybook.
func TestWrittenOverAndBack(t *testing.T) {
	other := aSoundOther(t)
	bad := filepath.Join(t.TempDir(), "text")
	if err := os.WriteFile(bad, bytes.Repeat([]byte("not a database "), 3000), 0o600); err != nil {
		t.Fatal(err)
	}
	half := filepath.Join(t.TempDir(), "half")
	if b := readFile(t, other); os.WriteFile(half, b[:len(b)/2], 0o600) != nil {
		t.Fatal("half a file")
	}
	for name, file := range map[string]string{"another daybook": other, "a text": bad, "half a daybook": half, "nothing": os.DevNull} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			s := open(t, dir)
			fill(t, s)
			before := dump(t, s.db)
			copied, err := s.Snapshot(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			addTank(t, s, "later")
			over(t, dir, file)
			wantOverwritten(t, s)
			if file != other {
				if aside, err := s.TakeThere(t.Context()); err == nil || aside != "" {
					t.Fatalf("taken as a daybook: %q, %v", aside, err)
				}
				wantOverwritten(t, s)
			}
			if _, err := s.GoBack(t.Context(), copied, Options{Now: fixedNow}); err != nil {
				t.Fatal(err)
			}
			if got := dump(t, s.db); got != before {
				t.Errorf("it holds\n%s\nand the copy held\n%s", got, before)
			}
			addTank(t, s, "after")
			mustClose(t, s)
			s = open(t, dir)
			if r, err := s.Verify(t.Context()); err != nil || !r.OK() {
				t.Errorf("%+v, %v", r, err)
			}
			aside, err := Aside(dir)
			if err != nil || len(aside) != 1 || !bytes.Equal(readFile(t, aside[0].Path), readFile(t, file)) {
				t.Errorf("set aside: %v, %v", aside, err)
			}
		})
	}
}

// Closed as it is, the file that was written over the daybook is left byte for byte,
// with no log beside it that would be played into it.
func TestWrittenOverAndClosed(t *testing.T) {
	other := aSoundOther(t)
	for _, o := range overs {
		t.Run(o.name, func(t *testing.T) {
			dir := t.TempDir()
			s := open(t, dir)
			fill(t, s)
			o.do(t, s)
			over(t, dir, other)
			mustClose(t, s)
			if !bytes.Equal(readFile(t, filepath.Join(dir, FileName)), readFile(t, other)) {
				t.Error("closing wrote into the file of the other program")
			}
			for _, suffix := range []string{"-wal", "-shm"} {
				if _, err := os.Lstat(filepath.Join(dir, FileName+suffix)); !errors.Is(err, os.ErrNotExist) {
					t.Errorf("%s: %v", suffix, err)
				}
			}
			s = open(t, dir)
			if r, err := s.Verify(t.Context()); err != nil || !r.OK() {
				t.Errorf("%+v, %v", r, err)
			}
		})
	}
}

// What a connection writes when it is closed is the daybook's own, and database/sql
// closes one in the background when a context ends within a transaction.
func TestOwnClosingIsNotBlamed(t *testing.T) {
	s := open(t, t.TempDir())
	fill(t, s)
	seen, done := make(chan *OpError, 1), make(chan struct{})
	go func() { // as the window looks
		defer close(seen)
		for {
			select {
			case <-done:
				return
			default:
				if gone := s.Gone(); gone != nil {
					seen <- gone
					return
				}
			}
		}
	}()
	for n := range 100 {
		if err := s.Apply(t.Context(), entryChange("t1", 400+n)); err != nil {
			t.Fatal(n, err)
		}
		ctx, cancel := context.WithCancel(t.Context())
		err := s.write(ctx, "test", func(tx *sql.Tx) error {
			_, err := tx.ExecContext(ctx, "DELETE FROM undo WHERE seq < 0")
			cancel()
			return err
		})
		if err == nil {
			t.Fatal("a transaction whose context ended was kept")
		}
	}
	close(done)
	if gone := <-seen; gone != nil {
		t.Error(gone)
	}
}

// A connection that is closed by itself takes no file of another program for its own.
func TestClosingHidesNoOther(t *testing.T) {
	other, dir := aSoundOther(t), t.TempDir()
	s := open(t, dir)
	fill(t, s)
	ctx, cancel := context.WithCancel(t.Context())
	err := s.write(ctx, "test", func(*sql.Tx) error {
		over(t, dir, other)
		cancel()
		for n := s.link.turns.Load(); s.link.turns.Load() == n; { // until it is being closed
			time.Sleep(time.Millisecond)
		}
		return ctx.Err()
	})
	if err == nil {
		t.Fatal("a transaction whose context ended was kept")
	}
	wantOverwritten(t, s)
}

// A file whose time was changed and that holds what it held is the same file, and so
// is one that the daybook itself wrote, however often.
func TestOnlyTouched(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s)
	path := filepath.Join(dir, FileName)
	for n := range 5 {
		if gone := s.Gone(); gone != nil {
			t.Fatal(gone)
		}
		at := time.Date(2020, 1, n+1, 0, 0, 0, 0, time.UTC)
		if err := os.Chtimes(path, at, at); err != nil {
			t.Fatal(err)
		}
		if err := s.Apply(t.Context(), entryChange("t1", 100+n)); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := s.db.Exec("PRAGMA wal_autocheckpoint=1"); err != nil {
		t.Fatal(err)
	}
	for n := range 50 {
		if err := s.Apply(t.Context(), entryChange("t1", 200+n)); err != nil {
			t.Fatal(err)
		}
		if n%7 == 0 {
			if gone := s.Gone(); gone != nil {
				t.Fatal(gone)
			}
		}
	}
	// A system that keeps times late changes one before the whole file was ever read.
	was := sumAtOnce
	sumAtOnce = 0
	defer func() { sumAtOnce = was }()
	for n := range 5 {
		if err := s.Apply(t.Context(), entryChange("t1", 300+n)); err != nil { // into the file at once
			t.Fatal(err)
		}
		at := time.Date(2021, 1, n+1, 0, 0, 0, 0, time.UTC)
		if err := os.Chtimes(path, at, at); err != nil {
			t.Fatal(err)
		}
	}
	back, err := s.Snapshot(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	addTank(t, s, "t9")
	if _, err := s.GoBack(t.Context(), back, Options{Now: fixedNow}); err != nil {
		t.Fatal(err)
	}
	addTank(t, s, "t9")
	if gone := s.Gone(); gone != nil {
		t.Fatal(gone)
	}
}
