package store

import (
	"context"
	"fmt"
	"strings"
)

// Query is a narrow reading of one table: only what is named is read, and each
// name must be one of the table's columns. Values are bound, never written into
// the statement.
type Query struct {
	Table   string
	Columns []string       // at least one
	Where   map[string]any // each equal; nil matches NULL
	Column  string         // where not empty, only rows whose Column is one of Among
	Among   []string
	Order   string // as Load's
}

// mostAmong is how many values one statement is given. // judgement: far below the engine's own limit
const mostAmong = 500

// Each hands every row that q finds to row, its values in the order of
// q.Columns: a string, an int64 or nil. It reuses the slice, and makes no Row, so
// that a table of a hundred thousand rows is read at once. An error from row
// ends it. Among more than a few hundred values the order holds within each
// group only. Errors: *OpError, row's.
func (s *Store) Each(ctx context.Context, q Query, row func(v []any) error) error {
	const op = "load"
	t, err := tableOf(op, q.Table)
	if err != nil {
		return err
	}
	refuse := func(column string) error {
		return &OpError{Code: CodeRefused, Op: op, Table: t.name, Column: column, Reason: ReasonColumn}
	}
	if len(q.Columns) == 0 {
		return refuse("")
	}
	names := make([]string, len(q.Columns))
	for i, name := range q.Columns {
		c := t.column(name)
		if c == nil {
			return refuse(name)
		}
		names[i] = c.name
	}
	var conds []string
	var args []any
	for name, v := range q.Where {
		c := t.column(name)
		if c == nil {
			return refuse(name)
		}
		if v != nil { // asking for NULL is fair even where there can be none
			if err := c.check(op, t.name, v); err != nil {
				return err
			}
		}
		conds, args = append(conds, c.name+" IS ?"), append(args, v)
	}
	by, err := t.order(op, q.Order)
	if err != nil {
		return err
	}
	tail := ""
	if len(by) > 0 {
		tail = " ORDER BY " + strings.Join(by, ", ")
	}
	head := "SELECT " + strings.Join(names, ", ") + " FROM " + t.name
	if q.Column == "" {
		return opError(op, t.name, s.each(ctx, t, names, head+where(conds)+tail, args, row))
	}
	c := t.column(q.Column)
	if c == nil || c.kind != text {
		return refuse(q.Column)
	}
	for rest := q.Among; len(rest) > 0; {
		n := min(len(rest), mostAmong)
		among := append([]any(nil), args...)
		for _, v := range rest[:n] {
			among = append(among, v)
		}
		rest = rest[n:]
		one := append(conds[:len(conds):len(conds)], c.name+" IN (?"+strings.Repeat(", ?", n-1)+")")
		if err := s.each(ctx, t, names, head+where(one)+tail, among, row); err != nil {
			return opError(op, t.name, err)
		}
	}
	return nil
}

func where(conds []string) string {
	if len(conds) == 0 {
		return ""
	}
	return " WHERE " + strings.Join(conds, " AND ")
}

func (s *Store) each(ctx context.Context, t *table, names []string, query string, args []any, row func([]any) error) error {
	rows, err := s.db.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	values, into := make([]any, len(names)), make([]any, len(names))
	for i := range values {
		into[i] = &values[i]
	}
	for rows.Next() {
		if err := rows.Scan(into...); err != nil {
			return err
		}
		for i, v := range values {
			switch v.(type) {
			case nil, string, int64:
			default: // a STRICT table holds nothing else, unless it is damaged
				return &OpError{Code: CodeDamaged, Table: t.name, Column: names[i], Err: fmt.Errorf("%T", v)}
			}
		}
		if err := row(values); err != nil {
			return err
		}
	}
	return rows.Err()
}
