//go:build unix

package store

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/durable"
)

// away takes the database away from under a running program.
type away struct {
	name   string
	do     func(t *testing.T, dir string)
	reason string
	back   func(t *testing.T, dir string) // nil where it cannot be undone
}

func aways(other string) []away {
	rename := func(t *testing.T, from, to string) {
		t.Helper()
		if err := os.Rename(from, to); err != nil {
			t.Fatal(err)
		}
	}
	db := func(dir string) string { return filepath.Join(dir, FileName) }
	return []away{
		{"the file is deleted", func(t *testing.T, dir string) { remove(t, db(dir)) }, ReasonRemoved, nil},
		{"the file and its log are deleted", func(t *testing.T, dir string) {
			remove(t, db(dir))
			remove(t, db(dir)+"-wal")
			remove(t, db(dir)+"-shm")
		}, ReasonRemoved, nil},
		{"the folder is deleted", func(t *testing.T, dir string) {
			if err := os.RemoveAll(dir); err != nil {
				t.Fatal(err)
			}
		}, ReasonRemoved, nil},
		{"the file is moved", func(t *testing.T, dir string) { rename(t, db(dir), db(dir)+".mine") }, ReasonMoved,
			func(t *testing.T, dir string) { rename(t, db(dir)+".mine", db(dir)) }},
		{"the folder is moved", func(t *testing.T, dir string) { rename(t, dir, dir+" elsewhere") }, ReasonMoved,
			func(t *testing.T, dir string) { rename(t, dir+" elsewhere", dir) }},
		{"another file takes its place", func(t *testing.T, dir string) {
			if err := durable.WriteFile(db(dir), readFile(t, other), 0o600); err != nil {
				t.Fatal(err)
			}
		}, ReasonReplaced, nil},
		{"the log is deleted", func(t *testing.T, dir string) { remove(t, db(dir)+"-wal") }, ReasonRemoved, nil},
	}
}

func remove(t *testing.T, path string) {
	t.Helper()
	if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
}

// aSoundOther is a snapshot of another, smaller daybook.
func aSoundOther(t *testing.T) string {
	t.Helper()
	s := open(t, t.TempDir())
	addTank(t, s, "other")
	path, err := s.Snapshot(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// TestTakenAwayWhileOpen (D2-05): a change into a file that was taken away is
// refused and said; what is held is put back whole, with what can be undone, and
// nothing that stood there is deleted.
func TestTakenAwayWhileOpen(t *testing.T) {
	other := aSoundOther(t)
	for _, a := range aways(other) {
		t.Run(a.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "data")
			s := open(t, dir)
			fill(t, s)
			before := dump(t, s.db)
			if gone := s.Gone(); gone != nil {
				t.Fatal(gone)
			}
			a.do(t, dir)
			refused := func() {
				t.Helper()
				err := s.Apply(t.Context(), entryChange("t1", 999))
				var oe *OpError
				if !errors.As(err, &oe) || oe.Code != CodeGone || oe.Reason != a.reason || oe.Path == "" {
					t.Fatalf("a change: %v, want %s %s", err, CodeGone, a.reason)
				}
			}
			refused()
			if gone := s.Gone(); gone == nil || gone.Reason != a.reason {
				t.Errorf("Gone says %v", gone)
			}
			if _, err := s.Snapshot(t.Context()); opCode(err) != CodeGone {
				t.Errorf("a snapshot: %v", err)
			}
			if got := dump(t, s.db); got != before {
				t.Errorf("it holds\n%s\nand held\n%s", got, before)
			}
			if a.back != nil {
				a.back(t, dir)
				if err := s.Apply(t.Context(), entryChange("t1", 998)); err != nil {
					t.Fatalf("after it came back: %v", err)
				}
				if _, err := s.Undo(t.Context(), "t1"); err != nil {
					t.Fatal(err)
				}
				before = dump(t, s.db) // what was undone can be made again
				a.do(t, dir)
				refused()
			}
			kept, err := s.PutBack(t.Context())
			if err != nil || kept == "" {
				t.Fatalf("put back: %q, %v", kept, err)
			}
			if got := dump(t, s.db); got != before {
				t.Errorf("put back, it holds\n%s\nand held\n%s", got, before)
			}
			if err := s.Apply(t.Context(), entryChange("t1", 999)); err != nil {
				t.Fatal(err)
			}
			before = dump(t, s.db)
			mustClose(t, s)
			s = open(t, dir)
			if got := dump(t, s.db); got != before {
				t.Errorf("opened anew, it holds\n%s\nand held\n%s", got, before)
			}
			if r, err := s.Verify(t.Context()); err != nil || !r.OK() {
				t.Errorf("%+v, %v", r, err)
			}
			if a.reason == ReasonReplaced {
				aside, err := Aside(dir)
				if err != nil || len(aside) != 1 {
					t.Fatalf("set aside: %v, %v", aside, err)
				}
				if h, err := Look(t.Context(), aside[0].Path); err != nil || h.Rows["tank"] != 1 || h.Rows["entry"] != 0 {
					t.Errorf("set aside is %+v, %v", h, err)
				}
			}
		})
	}
	drill.Tally(t, "D2-05", "ways to take the daybook away while it is open, put back whole", len(aways(other)), 0)
}

// Closed without being put back, what was taken away is in a snapshot, or whole
// where it was moved to.
func TestTakenAwayAndClosed(t *testing.T) {
	for _, a := range aways(aSoundOther(t)) {
		t.Run(a.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "data")
			s := open(t, dir)
			fill(t, s)
			h, err := s.Holds(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			a.do(t, dir)
			mustClose(t, s)
			if a.back != nil {
				a.back(t, dir)
				s = open(t, dir)
				if now, err := s.Holds(t.Context()); err != nil || now.Rows["entry"] != h.Rows["entry"] || now.Rows["undo"] != h.Rows["undo"] {
					t.Errorf("moved, it holds %+v, %v, and held %+v", now, err, h)
				}
				return
			}
			_, held, ok := Good(t.Context(), dir)
			if !ok || held.Rows["entry"] != h.Rows["entry"] || held.Rows["undo"] != h.Rows["undo"] {
				t.Errorf("%v: the snapshot holds %+v, want %+v", ok, held, h)
			}
		})
	}
}

// A lock that is deleted is taken anew with the next change; where another program
// was faster, nothing is written beside it.
func TestLockTakenAway(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	addTank(t, s, "t1")
	remove(t, filepath.Join(dir, LockName))
	addTank(t, s, "t2")
	wantOpenErrorLive(t, dir)
	remove(t, filepath.Join(dir, LockName))
	p := start(t, "hold", dir)
	if said := p.line(); said != "open" {
		t.Fatalf("child said %q", said)
	}
	var oe *OpenError
	if err := s.Apply(t.Context(), entryChange("t1", 1)); !errors.As(err, &oe) || oe.Code != CodeLocked || oe.PID != p.cmd.Process.Pid {
		t.Errorf("got %v", err)
	}
	p.kill(t)
	if err := s.Apply(t.Context(), entryChange("t1", 1)); err != nil {
		t.Errorf("after the other's end: %v", err)
	}
}
