package store

import (
	"context"
	"database/sql/driver"

	"example.org/driploop/model/durable"
)

// hold keeps the database open beside SQLite, to know it again by. Where the file
// system cannot tell a file from another even now, nothing is asked of it later.
func (s *Store) hold() {
	h, err := durable.Hold(s.path)
	if err != nil || h.Where() != durable.InPlace {
		h.Release()
		h = nil
	}
	s.held.Swap(h).Release()
	s.print.begin(h)
	ours := s.ours
	s.link.ours.Store(&ours)
}

// letGo ends what hold began. SQLite's own handles must be closed: closing another
// before them would drop their locks.
func (s *Store) letGo() {
	s.held.Swap(nil).Release()
	s.link.log.Swap(nil).Release()
}

// Gone tells that the database, or its log, was moved, replaced or deleted while it
// is open, or that another program wrote over it: nil while it stands where it was, as
// it was. All that was kept is still held and can be read, but for a file that was
// written over; changes are refused, until the file is back or PutBack puts it there.
// For one that was written over see TakeThere and GoBack.
func (s *Store) Gone() *OpError { return s.gone(true) }

// gone is Gone; settle lets it read the whole file where that was not done since the
// file was last written.
func (s *Store) gone(settle bool) *OpError {
	held := s.held.Load()
	if held == nil {
		return nil
	}
	if where := held.Where(); where != durable.InPlace {
		return &OpError{Code: CodeGone, Path: s.path, Reason: string(where)}
	}
	if log := s.link.log.Load(); log != nil {
		if where := log.Where(); where != durable.InPlace {
			return &OpError{Code: CodeGone, Path: s.path + "-wal", Reason: string(where)}
		}
	}
	if s.print.overwritten(held, settle) {
		return &OpError{Code: CodeGone, Path: s.path, Reason: ReasonOverwritten}
	}
	return nil
}

// inPlace is Gone as the error of an operation. A lock that was taken away is taken
// anew: CodeLocked, as an *OpenError, when another program was faster.
func (s *Store) inPlace(op string) error {
	if gone := s.gone(false); gone != nil {
		gone.Op = op
		return gone
	}
	if s.held.Load() == nil {
		return nil
	}
	if s.link.log.Load() == nil {
		// Within a transaction the log is there; it keeps its name until the
		// connection ends.
		s.link.watch(s.path + "-wal")
	}
	return s.locked()
}

// locked sees that the lock is held under its name.
func (s *Store) locked() error {
	s.again.Lock()
	defer s.again.Unlock()
	if s.lock.InPlace() {
		return nil
	}
	lock, err := take(s.dir)
	if err != nil {
		_ = lock.Release()
		return err
	}
	_ = s.lock.Release()
	s.lock = lock
	return nil
}

// PutBack puts what a Store holds whose file is Gone where that file was, and goes
// on with it; not where it was written over, for nothing tells what is of which file. It is first written and checked as a snapshot, whose path is returned;
// what stands in its place is set aside. It does nothing, and returns "", where the
// file is back already. Errors: *OpError; *OpenError, CodeLocked when another
// program has the folder by now. After one the snapshot, if there is a path, is
// whole.
func (s *Store) PutBack(ctx context.Context) (snapshot string, err error) {
	const op = "snapshot"
	if why := s.ReadOnly(); why != nil {
		return "", &OpError{Code: CodeReadOnly, Op: op, Err: why}
	}
	switch gone := s.Gone(); {
	case gone == nil:
		return "", nil
	case gone.Reason == ReasonOverwritten:
		gone.Op = op
		return "", gone
	}
	if err := prepare(s.dir); err != nil {
		return "", err
	}
	if err := s.locked(); err != nil {
		return "", err
	}
	if snapshot, err = s.snapshot(ctx, ""); err != nil {
		return "", err
	}
	// The only connection is closed while its place is kept: nobody reads what
	// stands there meanwhile.
	conn, err := s.db.Conn(ctx)
	if err != nil {
		return snapshot, opError(op, "", err)
	}
	defer conn.Close()
	var failed error
	_ = conn.Raw(func(x any) error {
		if c, ok := x.(*linked); ok {
			failed = c.Close()
		}
		if failed == nil {
			s.letGo()
			_, failed = putInto(s.dir, snapshot, Options{Now: s.now})
		}
		return driver.ErrBadConn // it is closed: the next is another
	})
	if failed != nil {
		return snapshot, opError(op, "", failed)
	}
	next, err := s.db.Conn(ctx)
	if err != nil {
		return snapshot, openError(s.path, CodeDamaged, err)
	}
	s.hold()
	return snapshot, next.Close()
}
