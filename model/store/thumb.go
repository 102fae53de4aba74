package store

import (
	"context"
	"database/sql"
	"errors"
	"strings"
)

// Thumb is a small picture made from an original. It can be made again at any
// time, so it stands outside Change and the undo history.
type Thumb struct {
	Hash          string // of the original
	Side          int    // pixels asked for of the longer side
	Width, Height int    // pixels it has
	JPEG          []byte
}

// Thumb reads a small picture; ok is false when there is none. Errors: *OpError.
func (s *Store) Thumb(ctx context.Context, hash string, side int) (t Thumb, ok bool, err error) {
	t = Thumb{Hash: hash, Side: side}
	err = s.db.QueryRowContext(ctx, "SELECT width, height, jpeg FROM thumb WHERE hash = ? AND side = ?", hash, side).
		Scan(&t.Width, &t.Height, &t.JPEG)
	if errors.Is(err, sql.ErrNoRows) {
		return Thumb{}, false, nil
	}
	if err != nil {
		return Thumb{}, false, opError("thumb", "thumb", err)
	}
	return t, true, nil
}

// PutThumb keeps a small picture in place of any other of its hash and side.
// Errors: *OpError.
func (s *Store) PutThumb(ctx context.Context, t Thumb) error {
	const op = "thumb"
	switch {
	case t.Hash == "" || badText(t.Hash) != "":
		return &OpError{Code: CodeRefused, Op: op, Table: "thumb", Column: "hash", Reason: ReasonMissing}
	case len(t.JPEG) == 0:
		return &OpError{Code: CodeRefused, Op: op, Table: "thumb", Column: "jpeg", Reason: ReasonMissing}
	}
	return s.write(ctx, op, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "INSERT INTO thumb (hash, side, width, height, jpeg) VALUES (?, ?, ?, ?, ?) "+
			"ON CONFLICT (hash, side) DO UPDATE SET width = excluded.width, height = excluded.height, jpeg = excluded.jpeg",
			t.Hash, t.Side, t.Width, t.Height, t.JPEG)
		return err
	})
}

// HashesNamed lists the hashes of every picture that a row or a step of the
// undo history names, here, in any snapshot and in what a restore set aside: a
// picture whose adding was undone, or that a restore would bring back, may be
// wanted again. Errors: *OpError, also when one of those files cannot be read, for
// then it is not known what it names.
func (s *Store) HashesNamed(ctx context.Context) (map[string]bool, error) {
	out := map[string]bool{}
	if err := hashesNamed(ctx, s.db, out); err != nil {
		return nil, opError("load", "photo", err)
	}
	kept, err := keptFiles(s.dir)
	if err != nil {
		return nil, opError("load", "photo", err)
	}
	for _, path := range kept {
		if err := namedIn(ctx, path, out); err != nil {
			return nil, opError("load", "photo", err)
		}
	}
	return out, nil
}

// namedIn adds what a file that no one writes names.
func namedIn(ctx context.Context, path string, into map[string]bool) error {
	db, err := openFile(ctx, path, asIs)
	if err != nil {
		return err
	}
	defer db.Close()
	n, err := number(ctx, db, "SELECT count(*) FROM sqlite_schema WHERE name = 'photo'")
	if err != nil || n == 0 { // a schema from before there were pictures
		return err
	}
	return hashesNamed(ctx, db, into)
}

func hashesNamed(ctx context.Context, q querier, into map[string]bool) error {
	named, err := lines(ctx, q, "SELECT hash FROM photo UNION "+
		"SELECT coalesce(json_extract(o.value, '$.after.hash'), '') FROM undo, json_each(undo.ops) AS o WHERE json_extract(o.value, '$.table') = 'photo' UNION "+
		"SELECT coalesce(json_extract(o.value, '$.before.hash'), '') FROM undo, json_each(undo.ops) AS o WHERE json_extract(o.value, '$.table') = 'photo'")
	for _, h := range named {
		if h != "" {
			into[h] = true
		}
	}
	return err
}

// DropThumbs removes the small pictures of originals that are gone. Errors:
// *OpError.
func (s *Store) DropThumbs(ctx context.Context, hashes []string) error {
	if len(hashes) == 0 {
		return nil
	}
	return s.write(ctx, "thumb", func(tx *sql.Tx) error {
		args := make([]any, len(hashes))
		for i, h := range hashes {
			args[i] = h
		}
		_, err := tx.ExecContext(ctx, "DELETE FROM thumb WHERE hash IN (?"+strings.Repeat(", ?", len(hashes)-1)+")", args...)
		return err
	})
}
