package store

import (
	"context"
	"embed"
	"fmt"
	"io/fs"
	"log/slog"
	"strconv"

	"github.com/pressly/goose/v3"
)

//go:embed migrations/*.sql
var embedded embed.FS

// stepTable is where the migration library notes the steps it has made.
const stepTable = "schema_step"

// steps are the migrations this program knows.
type steps struct {
	fsys   fs.FS
	latest int // schema version after the last one
}

// readMigrations lists the migrations; nil stands for those built in. They are
// named NNNN_what.sql, numbered from 1 without a gap.
func readMigrations(fsys fs.FS) (steps, error) {
	if fsys == nil {
		sub, err := fs.Sub(embedded, "migrations")
		if err != nil {
			return steps{}, err
		}
		fsys = sub
	}
	names, err := fs.Glob(fsys, "*.sql")
	if err != nil {
		return steps{}, err
	}
	for i, name := range names {
		if len(name) < 5 {
			return steps{}, fmt.Errorf("migration %s: no number", name)
		}
		if n, err := strconv.Atoi(name[:4]); err != nil || n != i+1 {
			return steps{}, fmt.Errorf("migration %s: expected number %04d", name, i+1)
		}
	}
	return steps{fsys: fsys, latest: len(names)}, nil
}

// upgrade brings the schema from version was to the latest. A database that
// holds something is first saved in a verified snapshot. Every step is one
// transaction that also sets user_version: a cut-off upgrade goes on where it
// stopped.
func (s *Store) upgrade(ctx context.Context, was int, m steps) error {
	if was < m.latest {
		if was > 0 {
			if _, err := s.Snapshot(ctx); err != nil {
				return openError(s.path, CodeSnapshot, err)
			}
			// The history holds whole rows of the old schema, which the new one may
			// not take; undoing across an upgrade would put them back. It is cleared
			// before, not after, so that no moment has old history over new tables.
			if _, err := s.db.ExecContext(ctx, "DELETE FROM undo"); err != nil {
				return openError(s.path, CodeMigration, err)
			}
		}
		p, err := goose.NewProvider(goose.DialectSQLite3, s.db, m.fsys,
			goose.WithTableName(stepTable),
			goose.WithDisableGlobalRegistry(true),
			goose.WithSlog(slog.New(slog.DiscardHandler))) // nothing but results may go to stdout
		if err != nil {
			return openError(s.path, CodeMigration, err)
		}
		// The provider is not closed: that would close the database with it.
		if err := s.ours(func() error {
			_, err := p.Up(ctx)
			return err
		}); err != nil {
			return openError(s.path, CodeMigration, err)
		}
	}
	for _, want := range []pragma{{"user_version", "", strconv.Itoa(m.latest)}, {"application_id", "", strconv.Itoa(ApplicationID)}} {
		got, err := number(ctx, s.db, "PRAGMA "+want.name)
		if err != nil {
			return openError(s.path, CodeMigration, err)
		}
		if g := strconv.FormatInt(got, 10); g != want.want {
			return &OpenError{Code: CodePragma, Path: s.path, Name: want.name, Wanted: want.want, Got: g}
		}
	}
	return nil
}
