package store

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"example.org/driploop/model/durable"
)

// TestFullDiskAtStart (D2-04): a daybook on a full disk can be read, says how much
// room is needed, and takes changes again as soon as there is room.
func TestFullDiskAtStart(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s)
	mustClose(t, s)
	full := true
	freeSpace = func(dir string) (uint64, error) {
		if full {
			return 1000, nil
		}
		return durable.Free(dir)
	}
	defer func() { freeSpace = durable.Free }()
	s = open(t, dir)
	why := s.ReadOnly()
	if why == nil || why.Code != CodeNoSpace || why.Free != 1000 {
		t.Fatalf("opened with %v", why)
	}
	if free, need, err := s.Room(); err != nil || free != 1000 || need != minFree {
		t.Errorf("room %d of %d, %v", free, need, err)
	}
	rows, err := s.Load(t.Context(), "entry", nil, "seq")
	if err != nil || len(rows) != 3 {
		t.Fatalf("%d entries, %v", len(rows), err)
	}
	var oe *OpError
	if err := s.Apply(t.Context(), entryChange("t1", 9)); !errors.As(err, &oe) || oe.Code != CodeReadOnly {
		t.Errorf("a change: %v", err)
	}
	if ok, err := s.Resume(t.Context()); ok || err != nil {
		t.Errorf("resumed on a full disk: %v, %v", ok, err)
	}
	full = false
	if ok, err := s.Resume(t.Context()); !ok || err != nil || s.ReadOnly() != nil {
		t.Fatalf("with room: %v, %v, %v", ok, err, s.ReadOnly())
	}
	if err := s.Apply(t.Context(), entryChange("t1", 4)); err != nil {
		t.Error(err)
	}
	for _, p := range append(pragmas, walPragma) {
		var got string
		if err := s.db.QueryRow("PRAGMA " + p.name).Scan(&got); err != nil || got != p.want {
			t.Errorf("%s is %q, %v, want %q", p.name, got, err, p.want)
		}
	}
	mustClose(t, s)
	if n := entriesOK(t, open(t, dir)); n != 4 {
		t.Errorf("%d entries", n)
	}
}

// TestNoDaybookWhereNothingCanBeWritten is refused as before: there is nothing to
// read.
func TestNoDaybookWhereNothingCanBeWritten(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	writeFile(t, file, nil)
	var oe *OpenError
	if _, err := Open(context.Background(), filepath.Join(file, "below"), options); !errors.As(err, &oe) || oe.Code != CodeNotWritable {
		t.Errorf("%v", err)
	}
	freeSpace = func(string) (uint64, error) { return 0, syscall.ENOSYS }
	defer func() { freeSpace = durable.Free }()
	s := open(t, t.TempDir()) // a disk that cannot say gets the benefit of the doubt
	if s.ReadOnly() != nil {
		t.Errorf("%v", s.ReadOnly())
	}
	if _, err := os.Stat(filepath.Join(s.Dir(), FileName)); err != nil {
		t.Error(err)
	}
}
