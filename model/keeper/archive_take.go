package keeper

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"os"

	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// MostUndone is how many rows one step of the undo history may hold; a larger
// change is made without one, after a copy of the daybook. // judgement
const MostUndone = 50_000

// TakenArchive tells what TakeArchive did.
type TakenArchive struct {
	Tanks    []string // keys of the tanks added
	Rows     int
	Pictures int
	// Lost counts pictures that were not in the archive as they were put in.
	Lost int
	// Snapshot is the copy made before, where the change is too large to be undone.
	Snapshot string
}

// TakeArchive takes every tank of the archive at path that is not here already,
// just so: with its own keys where they are free, else as a further tank. Pictures
// are put on the disk first, then all rows in one transaction, which is one step
// of the list of tanks that can be undone, or comes after a snapshot when it is
// larger than MostUndone. Cancelled or failed, it leaves the daybook as it was.
// progress, which may be nil, is told how many bytes of pictures are done.
// Errors: *slip.Error; *working.Refusal when all of it is here already, or the
// disk has too little room; *store.OpError; ctx's.
func (k *Keeper) TakeArchive(ctx context.Context, path string, progress func(done, total int64)) (TakenArchive, error) {
	var did TakenArchive
	f, a, _, err := k.openArchive(ctx, path)
	if err != nil {
		return did, err
	}
	defer f.Close()
	plan, err := k.planArchive(ctx, a)
	if err != nil {
		return did, err
	}
	name := ""
	for _, t := range plan.tanks {
		if t.Arrival != Here {
			did.Tanks = append(did.Tanks, t.as)
			if name != "" {
				name += ", "
			}
			name += t.Name
		}
	}
	if len(did.Tanks) == 0 {
		return did, working.Refuse("archive", "refuse.keeper.archive_here")
	}
	const spare = 32 << 20 // for the rows and what the database needs. judgement
	if err := room(k.Dir(), a.Bytes+spare, "refuse.keeper.room"); err != nil {
		return did, err
	}
	if gone := k.TakenAway(); gone != nil { // no picture into a folder that is not there
		return did, gone
	}
	k.shelf.RLock()
	defer k.shelf.RUnlock()
	if err := k.takeOriginals(ctx, a, plan, &did, progress); err != nil {
		return did, err
	}
	ops, err := plan.ops(a)
	if err != nil {
		return did, err
	}
	c := store.Change{Label: "undo.archive_take", Values: map[string]string{"Name": shortened(name)}, At: stamp(k.now()), Ops: ops}
	if len(ops) > MostUndone {
		if did.Snapshot, err = k.Snapshot(ctx); err != nil {
			return did, err
		}
		c.Silent = true
	}
	did.Rows = len(ops)
	err = k.apply(ctx, c)
	var oe *store.OpError
	var ce *store.ConflictError
	if errors.As(err, &ce) || errors.As(err, &oe) && (oe.Code == store.CodeConstraint || oe.Code == store.CodeRefused) {
		// It is the archive that does not fit: a value that no column takes, a key twice.
		return did, &slip.Error{Code: slip.CodeArchiveRow, Err: err}
	}
	return did, err
}

// shortened keeps the names in an undo label to a line.
func shortened(s string) string {
	if r := []rune(s); len(r) > MaxName {
		return string(r[:MaxName-1]) + "…"
	}
	return s
}

// takeOriginals puts the pictures of the tanks that are taken on the disk.
func (k *Keeper) takeOriginals(ctx context.Context, a *slip.Archive, plan *archivePlan, did *TakenArchive, progress func(done, total int64)) error {
	wanted := map[string]bool{}
	for _, r := range a.Tables["photo"] {
		if plan.take[r.Text("tank")] {
			wanted[r.Text("hash")] = true
		}
	}
	var done int64
	var b bytes.Buffer
	for _, o := range a.Originals {
		if err := ctx.Err(); err != nil {
			return err
		}
		if wanted[o.Hash] && !k.holds(o) {
			b.Reset()
			err := a.Original(o, &b)
			var se *slip.Error
			switch {
			case ctx.Err() != nil:
				return ctx.Err()
			case errors.As(err, &se):
				did.Lost++ // the rest of the daybook is worth having
			case err != nil:
				return err
			default:
				if _, err := k.originals.Put(b.Bytes()); err != nil {
					return err
				}
				did.Pictures++
			}
		}
		done += o.Bytes
		if progress != nil {
			progress(done, a.Bytes)
		}
	}
	return nil
}

// holds reports whether a picture is here already, whole.
func (k *Keeper) holds(o slip.Original) bool {
	f, err := k.originals.Open(o.Hash)
	if err != nil {
		return false
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || info.Size() != o.Bytes {
		return false
	}
	data, err := os.ReadFile(f.Name())
	sum := sha256.Sum256(data)
	return err == nil && hex.EncodeToString(sum[:]) == o.Hash
}

// ops are the rows of the tanks that are taken, each after those it refers to.
func (p *archivePlan) ops(a *slip.Archive) ([]store.Op, error) {
	var ops []store.Op
	kept := func(table, row, name, value string) {
		ops = append(ops, store.Op{Table: "kept", After: store.Row{"tbl": table, "row": row, "name": name, "value": value}})
	}
	later := len(a.Unknown) > 0 && !p.again
	for _, t := range slip.Tables() {
		for _, r := range a.Tables[t.Name] {
			if !p.takes(t, r) {
				continue
			}
			after := store.Row{}
			for _, c := range t.Columns {
				v := r.Values[c.Name]
				if s, ok := v.(string); ok && c.Of != "" {
					v = p.keys[c.Of][s]
				}
				after[c.Name] = v
			}
			ops = append(ops, store.Op{Table: t.Name, After: after})
			key := t.KeyOf(slip.Row{Values: after})
			for name, value := range r.More {
				later = true
				kept(t.Name, key, name, value)
			}
		}
	}
	if p.again {
		return ops, nil
	}
	for name, rows := range a.Unknown {
		for i, value := range rows {
			kept(name, fmt.Sprintf("%.8s-%06d", a.ID, i+1), "", value)
		}
	}
	if later {
		n, err := json.Marshal(a.Minor)
		if err != nil {
			return nil, err
		}
		kept("", a.ID, keptMinor, string(n))
	}
	return ops, nil
}
