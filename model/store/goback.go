package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"example.org/driploop/model/durable"
	"github.com/mattn/go-sqlite3"
)

// GoBack puts a snapshot, or what an earlier GoBack set aside, in the place of what
// the open database holds, and returns the file below aside/ where what it held is
// kept. The file is checked first and stays where it is; what is set aside is a
// verified copy. The database is replaced in one transaction: cut off, it holds the
// old or the new. A database that another program wrote over is set aside as it stands.
// A file of an older schema is upgraded afterwards. Errors:
// *OpenError, CodeSnapshot when the file is no good; *OpError.
func (s *Store) GoBack(ctx context.Context, path string, o Options) (aside string, err error) {
	const op = "snapshot"
	if why := s.ReadOnly(); why != nil {
		return "", &OpError{Code: CodeReadOnly, Op: op, Err: why}
	}
	over := false
	if err := s.inPlace(op); err != nil {
		var gone *OpError
		if over = errors.As(err, &gone) && gone.Reason == ReasonOverwritten; !over {
			return "", err
		}
	}
	if path, err = filepath.Abs(path); err != nil {
		return "", &OpenError{Code: CodeSnapshot, Path: path, Err: err}
	}
	if err := usable(ctx, path, o); err != nil {
		return "", err
	}
	if over {
		folder, err := s.renew(ctx, path, o)
		if folder != "" {
			aside = filepath.Join(folder, FileName)
		}
		return aside, err
	}
	if aside, err = s.keepAside(ctx); err != nil {
		return "", err
	}
	err = s.ours(func() error { return s.fillFrom(ctx, path) })
	if err != nil {
		return aside, opError(op, "", err)
	}
	return aside, s.catchUp(ctx, o)
}

// catchUp takes a database that was put in the place of the open one through the
// migrations that it lacks.
func (s *Store) catchUp(ctx context.Context, o Options) error {
	m, err := readMigrations(o.migrations)
	if err != nil {
		return openError(s.path, CodeMigration, err)
	}
	version, err := number(ctx, s.db, "PRAGMA user_version")
	if err != nil {
		return openError(s.path, CodeDamaged, err)
	}
	return s.upgrade(ctx, int(version), m)
}

// keepAside copies the open database into a folder of its own below aside/.
func (s *Store) keepAside(ctx context.Context) (string, error) {
	const op = "snapshot"
	folder, err := asideFolder(s.dir, s.now())
	if err != nil {
		return "", opError(op, "", err)
	}
	conn, err := s.db.Conn(ctx)
	if err != nil {
		return "", opError(op, "", err)
	}
	defer conn.Close()
	version, err := number(ctx, conn, "PRAGMA user_version")
	if err != nil {
		return "", opError(op, "", err)
	}
	path := filepath.Join(folder, FileName)
	temp := filepath.Join(folder, durable.TempPrefix+FileName)
	err = copyTo(ctx, conn, temp, int(version))
	if err == nil {
		err = publish(temp, path)
	}
	if err == nil {
		err = durable.SyncDir(filepath.Dir(folder))
	}
	if err != nil {
		_ = os.RemoveAll(folder) // a copy that is no good; the database is as it was
		return "", opError(op, "", err)
	}
	return path, nil
}

// fillFrom copies a file over the open database with SQLite's own backup, which
// writes it as one transaction.
func (s *Store) fillFrom(ctx context.Context, path string) error {
	from, err := openFile(ctx, path, asIs)
	if err != nil {
		return err
	}
	defer from.Close()
	source, err := from.Conn(ctx)
	if err != nil {
		return err
	}
	defer source.Close()
	target, err := s.db.Conn(ctx)
	if err != nil {
		return err
	}
	defer target.Close()
	return withRaw(target, func(to *sqlite3.SQLiteConn) error {
		return withRaw(source, func(of *sqlite3.SQLiteConn) error {
			b, err := to.Backup("main", of, "main")
			if err != nil {
				return err
			}
			done, err := b.Step(-1)
			if closeErr := b.Finish(); err == nil {
				err = closeErr
			}
			if err == nil && !done {
				err = errors.New("the copy stopped before its end")
			}
			return err
		})
	})
}

func withRaw(c *sql.Conn, f func(*sqlite3.SQLiteConn) error) error {
	return c.Raw(func(x any) error {
		conn, ok := x.(*linked)
		if !ok {
			return fmt.Errorf("a connection of type %T", x)
		}
		return f(conn.SQLiteConn)
	})
}
