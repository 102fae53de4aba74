//go:build unix

package durable

import (
	"fmt"
	"syscall"
	"testing"
)

func TestIsNoSpace(t *testing.T) {
	for err, want := range map[error]bool{syscall.ENOSPC: true, syscall.EDQUOT: true, syscall.EIO: false} {
		wrapped := &WriteError{Op: OpWrite, Path: "p", Err: fmt.Errorf("wrapped: %w", err)}
		if got := IsNoSpace(wrapped); got != want {
			t.Errorf("IsNoSpace(%v) = %v, want %v", err, got, want)
		}
	}
	if IsNoSpace(nil) {
		t.Error("IsNoSpace(nil)")
	}
}
