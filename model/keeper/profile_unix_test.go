//go:build unix

package keeper_test

import (
	"context"
	"errors"
	"path/filepath"
	"syscall"
	"testing"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
)

// A pipe or a device would never end; neither is read from.
func TestOpenProfileOfAPipe(t *testing.T) {
	dir := t.TempDir()
	k := open(t, filepath.Join(dir, "data"), noon())
	defer k.Close()
	pipe := filepath.Join(dir, "pipe.dlprofile")
	must(t, syscall.Mkfifo(pipe, 0o600))
	for _, path := range []string{pipe, "/dev/zero"} {
		refusedAs(t, k, path)
	}
}

func refusedAs(t *testing.T, k *keeper.Keeper, path string) {
	t.Helper()
	var e *slip.Error
	if _, _, err := k.OpenProfile(context.Background(), path); !errors.As(err, &e) || e.Code != slip.CodeNotFile {
		t.Errorf("%s: %v, want %s", path, err, slip.CodeNotFile)
	}
}
