package drill

import (
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"syscall"
	"testing"
)

const (
	folderVariable = "DRIPLOOP_NARROW_FOLDER"
	howVariable    = "DRIPLOOP_NARROW_HOW"
	mountVariable  = "DRIPLOOP_NARROW_MOUNT"
	noMount        = "no mount"
)

// ReadOnly stands for a folder of which everything can be read and nothing written.
const ReadOnly = "ro"

// Run starts this test's program once more, with variables more in its environment,
// in a folder of which little or nothing can be written, and returns the last line
// it said. how is ReadOnly, or the size in bytes of a disk that covers the folder;
// the child calls Narrow first. Where the system allows no mounts the folder's
// permissions, or a limit on the length of files, stand in.
func Run(t testing.TB, dir, how string, more ...string) string {
	t.Helper()
	run := func(mount bool) (string, error) {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(append(os.Environ(), folderVariable+"="+dir, howVariable+"="+how), more...)
		if mount {
			cmd.Env = append(cmd.Env, mountVariable+"=1")
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

// Mounted reports whether the folder is narrowed by a mount; otherwise something
// else stands in for it.
func Mounted() bool { return os.Getenv(mountVariable) != "" }

// Narrow narrows the view that this child of Run has of its folder, and gives what
// makes it wide again, as far as that is its own to do. ok is false where it cannot,
// which the parent has then been told: the child ends.
func Narrow() (dir string, widen func(), ok bool) {
	dir, how := os.Getenv(folderVariable), os.Getenv(howVariable)
	widen = func() {}
	if Mounted() {
		if err := mount(dir, how); err != nil {
			fmt.Println(noMount, err)
			return dir, widen, false
		}
		return dir, widen, true
	}
	if how == ReadOnly {
		_ = os.Chmod(dir, 0o500) // holds but for the system's owner
		return dir, func() { _ = os.Chmod(dir, 0o700) }, true
	}
	n, _ := strconv.ParseUint(how, 10, 64)
	_ = syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: n, Max: n})
	return dir, func() {
		_ = syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: ^uint64(0), Max: ^uint64(0)})
	}, true
}

// mount covers the folder: with itself for reading only, or with a small disk.
func mount(dir, how string) error {
	if err := syscall.Mount("", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, ""); err != nil {
		return err
	}
	if how == ReadOnly {
		if err := syscall.Mount(dir, dir, "", syscall.MS_BIND, ""); err != nil {
			return err
		}
		return syscall.Mount("", dir, "", syscall.MS_BIND|syscall.MS_REMOUNT|syscall.MS_RDONLY, "")
	}
	return syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+how)
}
