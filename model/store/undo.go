package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
)

// step is a row of the undo history.
type step struct {
	seq    int64
	change Change
}

const (
	nextUndo = "SELECT seq, label, label_values, at, ops FROM undo WHERE tank = ? AND undone = 0 ORDER BY seq DESC LIMIT 1"
	nextRedo = "SELECT seq, label, label_values, at, ops FROM undo WHERE tank = ? AND undone = 1 ORDER BY seq LIMIT 1"
)

// Undo takes back the tank's latest change and returns it as it was made. Errors:
// ErrNothing; *ConflictError when a row has since been changed outside the
// history, in which case nothing is taken back.
func (s *Store) Undo(ctx context.Context, tank string) (Change, error) {
	return s.walk(ctx, "undo", tank, nextUndo, 1)
}

// Redo makes the change again that Undo took back last. Errors as Undo's.
func (s *Store) Redo(ctx context.Context, tank string) (Change, error) {
	return s.walk(ctx, "redo", tank, nextRedo, 0)
}

func (s *Store) walk(ctx context.Context, op, tank, query string, undone int) (Change, error) {
	var out Change
	err := s.write(ctx, op, func(tx *sql.Tx) error {
		st, err := next(ctx, tx, tank, query)
		if err != nil {
			return err
		}
		ops := st.change.Ops
		if undone == 1 {
			ops = inverse(ops)
		}
		for _, o := range ops {
			o, t, err := o.complete(op)
			if err != nil {
				return err
			}
			if err := run(ctx, tx, op, t, o); err != nil {
				return err
			}
		}
		out = st.change
		_, err = tx.ExecContext(ctx, "UPDATE undo SET undone = ? WHERE seq = ?", undone, st.seq)
		return err
	})
	if err != nil {
		return Change{}, err
	}
	return out, nil
}

// UndoLabel tells what Undo would take back, without its Ops. Errors:
// ErrNothing.
func (s *Store) UndoLabel(ctx context.Context, tank string) (Change, error) {
	return s.label(ctx, "undo", tank, nextUndo)
}

// RedoLabel tells what Redo would make again, without its Ops. Errors:
// ErrNothing.
func (s *Store) RedoLabel(ctx context.Context, tank string) (Change, error) {
	return s.label(ctx, "redo", tank, nextRedo)
}

func (s *Store) label(ctx context.Context, op, tank, query string) (Change, error) {
	st, err := next(ctx, s.db, tank, query)
	if err != nil {
		return Change{}, opError(op, "", err)
	}
	st.change.Ops = nil
	return st.change, nil
}

// next reads the step that query finds.
func next(ctx context.Context, q querier, tank, query string) (step, error) {
	st := step{change: Change{Tank: tank}}
	var values, ops string
	err := q.QueryRowContext(ctx, query, tank).Scan(&st.seq, &st.change.Label, &values, &st.change.At, &ops)
	if errors.Is(err, sql.ErrNoRows) {
		return st, ErrNothing
	}
	if err != nil {
		return st, err
	}
	if err := json.Unmarshal([]byte(values), &st.change.Values); err != nil {
		return st, &OpError{Code: CodeDamaged, Table: "undo", Column: "label_values", Err: err}
	}
	if st.change.Ops, err = decodeOps(ops); err != nil {
		return st, &OpError{Code: CodeDamaged, Table: "undo", Column: "ops", Err: err}
	}
	return st, nil
}
