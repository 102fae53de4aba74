package desk

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/mattn/go-sqlite3"
)

// engine is what differs between the two places where a desk can stand.
type engine struct {
	db *sql.DB
	// bytes and number name the types of a slip and of a size.
	bytes, number string
	// alone makes one transaction the only one that lays out the tables.
	alone string
	// wipe makes what was deleted unreadable in the files; false says that it could
	// not do so now.
	wipe func(context.Context, *sql.DB) (bool, error)
}

// conns is how many statements one counter has under way at once: a window asks
// one thing at a time, its second is a slip being shown. // judgement
const conns = 2

// FileName is the database of a desk in its folder.
const FileName = "desk.db"

// applicationID marks our files in the SQLite header: "Desk" in ASCII.
const applicationID = 0x4465736B

// pragmas of each connection to SQLite. secure_delete overwrites what is freed.
// Source: SQLite documentation, "PRAGMA Statements".
var pragmas = []string{"busy_timeout=10000", "foreign_keys=ON", "trusted_schema=OFF", "cell_size_check=ON", "mmap_size=0",
	"journal_mode=WAL", "synchronous=FULL", "secure_delete=ON"}

type lite struct {
	dsn   string
	prags []string
}

func (c lite) Driver() driver.Driver { return &sqlite3.SQLiteDriver{} }

func (c lite) Connect(context.Context) (driver.Conn, error) {
	d := &sqlite3.SQLiteDriver{ConnectHook: func(conn *sqlite3.SQLiteConn) error {
		for _, p := range c.prags {
			if _, err := conn.Exec("PRAGMA "+p, nil); err != nil {
				return fmt.Errorf("pragma %s: %w", p, err)
			}
		}
		return nil
	}}
	return d.Open(c.dsn)
}

// openFolder gives the engine of a desk in a folder, which is made when absent.
// What is another's is not touched.
func openFolder(ctx context.Context, dir string) (*engine, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, &Error{Code: CodeReach, Err: err}
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, &Error{Code: CodeReach, Err: err}
	}
	path := filepath.ToSlash(filepath.Join(dir, FileName))
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // C:/folder
	}
	uri := "file://" + (&url.URL{Path: path}).EscapedPath()
	switch info, err := os.Stat(filepath.Join(dir, FileName)); {
	case err == nil && !info.Mode().IsRegular():
		return nil, &Error{Code: CodeNotOurs}
	case err == nil && info.Size() > 0:
		if err := ours(ctx, uri); err != nil {
			return nil, err
		}
	}
	db := sql.OpenDB(lite{dsn: uri + "?_txlock=immediate", prags: pragmas})
	_, err = db.ExecContext(ctx, fmt.Sprintf("PRAGMA application_id=%d", applicationID))
	return &engine{db: db, bytes: "BLOB", number: "INTEGER", wipe: emptyLog}, err
}

// ours reads the mark of a file. One without tables may be a desk that was being
// made.
func ours(ctx context.Context, uri string) error {
	db := sql.OpenDB(lite{dsn: uri + "?mode=ro", prags: []string{"busy_timeout=10000", "trusted_schema=OFF"}})
	defer db.Close()
	var mark, tables int
	if err := db.QueryRowContext(ctx, "PRAGMA application_id").Scan(&mark); err != nil {
		return err
	}
	if err := db.QueryRowContext(ctx, "SELECT count(*) FROM sqlite_schema").Scan(&tables); err != nil {
		return err
	}
	if mark != applicationID && (mark != 0 || tables > 0) {
		return &Error{Code: CodeNotOurs}
	}
	return nil
}

// openServer gives the engine of a desk in a PostgreSQL database.
func openServer(c *pgx.ConnConfig) *engine {
	return &engine{db: stdlib.OpenDB(*c), bytes: "BYTEA", number: "BIGINT",
		// Any number: it is the same for every counter. // judgement
		alone: "SELECT pg_advisory_xact_lock(1147368299)",
		wipe:  writeAnew}
}

// emptyLog empties SQLite's write-ahead log, in which overwritten pages stand as
// they were. It reports false while another counter is reading from it.
func emptyLog(ctx context.Context, db *sql.DB) (bool, error) {
	var busy, frames, done int
	err := db.QueryRowContext(ctx, "PRAGMA wal_checkpoint(TRUNCATE)").Scan(&busy, &frames, &done)
	return busy == 0, err
}

// writeAnew has PostgreSQL write the tables to new files without what was deleted.
// It reports false while another counter holds them. Source: PostgreSQL, "VACUUM".
func writeAnew(ctx context.Context, db *sql.DB) (bool, error) {
	conn, err := db.Conn(ctx)
	if err != nil {
		return false, err
	}
	defer conn.Close()
	for _, s := range []string{"SET lock_timeout = '5s'", "VACUUM FULL desk_slip", "VACUUM FULL desk_reply", "RESET lock_timeout"} {
		if _, err := conn.ExecContext(ctx, s); err != nil {
			if codeOf(err) == CodeBusy {
				_, err = conn.ExecContext(ctx, "RESET lock_timeout")
				return false, err
			}
			return false, err
		}
	}
	return true, nil
}
