package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Held is what a database file holds.
type Held struct {
	Version int              // schema version
	Rows    map[string]int64 // rows by table
	Tanks   []string         // names of the tanks that are not put aside, the oldest first
	Newest  string           // civil time of the newest entry, "" when there is none
}

// Look reads what a snapshot or a file that was set aside holds, and checks it. It
// changes nothing. Errors: *OpenError, CodeDamaged when the file is no good.
func Look(ctx context.Context, path string) (Held, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return Held{}, &OpenError{Code: CodeSnapshot, Path: path, Err: err}
	}
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
		return Held{}, &OpenError{Code: CodeSnapshot, Path: path, Err: err}
	}
	version, err := check(ctx, path, asIs)
	if err != nil {
		return Held{}, err
	}
	db, err := openFile(ctx, path, asIs)
	if err != nil {
		return Held{}, openError(path, CodeDamaged, err)
	}
	defer db.Close()
	h, err := held(ctx, db)
	h.Version = version
	return h, openError(path, CodeDamaged, err)
}

// Holds reads what the open database holds. Errors: *OpError.
func (s *Store) Holds(ctx context.Context) (Held, error) {
	h, err := held(ctx, s.db)
	if err != nil {
		return h, opError("load", "", err)
	}
	v, err := number(ctx, s.db, "PRAGMA user_version")
	h.Version = int(v)
	return h, opError("load", "", err)
}

func held(ctx context.Context, q querier) (h Held, err error) {
	if h.Rows, err = counts(ctx, q); err != nil {
		return h, err
	}
	if _, ok := h.Rows["tank"]; !ok { // made, and never filled
		return h, nil
	}
	if h.Tanks, err = lines(ctx, q, "SELECT name FROM tank WHERE deleted IS NULL ORDER BY created, id"); err != nil {
		return h, err
	}
	newest, err := lines(ctx, q, "SELECT coalesce(max(at), '') FROM entry WHERE deleted IS NULL")
	if err == nil && len(newest) > 0 {
		h.Newest = newest[0]
	}
	return h, err
}

// Difference is how the rows of a table in another file differ from those here.
type Difference struct {
	Table   string
	Lost    int // rows here that the other has not
	Gained  int // rows there that are not here
	Changed int // rows that are in both and not the same
}

// Compare says what going back to the file at path would lose and gain, table by
// table, those without a difference left out. A column that only one of the two
// has is not looked at. Errors: *OpenError, *OpError.
func (s *Store) Compare(ctx context.Context, path string) ([]Difference, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, &OpenError{Code: CodeSnapshot, Path: path, Err: err}
	}
	db, err := openFile(ctx, path, asIs)
	if err != nil {
		return nil, openError(path, CodeDamaged, err)
	}
	defer db.Close()
	var out []Difference
	for _, t := range tables {
		there, err := columnsOf(ctx, db, t)
		if err != nil {
			return nil, openError(path, CodeDamaged, err)
		}
		here, err := columnsOf(ctx, s.db, t)
		if err != nil {
			return nil, opError("load", t.name, err)
		}
		both := slices.DeleteFunc(slices.Clone(here), func(c column) bool {
			return c.counter || !slices.ContainsFunc(there, func(o column) bool { return o.name == c.name })
		})
		ours, err := printsOf(ctx, s.db, t.name, both, len(here) > 0)
		if err != nil {
			return nil, opError("load", t.name, err)
		}
		theirs, err := printsOf(ctx, db, t.name, both, len(there) > 0)
		if err != nil {
			return nil, openError(path, CodeDamaged, err)
		}
		d := Difference{Table: t.name}
		for key, print := range ours {
			switch other, ok := theirs[key]; {
			case !ok:
				d.Lost++
			case other != print:
				d.Changed++
			}
		}
		for key := range theirs {
			if _, ok := ours[key]; !ok {
				d.Gained++
			}
		}
		if d != (Difference{Table: t.name}) {
			out = append(out, d)
		}
	}
	return out, nil
}

// columnsOf are the columns of the table that a file has.
func columnsOf(ctx context.Context, q querier, t table) ([]column, error) {
	names, err := lines(ctx, q, "SELECT name FROM pragma_table_info('"+t.name+"')")
	if err != nil {
		return nil, err
	}
	var out []column
	for _, c := range t.columns {
		if slices.Contains(names, c.name) {
			out = append(out, c)
		}
	}
	return out, nil
}

// printsOf gives a hash of every row by its key. Where only one file has the table
// the columns are none in common, and its rows have but a number.
func printsOf(ctx context.Context, q querier, name string, columns []column, there bool) (map[string][sha256.Size]byte, error) {
	out := map[string][sha256.Size]byte{}
	if !there {
		return out, nil
	}
	var names []string
	for _, c := range columns {
		names = append(names, c.name)
	}
	if len(names) == 0 {
		n, err := number(ctx, q, "SELECT count(*) FROM "+name)
		for i := range n {
			out[fmt.Sprint(i)] = [sha256.Size]byte{}
		}
		return out, err
	}
	rows, err := q.QueryContext(ctx, "SELECT "+strings.Join(names, ", ")+" FROM "+name)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		values := make([]sql.NullString, len(names))
		into := make([]any, len(names))
		for i := range values {
			into[i] = &values[i]
		}
		if err := rows.Scan(into...); err != nil {
			return nil, err
		}
		var key, all strings.Builder
		for i, c := range columns {
			fmt.Fprintf(&all, "%v %q ", values[i].Valid, values[i].String)
			if c.key {
				fmt.Fprintf(&key, "%q ", values[i].String)
			}
		}
		out[key.String()] = sha256.Sum256([]byte(all.String()))
	}
	return out, rows.Err()
}

// Good finds the newest snapshot of a data folder that is sound. ok is false when
// there is none. It needs no open Store.
func Good(ctx context.Context, dir string) (info SnapshotInfo, held Held, ok bool) {
	all, err := Snapshots(dir)
	if err != nil {
		return info, held, false
	}
	for _, i := range all {
		if held, err := Look(ctx, i.Path); err == nil {
			return i, held, true
		}
	}
	return info, held, false
}

// AsideInfo is a database that a restore set aside.
type AsideInfo struct {
	Path string
	At   time.Time // UTC, when it was set aside
	Size int64
}

// Aside lists what restores have set aside, the newest first. It needs no open
// Store.
func Aside(dir string) ([]AsideInfo, error) {
	kept, err := keptFiles(dir)
	if err != nil {
		return nil, opError("snapshot", "", err)
	}
	var out []AsideInfo
	for _, path := range kept {
		if filepath.Base(path) != FileName {
			continue
		}
		name := filepath.Base(filepath.Dir(path))
		at, err := time.Parse(stamp, name[:min(len(name), len(stamp))])
		if err != nil {
			continue
		}
		out = append(out, AsideInfo{path, at, size(path)})
	}
	slices.SortFunc(out, func(a, b AsideInfo) int {
		if c := b.At.Compare(a.At); c != 0 {
			return c
		}
		return strings.Compare(b.Path, a.Path)
	})
	return out, nil
}
