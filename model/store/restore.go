package store

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"example.org/driploop/model/durable"
)

// Restore puts a snapshot in the place of the data folder's database and
// returns the folder below aside/ where what stood there is kept; nothing is
// deleted. The folder must not be open. The snapshot is checked first; it stays
// where it is. A restore that is cut off leaves the old database or the new one.
// Errors: *OpenError, CodeSnapshot when the snapshot is no good.
func Restore(ctx context.Context, dir, snapshot string, o Options) (aside string, err error) {
	if o.Now == nil {
		return "", &OpenError{Code: CodeOptions, Path: dir, Name: "Now"}
	}
	if dir, err = filepath.Abs(dir); err != nil {
		return "", &OpenError{Code: CodeNotWritable, Path: dir, Err: err}
	}
	if snapshot, err = filepath.Abs(snapshot); err != nil {
		return "", &OpenError{Code: CodeSnapshot, Path: snapshot, Err: err}
	}
	if err := prepare(dir); err != nil {
		return "", err
	}
	lock, err := take(dir)
	defer lock.Release()
	if err != nil {
		return "", err
	}
	if err := usable(ctx, snapshot, o); err != nil {
		return "", err
	}
	path := filepath.Join(dir, FileName)
	if was, err := inspect(ctx, path); err == nil && !was.fresh {
		// A sound database brings its log into the file, so that the one file
		// put aside is whole.
		if db, err := openFile(ctx, path, readWrite); err == nil {
			_ = db.Close()
		}
	}
	return putInto(dir, snapshot, o)
}

// putInto puts a sound snapshot in the place of the database and sets aside what
// stood there, as it is: it is not opened, as the log beside it may be another's.
func putInto(dir, snapshot string, o Options) (aside string, err error) {
	path := filepath.Join(dir, FileName)
	if aside, err = putAside(dir, o); err != nil {
		return "", openError(path, CodeNotWritable, err)
	}
	return aside, putThere(path, snapshot)
}

// putThere puts a sound snapshot at path.
func putThere(path, snapshot string) error {
	f, err := os.Open(snapshot)
	if err != nil {
		return openError(snapshot, CodeSnapshot, err)
	}
	defer f.Close()
	return openError(path, CodeNotWritable, durable.WriteFrom(path, f, size(snapshot), 0o600))
}

// usable checks a snapshot.
func usable(ctx context.Context, snapshot string, o Options) error {
	m, err := readMigrations(o.migrations)
	if err != nil {
		return openError(snapshot, CodeMigration, err)
	}
	if info, err := os.Stat(snapshot); err != nil || !info.Mode().IsRegular() {
		return &OpenError{Code: CodeSnapshot, Path: snapshot, Err: err}
	}
	version, err := check(ctx, snapshot, asIs)
	if err != nil {
		return &OpenError{Code: CodeSnapshot, Path: snapshot, Err: err}
	}
	if version > m.latest {
		return newer(snapshot, m.latest, version)
	}
	return nil
}

// putAside copies the database into a new folder below aside/ and moves its
// side files there. The database itself stays until it is replaced in one step;
// the log must not, as it would be played into the new file.
func putAside(dir string, o Options) (string, error) {
	parent := filepath.Join(dir, AsideFolder)
	aside, err := asideFolder(dir, o.Now())
	if err != nil {
		return "", err
	}
	path := filepath.Join(dir, FileName)
	f, err := os.Open(path)
	if err == nil {
		err = durable.WriteFrom(filepath.Join(aside, FileName), f, size(path), 0o600)
		_ = f.Close()
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", err
	}
	for _, suffix := range []string{"-wal", "-shm", "-journal"} {
		err := os.Rename(path+suffix, filepath.Join(aside, FileName+suffix))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return "", err
		}
	}
	for _, d := range []string{aside, parent, dir} {
		if err := durable.SyncDir(d); err != nil {
			return "", err
		}
	}
	return aside, nil
}

// asideFolder makes a new folder below aside/, named after the time.
func asideFolder(dir string, at time.Time) (string, error) {
	parent := filepath.Join(dir, AsideFolder)
	if err := os.MkdirAll(parent, 0o700); err != nil {
		return "", err
	}
	base := filepath.Join(parent, at.UTC().Format(stamp))
	aside := base
	for n := 2; ; n++ {
		err := os.Mkdir(aside, 0o700)
		if err == nil {
			return aside, nil
		}
		if !errors.Is(err, fs.ErrExist) {
			return "", err
		}
		aside = base + "-" + strconv.Itoa(n)
	}
}
