//go:build unix

package durable

import (
	"errors"
	"io/fs"
	"os"
	"syscall"

	"golang.org/x/sys/unix"
)

// lockFile tries flock(2); held is true when someone else has it. flock, not
// fcntl: it belongs to the open file, so closing some other handle of the same
// file does not drop it.
func lockFile(f *os.File) (held bool, err error) {
	for {
		err = unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
		switch {
		case err == nil:
			return false, nil
		case errors.Is(err, unix.EINTR):
			continue
		case errors.Is(err, unix.EWOULDBLOCK):
			return true, nil
		}
		return false, err
	}
}

func freeBytes(dir string) (uint64, error) {
	var st unix.Statfs_t
	if err := unix.Statfs(dir, &st); err != nil {
		return 0, err
	}
	if int64(st.Bavail) < 0 || int64(st.Bsize) <= 0 {
		return 0, nil // some systems count below zero once the reserve is used
	}
	return uint64(st.Bavail) * uint64(st.Bsize), nil
}

func mayWrite(path string) error { return unix.Access(path, unix.W_OK) }

func roots() []string { return []string{"/"} }

func renameOver(from, to string) error { return os.Rename(from, to) }

func flushDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = d.Sync()
	if closeErr := d.Close(); err == nil {
		err = closeErr
	}
	// Some file systems have nothing to flush for a folder and say so.
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOTSUP) {
		return nil
	}
	return err
}

func isNoSpace(err error) bool {
	return errors.Is(err, unix.ENOSPC) || errors.Is(err, unix.EDQUOT)
}

// names is how many names a file has.
func names(info fs.FileInfo) int {
	if st, ok := info.Sys().(*syscall.Stat_t); ok {
		return int(st.Nlink)
	}
	return 1
}
