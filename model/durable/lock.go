package durable

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"
)

// ErrLocked is what a LockedError is (errors.Is): another process, or another
// part of this one, holds the lock.
var ErrLocked = errors.New("locked")

// LockedError says that the lock file Path is held. PID is the process that
// wrote itself into the file, 0 when that cannot be read.
type LockedError struct {
	Path string
	PID  int
}

// Error gives path and holder for a log.
func (e *LockedError) Error() string { return fmt.Sprintf("%s is locked by process %d", e.Path, e.PID) }

// Is makes errors.Is(err, ErrLocked) true.
func (e *LockedError) Is(target error) bool { return target == ErrLocked }

// Lock is a held lock. It ends with Release or with the process.
type Lock struct{ f *os.File }

// Acquire takes the lock on the file path, making the file when it is absent,
// and does not wait. The lock belongs to the open file, so a second Acquire in
// the same process is refused as well. Errors: *LockedError when it is held,
// *WriteError (OpLock) when the file cannot be made or locked at all.
func Acquire(path string) (*Lock, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, &WriteError{Op: OpLock, Path: path, Err: err}
	}
	held, err := lockFile(f)
	if err != nil {
		_ = f.Close()
		return nil, &WriteError{Op: OpLock, Path: path, Err: err}
	}
	if held {
		pid := readPID(f)
		_ = f.Close()
		return nil, &LockedError{Path: path, PID: pid}
	}
	// The number is a courtesy to whoever finds the folder taken: a disk too
	// full to hold it does not make the lock less held.
	if f.Truncate(0) == nil {
		_, _ = f.WriteAt([]byte(strconv.Itoa(os.Getpid())+"\n"), 0)
	}
	return &Lock{f: f}, nil
}

// Release gives the lock back. The file stays: removing it would let two
// processes lock two files of one name. A second Release does nothing.
func (l *Lock) Release() error {
	if l == nil || l.f == nil {
		return nil
	}
	f := l.f
	l.f = nil
	path := f.Name()
	// Closing the only handle frees the lock on every system.
	if err := f.Close(); err != nil {
		return &WriteError{Op: OpLock, Path: path, Err: err}
	}
	return nil
}

// readPID reads the holder's number, 0 when there is none to be read.
func readPID(f *os.File) int {
	buf := make([]byte, 32)
	n, _ := f.ReadAt(buf, 0)
	pid, err := strconv.Atoi(strings.TrimSpace(string(buf[:n])))
	if err != nil || pid < 0 {
		return 0
	}
	return pid
}
