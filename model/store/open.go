package store

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"sync/atomic"
	"time"

	"example.org/driploop/model/durable"
)

// Names in the data folder.
const (
	FileName       = "driploop.db"
	LockName       = "lock"
	BellName       = "bell" // rung by a second start: see durable.Ring
	SnapshotFolder = "snapshots"
	AsideFolder    = "aside"
)

// minFree is the room a data folder must have to be opened, bytes: the log, its
// index, and a page of daybook. // judgement
const minFree = 4 << 20

// freeSpace asks the disk; a variable so that a test can fill it.
var freeSpace = durable.Free

// Options of Open.
type Options struct {
	// Now gives the time that goes into the names of snapshots. Required.
	Now func() time.Time

	// migrations in place of those built in, for tests of an upgrade.
	migrations fs.FS
}

// Store is an open data folder.
type Store struct {
	dir    string
	path   string
	db     *sql.DB
	lock   *durable.Lock
	again  sync.Mutex // while the lock is taken anew
	now    func() time.Time
	link   *connector                   // of db
	held   atomic.Pointer[durable.Held] // the database; nil where it is for reading only
	print  print                        // of the database
	reason atomic.Pointer[OpenError]    // why only for reading; nil when it takes changes
	fresh  bool
}

// Open opens the data folder dir, making it when it is absent, and holds its
// lock until Close. A database newer than this program, and one in a folder where
// nothing can be written, open for reading only: see ReadOnly. Errors: *OpenError; nothing on disk was changed by a refusal,
// except that an absent folder was made and a step of an upgrade that had
// finished stays.
func Open(ctx context.Context, dir string, o Options) (*Store, error) {
	if o.Now == nil {
		return nil, &OpenError{Code: CodeOptions, Path: dir, Name: "Now"}
	}
	name, number := engineVersion()
	if number < minEngine {
		return nil, &OpenError{Code: CodeEngine, Path: dir, Wanted: minEngineName, Got: name}
	}
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, &OpenError{Code: CodeNotWritable, Path: dir, Err: err}
	}
	if err := prepare(dir); err != nil {
		return nil, err
	}
	lock, err := take(dir)
	var why *OpenError
	if err != nil && (!errors.As(err, &why) || !waits(why)) {
		return nil, err
	}
	s := &Store{dir: dir, path: filepath.Join(dir, FileName), lock: lock, now: o.Now}
	if why != nil {
		err = s.openReading(ctx, o, why)
	} else {
		err = s.open(ctx, o)
	}
	if err != nil {
		if s.db != nil {
			_ = s.db.Close()
			s.letGo()
		}
		_ = lock.Release()
		return nil, err
	}
	return s, nil
}

// prepare makes the folder.
func prepare(dir string) error {
	info, err := os.Stat(dir)
	switch {
	case err == nil && !info.IsDir():
		return &OpenError{Code: CodeNotFolder, Path: dir}
	case err != nil:
		if err := os.MkdirAll(dir, 0o700); err != nil {
			return openError(dir, CodeNotWritable, err)
		}
		// The new name must last as long as what will be put below it.
		if err := durable.SyncDir(filepath.Dir(dir)); err != nil {
			return openError(dir, CodeNotWritable, err)
		}
	}
	return nil
}

// try writes to the folder and asks for its room. The lock must be held: the
// holder of the lock sweeps away temporary files, another's trial among them.
func try(dir string) error {
	if err := durable.Writable(dir); err != nil {
		return openError(dir, CodeNotWritable, err)
	}
	for _, suffix := range []string{"", "-wal", "-shm"} { // one of them may be another account's
		path := filepath.Join(dir, FileName+suffix)
		if err := durable.MayWrite(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return openError(path, CodeNotWritable, err)
		}
	}
	// A disk that cannot say how full it is gets the benefit of the doubt.
	if free, err := freeSpace(dir); err == nil && free < minFree {
		return tooSmall(dir, free)
	}
	return nil
}

// take takes the folder's lock and sees that the folder can be written. The lock is
// held even where nothing can be, if it could be taken.
func take(dir string) (*durable.Lock, error) {
	path := filepath.Join(dir, LockName)
	lock, err := durable.Acquire(path)
	var held *durable.LockedError
	if errors.As(err, &held) {
		return nil, &OpenError{Code: CodeLocked, Path: path, PID: held.PID, Err: err}
	}
	if err != nil {
		return nil, openError(path, CodeNotWritable, err)
	}
	return lock, try(dir)
}

// open does what is left to do once the lock is held.
func (s *Store) open(ctx context.Context, o Options) error {
	for _, d := range []string{s.dir, filepath.Join(s.dir, SnapshotFolder)} {
		if _, err := durable.Sweep(d); err != nil {
			return openError(d, CodeNotWritable, err)
		}
	}
	m, err := readMigrations(o.migrations)
	if err != nil {
		return openError(s.path, CodeMigration, err)
	}
	was, err := inspect(ctx, s.path)
	if err != nil {
		return err
	}
	if was.version > m.latest {
		s.reason.Store(newer(s.path, m.latest, was.version))
		s.db, s.link, err = openLinked(ctx, s.path, readOnly)
		return openError(s.path, CodeDamaged, err)
	}
	if was.fresh {
		s.fresh = true
		if err := create(ctx, s.path); err != nil {
			return openError(s.path, CodeNotWritable, err)
		}
	}
	if s.db, s.link, err = openLinked(ctx, s.path, readWrite); err != nil {
		return openError(s.path, CodeDamaged, err)
	}
	s.hold()
	return s.upgrade(ctx, was.version, m)
}

// newer is the error of a file of a later schema than this program knows.
func newer(path string, known, found int) *OpenError {
	return &OpenError{Code: CodeNewer, Path: path, Name: "user_version", Wanted: strconv.Itoa(known), Got: strconv.Itoa(found)}
}

// create makes an empty database that carries our mark. It is made under
// another name and moved in place, so that a file of ours is never without it.
func create(ctx context.Context, path string) error {
	temp := filepath.Join(filepath.Dir(path), durable.TempPrefix+FileName)
	db, err := openFile(ctx, temp, makeNew)
	if err != nil {
		return err
	}
	_, err = db.ExecContext(ctx, "PRAGMA application_id="+strconv.Itoa(ApplicationID))
	// Closing the last connection brings the log into the file and removes it.
	if closeErr := db.Close(); err == nil {
		err = closeErr
	}
	if err != nil {
		return err
	}
	return durable.Publish(temp, path)
}

// ReadOnly says why the Store takes no changes, nil when it does. The code is
// CodeNewer, where Wanted and Got are the schema version known and found, or
// CodeNotWritable or CodeNoSpace, which Resume may end.
func (s *Store) ReadOnly() *OpenError { return s.reason.Load() }

// Fresh reports whether Open found no database and made one. Beside snapshots
// in the folder that means that the database was taken away.
func (s *Store) Fresh() bool { return s.fresh }

// Dir is the data folder's absolute path.
func (s *Store) Dir() string { return s.dir }

// Close brings the log into the database file, closes it and gives the lock
// back. A database whose file has lost its name is kept as a snapshot first; a file that
// another program wrote over is left as it is. The Store cannot be used afterwards.
func (s *Store) Close() error {
	var first error
	if s.ReadOnly() == nil {
		gone := s.gone(false)
		over := gone != nil && gone.Reason == ReasonOverwritten
		switch {
		case over:
			first = s.leave()
		case gone != nil && gone.Reason != ReasonMoved:
			_, first = s.snapshot(context.Background(), "")
		}
		if !over {
			if _, err := s.db.Exec("PRAGMA wal_checkpoint(TRUNCATE)"); err != nil {
				// Not a loss: the log is kept and read again by the next Open.
				first = opError("close", "", err)
			}
		}
	}
	if err := s.db.Close(); err != nil && first == nil {
		first = opError("close", "", err)
	}
	s.letGo()
	if err := s.lock.Release(); err != nil && first == nil {
		first = err
	}
	return first
}
