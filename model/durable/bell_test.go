package durable

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestRingIsHeard(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bell")
	if _, rung := Heard(path); rung {
		t.Error("heard before it was rung")
	}
	ctx, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	look := time.NewTicker(time.Millisecond)
	defer look.Stop()
	heard := make(chan string)
	go func() {
		for {
			if text, rung := Heard(path); rung {
				heard <- text
				return
			}
			time.Sleep(time.Millisecond)
		}
	}()
	if !Ring(ctx, path, "/a file\n/another ñ", look.C) {
		t.Error("nobody heard")
	}
	if got := <-heard; got != "/a file\n/another ñ" {
		t.Errorf("heard %q", got)
	}
	if _, rung := Heard(path); rung {
		t.Error("heard twice")
	}
}

func TestRingIsNotHeard(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bell")
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if Ring(ctx, path, "text", nil) {
		t.Error("heard, and nobody was there")
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("the file stays")
	}
	if Ring(t.Context(), filepath.Join(t.TempDir(), "no folder", "bell"), "text", nil) {
		t.Error("heard where nothing can be written")
	}
}

func TestHeardTakesNothingElse(t *testing.T) {
	dir := t.TempDir()
	long := filepath.Join(dir, "long")
	if err := os.WriteFile(long, []byte(strings.Repeat("x", mostRung+1)), 0o600); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "link")
	if err := os.Symlink(long, link); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{dir, long, link} {
		if text, rung := Heard(path); rung || text != "" {
			t.Errorf("%s: heard %d bytes", path, len(text))
		}
	}
}
