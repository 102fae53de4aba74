//go:build unix

package durable

import (
	"os"
	"path/filepath"
	"testing"
)

func TestHeldTellsWhatBecameOfTheName(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(path string) error
		want Where
	}{
		{"left alone", func(string) error { return nil }, InPlace},
		{"written", func(p string) error { return os.WriteFile(p, []byte("more"), 0o600) }, InPlace},
		{"moved", func(p string) error { return os.Rename(p, p+".moved") }, Moved},
		{"its folder moved", func(p string) error { return os.Rename(filepath.Dir(p), filepath.Dir(p)+".moved") }, Moved},
		{"moved and back", func(p string) error {
			if err := os.Rename(p, p+".moved"); err != nil {
				return err
			}
			return os.Rename(p+".moved", p)
		}, InPlace},
		{"deleted", os.Remove, Removed},
		{"deleted, with another name left", func(p string) error {
			if err := os.Link(p, p+".other"); err != nil {
				return err
			}
			return os.Remove(p)
		}, Moved},
		{"replaced", func(p string) error { return WriteFile(p, []byte("another"), 0o600) }, Replaced},
		{"behind a link", func(p string) error {
			if err := os.Rename(p, p+".moved"); err != nil {
				return err
			}
			return os.Symlink(p+".moved", p)
		}, InPlace},
		{"behind a dead link", func(p string) error {
			if err := os.Remove(p); err != nil {
				return err
			}
			return os.Symlink(p+".nowhere", p)
		}, Removed},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "folder")
			if err := os.Mkdir(dir, 0o700); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(dir, "file")
			if err := os.WriteFile(path, []byte("text"), 0o600); err != nil {
				t.Fatal(err)
			}
			h, err := Hold(path)
			if err != nil {
				t.Fatal(err)
			}
			defer h.Release()
			if err := c.do(path); err != nil {
				t.Fatal(err)
			}
			if got := h.Where(); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
			h.Release()
			if got := h.Where(); got != InPlace {
				t.Errorf("released: %q", got)
			}
		})
	}
	if _, err := Hold(filepath.Join(t.TempDir(), "nothing")); err == nil {
		t.Error("what is not there is held")
	}
}

func TestLockTellsWhetherItIsInPlace(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lock")
	l, err := Acquire(path)
	if err != nil || !l.InPlace() {
		t.Fatalf("%v", err)
	}
	if err := os.Remove(path); err != nil || l.InPlace() {
		t.Errorf("deleted, it is in place: %v", err)
	}
	other, err := Acquire(path)
	if err != nil || l.InPlace() || !other.InPlace() {
		t.Errorf("%v", err)
	}
	_ = other.Release()
	if err := l.Release(); err != nil || l.InPlace() || (*Lock)(nil).InPlace() {
		t.Errorf("released, it is in place: %v", err)
	}
}
