package durable

import (
	"errors"
	"io/fs"
	"os"

	"golang.org/x/sys/windows"
)

// lockOffset is where the locked byte lies: far behind the end of the file, as
// a locked range cannot be read by others and the holder's number is at 0.
const lockOffset = 1 << 30

// lockFile tries LockFileEx; held is true when someone else has it.
func lockFile(f *os.File) (held bool, err error) {
	at := windows.Overlapped{Offset: lockOffset}
	err = windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY, 0, 1, 0, &at)
	if errors.Is(err, windows.ERROR_LOCK_VIOLATION) || errors.Is(err, windows.ERROR_IO_PENDING) {
		return true, nil
	}
	return false, err
}

func freeBytes(dir string) (uint64, error) {
	p, err := windows.UTF16PtrFromString(dir)
	if err != nil {
		return 0, err
	}
	var free uint64
	if err := windows.GetDiskFreeSpaceEx(p, &free, nil, nil); err != nil {
		return 0, err
	}
	return free, nil
}

// renameOver replaces to and returns only after the move is on the disk.
func renameOver(from, to string) error {
	a, err := windows.UTF16PtrFromString(from)
	if err != nil {
		return err
	}
	b, err := windows.UTF16PtrFromString(to)
	if err != nil {
		return err
	}
	err = windows.MoveFileEx(a, b, windows.MOVEFILE_REPLACE_EXISTING|windows.MOVEFILE_WRITE_THROUGH)
	if err != nil {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
	}
	return nil
}

// flushDir does nothing: a folder cannot be flushed here (see renameOver).
func flushDir(string) error { return nil }

// roots are the drives that there are; none where the system does not say.
func roots() []string {
	set, err := windows.GetLogicalDrives()
	if err != nil {
		return nil
	}
	return drives(set)
}

func isNoSpace(err error) bool {
	return errors.Is(err, windows.ERROR_DISK_FULL) || errors.Is(err, windows.ERROR_HANDLE_DISK_FULL)
}

// names is how many names a file has: here an open file cannot lose its last.
func names(fs.FileInfo) int { return 1 }

// mayWrite goes by the one permission that a file has here for its owner.
func mayWrite(path string) error {
	info, err := os.Stat(path)
	if err == nil && info.Mode().Perm()&0o200 == 0 {
		return fs.ErrPermission
	}
	return err
}
