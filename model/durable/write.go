package durable

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// TempPrefix starts the name of every temporary file made by this package. A
// file so named is never a person's record and may be removed by Sweep.
const TempPrefix = ".driploop-tmp-"

// Steps of a safe write, as they stand in WriteError.Op.
const (
	OpCreate  = "create"
	OpWrite   = "write"
	OpLength  = "length"
	OpSync    = "sync"
	OpClose   = "close"
	OpRename  = "rename"
	OpSyncDir = "syncdir"
	OpRemove  = "remove"
	OpLock    = "lock"
	OpRead    = "read"
)

// WriteError says which step of a safe write failed and on which path. Path is
// the file that was to be written, not the temporary one.
type WriteError struct {
	Op   string // one of the Op constants
	Path string
	Err  error
	Need int64 // bytes the file was to have, 0 when not known
}

// Error gives step, path and cause for a log; it is not text for people.
func (e *WriteError) Error() string { return fmt.Sprintf("%s %s: %v", e.Op, e.Path, e.Err) }

// Unwrap gives the operating system's error.
func (e *WriteError) Unwrap() error { return e.Err }

// ErrNotFile is the cause when something that is no plain file, such as a device,
// a pipe or a folder, stands where the file is to go. It is left as it is.
var ErrNotFile = errors.New("not a plain file")

// ErrLength is the cause when the file on disk is not as long as what was written.
var ErrLength = errors.New("length on disk differs from length written")

// file is the part of *os.File that a safe write needs.
type file interface {
	io.Writer
	Name() string
	Stat() (fs.FileInfo, error)
	Chmod(fs.FileMode) error
	Sync() error
	Close() error
}

// The operations a safe write is made of. They are variables so that a test
// can let the n-th of them fail; nothing else sets them.
var (
	createTemp = func(dir string) (file, error) { return os.CreateTemp(dir, TempPrefix+"*") }
	openSync   = func(path string) (file, error) { return os.OpenFile(path, os.O_RDWR, 0) }
	rename     = renameOver
	syncDir    = flushDir
	remove     = os.Remove
)

// WriteFile replaces path by data in one step, with permission bits perm. The
// folder must exist. On error the old file is as it was, except that a failed
// flush of the folder (OpSyncDir) may leave the complete new file in place.
// Errors: *WriteError.
func WriteFile(path string, data []byte, perm fs.FileMode) error {
	return WriteFrom(path, bytes.NewReader(data), int64(len(data)), perm)
}

// WriteFrom is WriteFile for a stream. size is the number of bytes r must
// yield, or -1 when that is not known beforehand; another number is refused
// with ErrLength and nothing is replaced, as is a path where something else than a
// file stands, with ErrNotFile.
func WriteFrom(path string, r io.Reader, size int64, perm fs.FileMode) error {
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return &WriteError{Op: OpCreate, Path: path, Err: ErrNotFile}
	}
	f, err := createTemp(filepath.Dir(path))
	if err != nil {
		return &WriteError{Op: OpCreate, Path: path, Err: err}
	}
	temp := f.Name()
	if err := fill(f, path, r, size, perm); err != nil {
		_ = f.Close()
		_ = remove(temp)
		return err
	}
	if err := f.Close(); err != nil {
		_ = remove(temp)
		return &WriteError{Op: OpClose, Path: path, Err: err}
	}
	return moveInto(temp, path)
}

// fill writes r into f, compares the length and flushes.
func fill(f file, path string, r io.Reader, size int64, perm fs.FileMode) error {
	in := &source{r: r}
	// Only Write is used, so that what is counted is what was handed to Write.
	n, err := io.Copy(struct{ io.Writer }{f}, in)
	if err != nil {
		if in.err != nil {
			return &WriteError{Op: OpRead, Path: path, Err: err}
		}
		return &WriteError{Op: OpWrite, Path: path, Err: err, Need: max(0, size)}
	}
	info, err := f.Stat()
	if err != nil {
		return &WriteError{Op: OpLength, Path: path, Err: err}
	}
	if info.Size() != n || (size >= 0 && n != size) {
		return &WriteError{Op: OpLength, Path: path, Err: fmt.Errorf("%w: want %d, written %d, on disk %d", ErrLength, size, n, info.Size())}
	}
	if err := f.Chmod(perm); err != nil {
		return &WriteError{Op: OpCreate, Path: path, Err: err}
	}
	if err := f.Sync(); err != nil {
		return &WriteError{Op: OpSync, Path: path, Err: err}
	}
	return nil
}

// source remembers whether a failed copy failed while reading.
type source struct {
	r   io.Reader
	err error
}

func (s *source) Read(p []byte) (int, error) {
	n, err := s.r.Read(p)
	if err != nil && err != io.EOF {
		s.err = err
	}
	return n, err
}

// Publish flushes the finished file temp and moves it to path, replacing what
// is there, then flushes the folder. Both must be in one folder, and no one may
// have temp open. On error temp is removed. Errors: *WriteError naming path.
func Publish(temp, path string) error {
	f, err := openSync(temp)
	if err != nil {
		_ = remove(temp)
		return &WriteError{Op: OpSync, Path: path, Err: err}
	}
	err = f.Sync()
	closeErr := f.Close()
	if err != nil {
		_ = remove(temp)
		return &WriteError{Op: OpSync, Path: path, Err: err}
	}
	if closeErr != nil {
		_ = remove(temp)
		return &WriteError{Op: OpClose, Path: path, Err: closeErr}
	}
	return moveInto(temp, path)
}

// moveInto renames temp over path and makes the rename itself durable.
func moveInto(temp, path string) error {
	if err := rename(temp, path); err != nil {
		_ = remove(temp)
		return &WriteError{Op: OpRename, Path: path, Err: err}
	}
	if err := syncDir(filepath.Dir(path)); err != nil {
		return &WriteError{Op: OpSyncDir, Path: path, Err: err}
	}
	return nil
}

// SyncDir flushes a folder's list of names, so that files made, renamed or
// removed in it stay so after a power cut. Errors: *WriteError.
func SyncDir(dir string) error {
	if err := syncDir(dir); err != nil {
		return &WriteError{Op: OpSyncDir, Path: dir, Err: err}
	}
	return nil
}

// Sweep removes the temporary files a crash left in dir and returns how many.
// Call it only while holding the folder's lock, or a write under way elsewhere
// would lose its file. A folder that does not exist has nothing to sweep.
func Sweep(dir string) (int, error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return 0, nil
	}
	if err != nil {
		return 0, &WriteError{Op: OpRemove, Path: dir, Err: err}
	}
	n := 0
	var first error
	for _, e := range entries {
		if e.IsDir() || !strings.HasPrefix(e.Name(), TempPrefix) {
			continue
		}
		path := filepath.Join(dir, e.Name())
		if err := remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			if first == nil {
				first = &WriteError{Op: OpRemove, Path: path, Err: err}
			}
			continue
		}
		n++
	}
	return n, first
}
