package store

import (
	"context"
	"database/sql/driver"
	"errors"
	"hash/maphash"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"time"

	"example.org/driploop/model/durable"
)

// print tells whether the database's file is as this Store wrote it last. Nothing of
// SQLite's does: with a write-ahead log it asks the log alone, and reads a file that
// another program wrote over as its own. The file itself is written in two places only:
// where a commit and where the closing of a connection bring the log into it.
type print struct {
	mu     sync.Mutex
	size   int64
	at     time.Time // of the last writing
	sketch uint64    // sum of a few places of the file, zero where they could not be read
	sum    uint64    // of the whole file, once it was taken
	taken  bool
	// writing counts what of this Store may be writing the file right now, and rounds what
	// did: nobody else is blamed meanwhile.
	writing, rounds atomic.Int64
	// spoiled is set once another wrote over the file. It stays, for what was read
	// meanwhile may be of either file.
	spoiled bool
}

// seed of the sums of this run, which are compared with no other.
var seed = maphash.MakeSeed()

// ours runs what may write the file itself, and takes the file as it then stands as
// this Store's own. One that another program wrote over before stays another's.
func (s *Store) ours(f func() error) error {
	s.print.overwritten(s.held.Load(), false)
	s.print.writing.Add(1)
	defer s.print.writing.Add(-1)
	err := f()
	s.wrote()
	s.print.rounds.Add(1)
	return err
}

// wrote says that the file is as it is by this Store's own hand. What another program
// writes between the look before a commit and its end is taken for our own.
func (s *Store) wrote() {
	s.print.mu.Lock()
	defer s.print.mu.Unlock()
	s.print.look(s.held.Load())
}

// look takes the file as it stands as its own.
func (p *print) look(h *durable.Held) {
	if info, err := h.Info(); err == nil && (info.Size() != p.size || !info.ModTime().Equal(p.at)) {
		p.size, p.at, p.taken = info.Size(), info.ModTime(), false
		if p.sketch, _ = sketchOf(h, p.size); p.size <= sumAtOnce {
			p.settle(h)
		}
	}
}

// sumAtOnce is the largest file whose sum is taken with every writing, so that a few
// places need not do. Judgement: 8 MB are read in a few milliseconds. A variable so that a test
// can do with the places.
var sumAtOnce int64 = 8 << 20

// settle takes the sum of the file, if it is as it was left.
func (p *print) settle(h *durable.Held) {
	sum, err := sumOf(h, p.size)
	if info, err2 := h.Info(); err == nil && err2 == nil && p.as(info) {
		p.sum, p.taken = sum, true
	}
}

// as reports whether a file looks as it was left.
func (p *print) as(i fs.FileInfo) bool { return i.Size() == p.size && i.ModTime().Equal(p.at) }

// begin starts anew with another file.
func (p *print) begin(h *durable.Held) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.size, p.at, p.taken, p.spoiled = -1, time.Time{}, false, false
	p.look(h)
}

// overwritten reports whether another program wrote over the file since wrote. A file
// whose time alone was changed, as by a system that keeps times late, is told from one
// that was written by its sum, which is taken where settle asks for it and the file is
// as it was left; until then by a few places, the first page among them.
func (p *print) overwritten(h *durable.Held, settle bool) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	round := p.rounds.Load()
	if p.spoiled || p.writing.Load() > 0 {
		return p.spoiled
	}
	info, err := h.Info()
	if err != nil {
		return false // whoever then writes is told
	}
	switch {
	case p.as(info):
		if settle && !p.taken {
			p.settle(h)
		}
		return false
	case p.taken && info.Size() == p.size:
		if sum, err := sumOf(h, info.Size()); err == nil && sum == p.sum {
			p.at = info.ModTime()
			return false
		}
	case info.Size() == p.size && p.sketch != 0:
		if sketch, err := sketchOf(h, p.size); err == nil && sketch == p.sketch {
			p.at = info.ModTime()
			return false
		}
	}
	p.spoiled = p.writing.Load() == 0 && p.rounds.Load() == round
	return p.spoiled
}

// A sketch takes this many places of a page's size, evenly over the file: judgement, so
// that it costs a commit nothing that is felt.
const (
	sketchPlaces = 16
	sketchPage   = 4096
)

// sketchOf is a sum of a few places of a file, the first page among them, where SQLite
// counts what was changed.
func sketchOf(h *durable.Held, size int64) (uint64, error) {
	var m maphash.Hash
	m.SetSeed(seed)
	var b [sketchPage]byte
	for i := range int64(sketchPlaces) {
		n, err := h.ReadAt(b[:], size/sketchPlaces*i)
		if err != nil && err != io.EOF {
			return 0, err
		}
		_, _ = m.Write(b[:n])
	}
	return m.Sum64(), nil
}

func sumOf(h *durable.Held, size int64) (uint64, error) {
	var m maphash.Hash
	m.SetSeed(seed)
	n, err := io.Copy(&m, h.Reader(size))
	if err == nil && n != size {
		err = io.ErrUnexpectedEOF
	}
	return m.Sum64(), err
}

// TakeThere goes on with the file that another program wrote over the database, as it
// stands, and returns the folder below aside/ where a copy of it is kept together with
// the log of what was not in the file yet. It does nothing, and returns "", where
// nobody wrote over the database. Errors: *OpenError when the file is no good, of
// something else, or of a later version; *OpError.
func (s *Store) TakeThere(ctx context.Context) (aside string, err error) {
	if gone := s.Gone(); gone == nil || gone.Reason != ReasonOverwritten {
		return "", nil
	}
	m, err := readMigrations(nil)
	if err != nil {
		return "", openError(s.path, CodeMigration, err)
	}
	version, err := check(ctx, s.path, asIs)
	if err != nil {
		return "", err
	}
	if version > m.latest {
		return "", newer(s.path, m.latest, version)
	}
	return s.renew(ctx, "", Options{Now: s.now})
}

// renew leaves a database that another program wrote over and opens the file that
// stands there, or a sound snapshot put in its place. Errors: as TakeThere's.
func (s *Store) renew(ctx context.Context, snapshot string, o Options) (aside string, err error) {
	const op = "snapshot"
	conn, err := s.db.Conn(ctx)
	if err != nil {
		return "", opError(op, "", err)
	}
	defer conn.Close()
	var failed error
	_ = conn.Raw(func(x any) error {
		if aside, failed = s.abandon(x, o); failed == nil && snapshot != "" {
			failed = putThere(s.path, snapshot)
		}
		return driver.ErrBadConn // it is closed: the next is another
	})
	if failed != nil {
		return aside, opError(op, "", failed)
	}
	next, err := s.db.Conn(ctx)
	if err != nil {
		return aside, openError(s.path, CodeDamaged, err)
	}
	if err := next.Close(); err != nil {
		return aside, opError(op, "", err)
	}
	s.hold()
	return aside, s.catchUp(ctx, o)
}

// abandon closes a connection whose database another program wrote over, without a
// byte of ours going into that file. The file and our log are copied aside first. x is
// the connection as database/sql holds it.
func (s *Store) abandon(x any, o Options) (aside string, err error) {
	if aside, err = asideFolder(s.dir, o.Now()); err != nil {
		return "", err
	}
	held := s.held.Load()
	info, err := held.Info()
	if err != nil {
		return "", err
	}
	if err := durable.WriteFrom(filepath.Join(aside, FileName), held.Reader(info.Size()), info.Size(), 0o600); err != nil {
		return "", err
	}
	log := s.path + "-wal"
	if f, err := os.Open(log); err == nil { // SQLite takes its locks elsewhere
		err = durable.WriteFrom(filepath.Join(aside, FileName+"-wal"), f, size(log), 0o600)
		_ = f.Close()
		if err != nil {
			return "", err
		}
		// With its last connection SQLite brings the log into the file, which is
		// another's by now. A log that ends before its first page stops it.
		if err := os.Truncate(log, 0); err != nil {
			return "", err
		}
	} else if !errors.Is(err, fs.ErrNotExist) {
		return "", err
	}
	if c, ok := x.(*linked); ok {
		_ = c.SQLiteConn.Close() // that the log could not be read is meant
	}
	s.letGo()
	for _, suffix := range []string{"-wal", "-shm"} {
		if err := os.Remove(s.path + suffix); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return aside, err
		}
	}
	for _, d := range []string{filepath.Dir(aside), s.dir} {
		if err := durable.SyncDir(d); err != nil {
			return aside, err
		}
	}
	return aside, nil
}

// leave is abandon for a Store that is closed.
func (s *Store) leave() error {
	conn, err := s.db.Conn(context.Background())
	if err != nil {
		return opError("close", "", err)
	}
	defer conn.Close()
	var failed error
	_ = conn.Raw(func(x any) error {
		_, failed = s.abandon(x, Options{Now: s.now})
		return driver.ErrBadConn
	})
	return opError("close", "", failed)
}
