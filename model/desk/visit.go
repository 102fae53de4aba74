package desk

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/driploop/model/journal"
)

// Limits. // judgement: above what a slip may hold, below what a list can bear
const (
	MaxText = 10_000   // of one text, bytes
	MaxFile = 64 << 20 // of one slip, bytes
)

// Visit is a slip as the list shows it.
type Visit struct {
	ID    string // the slip's own, the same wherever it is handed over
	Label string // what the customer is called; the shop may change it
	Tank  string // the tank's name
	About string // what it is about, in a line
	Lang  string // BCP 47, of the keeper's program
	Made  string // when the keeper made it, civil, as the slip has it
	// Words are searched for beside the texts above; they are not given back.
	Words string

	// Set by the desk.
	Received time.Time
	Counter  string    // which counter took it in
	Answered time.Time // zero until a reply was written
	Size     int64
	SHA256   string // hexadecimal, of the file
}

type texts map[string]string

func checkTexts(ts texts) error {
	for name, s := range ts {
		if len(s) > MaxText || !utf8.ValidString(s) || strings.ContainsRune(s, 0) {
			return &Error{Code: CodeText, Field: name}
		}
	}
	return nil
}

func hashed(file []byte) string {
	sum := sha256.Sum256(file)
	return hex.EncodeToString(sum[:])
}

// Receive keeps a slip, file as it was handed over, and reports false when it is
// there already. Errors: CodeText, CodeTooLarge; CodeChanged where another file is
// kept under the same id.
func (d *Desk) Receive(ctx context.Context, v Visit, file []byte, at time.Time) (taken bool, err error) {
	if err := checkTexts(texts{"id": v.ID, "label": v.Label, "tank": v.Tank, "about": v.About, "lang": v.Lang, "made": v.Made, "words": v.Words}); err != nil {
		return false, err
	}
	if v.ID == "" {
		return false, &Error{Code: CodeText, Field: "id"}
	}
	if len(file) > MaxFile {
		return false, &Error{Code: CodeTooLarge}
	}
	sum := hashed(file)
	n, err := d.apply(ctx, statement{`INSERT INTO desk_slip (id, label, label_words, tank, about, lang, made, words, received, counter, size, sha256, file)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13) ON CONFLICT (id) DO NOTHING`,
		[]any{v.ID, v.Label, journal.Folded(v.Label), v.Tank, v.About, v.Lang, v.Made, journal.Folded(v.Tank + "\n" + v.About + "\n" + v.Words),
			at.UnixMicro(), d.counter, int64(len(file)), sum, file}})
	if err != nil || n[0] == 1 {
		return err == nil, err
	}
	there, err := d.Visit(ctx, v.ID)
	if err == nil && there.SHA256 != sum {
		err = &Error{Code: CodeChanged}
	}
	return false, err
}

// Relabel gives the customer of a slip another name. Errors: CodeAbsent.
func (d *Desk) Relabel(ctx context.Context, id, label string) error {
	if err := checkTexts(texts{"label": label}); err != nil {
		return err
	}
	n, err := d.apply(ctx, statement{"UPDATE desk_slip SET label = $1, label_words = $2 WHERE id = $3", []any{label, journal.Folded(label), id}})
	return present(n, err)
}

// Reply is an answer to a slip.
type Reply struct {
	ID      string
	Written time.Time
	Counter string
	Size    int64
	SHA256  string
}

// Answer keeps a reply to the slip visit, file as it is handed over. The same
// reply again changes nothing. Errors: CodeAbsent where there is no such slip;
// CodeTooLarge; CodeChanged where another file is kept under the reply's id.
func (d *Desk) Answer(ctx context.Context, visit, id string, file []byte, at time.Time) error {
	if err := checkTexts(texts{"id": id}); err != nil {
		return err
	}
	if len(file) > MaxFile {
		return &Error{Code: CodeTooLarge}
	}
	sum := hashed(file)
	n, err := d.apply(ctx,
		statement{`UPDATE desk_slip SET answered = $1 WHERE id = $2`, []any{at.UnixMicro(), visit}},
		statement{`INSERT INTO desk_reply (id, slip, written, counter, size, sha256, file)
			SELECT CAST($1 AS TEXT), id, CAST($2 AS BIGINT), CAST($3 AS TEXT), CAST($4 AS BIGINT), CAST($5 AS TEXT), $6 FROM desk_slip WHERE id = $7
			ON CONFLICT (id) DO NOTHING`, []any{id, at.UnixMicro(), d.counter, int64(len(file)), sum, file, visit}})
	if err := present(n, err); err != nil || n[1] == 1 {
		return err
	}
	replies, err := d.Replies(ctx, visit)
	if err != nil {
		return err
	}
	for _, r := range replies {
		if r.ID == id && r.SHA256 == sum {
			return nil
		}
	}
	return &Error{Code: CodeChanged}
}

// present turns a first step that touched nothing into CodeAbsent.
func present(touched []int64, err error) error {
	if err == nil && touched[0] == 0 {
		return &Error{Code: CodeAbsent}
	}
	return err
}

// File gives a slip as it was handed over. Errors: CodeAbsent; CodeDamaged where
// it is not what was kept.
func (d *Desk) File(ctx context.Context, id string) ([]byte, error) {
	return d.file(ctx, "SELECT file, sha256 FROM desk_slip WHERE id = $1", id)
}

// ReplyFile gives a reply as it was handed over. Errors: as File's.
func (d *Desk) ReplyFile(ctx context.Context, id string) ([]byte, error) {
	return d.file(ctx, "SELECT file, sha256 FROM desk_reply WHERE id = $1", id)
}

func (d *Desk) file(ctx context.Context, query, id string) ([]byte, error) {
	var file []byte
	var sum string
	err := d.db.QueryRowContext(ctx, query, id).Scan(&file, &sum)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return nil, &Error{Code: CodeAbsent}
	case err != nil:
		return nil, d.told(err)
	case hashed(file) != sum:
		return nil, &Error{Code: CodeDamaged, Where: d.where}
	}
	return file, nil
}

// Replies lists the replies to a slip, the oldest first.
func (d *Desk) Replies(ctx context.Context, visit string) ([]Reply, error) {
	rows, err := d.db.QueryContext(ctx, "SELECT id, written, counter, size, sha256 FROM desk_reply WHERE slip = $1 ORDER BY written, id", visit)
	if err != nil {
		return nil, d.told(err)
	}
	defer rows.Close()
	var out []Reply
	for rows.Next() {
		var r Reply
		var at int64
		if err := rows.Scan(&r.ID, &at, &r.Counter, &r.Size, &r.SHA256); err != nil {
			return nil, d.told(err)
		}
		r.Written = time.UnixMicro(at).UTC()
		out = append(out, r)
	}
	return out, d.told(rows.Err())
}

// Forget deletes a slip with its replies and leaves nothing of them in the desk's
// files. It reports false when it is deleted and something of it may be read from
// the files until the next Forget or the last Close, as another counter was at
// work just then. Errors: CodeAbsent.
func (d *Desk) Forget(ctx context.Context, id string) (wiped bool, err error) {
	n, err := d.apply(ctx, statement{"DELETE FROM desk_slip WHERE id = $1", []any{id}})
	if err := present(n, err); err != nil {
		return false, err
	}
	wiped, err = d.wipe(ctx, d.db)
	if err != nil && codeOf(err) == CodeBusy {
		return false, nil
	}
	return wiped, d.told(err)
}
