package keeper

import (
	"bytes"
	"context"
	"errors"
	"image/jpeg"

	"example.org/driploop/model/durable"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
)

// SaveVisit writes a visit slip to path, whole or not at all, signed with this
// daybook's key, and keeps which tank it is of, so that a reply finds it again: one
// change that can be undone, of which a read-only daybook keeps nothing. Pictures are
// made anew and take up to seconds each, of which progress, which may be nil, is told.
// Errors: as Visit's; *slip.Error; *durable.WriteError; ctx's.
func (k *Keeper) SaveVisit(ctx context.Context, tank string, a VisitAsk, path string, progress func(done, total int)) (VisitPreview, error) {
	p, err := k.ShownVisit(ctx, tank, a, progress)
	if err != nil {
		return p, err
	}
	key, err := k.signer(ctx)
	if err != nil {
		return p, err
	}
	var b bytes.Buffer
	if err := slip.WriteVisit(&b, p.Visit, key); err != nil {
		return p, err
	}
	if err := durable.WriteFile(path, b.Bytes(), profileMode); err != nil {
		return p, err
	}
	return p, k.noteVisit(ctx, tank, a, p.Visit)
}

// noteVisit keeps which tank a visit slip is of that was handed over.
func (k *Keeper) noteVisit(ctx context.Context, tank string, a VisitAsk, v slip.Visit) error {
	if k.ReadOnly() != nil {
		return nil
	}
	sick := ""
	if v.Case != nil {
		sick = a.Case
	}
	row := store.Row{"id": v.ID, "tank": tank, "label": v.Label, "first": v.From, "last": v.To, "sick": orNil(sick), "at": stamp(k.now())}
	return k.st.Apply(ctx, store.Change{Tank: tank, Label: "undo.visit_save", At: stamp(k.now()), Ops: []store.Op{{Table: "visit", After: row}}})
}

// VisitReady is a visit slip made ready for its paper.
type VisitReady struct {
	VisitPreview
	// File is the signed .dlvisit without its pictures, for the codes.
	File []byte
	tank string
	ask  VisitAsk
}

// PrepareVisit makes a visit slip ready for its paper, as SaveVisit makes one for a
// file. Nothing is kept yet: see NoteVisit. Errors: as Visit's; *slip.Error; ctx's.
func (k *Keeper) PrepareVisit(ctx context.Context, tank string, a VisitAsk, progress func(done, total int)) (VisitReady, error) {
	r := VisitReady{tank: tank, ask: a}
	var err error
	if r.VisitPreview, err = k.ShownVisit(ctx, tank, a, progress); err != nil {
		return r, err
	}
	key, err := k.signer(ctx)
	if err != nil {
		return r, err
	}
	var b bytes.Buffer
	err = slip.WriteVisit(&b, r.Visit.WithoutPictures(), key)
	r.File = b.Bytes()
	return r, err
}

// NoteVisit keeps which tank a visit slip is of whose paper was made, so that a reply
// finds it again: one change that can be undone, of which a read-only daybook keeps
// nothing.
func (k *Keeper) NoteVisit(ctx context.Context, r VisitReady) error {
	return k.noteVisit(ctx, r.tank, r.ask, r.Visit)
}

// ShownVisit is what SaveVisit would write, its pictures made; nothing is written and
// nothing kept. Errors: as Visit's; ctx's.
func (k *Keeper) ShownVisit(ctx context.Context, tank string, a VisitAsk, progress func(done, total int)) (VisitPreview, error) {
	p, err := k.Visit(ctx, tank, a)
	if err != nil {
		return p, err
	}
	return p, k.shots(ctx, &p, progress)
}

// shots makes the pictures of a slip. One that cannot be read is left out and counted,
// as is one that stands there already.
func (k *Keeper) shots(ctx context.Context, p *VisitPreview, progress func(done, total int)) error {
	var out []slip.VisitPicture
	seen := map[string]bool{}
	for i, ph := range p.photos {
		if progress != nil {
			progress(i, len(p.photos))
		}
		data, err := k.shot(ctx, ph)
		var broken *photo.Problem
		switch {
		case errors.As(err, &broken):
			p.Lost++
			continue
		case err != nil:
			return err
		case seen[photo.Hash(data)]:
			continue
		}
		seen[photo.Hash(data)] = true
		x := p.Visit.Pictures[i]
		x.JPEG = data
		out = append(out, x)
	}
	p.Visit.Pictures = out
	p.Count[VisitPictures] = len(out)
	return nil
}

// shotQualities are tried one after the other until a picture is small enough; the
// first shows no block, the last is still good to look at. // judgement
var shotQualities = []int{88, 75, 60}

// shot makes a picture as a slip carries it: upright, turned, without anything that
// the camera said.
func (k *Keeper) shot(ctx context.Context, ph Photo) ([]byte, error) {
	for side := slip.MaxSide; ; side /= 2 {
		img, err := k.Picture(ctx, ph.ID, side)
		if err != nil {
			return nil, err
		}
		for _, q := range shotQualities {
			var b bytes.Buffer
			if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: q}); err != nil {
				return nil, err
			}
			if b.Len() <= slip.MaxPicture { // sooner or later: it shrinks by a quarter each round
				return b.Bytes(), nil
			}
		}
	}
}
