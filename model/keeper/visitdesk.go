package keeper

import (
	"bytes"
	"context"
	"errors"
	"io"
	"path/filepath"
	"sync"

	"example.org/driploop/model/desk"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// DeskFolder is the visit desk in the data folder, where no other place was named.
// It is apart from the daybook: no snapshot and no archive holds what is on it, so
// that what is forgotten there is gone.
const DeskFolder = "desk"

// deskAt is where the visit desk is; it is opened when it is first asked for.
type deskAt struct {
	sync.Mutex
	where, counter string
	open           *desk.Desk
}

// UseDesk says where the visit desk is: a folder, the address of a PostgreSQL
// database that several counters share, or "" for DeskFolder in the data folder.
// counter is what this counter is called there. It is opened when it is first used.
func (k *Keeper) UseDesk(where, counter string) {
	k.desk.Lock()
	defer k.desk.Unlock()
	k.desk.shut()
	k.desk.where, k.desk.counter = where, counter
}

func (d *deskAt) shut() {
	if d.open != nil {
		_ = d.open.Close() // what was told as kept is kept already
		d.open = nil
	}
}

// theDesk opens the desk where it is not open yet. One that cannot be reached is
// tried again with the next question.
func (k *Keeper) theDesk(ctx context.Context) (*desk.Desk, error) {
	k.desk.Lock()
	defer k.desk.Unlock()
	if k.desk.open != nil {
		return k.desk.open, nil
	}
	where := k.desk.where
	if where == "" {
		if k.ReadOnly() != nil {
			return nil, &desk.Error{Code: desk.CodeDenied, Where: k.Dir()}
		}
		where = filepath.Join(k.Dir(), DeskFolder)
	}
	d, err := desk.Open(ctx, where, k.desk.counter)
	if err == nil {
		k.desk.open = d
	}
	return d, err
}

// DeskWhere tells where the desk is and whether other counters share it; "" for the
// one in the data folder.
func (k *Keeper) DeskWhere(ctx context.Context) (where string, shared bool, err error) {
	k.desk.Lock()
	own := k.desk.where == ""
	k.desk.Unlock()
	d, err := k.theDesk(ctx)
	if err != nil || own {
		return "", false, err
	}
	return d.Where(), d.Shared(), nil
}

// VisitSaid is what the list of the desk shows of a slip and what finds it, in the
// words of the shop: a line of what it is about, and further words to search for.
type VisitSaid struct{ About, Words string }

// ReceiveVisit keeps the visit slip at path on the desk, byte for byte. It reports
// false when it lies there already. Errors: *slip.Error, *desk.Error.
func (k *Keeper) ReceiveVisit(ctx context.Context, path string, say func(slip.Visit) VisitSaid) (v slip.Visit, taken bool, err error) {
	f, size, err := openSlip(ctx, path)
	if err != nil {
		return slip.Visit{}, false, err
	}
	defer f.Close()
	if v, _, err = readVisit(f, size); err != nil {
		return slip.Visit{}, false, err
	}
	file, err := io.ReadAll(io.NewSectionReader(f, 0, size)) // as long as readVisit has just allowed
	if err != nil {
		return slip.Visit{}, false, &slip.Error{Code: slip.CodeUnreadable, Err: err}
	}
	taken, err = k.receive(ctx, v, file, say)
	return v, taken, err
}

// ReceiveFile keeps the visit slip of a file that was read from paper on the desk, as
// ReceiveVisit does.
func (k *Keeper) ReceiveFile(ctx context.Context, file []byte, say func(slip.Visit) VisitSaid) (v slip.Visit, taken bool, err error) {
	if v, _, err = readVisit(bytes.NewReader(file), int64(len(file))); err != nil {
		return slip.Visit{}, false, err
	}
	taken, err = k.receive(ctx, v, file, say)
	return v, taken, err
}

func (k *Keeper) receive(ctx context.Context, v slip.Visit, file []byte, say func(slip.Visit) VisitSaid) (taken bool, err error) {
	d, err := k.theDesk(ctx)
	if err != nil {
		return false, err
	}
	said := say(v)
	return d.Receive(ctx, desk.Visit{ID: v.ID, Label: v.Label, About: said.About, Lang: v.Language, Made: string(v.Made), Words: said.Words}, file, k.now())
}

// DeskVisits lists the slips on the desk. Errors: *desk.Error.
func (k *Keeper) DeskVisits(ctx context.Context, q desk.Query) ([]desk.Visit, error) {
	d, err := k.theDesk(ctx)
	if err != nil {
		return nil, err
	}
	return d.List(ctx, q)
}

// DeskFile gives a slip on the desk as it was handed over. Errors: *desk.Error.
func (k *Keeper) DeskFile(ctx context.Context, id string) ([]byte, error) {
	d, err := k.theDesk(ctx)
	if err != nil {
		return nil, err
	}
	return d.File(ctx, id)
}

// DeskCount tells how many slips are on the desk, and how many have no reply.
func (k *Keeper) DeskCount(ctx context.Context) (all, open int, err error) {
	d, err := k.theDesk(ctx)
	if err != nil {
		return 0, 0, err
	}
	return d.Count(ctx)
}

// OnDesk is a slip on the desk, opened.
type OnDesk struct {
	Visit slip.Visit
	Found []working.Finding
	// Label is what this shop calls the customer.
	Label string
	// Replies are those that were written here, the oldest first.
	Replies []ReplyView
}

// DeskVisit opens a slip on the desk. Errors: *desk.Error, *slip.Error.
func (k *Keeper) DeskVisit(ctx context.Context, id string) (OnDesk, error) {
	d, err := k.theDesk(ctx)
	if err != nil {
		return OnDesk{}, err
	}
	row, err := d.Visit(ctx, id)
	if err != nil {
		return OnDesk{}, err
	}
	file, err := d.File(ctx, id)
	if err != nil {
		return OnDesk{}, err
	}
	out := OnDesk{Label: row.Label}
	if out.Visit, out.Found, err = readVisit(bytes.NewReader(file), int64(len(file))); err != nil {
		return OnDesk{}, err
	}
	list, err := d.Replies(ctx, id)
	if err != nil {
		return OnDesk{}, err
	}
	for _, r := range list {
		file, err := d.ReplyFile(ctx, r.ID)
		if err != nil {
			return OnDesk{}, err
		}
		reply, _, err := slip.ReadReply(bytes.NewReader(file), int64(len(file)))
		if err != nil {
			return OnDesk{}, err
		}
		view, err := k.ReplyBeside(ctx, reply, "")
		if err != nil {
			return OnDesk{}, err
		}
		out.Replies = append(out.Replies, view)
	}
	return out, nil
}

// RelabelVisit gives the customer of a slip on the desk another name.
func (k *Keeper) RelabelVisit(ctx context.Context, id, label string) error {
	d, err := k.theDesk(ctx)
	if err != nil {
		return err
	}
	return d.Relabel(ctx, id, slip.OneLine(label))
}

// AnswerVisit writes a reply to path, as WriteReply does, and keeps it with its slip
// on the desk. Where the slip is not on the desk the reply is written all the same.
func (k *Keeper) AnswerVisit(ctx context.Context, r slip.Reply, path string) error {
	file, err := k.ReplyFile(ctx, r)
	if err != nil {
		return err
	}
	if err := durable.WriteFile(path, file, profileMode); err != nil {
		return err
	}
	return k.KeepReply(ctx, r, file)
}

// KeepReply keeps a reply that was handed over, and its file, with its slip on the desk,
// where that lies there. Errors: *desk.Error.
func (k *Keeper) KeepReply(ctx context.Context, r slip.Reply, file []byte) error {
	d, err := k.theDesk(ctx)
	if err != nil {
		return err
	}
	var no *desk.Error
	if err := d.Answer(ctx, r.Visit, r.ID, file, k.now()); err != nil && !(errors.As(err, &no) && no.Code == desk.CodeAbsent) {
		return err
	}
	return nil
}

// DeskReplyFile gives a reply on the desk as it was handed over, by whichever counter.
// Errors: *desk.Error.
func (k *Keeper) DeskReplyFile(ctx context.Context, id string) ([]byte, error) {
	d, err := k.theDesk(ctx)
	if err != nil {
		return nil, err
	}
	return d.ReplyFile(ctx, id)
}

// ForgetVisit deletes a slip from the desk with its replies. It cannot be undone:
// nothing is left of it. wiped is as desk.Forget's.
func (k *Keeper) ForgetVisit(ctx context.Context, id string) (wiped bool, err error) {
	d, err := k.theDesk(ctx)
	if err != nil {
		return false, err
	}
	return d.Forget(ctx, id)
}
