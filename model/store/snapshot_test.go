package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/driploop/model/durable"
)

// TestSnapshotAndRestore (D2-09): every snapshot gives back, row for row, what
// was there; what it replaced is kept.
func TestSnapshotAndRestore(t *testing.T) {
	dir := t.TempDir()
	ctx := context.Background()
	s := open(t, dir)
	fill(t, s)
	want := map[string]string{}
	var paths []string
	for n := range 3 {
		if err := s.Apply(ctx, entryChange("t1", 10+n)); err != nil {
			t.Fatal(err)
		}
		path, err := s.Snapshot(ctx)
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
		want[path] = dump(t, s.db)
	}
	last := dump(t, s.db)
	if base := filepath.Base(paths[0]); base != fmt.Sprintf("driploop-20261125T081000Z-v%04d.db", newest) {
		t.Errorf("name %q", base)
	}
	list, err := Snapshots(dir)
	if err != nil || len(list) != 3 || list[0].Path != paths[2] || list[2].Path != paths[0] || list[0].Size == 0 {
		t.Fatalf("list %+v (%v), want %v newest first", list, err, paths)
	}
	if _, err := Restore(ctx, dir, paths[0], options); err == nil {
		t.Fatal("restored over an open database")
	}
	mustClose(t, s)
	for i, path := range paths {
		aside, err := Restore(ctx, dir, path, options)
		if err != nil {
			t.Fatal(err)
		}
		s := open(t, dir)
		if got := dump(t, s.db); got != want[path] {
			t.Errorf("snapshot %d: rows differ:\n%s\nwant\n%s", i, got, want[path])
		}
		mustClose(t, s)
		if i == 0 { // undo of a restore: what was put aside is itself a database
			db, err := openFile(ctx, filepath.Join(aside, FileName), asIs)
			if err != nil {
				t.Fatal(err)
			}
			if got := dump(t, db); got != last {
				t.Errorf("put aside:\n%s\nwant\n%s", got, last)
			}
			_ = db.Close()
		}
	}
}

// TestRestoreOverDamage: the damaged file and its log are kept byte for byte.
func TestRestoreOverDamage(t *testing.T) {
	dir, data := sound(t, 10)
	s := open(t, dir)
	snap, err := s.Snapshot(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	mustClose(t, s)
	path := filepath.Join(dir, FileName)
	damaged := append(make([]byte, 4096), data[4096:]...)
	writeFile(t, path, damaged)
	writeFile(t, path+"-wal", []byte("what is left of a log"))
	wantOpenError(t, dir, CodeDamaged)
	aside, err := Restore(t.Context(), dir, snap, options)
	if err != nil {
		t.Fatal(err)
	}
	if got := readFile(t, filepath.Join(aside, FileName)); string(got) != string(damaged) {
		t.Error("the damaged file was not kept as it was")
	}
	if got := readFile(t, filepath.Join(aside, FileName+"-wal")); string(got) != "what is left of a log" {
		t.Errorf("its log: %q", got)
	}
	if n := entriesOK(t, open(t, dir)); n != 10 {
		t.Errorf("%d entries, want 10", n)
	}
}

// TestRestoreRefuses what is no good, and leaves the database alone.
func TestRestoreRefuses(t *testing.T) {
	dir, data := sound(t, 3)
	path := filepath.Join(dir, FileName)
	before := hashes(t, path)
	bad := filepath.Join(t.TempDir(), "bad.db")
	writeFile(t, bad, data[:len(data)/2])
	written := filepath.Join(t.TempDir(), "letter.db")
	writeFile(t, written, []byte("Dear diary"))
	for _, file := range []string{bad, written, filepath.Join(dir, "absent.db"), dir} {
		_, err := Restore(t.Context(), dir, file, options)
		var oe *OpError
		var pe *OpenError
		if errors.As(err, &oe) || !errors.As(err, &pe) || pe.Code != CodeSnapshot {
			t.Errorf("%s: got %v, want %s", filepath.Base(file), err, CodeSnapshot)
		}
		if hashes(t, path) != before {
			t.Fatalf("%s: the database was changed", filepath.Base(file))
		}
	}
	if _, err := os.Stat(filepath.Join(dir, AsideFolder)); err == nil {
		t.Error("a refused restore put something aside")
	}
}

// TestSnapshotFaults (D2-03): whichever part fails there is an error, no
// snapshot, no temporary file, and the Store goes on.
func TestSnapshotFaults(t *testing.T) {
	fault := errors.New("injected fault")
	vacuum, check, pub := vacuumInto, checkFile, publish
	reset := func() { vacuumInto, checkFile, publish = vacuum, check, pub }
	defer reset()
	faults := map[string]func(){
		"copying": func() {
			vacuumInto = func(ctx context.Context, q querier, path string) error {
				_ = os.WriteFile(path, []byte("half a copy"), 0o600)
				return fault
			}
		},
		"checking": func() {
			checkFile = func(context.Context, string, access) (int, error) { return 0, fault }
		},
		"another version": func() {
			checkFile = func(context.Context, string, access) (int, error) { return 7, nil }
		},
		"a row lost": func() {
			vacuumInto = func(ctx context.Context, q querier, path string) error {
				if err := vacuum(ctx, q, path); err != nil {
					return err
				}
				db, err := openFile(ctx, path, makeNew)
				if err != nil {
					return err
				}
				if _, err := db.Exec("DELETE FROM setting"); err != nil {
					return err
				}
				return db.Close()
			}
		},
		"publishing": func() {
			publish = func(temp, path string) error { return pub(temp, filepath.Join(filepath.Dir(path), "absent", "x")) }
		},
	}
	for name, set := range faults {
		dir := t.TempDir()
		s := open(t, dir)
		fill(t, s)
		set()
		_, err := s.Snapshot(t.Context())
		reset()
		var oe *OpError
		if !errors.As(err, &oe) || oe.Op != "snapshot" {
			t.Errorf("%s: got %v", name, err)
		}
		left, readErr := os.ReadDir(filepath.Join(dir, SnapshotFolder))
		for _, e := range left {
			if !strings.HasPrefix(e.Name(), durable.TempPrefix) || !strings.HasSuffix(e.Name(), "-shm") {
				t.Errorf("%s: left %s (%v)", name, e.Name(), readErr)
			}
		}
		if _, err := s.Snapshot(t.Context()); err != nil {
			t.Errorf("%s: the next snapshot: %v", name, err)
		}
		mustClose(t, s)
	}
	if len(faults) != 5 {
		t.Errorf("%d faults tried, want 5", len(faults))
	}
}
