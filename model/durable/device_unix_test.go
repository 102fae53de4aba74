//go:build unix

package durable

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// A device, a pipe or a folder is not replaced by a file. Number of the trust plan:
// D2-04, /dev/full.
func TestWhatIsNoFileIsNotReplaced(t *testing.T) {
	dir := t.TempDir()
	pipe, folder, null := filepath.Join(dir, "pipe"), filepath.Join(dir, "folder"), filepath.Join(dir, "null")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(os.DevNull, null); err != nil { // a link keeps the real one out of reach
		t.Fatal(err)
	}
	for _, path := range []string{pipe, folder, null} {
		was, err := os.Lstat(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := WriteFile(path, []byte("x"), 0o600); !errors.Is(err, ErrNotFile) {
			t.Errorf("%s: %v, want %v", path, err, ErrNotFile)
		}
		is, err := os.Lstat(path)
		if err != nil || is.Mode() != was.Mode() {
			t.Errorf("%s was %v and is %v, %v", path, was.Mode(), is, err)
		}
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) != 3 {
		t.Errorf("the folder holds %v, %v", left, err)
	}
}
