package durable

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"sync"
)

// Held is a file that is held open, so that what becomes of its name can be told. It
// is only for a file whose other handles in this process are closed before Release:
// on some systems closing any handle of a file drops the locks of all.
type Held struct {
	path string
	mu   sync.Mutex
	f    *os.File // nil once released
}

// Where is what has become of the name of a Held file.
type Where string

// The answers of Held.Where.
const (
	InPlace  Where = ""         // the name stands for this file
	Moved    Where = "moved"    // nothing has the name; the file stands elsewhere, or nobody can tell
	Removed  Where = "removed"  // nothing has the name, and the file has no other
	Replaced Where = "replaced" // another file has the name
)

// Hold opens the file path for reading and keeps it open. Errors: *WriteError
// (OpRead).
func Hold(path string) (*Held, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, &WriteError{Op: OpRead, Path: path, Err: err}
	}
	return &Held{path: path, f: f}, nil
}

// Where tells what has become of the name. A folder that cannot be asked is taken
// to be as it was, for whoever then writes is told; so is a file that was released.
func (h *Held) Where() Where {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.f == nil {
		return InPlace
	}
	return where(h.f, h.path)
}

func where(f *os.File, path string) Where {
	ours, err := f.Stat()
	there, missing := os.Stat(path)
	switch {
	case missing == nil && err == nil && os.SameFile(ours, there):
		return InPlace
	case missing == nil:
		return Replaced
	case !errors.Is(missing, fs.ErrNotExist):
		return InPlace
	case err == nil && names(ours) == 0:
		return Removed
	}
	return Moved
}

// Info tells of the file itself, whatever stands at its name. Errors: *WriteError
// (OpRead); fs.ErrClosed after Release.
func (h *Held) Info() (fs.FileInfo, error) {
	if h == nil {
		return nil, fs.ErrClosed
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.f == nil {
		return nil, fs.ErrClosed
	}
	info, err := h.f.Stat()
	if err != nil {
		return nil, &WriteError{Op: OpRead, Path: h.path, Err: err}
	}
	return info, nil
}

// Reader reads the first size bytes of the file itself, without the closing of another
// handle. It gives fs.ErrClosed after Release.
func (h *Held) Reader(size int64) io.Reader { return io.NewSectionReader(h, 0, size) }

// ReadAt implements io.ReaderAt.
func (h *Held) ReadAt(p []byte, at int64) (int, error) {
	if h == nil {
		return 0, fs.ErrClosed
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.f == nil {
		return 0, fs.ErrClosed
	}
	return h.f.ReadAt(p, at)
}

// Release closes the file. A second Release does nothing.
func (h *Held) Release() {
	if h == nil {
		return
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.f != nil {
		_ = h.f.Close() // nothing was written through it
		h.f = nil
	}
}

// InPlace reports whether the file of the lock still has its name: another program
// can take the lock of one that was taken away.
func (l *Lock) InPlace() bool {
	return l != nil && l.f != nil && where(l.f, l.f.Name()) == InPlace
}
