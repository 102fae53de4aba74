package durable

import (
	"path/filepath"
	"slices"
	"testing"
)

// Source: GetLogicalDrives, "bit position 0 (the least-significant bit) is drive A, bit
// position 1 is drive B".
func TestDrivesOfASet(t *testing.T) {
	for _, c := range []struct {
		set  uint32
		want []string
	}{
		{0, nil}, {1 << 2, []string{`C:\`}}, {1<<2 | 1<<3 | 1<<25, []string{`C:\`, `D:\`, `Z:\`}}, {1, []string{`A:\`}}, {1 << 26, nil},
	} {
		if got := drives(c.set); !slices.Equal(got, c.want) {
			t.Errorf("%b is %q, want %q", c.set, got, c.want)
		}
	}
}

// Whatever the system, a root is the way up from itself.
func TestRootsAreRoots(t *testing.T) {
	list := Roots()
	if len(list) == 0 {
		t.Fatal("paths begin nowhere")
	}
	for _, r := range list {
		if !filepath.IsAbs(r) || filepath.Dir(r) != r {
			t.Errorf("%q is no root", r)
		}
	}
}
