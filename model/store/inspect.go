package store

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"io"
	"io/fs"
	"os"
	"strconv"
)

// found is what stands at the database's path.
type found struct {
	fresh   bool // nothing that could be lost
	version int  // schema version
}

const (
	headerSize = 100
	magic      = "SQLite format 3\x00"
	// Where the header keeps the application id. Source: SQLite file format, 1.3.
	applicationAt = 68
)

// inspect looks at the file before anything is written. The lock must be held
// and no connection open: it reads the header through a plain handle, whose
// closing would drop the locks of a live connection.
func inspect(ctx context.Context, path string) (found, error) {
	logSize := size(path + "-wal")
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) || (err == nil && info.Mode().IsRegular() && info.Size() == 0):
		// SQLite would throw away a log that has lost its database.
		if logSize > 0 {
			return found{}, &OpenError{Code: CodeDamaged, Path: path, Detail: "log_without_database"}
		}
		return found{fresh: true}, nil
	case err != nil:
		return found{}, openError(path, CodeNotWritable, err)
	case !info.Mode().IsRegular():
		return found{}, &OpenError{Code: CodeNotOurs, Path: path, Detail: "not_a_file"}
	}
	header, err := readHeader(path)
	if err != nil {
		return found{}, openError(path, CodeNotWritable, err)
	}
	ours := binary.BigEndian.Uint32(header[applicationAt:]) == ApplicationID
	if !bytes.HasPrefix(header, []byte(magic)) {
		if ours || resembles(header) {
			return found{}, &OpenError{Code: CodeDamaged, Path: path, Detail: "header"}
		}
		return found{}, &OpenError{Code: CodeNotOurs, Path: path, Detail: "not_sqlite"}
	}
	if info.Size() < headerSize {
		return found{}, &OpenError{Code: CodeDamaged, Path: path, Detail: "header"}
	}
	if !ours {
		return inspectForeign(ctx, path, header, logSize)
	}
	if size(path+"-journal") > 0 {
		// A rollback journal is left when the change to a write-ahead log was cut
		// off. Only a writing connection can roll it back, and must, before the
		// file means anything.
		if err := rollBack(ctx, path); err != nil {
			return found{}, openError(path, CodeDamaged, err)
		}
	}
	version, err := check(ctx, path, readOnly)
	return found{version: version}, err
}

// inspectForeign takes an SQLite file without our mark only when it is empty.
// Ours carries the mark in the main file from its first moment.
func inspectForeign(ctx context.Context, path string, header []byte, logSize int64) (found, error) {
	id := binary.BigEndian.Uint32(header[applicationAt:])
	notOurs := &OpenError{Code: CodeNotOurs, Path: path, Name: "application_id",
		Wanted: strconv.Itoa(ApplicationID), Got: strconv.FormatUint(uint64(id), 10)}
	if id != 0 || logSize > 0 {
		return found{}, notOurs
	}
	db, err := openFile(ctx, path, asIs)
	if err != nil {
		return found{}, openError(path, CodeNotOurs, err)
	}
	defer db.Close()
	n, err := number(ctx, db, "SELECT count(*) FROM sqlite_schema")
	if err != nil {
		return found{}, openError(path, CodeNotOurs, err)
	}
	if n > 0 {
		return found{}, notOurs
	}
	return found{fresh: true}, nil
}

// check reads a file of ours without changing it: the quick check, and the
// schema version. Errors: *OpenError, CodeDamaged when the file is no good.
func check(ctx context.Context, path string, mode access) (version int, err error) {
	db, err := openFile(ctx, path, mode)
	if err != nil {
		return 0, openError(path, CodeDamaged, err)
	}
	defer db.Close()
	said, err := lines(ctx, db, "PRAGMA quick_check(1)")
	if err != nil {
		return 0, openError(path, CodeDamaged, err)
	}
	if len(said) != 1 || said[0] != "ok" {
		e := &OpenError{Code: CodeDamaged, Path: path, Detail: "quick_check"}
		if len(said) > 0 {
			e.Detail = said[0]
		}
		return 0, e
	}
	v, err := number(ctx, db, "PRAGMA user_version")
	if err != nil {
		return 0, openError(path, CodeDamaged, err)
	}
	id, err := number(ctx, db, "PRAGMA application_id")
	if err != nil {
		return 0, openError(path, CodeDamaged, err)
	}
	if id != ApplicationID {
		return 0, &OpenError{Code: CodeNotOurs, Path: path, Name: "application_id",
			Wanted: strconv.Itoa(ApplicationID), Got: strconv.FormatInt(id, 10)}
	}
	n, err := number(ctx, db, "SELECT count(*) FROM sqlite_schema WHERE name = 'tank'")
	if err != nil {
		return 0, openError(path, CodeDamaged, err)
	}
	if v < 0 || (v == 0) != (n == 0) {
		return 0, &OpenError{Code: CodeDamaged, Path: path, Name: "user_version", Got: strconv.FormatInt(v, 10)}
	}
	return int(v), nil
}

// rollBack lets SQLite undo a half-made transaction, and does nothing else.
func rollBack(ctx context.Context, path string) error {
	db, err := sql.Open("sqlite3", fileURI(path)+"?mode=rw")
	if err != nil {
		return err
	}
	defer db.Close()
	_, err = number(ctx, db, "SELECT count(*) FROM sqlite_schema")
	return err
}

// lines reads a column of texts.
func lines(ctx context.Context, db querier, query string) ([]string, error) {
	rows, err := db.QueryContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []string
	for rows.Next() {
		var s string
		if err := rows.Scan(&s); err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, rows.Err()
}

// querier is a database, a connection or a transaction.
type querier interface {
	QueryContext(context.Context, string, ...any) (*sql.Rows, error)
	QueryRowContext(context.Context, string, ...any) *sql.Row
	ExecContext(context.Context, string, ...any) (sql.Result, error)
}

// resembles reports whether a header that lacks the magic text looks like one
// that has lost it: all zero (a block never written), or the text with at most
// four of its sixteen bytes changed. // judgement
func resembles(header []byte) bool {
	same := 0
	for i := range len(magic) {
		if header[i] == magic[i] {
			same++
		}
	}
	return same >= len(magic)-4 || bytes.Equal(header, make([]byte, headerSize))
}

// readHeader reads the first bytes, zero where the file is shorter.
func readHeader(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	header := make([]byte, headerSize)
	if _, err := io.ReadFull(f, header); err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		return nil, err
	}
	return header, nil
}

// size of a file, 0 when it is absent.
func size(path string) int64 {
	info, err := os.Stat(path)
	if err != nil {
		return 0
	}
	return info.Size()
}
