package store

import (
	"context"
	"os"
	"path/filepath"
	"strconv"

	"example.org/driploop/model/durable"
)

// openReading opens a sound database of this schema for reading only where nothing
// can be written just now: why says so. It needs no side file of SQLite's: where
// there is none of them the file is read as it is. Errors: why, for whatever cannot
// be read in this way.
func (s *Store) openReading(ctx context.Context, o Options, why *OpenError) error {
	m, err := readMigrations(o.migrations)
	if err != nil {
		return openError(s.path, CodeMigration, err)
	}
	info, err := os.Stat(s.path)
	if err != nil || !info.Mode().IsRegular() || info.Size() == 0 || size(s.path+"-journal") > 0 {
		return why
	}
	for _, mode := range []access{readOnly, asIs} {
		if mode == asIs && size(s.path+"-wal") > 0 {
			break // what stands in the log would be left out
		}
		version, err := check(ctx, s.path, mode)
		if err != nil || version != m.latest {
			continue
		}
		if s.db, s.link, err = openLinked(ctx, s.path, mode); err == nil {
			s.reason.Store(why)
			return nil
		}
	}
	return why
}

// waits reports whether a reason for reading only may go by itself.
func waits(why *OpenError) bool {
	return why != nil && (why.Code == CodeNoSpace || why.Code == CodeNotWritable)
}

// Resume lets a Store that was opened for reading only, because nothing could be
// written, take changes as soon as that is possible again. It reports whether the
// Store takes changes now. Errors: *OpenError.
func (s *Store) Resume(ctx context.Context) (bool, error) {
	why := s.reason.Load()
	if why == nil {
		return true, nil
	}
	if !waits(why) {
		return false, nil
	}
	if s.lock == nil {
		lock, err := durable.Acquire(filepath.Join(s.dir, LockName))
		if err != nil {
			return false, nil // as before, or another program has it now
		}
		s.lock = lock
	}
	if try(s.dir) != nil {
		return false, nil
	}
	for _, d := range []string{s.dir, filepath.Join(s.dir, SnapshotFolder)} {
		if _, err := durable.Sweep(d); err != nil {
			return false, openError(d, CodeNotWritable, err)
		}
	}
	// The one connection is closed once nobody has it, and the next is another kind.
	was := s.link.mode.Swap(string(readWrite))
	s.db.SetMaxIdleConns(0)
	defer s.db.SetMaxIdleConns(1)
	conn, err := s.db.Conn(ctx)
	if err != nil {
		s.link.mode.Store(was)
		return false, openError(s.path, CodeNotWritable, err)
	}
	defer conn.Close()
	s.hold()
	s.reason.Store(nil)
	return true, nil
}

// Room tells how many bytes are free on the disk of the data folder, and how many
// are needed to go on. Errors: *durable.WriteError.
func (s *Store) Room() (free, need uint64, err error) {
	free, err = freeSpace(s.dir)
	return free, minFree, err
}

// tooSmall is the error of a disk with too little room.
func tooSmall(dir string, free uint64) *OpenError {
	return &OpenError{Code: CodeNoSpace, Path: dir, Free: free, Wanted: strconv.Itoa(minFree)}
}
