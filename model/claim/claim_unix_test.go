//go:build !windows && !darwin

package claim

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// files lists the plain files below dir, apart from what the system's tools make.
func files(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir(dir, func(at string, d fs.DirEntry, err error) error {
		if err == nil && d.Type().IsRegular() {
			out = append(out, at)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// noTools makes the system one without its tools, which are tried with the window.
func noTools(t *testing.T) { t.Setenv("PATH", t.TempDir()) }

// What Make writes State finds and TakeBack takes away, and nothing else; a program
// that lies elsewhere now has not made it, but can take it back.
func TestThereAndBack(t *testing.T) {
	noTools(t)
	dir := filepath.Join(t.TempDir(), "data")
	c := sample(dir)
	s, err := c.State()
	if err != nil || s.Made || s.Some || len(s.Places) != 3 {
		t.Fatalf("before: %+v %v", s, err)
	}
	var missing *ToolError
	if err := c.Make(); !errors.As(err, &missing) || missing.Tool != "update-mime-database" {
		t.Fatalf("without tools: %v", err)
	}
	if s, err = c.State(); err != nil || !s.Made || !s.Some {
		t.Fatalf("made: %+v %v", s, err)
	}
	if got := files(t, dir); !slices.Equal(got, slices.Sorted(maps.Keys(map[string]bool{s.Places[0]: true, s.Places[1]: true, s.Places[2]: true}))) {
		t.Errorf("%q was written, %q told", got, s.Places)
	}
	moved := c
	moved.Program = []string{"/elsewhere/tank"}
	if s, err = moved.State(); err != nil || s.Made || !s.Some {
		t.Errorf("moved: %+v %v", s, err)
	}
	other := filepath.Join(dir, "applications", "org.example.Tank.desktop")
	if err := os.WriteFile(other, []byte("a package's"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := moved.TakeBack(); !errors.As(err, &missing) {
		t.Fatalf("taken back without tools: %v", err)
	}
	if got := files(t, dir); !slices.Equal(got, []string{other}) {
		t.Errorf("%q is left", got)
	}
	if s, err = c.State(); err != nil || s.Made || s.Some {
		t.Errorf("after: %+v %v", s, err)
	}
}

// When one record cannot be written, those before it are as they were.
func TestAllOrNothing(t *testing.T) {
	noTools(t)
	dir := t.TempDir()
	c := sample(dir)
	old := filepath.Join(dir, "mime", "packages", "org.example.Tank.Files.xml")
	if err := os.MkdirAll(filepath.Dir(old), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(old, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "applications"), nil, 0o600); err != nil { // where a folder should be
		t.Fatal(err)
	}
	if err := c.Make(); err == nil {
		t.Fatal("it was made")
	}
	b, err := os.ReadFile(old)
	if err != nil || string(b) != "old" {
		t.Errorf("the old record says %q, %v", b, err)
	}
	if got := files(t, dir); len(got) != 2 {
		t.Errorf("%q is there", got)
	}
}

// A tool that fails says why, and what was written stands.
func TestToolThatFails(t *testing.T) {
	bin := t.TempDir()
	if err := os.WriteFile(filepath.Join(bin, "update-mime-database"), []byte("#!/bin/sh\necho no such luck\nexit 1\n"), 0o700); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", bin)
	c := sample(t.TempDir())
	var failed *ToolError
	if err := c.Make(); !errors.As(err, &failed) || !strings.Contains(err.Error(), "no such luck") {
		t.Errorf("%v", err)
	}
	if s, err := c.State(); err != nil || !s.Made {
		t.Errorf("%+v %v", s, err)
	}
}
