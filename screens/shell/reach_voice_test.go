package shell

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// A page is read out by the first program of speech that is there, which gets the
// language and the text on its standard input; without one it is said so.
func TestSpeak(t *testing.T) {
	if err := speak(context.Background(), func(string) (string, error) { return "", exec.ErrNotFound }, "es", "hola"); !errors.Is(err, exec.ErrNotFound) {
		t.Errorf("without a voice: %v", err)
	}
	dir := t.TempDir()
	heard := filepath.Join(dir, "heard")
	program := filepath.Join(dir, "voice")
	script := "#!/bin/sh\necho \"$@\" > " + heard + "\ncat >> " + heard + "\n"
	if runtime.GOOS == "windows" {
		program += ".bat"
		script = "@echo %* > " + heard + "\r\n@findstr \"^\" >> " + heard + "\r\n"
	}
	if err := os.WriteFile(program, []byte(script), 0o700); err != nil {
		t.Fatal(err)
	}
	look := func(name string) (string, error) {
		if name == "spd-say" {
			return program, nil
		}
		return "", exec.ErrNotFound
	}
	if err := speak(context.Background(), look, "es", "Primer llenado; $(rm)\n"); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(heard)
	if err != nil || !strings.Contains(string(got), "--language es") || !strings.Contains(string(got), "Primer llenado; $(rm)") {
		t.Errorf("it heard %q, %v", got, err)
	}
	ctx, hush := context.WithCancel(context.Background())
	hush()
	if err := speak(ctx, look, "es", "nada"); err != nil {
		t.Errorf("ended at once: %v", err)
	}
	if got, err := os.ReadFile(heard); err != nil || !strings.Contains(string(got), "--cancel") {
		t.Errorf("what was read on was not ended: %q, %v", got, err)
	}
}
