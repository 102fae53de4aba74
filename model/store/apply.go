package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"maps"
	"slices"
	"strings"

	"github.com/mattn/go-sqlite3"
)

// UndoDepth is how many changes of one tank can be taken back. // judgement
const UndoDepth = 1000

// Apply makes the change, in one transaction: every Op, its place in the undo
// history unless Silent, and the end of what could be redone. When it returns
// nil the change is on the disk; otherwise nothing of it is. Errors:
// *ConflictError when a row is not what Before says, *OpError else, CodeGone when
// the database was taken away from under the Store.
func (s *Store) Apply(ctx context.Context, c Change) error {
	const op = "apply"
	if len(c.Ops) == 0 {
		return &OpError{Code: CodeRefused, Op: op, Reason: ReasonEmpty}
	}
	for _, t := range append([]string{c.Tank, c.Label, c.At}, slices.Collect(maps.Values(c.Values))...) {
		if reason := badText(t); reason != "" {
			return &OpError{Code: CodeRefused, Op: op, Table: "undo", Reason: reason}
		}
	}
	return s.write(ctx, op, func(tx *sql.Tx) error {
		done := make([]Op, 0, len(c.Ops))
		for _, o := range c.Ops {
			if err := giveSeq(ctx, tx, &o); err != nil {
				return err
			}
			o, t, err := o.complete(op)
			if err != nil {
				return err
			}
			if err := run(ctx, tx, op, t, o); err != nil {
				return err
			}
			done = append(done, o)
		}
		if c.Silent {
			return nil
		}
		return record(ctx, tx, c, done)
	})
}

// write runs f in a transaction that either all lasts or leaves nothing.
func (s *Store) write(ctx context.Context, op string, f func(*sql.Tx) error) error {
	if why := s.ReadOnly(); why != nil {
		return &OpError{Code: CodeReadOnly, Op: op, Err: why}
	}
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return opError(op, "", err)
	}
	err = f(tx)
	if err == nil {
		// Asked as late as can be: what is written into a file without a name is lost
		// with the program. What slips in behind it is held, and told by the next.
		err = s.inPlace(op)
	}
	if err != nil {
		_ = tx.Rollback()
		return opError(op, "", err)
	}
	return opError(op, "", s.ours(tx.Commit)) // it may bring the log into the file
}

// giveSeq gives a new entry its place in the order of insertion.
func giveSeq(ctx context.Context, tx *sql.Tx, o *Op) error {
	if o.Table != "entry" || o.Before != nil || o.After == nil {
		return nil
	}
	if _, given := o.After["seq"]; given {
		return nil
	}
	n, err := number(ctx, tx, "UPDATE entry_seq SET last = last + 1 RETURNING last")
	if err != nil {
		return err
	}
	o.After = copyRow(o.After)
	o.After["seq"] = n
	return nil
}

// record writes the change into the undo history of its tank.
func record(ctx context.Context, tx *sql.Tx, c Change, done []Op) error {
	ops, err := json.Marshal(done)
	if err != nil {
		return err
	}
	values := c.Values
	if values == nil {
		values = map[string]string{}
	}
	labelValues, err := json.Marshal(values)
	if err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx, "DELETE FROM undo WHERE tank = ? AND undone = 1", c.Tank); err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx,
		"INSERT INTO undo (tank, label, label_values, at, ops, undone) VALUES (?, ?, ?, ?, ?, 0)",
		c.Tank, c.Label, string(labelValues), c.At, string(ops)); err != nil {
		return err
	}
	// Only this tank's history is shortened: it has no redo tail now, so what
	// goes is its oldest, and never the middle of another tank's.
	_, err = tx.ExecContext(ctx,
		"DELETE FROM undo WHERE tank = ? AND seq < (SELECT seq FROM undo WHERE tank = ? ORDER BY seq DESC LIMIT 1 OFFSET ?)",
		c.Tank, c.Tank, UndoDepth-1)
	return err
}

// run makes the statement of one completed Op and sees that it touched exactly
// one row.
func run(ctx context.Context, tx *sql.Tx, op string, t *table, o Op) error {
	query, args := statement(t, o)
	res, err := tx.ExecContext(ctx, query, args...)
	if err != nil {
		var se sqlite3.Error
		if o.Before == nil && errors.As(err, &se) &&
			(se.ExtendedCode == sqlite3.ErrConstraintPrimaryKey || se.ExtendedCode == sqlite3.ErrConstraintUnique) {
			return conflict(ctx, tx, t, o)
		}
		return opError(op, t.name, err)
	}
	n, err := res.RowsAffected()
	if err != nil {
		return opError(op, t.name, err)
	}
	if n != 1 {
		return conflict(ctx, tx, t, o)
	}
	return nil
}

// statement writes an Op as SQL. Names come from the table of this package,
// values are bound.
func statement(t *table, o Op) (string, []any) {
	var b strings.Builder
	var args []any
	switch {
	case o.Before == nil:
		b.WriteString("INSERT INTO " + t.name + " (")
		for i, c := range t.columns {
			if i > 0 {
				b.WriteString(", ")
			}
			b.WriteString(c.name)
			args = append(args, o.After[c.name])
		}
		b.WriteString(") VALUES (?" + strings.Repeat(", ?", len(t.columns)-1) + ")")
		return b.String(), args
	case o.After == nil:
		b.WriteString("DELETE FROM " + t.name)
	default:
		b.WriteString("UPDATE " + t.name + " SET ")
		first := true
		for _, c := range t.columns {
			v, ok := o.After[c.name]
			if !ok || c.key {
				continue
			}
			if !first {
				b.WriteString(", ")
			}
			first = false
			b.WriteString(c.name + " = ?")
			args = append(args, v)
		}
	}
	sep := " WHERE "
	for _, c := range t.columns {
		v, ok := o.Before[c.name]
		if !ok || c.counter {
			continue
		}
		b.WriteString(sep + c.name + " IS ?") // IS, as NULL equals NULL here
		sep = " AND "
		args = append(args, v)
	}
	return b.String(), args
}

// conflict reads what stands in place of the row that was expected.
func conflict(ctx context.Context, tx *sql.Tx, t *table, o Op) error {
	e := &ConflictError{Table: t.name, Expected: o.Before}
	if o.Before != nil {
		e.Key = t.keyOf(o.Before)
	} else {
		e.Key = t.keyOf(o.After)
	}
	rows, err := load(ctx, tx, t, e.Key, nil)
	if err != nil {
		return err
	}
	if len(rows) > 0 {
		e.Found = rows[0]
	}
	return e
}
