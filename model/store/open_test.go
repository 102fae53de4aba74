package store

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/durable"
)

// fixedNow is the clock of the tests.
func fixedNow() time.Time { return time.Date(2026, 11, 25, 8, 10, 0, 0, time.UTC) }

var options = Options{Now: fixedNow}

// open opens a folder and closes it at the end of the test.
func open(t testing.TB, dir string) *Store {
	t.Helper()
	s, err := Open(context.Background(), dir, options)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

func mustClose(t testing.TB, s *Store) {
	t.Helper()
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
}

// hashes gives the SHA-256 of the database and its side files, by name.
func hashes(t testing.TB, path string) string {
	t.Helper()
	var s string
	for _, suffix := range []string{"", "-wal", "-journal"} {
		data, err := os.ReadFile(path + suffix)
		if err != nil || len(data) == 0 && suffix != "" {
			continue
		}
		s += fmt.Sprintf("%s %x\n", filepath.Base(path)+suffix, sha256.Sum256(data))
	}
	return s
}

// wantOpenError opens dir, expects a refusal with code, and that the database
// is as it was.
func wantOpenError(t *testing.T, dir, code string) *OpenError {
	t.Helper()
	path := filepath.Join(dir, FileName)
	before := hashes(t, path)
	s, err := Open(context.Background(), dir, options)
	if err == nil {
		_ = s.Close()
		t.Fatalf("opened, want %s", code)
	}
	var oe *OpenError
	if !errors.As(err, &oe) || oe.Code != code {
		t.Fatalf("got %v, want code %s", err, code)
	}
	if oe.Path == "" {
		t.Errorf("%v names no path", err)
	}
	if after := hashes(t, path); after != before {
		t.Errorf("%s: file changed by a refusal:\n%s\nthen\n%s", code, before, after)
	}
	return oe
}

// TestPragmasReadBack (D2-13).
func TestPragmasReadBack(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "new folder ü", "50% of it?#"))
	// Source: the list in the design of the data folder; values as SQLite prints them.
	want := []struct{ name, value string }{
		{"journal_mode", "wal"}, {"synchronous", "2"}, {"foreign_keys", "1"}, {"busy_timeout", "5000"},
		{"trusted_schema", "0"}, {"cell_size_check", "1"}, {"mmap_size", "0"},
		{"application_id", strconv.Itoa(0x44726970)}, {"user_version", strconv.Itoa(newest)},
	}
	for _, w := range want {
		var got string
		if err := s.db.QueryRow("PRAGMA " + w.name).Scan(&got); err != nil || got != w.value {
			t.Errorf("%s = %q (%v), want %q", w.name, got, err, w.value)
		}
	}
	var version string
	if err := s.db.QueryRow("SELECT sqlite_version()").Scan(&version); err != nil {
		t.Fatal(err)
	}
	if _, n := engineVersion(); n < 3051003 {
		t.Errorf("SQLite %s, want at least 3.51.3", version)
	}
	if n := s.db.Stats().MaxOpenConnections; n != 1 {
		t.Errorf("%d connections allowed, want 1", n)
	}
	if s.ReadOnly() != nil || !s.Fresh() {
		t.Errorf("new folder: read only %v, fresh %v", s.ReadOnly(), s.Fresh())
	}
	drill.Tally(t, "D2-13", "settings of the engine read back", len(pragmas)+1, 0)
}

func TestEngineTooOld(t *testing.T) {
	old := engineVersion
	engineVersion = func() (string, int) { return "3.51.2", 3051002 }
	defer func() { engineVersion = old }()
	oe := wantOpenError(t, t.TempDir(), CodeEngine)
	if oe.Wanted != "3.51.3" || oe.Got != "3.51.2" {
		t.Errorf("wanted %q got %q", oe.Wanted, oe.Got)
	}
}

// TestPragmaNotTaken lets the engine answer otherwise than was asked.
func TestPragmaNotTaken(t *testing.T) {
	dir := t.TempDir()
	mustClose(t, open(t, dir))
	old := pragmas
	defer func() { pragmas = old }()
	for i := range old {
		pragmas = append([]pragma(nil), old...)
		pragmas[i].want = "other"
		oe := wantOpenError(t, dir, CodePragma)
		if oe.Name != old[i].name || oe.Wanted != "other" || oe.Got != old[i].want {
			t.Errorf("%v, want name %s, got %s", oe, old[i].name, old[i].want)
		}
	}
	if len(old) != 8 {
		t.Errorf("%d pragmas tried, want 8", len(old))
	}
}

func TestOptionsNeedAClock(t *testing.T) {
	_, err := Open(context.Background(), t.TempDir(), Options{})
	var oe *OpenError
	if !errors.As(err, &oe) || oe.Code != CodeOptions {
		t.Errorf("got %v", err)
	}
}

// TestFolders (part of D2-05). Permission bits mean nothing to the system's
// owner, so what cannot be written is a path below a plain file, and below a
// file system that makes no folders.
func TestFolders(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, []byte("a letter"), 0o600); err != nil {
		t.Fatal(err)
	}
	wantOpenError(t, file, CodeNotFolder)
	wantOpenError(t, filepath.Join(file, "below"), CodeNotWritable)
	if got, _ := os.ReadFile(file); string(got) != "a letter" {
		t.Errorf("file now holds %q", got)
	}
	if _, err := os.Stat("/proc/self"); err == nil {
		wantOpenError(t, "/proc/driploop", CodeNotWritable)
		wantOpenError(t, "/proc/self/task", CodeNotWritable)
	}
}

func TestNoSpaceToBegin(t *testing.T) {
	old := freeSpace
	defer func() { freeSpace = old }()
	freeSpace = func(string) (uint64, error) { return minFree - 1, nil }
	if oe := wantOpenError(t, t.TempDir(), CodeNoSpace); oe.Free != minFree-1 {
		t.Errorf("free %d", oe.Free)
	}
}

func TestLockedInOneProcess(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	_, err := Open(context.Background(), dir, options)
	var oe *OpenError
	if !errors.As(err, &oe) || oe.Code != CodeLocked || oe.PID != os.Getpid() || !errors.Is(err, durable.ErrLocked) {
		t.Fatalf("got %v, want %s by %d", err, CodeLocked, os.Getpid())
	}
	mustClose(t, s)
	mustClose(t, open(t, dir))
}

// TestNewer (D2-11): a file of a later version is read and left alone.
func TestNewer(t *testing.T) {
	for _, ahead := range []int{1, 2, 999} {
		dir := t.TempDir()
		s := open(t, dir)
		addTank(t, s, "t1")
		if _, err := s.db.Exec("PRAGMA user_version=" + strconv.Itoa(newest+ahead)); err != nil {
			t.Fatal(err)
		}
		mustClose(t, s)
		path := filepath.Join(dir, FileName)
		before := hashes(t, path)
		s = open(t, dir)
		oe := s.ReadOnly()
		if oe == nil || oe.Code != CodeNewer || oe.Wanted != strconv.Itoa(newest) || oe.Got != strconv.Itoa(newest+ahead) {
			t.Fatalf("read only: %v", oe)
		}
		ctx := context.Background()
		rows, err := s.Load(ctx, "tank", nil, "id")
		if err != nil || len(rows) != 1 {
			t.Errorf("load: %v, %v", rows, err)
		}
		_, undoErr := s.Undo(ctx, "t1")
		for what, err := range map[string]error{
			"apply": s.Apply(ctx, Change{Ops: []Op{{Table: "tank", After: tankRow("t2")}}}), "setting": s.SetSetting(ctx, "a", "b"), "undo": undoErr,
		} {
			var pe *OpError
			if !errors.As(err, &pe) || pe.Code != CodeReadOnly {
				t.Errorf("%s: got %v, want %s", what, err, CodeReadOnly)
			}
		}
		if _, err := s.Snapshot(ctx); err != nil {
			t.Errorf("snapshot of a newer file: %v", err)
		}
		if r, err := s.Verify(ctx); err != nil || !r.OK() || r.Version != newest+ahead {
			t.Errorf("verify: %+v, %v", r, err)
		}
		mustClose(t, s)
		if after := hashes(t, path); after != before {
			t.Errorf("file changed:\n%s\nthen\n%s", before, after)
		}
	}
	drill.Tally(t, "D2-11", "daybooks of later versions, read and left as they are", 3, 0)
}

func tankRow(id string) Row {
	return Row{"id": id, "name": "Tank " + id, "origin": "own", "created": "2026-11-25T07:10:00Z", "retired": nil, "deleted": nil}
}

func addTank(t testing.TB, s *Store, id string) {
	t.Helper()
	err := s.Apply(context.Background(), Change{Tank: id, Label: "tank.added", At: "2026-11-25T07:10:00Z", Ops: []Op{{Table: "tank", After: tankRow(id)}}})
	if err != nil {
		t.Fatal(err)
	}
}
