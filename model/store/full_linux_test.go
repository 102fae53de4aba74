package store

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
)

// TestFullDisks (D2-04): on disks of many sizes every change that was told as made
// is there, what did not fit was refused as a full disk, and writing goes on once
// there is room, without a restart.
func TestFullDisks(t *testing.T) {
	kept, full := 0, 0
	for _, mode := range []string{"journal", "snapshot"} {
		for n := range diskSizes {
			bytes := 512<<10 + n*(8<<20-512<<10)/diskSizes
			said := inNarrowSpace(t, t.TempDir(), strconv.Itoa(bytes), mode)
			switch {
			case strings.HasPrefix(said, "kept "):
				kept++
				if !strings.Contains(said, "resumed true") {
					t.Errorf("%s on %d bytes: %s", mode, bytes, said)
				}
				if strings.Contains(said, "apply:"+CodeNoSpace) || strings.Contains(said, "apply:"+CodeIO) {
					full++
				}
			case strings.HasPrefix(said, "too_small "):
			default:
				t.Errorf("%s on %d bytes: %s", mode, bytes, said)
			}
		}
	}
	if kept < diskSizes || full == 0 {
		t.Errorf("%d disks kept a daybook and %d filled up: the drill shows too little", kept, full)
	}
	drill.Tally(t, "D2-04", "disks that fill up while writing and copying", 2*diskSizes, 0)
}

// TestUpgradeOnFullDisks (D2-04): on a disk with too little room for an upgrade and
// the copy before it the daybook is told to have too little, its rows stay, and with
// room the same upgrade is made.
func TestUpgradeOnFullDisks(t *testing.T) {
	old := filepath.Join(t.TempDir(), FileName)
	ofFirstSchema(t, old, 2000)
	upgraded, full := 0, 0
	for n := range diskSizes {
		// It fits into the smallest by itself.
		bytes := int(size(old)) + 64<<10 + n*(8<<20-512<<10)/diskSizes
		t.Setenv(childOld, old)
		said := inNarrowSpace(t, t.TempDir(), strconv.Itoa(bytes), "upgrade")
		switch said {
		case "upgraded":
			upgraded++
		case "full, then upgraded":
			full++
		default:
			t.Errorf("on %d bytes: %s", bytes, said)
		}
	}
	if upgraded == 0 || full == 0 {
		t.Errorf("%d upgraded at once and %d filled up: the drill shows too little", upgraded, full)
	}
	drill.Tally(t, "D2-04", fmt.Sprintf("disks for an upgrade, %d of them too full at first", full), diskSizes, 0)
}

// TestReadOnlyFolder (D2-05): it is read, nothing in it is changed, and what is to be
// written elsewhere can be. The system's owner may write anywhere, so a mount that is
// for reading only stands in where that can be made.
func TestReadOnlyFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a folder with spaces, ñ and 🐟")
	s := open(t, dir)
	fill(t, s)
	mustClose(t, s)
	before := hashes(t, filepath.Join(dir, FileName))
	said := inNarrowSpace(t, dir, "ro", "read")
	if said != "read_only not_writable, 3 entries" {
		t.Errorf("child said %q", said)
	}
	if got := hashes(t, filepath.Join(dir, FileName)); got != before {
		t.Error("the database was changed")
	}
	mustClose(t, open(t, dir))
	drill.Tally(t, "D2-05", "folders for reading only, read and left as they are", 1, 0)
}
