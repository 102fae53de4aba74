package store

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
)

// inNarrowSpace runs this program once more as a child in a folder where little or
// nothing can be written, and returns what it said last. how is "ro" for a mount
// that is for reading only, or a size in bytes for a disk of that size; mode is
// what the child does there. Where the system allows no mounts the folder's
// permissions, or a limit on the length of files, stand in.
func inNarrowSpace(t testing.TB, dir, how, mode string) string {
	t.Helper()
	run := func(mount bool) (string, error) {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), childMode+"=narrow", childDir+"="+dir, childTo+"="+how+" "+mode)
		if mount {
			cmd.Env = append(cmd.Env, childMount+"=1")
			cmd.SysProcAttr = &syscall.SysProcAttr{Cloneflags: syscall.CLONE_NEWUSER | syscall.CLONE_NEWNS,
				UidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getuid(), Size: 1}},
				GidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getgid(), Size: 1}}}
		}
		out, err := cmd.Output()
		return strings.TrimSpace(string(out)), err
	}
	said, err := run(true)
	if err != nil || strings.HasPrefix(said, noMount) {
		said, err = run(false)
	}
	if err != nil {
		t.Fatalf("child: %v, %q", err, said)
	}
	lines := strings.Split(said, "\n")
	return lines[len(lines)-1]
}

const (
	childMount = "DRIPLOOP_TEST_MOUNT"
	noMount    = "no mount"
)

// narrow is the child: it narrows its own view of the folder and works in it.
func narrow(dir, task string) {
	how, mode, _ := strings.Cut(task, " ")
	if os.Getenv(childMount) != "" {
		if err := mounted(dir, how); err != nil {
			fmt.Println(noMount, err)
			return
		}
	} else if how == "ro" {
		_ = os.Chmod(dir, 0o500) // holds but for the system's owner
		defer os.Chmod(dir, 0o700)
		if os.Getuid() == 0 {
			freeSpace = func(string) (uint64, error) { return 0, nil }
		}
	} else {
		n, _ := strconv.ParseUint(how, 10, 64)
		_ = syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: n, Max: n})
	}
	if mode == "read" {
		fmt.Println(readOnlyWork(dir))
		return
	}
	fmt.Println(fullWork(dir, mode))
}

// mounted covers the folder: with itself for reading only, or with a small disk
// that its files are copied to.
func mounted(dir, how string) error {
	if err := syscall.Mount("", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, ""); err != nil {
		return err
	}
	if how == "ro" {
		if err := syscall.Mount(dir, dir, "", syscall.MS_BIND, ""); err != nil {
			return err
		}
		return syscall.Mount("", dir, "", syscall.MS_BIND|syscall.MS_REMOUNT|syscall.MS_RDONLY, "")
	}
	return syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+how)
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
	if os.Getenv(childMount) == "" && os.Getuid() == 0 && code == CodeNoSpace {
		code = CodeNotWritable // what stood in for it
	}
	return fmt.Sprintf("read_only %s, %d entries", code, len(rows))
}

// fullWork writes until the disk is full, does the operation asked for, frees some
// room and goes on, and says what came of it.
func fullWork(dir, mode string) string {
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
	if os.Getenv(childMount) == "" {
		// No mount: the limit is on each file, and taking it away is the room.
		_ = syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: ^uint64(0), Max: ^uint64(0)})
	}
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
