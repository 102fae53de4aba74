package desk

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"
)

// version of the tables. A change of them raises it.
const version = 1

// tables are made in a desk that is new. %[1]s is the type of bytes, %[2]s that of
// a whole number of 64 bits.
var tables = []string{
	`CREATE TABLE desk_slip (
		id TEXT PRIMARY KEY,
		label TEXT NOT NULL, label_words TEXT NOT NULL,
		tank TEXT NOT NULL, about TEXT NOT NULL, lang TEXT NOT NULL, made TEXT NOT NULL, words TEXT NOT NULL,
		received %[2]s NOT NULL, counter TEXT NOT NULL, answered %[2]s,
		size %[2]s NOT NULL, sha256 TEXT NOT NULL, file %[1]s NOT NULL)`,
	`CREATE INDEX desk_slip_received ON desk_slip (received, id)`,
	`CREATE TABLE desk_reply (
		id TEXT PRIMARY KEY, slip TEXT NOT NULL REFERENCES desk_slip (id) ON DELETE CASCADE,
		written %[2]s NOT NULL, counter TEXT NOT NULL,
		size %[2]s NOT NULL, sha256 TEXT NOT NULL, file %[1]s NOT NULL)`,
	`CREATE INDEX desk_reply_slip ON desk_reply (slip, written)`,
}

// Desk is an open visit desk. All methods are safe for use by several goroutines
// and beside other counters.
type Desk struct {
	*engine
	where   string // for people: without user and password
	counter string
}

// connectWithin is how long a server may take to answer when the desk is opened,
// unless its address says otherwise. // judgement
const connectWithin = 5 * time.Second

// Open opens the desk at where: a folder, made when absent, or an address that
// begins with postgres:// (RFC 3986, as libpq takes it; a password is better kept
// in its password file). counter names this counter, up to MaxText bytes.
// Errors: *Error; nothing was written then but an absent folder.
func Open(ctx context.Context, where, counter string) (*Desk, error) {
	if err := checkTexts(texts{"counter": counter}); err != nil {
		return nil, err
	}
	d := &Desk{where: where, counter: counter}
	var err error
	if shared(where) {
		c, bad := pgx.ParseConfig(where)
		if bad != nil { // its text may hold the address as it was typed
			return nil, &Error{Code: CodeAddress}
		}
		if c.ConnectTimeout == 0 {
			c.ConnectTimeout = connectWithin
		}
		d.where = fmt.Sprintf("%s:%d/%s", c.Host, c.Port, c.Database)
		d.engine = openServer(c)
	} else {
		d.engine, err = openFolder(ctx, where)
	}
	if err == nil {
		d.db.SetMaxOpenConns(conns)
		err = d.layOut(ctx)
	}
	if err != nil {
		if d.engine != nil {
			_ = d.db.Close()
		}
		var own *Error
		if errors.As(err, &own) {
			own.Where = d.where
		}
		return nil, d.told(err)
	}
	return d, nil
}

// shared reports whether where is the address of a server.
func shared(where string) bool {
	return strings.HasPrefix(where, "postgres://") || strings.HasPrefix(where, "postgresql://")
}

// Where tells where the desk is: the folder, or server and database.
func (d *Desk) Where() string { return d.where }

// Shared reports whether the desk is on a server.
func (d *Desk) Shared() bool { return d.alone != "" }

// Close ends the use of the desk.
func (d *Desk) Close() error { return d.told(d.db.Close()) }

// layOut makes the tables of a new desk and refuses those of a later version.
func (d *Desk) layOut(ctx context.Context) error {
	tx, err := d.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer func() { _ = tx.Rollback() }()
	if d.alone != "" {
		if _, err := tx.ExecContext(ctx, d.alone); err != nil {
			return err
		}
	}
	if _, err := tx.ExecContext(ctx, "CREATE TABLE IF NOT EXISTS desk_layout (version INTEGER NOT NULL)"); err != nil {
		return err
	}
	var found int
	switch err := tx.QueryRowContext(ctx, "SELECT version FROM desk_layout").Scan(&found); {
	case err == nil && found > version:
		return &Error{Code: CodeNewer}
	case err == nil:
		return nil
	case !errors.Is(err, sql.ErrNoRows):
		return err
	}
	for _, t := range tables {
		if strings.Contains(t, "%[") {
			t = fmt.Sprintf(t, d.bytes, d.number)
		}
		if _, err := tx.ExecContext(ctx, t); err != nil {
			return &Error{Code: CodeNotOurs, Err: err}
		}
	}
	if _, err := tx.ExecContext(ctx, "INSERT INTO desk_layout (version) VALUES ($1)", version); err != nil {
		return err
	}
	return tx.Commit()
}

// statement is one step of a batch. Its parameters are $1, $2 … in the order in
// which they first stand in the text, which is how both engines count them.
type statement struct {
	text string
	args []any
}

// apply runs a batch in one transaction and gives how many rows each step touched.
func (d *Desk) apply(ctx context.Context, batch ...statement) ([]int64, error) {
	tx, err := d.db.BeginTx(ctx, nil)
	if err != nil {
		return nil, d.told(err)
	}
	defer func() { _ = tx.Rollback() }()
	var touched []int64
	for _, s := range batch {
		r, err := tx.ExecContext(ctx, s.text, s.args...)
		if err != nil {
			return nil, d.told(err)
		}
		n, err := r.RowsAffected()
		if err != nil {
			return nil, d.told(err)
		}
		touched = append(touched, n)
	}
	return touched, d.told(tx.Commit())
}
