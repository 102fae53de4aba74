package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
)

// Load reads the rows of a table whose columns equal where (nil matches NULL;
// an empty where matches all). order names columns, separated by commas, each
// with " desc" behind it to turn it round ("at, seq desc"); "" leaves the order
// open. Rows come with every column. Errors: *OpError.
func (s *Store) Load(ctx context.Context, table string, where map[string]any, order string) ([]Row, error) {
	const op = "load"
	t, err := tableOf(op, table)
	if err != nil {
		return nil, err
	}
	for name, v := range where {
		c := t.column(name)
		if c == nil {
			return nil, &OpError{Code: CodeRefused, Op: op, Table: table, Column: name, Reason: ReasonColumn}
		}
		if v == nil {
			continue // asking for NULL is fair even where there can be none
		}
		if err := c.check(op, table, v); err != nil {
			return nil, err
		}
	}
	by, err := t.order(op, order)
	if err != nil {
		return nil, err
	}
	rows, err := load(ctx, s.db, t, where, by)
	return rows, opError(op, table, err)
}

// LoadAll reads every row of the named tables as they stand at one moment, each
// table in the order of its key, entries in that of their insertion. Errors:
// *OpError.
func (s *Store) LoadAll(ctx context.Context, names []string) (map[string][]Row, error) {
	return loadAll(ctx, s.db, names)
}

func loadAll(ctx context.Context, db *sql.DB, names []string) (map[string][]Row, error) {
	const op = "load"
	tx, err := db.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return nil, opError(op, "", err)
	}
	defer func() { _ = tx.Rollback() }() // nothing was written
	out := make(map[string][]Row, len(names))
	for _, name := range names {
		t, err := tableOf(op, name)
		if err != nil {
			return nil, err
		}
		var by []string
		for _, c := range t.columns {
			if c.key {
				by = append(by, c.name)
			}
		}
		if t.column("seq") != nil {
			by = []string{"seq"}
		}
		if out[name], err = load(ctx, tx, t, nil, by); err != nil {
			return nil, opError(op, name, err)
		}
	}
	return out, nil
}

// order turns an order's text into column names of the table.
func (t *table) order(op, order string) ([]string, error) {
	if strings.TrimSpace(order) == "" {
		return nil, nil
	}
	var out []string
	for _, part := range strings.Split(order, ",") {
		words := strings.Fields(part)
		down := len(words) == 2 && words[1] == "desc"
		if !down && len(words) != 1 || t.column(words[0]) == nil {
			return nil, &OpError{Code: CodeRefused, Op: op, Table: t.name, Column: strings.TrimSpace(part), Reason: ReasonColumn}
		}
		if down {
			out = append(out, t.column(words[0]).name+" DESC")
		} else {
			out = append(out, t.column(words[0]).name)
		}
	}
	return out, nil
}

// load reads rows; where and by hold names of the table's columns only.
func load(ctx context.Context, q querier, t *table, where Row, by []string) ([]Row, error) {
	names := make([]string, len(t.columns))
	var conds []string
	var args []any
	for i, c := range t.columns {
		names[i] = c.name
		if v, ok := where[c.name]; ok {
			conds = append(conds, c.name+" IS ?")
			args = append(args, v)
		}
	}
	query := "SELECT " + strings.Join(names, ", ") + " FROM " + t.name
	if len(conds) > 0 {
		query += " WHERE " + strings.Join(conds, " AND ")
	}
	if len(by) > 0 {
		query += " ORDER BY " + strings.Join(by, ", ")
	}
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []Row
	for rows.Next() {
		values := make([]any, len(names))
		into := make([]any, len(names))
		for i := range values {
			into[i] = &values[i]
		}
		if err := rows.Scan(into...); err != nil {
			return nil, err
		}
		r := make(Row, len(names))
		for i, v := range values {
			switch v := v.(type) {
			case nil, string, int64:
				r[names[i]] = v
			default: // a STRICT table holds nothing else, unless it is damaged
				return nil, &OpError{Code: CodeDamaged, Table: t.name, Column: names[i], Err: fmt.Errorf("%T", v)}
			}
		}
		out = append(out, r)
	}
	return out, rows.Err()
}

// Setting reads a setting; ok is false when it was never set. Errors: *OpError.
func (s *Store) Setting(ctx context.Context, name string) (value string, ok bool, err error) {
	err = s.db.QueryRowContext(ctx, "SELECT value FROM setting WHERE name = ?", name).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", false, nil
	}
	if err != nil {
		return "", false, opError("setting", "setting", err)
	}
	return value, true, nil
}

// SetSetting keeps a setting. It does not enter the undo history. Errors:
// *OpError.
func (s *Store) SetSetting(ctx context.Context, name, value string) error {
	const op = "setting"
	for column, v := range map[string]string{"name": name, "value": value} {
		if reason := badText(v); reason != "" {
			return &OpError{Code: CodeRefused, Op: op, Table: "setting", Column: column, Reason: reason}
		}
	}
	if name == "" {
		return &OpError{Code: CodeRefused, Op: op, Table: "setting", Column: "name", Reason: ReasonMissing}
	}
	return s.write(ctx, op, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx,
			"INSERT INTO setting (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value", name, value)
		return err
	})
}
