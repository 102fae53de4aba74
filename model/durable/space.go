package durable

// Free returns the bytes that this user may still write to the file system of
// dir. The number is what the system says now; quotas it does not report can
// make it too large. Errors: *WriteError when dir cannot be asked.
func Free(dir string) (uint64, error) {
	n, err := freeBytes(dir)
	if err != nil {
		return 0, &WriteError{Op: OpLength, Path: dir, Err: err}
	}
	return n, nil
}

// Writable tries the folder: it makes a temporary file in dir, writes a byte
// and removes it again. A nil answer means that this worked. Permission bits
// are not looked at, as they do not tell the truth on every system. Where
// Sweep may run, hold the lock: it would take the temporary file away.
// Errors: *WriteError naming dir.
func Writable(dir string) error {
	f, err := createTemp(dir)
	if err != nil {
		return &WriteError{Op: OpCreate, Path: dir, Err: err}
	}
	_, err = f.Write([]byte{0})
	closeErr := f.Close()
	removeErr := remove(f.Name())
	switch {
	case err != nil:
		return &WriteError{Op: OpWrite, Path: dir, Err: err}
	case closeErr != nil:
		return &WriteError{Op: OpClose, Path: dir, Err: closeErr}
	case removeErr != nil:
		return &WriteError{Op: OpRemove, Path: dir, Err: removeErr}
	}
	return nil
}

// MayWrite asks whether an existing file may be written, without opening it. It is
// for files that another handle of must not be closed. Errors: *WriteError.
func MayWrite(path string) error {
	if err := mayWrite(path); err != nil {
		return &WriteError{Op: OpWrite, Path: path, Err: err}
	}
	return nil
}

// IsNoSpace reports whether err was caused by a full disk or a used-up quota.
func IsNoSpace(err error) bool { return isNoSpace(err) }
