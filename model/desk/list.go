package desk

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"

	"example.org/driploop/model/journal"
)

// Query says which slips to list.
type Query struct {
	Words string // each must stand in label, tank, subject or words; accents and case aside
	Open  bool   // only those without a reply
	After *Visit // the last of the page before; nil begins
	Limit int    // 1 to MaxPage
}

// MaxPage is the longest page of a list.
const MaxPage = 200

// maxWords bounds how many words are searched for; further ones are left out. // judgement
const maxWords = 12

const columns = "id, label, tank, about, lang, made, received, counter, answered, size, sha256"

// List gives the slips received, the newest first.
func (d *Desk) List(ctx context.Context, q Query) ([]Visit, error) {
	var where []string
	var args []any
	bind := func(x any) string { args = append(args, x); return fmt.Sprintf("$%d", len(args)) }
	for i, w := range strings.Fields(journal.Folded(q.Words)) {
		if i == maxWords {
			break
		}
		p := bind("%" + literal.Replace(w) + "%")
		where = append(where, "(label_words LIKE "+p+` ESCAPE '\' OR words LIKE `+p+` ESCAPE '\')`)
	}
	if q.Open {
		where = append(where, "answered IS NULL")
	}
	if q.After != nil {
		at := bind(q.After.Received.UnixMicro())
		where = append(where, "(received < "+at+" OR received = "+at+" AND id < "+bind(q.After.ID)+")")
	}
	text := "SELECT " + columns + " FROM desk_slip"
	if len(where) > 0 {
		text += " WHERE " + strings.Join(where, " AND ")
	}
	text += " ORDER BY received DESC, id DESC LIMIT " + bind(min(max(q.Limit, 1), MaxPage))
	rows, err := d.db.QueryContext(ctx, text, args...)
	if err != nil {
		return nil, d.told(err)
	}
	defer rows.Close()
	var out []Visit
	for rows.Next() {
		v, err := scan(rows)
		if err != nil {
			return nil, d.told(err)
		}
		out = append(out, v)
	}
	return out, d.told(rows.Err())
}

// Visit gives one slip of the list. Errors: CodeAbsent.
func (d *Desk) Visit(ctx context.Context, id string) (Visit, error) {
	v, err := scan(d.db.QueryRowContext(ctx, "SELECT "+columns+" FROM desk_slip WHERE id = $1", id))
	if errors.Is(err, sql.ErrNoRows) {
		return Visit{}, &Error{Code: CodeAbsent}
	}
	return v, d.told(err)
}

// Count tells how many slips there are, and how many have no reply.
func (d *Desk) Count(ctx context.Context) (all, open int, err error) {
	err = d.db.QueryRowContext(ctx, "SELECT count(*), count(*) - count(answered) FROM desk_slip").Scan(&all, &open)
	return all, open, d.told(err)
}

func scan(row interface{ Scan(...any) error }) (Visit, error) {
	var v Visit
	var received int64
	var answered sql.NullInt64
	err := row.Scan(&v.ID, &v.Label, &v.Tank, &v.About, &v.Lang, &v.Made, &received, &v.Counter, &answered, &v.Size, &v.SHA256)
	v.Received = time.UnixMicro(received).UTC()
	if answered.Valid {
		v.Answered = time.UnixMicro(answered.Int64).UTC()
	}
	return v, err
}

var literal = strings.NewReplacer(`\`, `\\`, "%", `\%`, "_", `\_`)
