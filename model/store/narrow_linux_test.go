package store

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"example.org/driploop/model/drill"
)

// inNarrowSpace lets a child work in a folder of which little or nothing can be
// written: see drill.Run. mode is what it does there.
func inNarrowSpace(t testing.TB, dir, how, mode string) string {
	t.Helper()
	return drill.Run(t, dir, how, childMode+"=narrow", childTo+"="+mode)
}

// narrow is the child.
func narrow(mode string) {
	dir, widen, ok := drill.Narrow()
	if !ok {
		return
	}
	if mode == "read" {
		defer widen()
		if !drill.Mounted() && os.Getuid() == 0 {
			freeSpace = func(string) (uint64, error) { return 0, nil }
		}
		fmt.Println(readOnlyWork(dir))
		return
	}
	if mode == "upgrade" {
		fmt.Println(upgradeWork(dir, os.Getenv(childOld), widen))
		return
	}
	fmt.Println(fullWork(dir, mode, widen))
}

// readOnlyWork opens and reads the folder and says what it found.
func readOnlyWork(dir string) string {
	s, err := Open(context.Background(), dir, options)
	if err != nil {
		return "refused " + err.Error()
	}
	defer s.Close()
	rows, err := s.Load(context.Background(), "entry", nil, "")
	if err != nil {
		return "unread " + err.Error()
	}
	why := s.ReadOnly()
	if why == nil {
		return "it takes changes"
	}
	code := why.Code
	if !drill.Mounted() && os.Getuid() == 0 && code == CodeNoSpace {
		code = CodeNotWritable // what stood in for it
	}
	return fmt.Sprintf("read_only %s, %d entries", code, len(rows))
}

// fullWork writes until the disk is full, does the operation asked for, frees some
// room and goes on, and says what came of it.
func fullWork(dir, mode string, widen func()) string {
	freeSpace = func(string) (uint64, error) { return 1 << 40, nil } // the start is not what is tried here
	ballast := filepath.Join(dir, "ballast")
	_ = os.WriteFile(ballast, make([]byte, 96<<10), 0o600) // what is not written is room left
	s, err := Open(context.Background(), dir, options)
	if err != nil {
		return "too_small " + codeOfOpen(err)
	}
	ctx := context.Background()
	if err := s.Apply(ctx, change("t1", Op{Table: "tank", After: tankRow("t1")})); err != nil {
		_ = s.Close()
		return "too_small " + codeOf(err)
	}
	acked, failed := 0, ""
	for n := 1; n <= 4000; n++ {
		if mode == "snapshot" && n == 20 {
			if _, err := s.Snapshot(ctx); err != nil {
				failed += " snapshot:" + opCode(err)
			}
		}
		if err := s.Apply(ctx, entryChange("t1", n)); err != nil {
			failed += " apply:" + opCode(err)
			break
		}
		acked = n
	}
	_ = os.Remove(ballast)
	widen()
	resumed := s.Apply(ctx, entryChange("t1", acked+1)) == nil
	if resumed {
		acked++
	}
	_ = s.Close()
	s, err = Open(ctx, dir, options)
	if err != nil {
		return "lost " + err.Error()
	}
	defer s.Close()
	rows, err := s.Load(ctx, "entry", nil, "seq")
	if err != nil {
		return "lost " + err.Error()
	}
	r, err := s.Verify(ctx)
	if err != nil || !r.OK() || len(rows) < acked {
		return fmt.Sprintf("lost %d of %d, %v, %v", len(rows), acked, r.Integrity, err)
	}
	return fmt.Sprintf("kept %d, resumed %v,%s", acked, resumed, failed)
}

func codeOfOpen(err error) string {
	if oe, ok := err.(*OpenError); ok {
		return oe.Code
	}
	return err.Error()
}

func opCode(err error) string {
	if oe, ok := err.(*OpError); ok {
		return oe.Code
	}
	return err.Error()
}

// childOld names the file of an old schema that a child upgrades.
const childOld = "DRIPLOOP_TEST_OLD"

// upgradeWork upgrades an old daybook in a narrow folder, and once more with room
// where the first time there was too little.
func upgradeWork(dir, old string, widen func()) string {
	freeSpace = func(string) (uint64, error) { return 1 << 40, nil } // the start is not what is tried here
	data, err := os.ReadFile(old)
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, FileName), data, 0o600)
	}
	if err != nil {
		return err.Error()
	}
	rows := func() string {
		h, err := Look(context.Background(), filepath.Join(dir, FileName))
		return fmt.Sprintf("%d entries, %d readings, %v", h.Rows["entry"], h.Rows["entry_value"], err)
	}
	want, said := rows(), "upgraded"
	s, err := Open(context.Background(), dir, options)
	if err != nil {
		if code := codeOfOpen(err); code != CodeNoSpace && code != CodeSnapshot && code != CodeMigration && code != CodeNotWritable {
			return "lost " + err.Error()
		}
		if err := more(dir, widen); err != nil {
			return err.Error()
		}
		if s, err = Open(context.Background(), dir, options); err != nil {
			return "lost " + err.Error()
		}
		said = "full, then upgraded"
	}
	if r, err := s.Verify(context.Background()); err != nil || !r.OK() {
		return fmt.Sprintf("lost %+v, %v", r, err)
	}
	if err := s.Close(); err != nil {
		if opCode(err) != CodeNoSpace {
			return "lost " + err.Error()
		}
		// The log did not fit into the file: it is kept, and read by the next start.
		if err := more(dir, widen); err != nil {
			return err.Error()
		}
		if s, err = Open(context.Background(), dir, options); err != nil {
			return "lost " + err.Error()
		}
		if err := s.Close(); err != nil {
			return "lost " + err.Error()
		}
	}
	if got := rows(); got != want {
		return "lost " + got + ", had " + want
	}
	return said
}

// more gives a narrow folder room.
func more(dir string, widen func()) error {
	widen()
	if !drill.Mounted() {
		return nil
	}
	return syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT, "size=64m")
}
