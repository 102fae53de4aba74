package store

import (
	"context"
	"database/sql"
	"strings"
)

// Report is what Verify found.
type Report struct {
	Version   int              // schema version
	Integrity []string         // what SQLite's integrity check found, in its words; empty when sound
	Orphans   []Orphan         // rows that refer to a row that is not there
	Rows      map[string]int64 // rows by table
}

// Orphan is a reference to a row that is not there.
type Orphan struct{ Table, Parent string }

// OK reports whether nothing is wrong.
func (r Report) OK() bool { return len(r.Integrity) == 0 && len(r.Orphans) == 0 }

// Verify reads the whole database and checks it. It changes nothing. A damaged
// database gives a Report that is not OK, or an *OpError when the damage stops
// the check.
func (s *Store) Verify(ctx context.Context) (Report, error) {
	const op = "verify"
	conn, err := s.db.Conn(ctx)
	if err != nil {
		return Report{}, opError(op, "", err)
	}
	defer conn.Close()
	var r Report
	said, err := lines(ctx, conn, "PRAGMA integrity_check(100)")
	if err != nil {
		return Report{}, opError(op, "", err)
	}
	if len(said) != 1 || said[0] != "ok" {
		r.Integrity = said
	}
	if r.Orphans, err = orphans(ctx, conn); err != nil {
		return Report{}, opError(op, "", err)
	}
	if r.Rows, err = counts(ctx, conn); err != nil {
		return Report{}, opError(op, "", err)
	}
	v, err := number(ctx, conn, "PRAGMA user_version")
	if err != nil {
		return Report{}, opError(op, "", err)
	}
	r.Version = int(v)
	return r, nil
}

func orphans(ctx context.Context, q querier) ([]Orphan, error) {
	rows, err := q.QueryContext(ctx, "PRAGMA foreign_key_check")
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []Orphan
	for rows.Next() {
		var o Orphan
		var rowid, fk sql.NullInt64
		if err := rows.Scan(&o.Table, &rowid, &o.Parent, &fk); err != nil {
			return nil, err
		}
		out = append(out, o)
	}
	return out, rows.Err()
}

// counts gives the number of rows of every table.
func counts(ctx context.Context, q querier) (map[string]int64, error) {
	names, err := lines(ctx, q, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'")
	if err != nil {
		return nil, err
	}
	out := make(map[string]int64, len(names))
	for _, name := range names {
		// The name comes from the file's own schema, and is quoted all the same.
		n, err := number(ctx, q, `SELECT count(*) FROM "`+strings.ReplaceAll(name, `"`, `""`)+`"`)
		if err != nil {
			return nil, err
		}
		out[name] = n
	}
	return out, nil
}
