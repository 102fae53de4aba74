package store

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"net/url"
	"path/filepath"
	"strings"
	"sync/atomic"

	"example.org/driploop/model/durable"
	"github.com/mattn/go-sqlite3"
)

// ApplicationID marks our files in the SQLite header: "Drip" in ASCII.
const ApplicationID = 0x44726970

// minEngine is the oldest SQLite taken: earlier ones can lose a transaction
// when a write-ahead log is reset. Source: SQLite release notes, 3.51.3.
const (
	minEngine     = 3051003
	minEngineName = "3.51.3"
)

// engineVersion gives the SQLite linked in; a variable so that a test can let
// it be too old.
var engineVersion = func() (name string, number int) {
	name, number, _ = sqlite3.Version()
	return name, number
}

// pragma is a setting that is set on every connection and read back.
type pragma struct{ name, set, want string }

// pragmas of every connection. Source: SQLite documentation, "Defense Against
// The Dark Arts" (trusted_schema, cell_size_check, mmap_size), "PRAGMA
// Statements". The driver's build would leave a write-ahead log at
// synchronous=NORMAL, which can lose the last commits in a power cut.
var pragmas = []pragma{
	{"busy_timeout", "5000", "5000"}, // milliseconds
	{"foreign_keys", "ON", "1"},
	{"trusted_schema", "OFF", "0"},
	{"cell_size_check", "ON", "1"},
	{"mmap_size", "0", "0"},
	{"synchronous", "FULL", "2"},
	// Only macOS has these; elsewhere they are taken and do nothing.
	{"fullfsync", "ON", "1"},
	{"checkpoint_fullfsync", "ON", "1"},
}

// walPragma is set where the file may be written: a connection for reading
// takes the journal as it finds it.
var walPragma = pragma{"journal_mode", "WAL", "wal"}

// access is how a connection is opened.
type access string

const (
	// readWrite needs the file to be there: one that vanished is not made anew.
	// The statements of this package are few, so they are kept prepared.
	readWrite access = "mode=rw&_txlock=immediate&_stmt_cache_size=32"
	readOnly  access = "mode=ro"
	// asIs reads the main file alone, taking no lock and making no side file. It
	// is for files that no one is writing.
	asIs access = "mode=ro&immutable=1"
	// makeNew may make the file.
	makeNew access = "mode=rwc&_txlock=immediate"
)

// connector opens connections of one file for database/sql.
type connector struct {
	path string
	mode atomic.Value                             // string of the access of connections still to be opened
	log  atomic.Pointer[durable.Held]             // the log of the connection, once it was looked at
	ours atomic.Pointer[func(func() error) error] // runs what may bring the log into the file
	// turns counts the openings and the closings: it is odd while the connection is open.
	turns atomic.Int64
}

// watch looks from now on whether the log of the open connection keeps its name, unless
// the connection is closed meanwhile, with which the log goes.
func (c *connector) watch(log string) {
	n := c.turns.Load()
	if n%2 == 0 {
		return
	}
	h, err := durable.Hold(log)
	if err != nil {
		return
	}
	c.log.Swap(h).Release()
	if c.turns.Load() != n && c.log.CompareAndSwap(h, nil) {
		h.Release()
	}
}

// linked is a connection as database/sql holds it. Closing it may bring the log into the
// file, and database/sql closes one by itself, in the background too, as when a context
// ends within a transaction.
type linked struct {
	*sqlite3.SQLiteConn
	of     *connector
	closed atomic.Bool
}

// Close implements driver.Conn. SQLite takes the log away with its last connection, so
// that it is not looked for from before that on.
func (l *linked) Close() error {
	if l.closed.Swap(true) { // by a Store that took the file from it; database/sql comes after
		return nil
	}
	l.of.turns.Add(1)
	l.of.log.Swap(nil).Release()
	return l.of.own(l.SQLiteConn.Close)
}

// own runs f as the Store wants what may write the file to be run.
func (c *connector) own(f func() error) error {
	if ours := c.ours.Load(); ours != nil {
		return (*ours)(f)
	}
	return f()
}

func (c *connector) Driver() driver.Driver { return &sqlite3.SQLiteDriver{} }

// Connect opens a connection, sets the pragmas and reads them back; so every
// connection is checked, one that replaces a broken one too.
func (c *connector) Connect(context.Context) (driver.Conn, error) {
	c.log.Swap(nil).Release() // that of the connection before
	text, _ := c.mode.Load().(string)
	mode := access(text)
	d := &sqlite3.SQLiteDriver{ConnectHook: func(conn *sqlite3.SQLiteConn) error {
		for _, p := range pragmas {
			if err := setPragma(conn, c.path, p); err != nil {
				return err
			}
		}
		if mode == readWrite || mode == makeNew {
			return setPragma(conn, c.path, walPragma)
		}
		return nil
	}}
	var conn driver.Conn
	err := c.own(func() (err error) {
		conn, err = d.Open(fileURI(c.path) + "?" + text)
		return err
	})
	if c2, ok := conn.(*sqlite3.SQLiteConn); ok && err == nil {
		c.turns.Add(1)
		return &linked{SQLiteConn: c2, of: c}, nil
	}
	return conn, err
}

func setPragma(conn *sqlite3.SQLiteConn, path string, p pragma) error {
	if _, err := conn.Exec("PRAGMA "+p.name+"="+p.set, nil); err != nil {
		return fmt.Errorf("pragma %s: %w", p.name, err)
	}
	rows, err := conn.Query("PRAGMA "+p.name, nil)
	if err != nil {
		return fmt.Errorf("pragma %s: %w", p.name, err)
	}
	defer rows.Close()
	got := make([]driver.Value, 1)
	if err := rows.Next(got); err != nil && !errors.Is(err, io.EOF) {
		return fmt.Errorf("pragma %s: %w", p.name, err)
	}
	if s := fmt.Sprint(got[0]); s != p.want {
		return &OpenError{Code: CodePragma, Path: path, Name: p.name, Wanted: p.want, Got: s}
	}
	return nil
}

// openFile gives a database with exactly one connection, opened already.
func openFile(ctx context.Context, path string, mode access) (*sql.DB, error) {
	db, _, err := openLinked(ctx, path, mode)
	return db, err
}

// openLinked is openFile with what makes the connections.
func openLinked(ctx context.Context, path string, mode access) (*sql.DB, *connector, error) {
	c := &connector{path: path}
	c.mode.Store(string(mode))
	db := sql.OpenDB(c)
	db.SetMaxOpenConns(1)
	db.SetMaxIdleConns(1)
	if err := db.PingContext(ctx); err != nil {
		_ = db.Close()
		return nil, nil, err
	}
	return db, c, nil
}

// fileURI writes an absolute path as SQLite's URI file name, so that spaces,
// '?', '#' and '%' in it stay part of the name.
func fileURI(path string) string {
	p := filepath.ToSlash(path)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p // C:/folder
	}
	return "file://" + (&url.URL{Path: p}).EscapedPath()
}

// number reads one whole number.
func number(ctx context.Context, q interface {
	QueryRowContext(context.Context, string, ...any) *sql.Row
}, query string, args ...any) (int64, error) {
	var n int64
	err := q.QueryRowContext(ctx, query, args...).Scan(&n)
	return n, err
}
