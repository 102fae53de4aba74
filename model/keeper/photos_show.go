package keeper

import (
	"bytes"
	"context"
	"image"
	"image/jpeg"
	"os"

	"example.org/driploop/model/photo"
	"example.org/driploop/model/store"
)

// Thumb gives the small picture of an original as JPEG, upright but without the
// person's turns; it is made where it is missing. It takes up to a second for
// one that is not yet made (seconds for HEIC). Errors: *photo.Problem,
// *working.Refusal for a side outside photo.LeastSide to photo.MostSide.
func (k *Keeper) Thumb(ctx context.Context, hash string, side int) ([]byte, error) {
	if t, ok, err := k.st.Thumb(ctx, hash, side); err != nil || ok {
		return t.JPEG, err
	}
	made, err := k.makeThumb(ctx, hash, side)
	if err != nil {
		return nil, err
	}
	if k.st.ReadOnly() == nil {
		err = k.st.PutThumb(ctx, store.Thumb{Hash: hash, Side: side, Width: made.Width, Height: made.Height, JPEG: made.JPEG})
	}
	return made.JPEG, err
}

// makeThumb makes a small picture of the usual one, if that is large enough, or
// else of the original.
func (k *Keeper) makeThumb(ctx context.Context, hash string, side int) (photo.Thumb, error) {
	if side < photo.ThumbSide {
		if t, ok, err := k.st.Thumb(ctx, hash, photo.ThumbSide); err == nil && ok {
			if small, _, err := k.decoder.Thumb(ctx, t.JPEG, side); err == nil {
				return small, nil
			}
		}
	}
	data, err := k.originals.Read(hash, k.decoder.Limits())
	if err != nil {
		return photo.Thumb{}, err
	}
	t, _, err := k.decoder.Thumb(ctx, data, side)
	return t, err
}

// ThumbOf gives the small picture of p as it is shown: upright, with the
// person's turns. Errors: as Thumb.
func (k *Keeper) ThumbOf(ctx context.Context, p Photo, side int) (image.Image, error) {
	raw, err := k.Thumb(ctx, p.Hash, side)
	if err != nil {
		return nil, err
	}
	img, err := jpeg.Decode(bytes.NewReader(raw))
	if err != nil {
		return nil, &photo.Problem{Code: photo.Unreadable, Err: err}
	}
	return photo.RGBA(img, p.Turned), nil
}

// Picture gives a picture as it is shown: upright, with the person's turns, its
// longer side at most side pixels (0: as large as it is). The white patch is not
// applied: see photo.Balance. Errors: *working.Refusal where there is none,
// *photo.Problem, ctx's own.
func (k *Keeper) Picture(ctx context.Context, id string, side int) (*image.RGBA, error) {
	p, err := k.photo(ctx, map[string]any{"id": id, "deleted": nil})
	if err != nil {
		return nil, err
	}
	data, err := k.originals.Read(p.Hash, k.decoder.Limits())
	if err != nil {
		return nil, err
	}
	img, _, err := k.decoder.Decode(ctx, data, side)
	if err != nil {
		return nil, err
	}
	return photo.RGBA(img, p.Turned), nil
}

// Original opens the original of a picture, for reading. The caller closes it.
// Errors: *working.Refusal, *photo.Problem with photo.NotHeld.
func (k *Keeper) Original(ctx context.Context, id string) (*os.File, error) {
	p, err := k.photo(ctx, map[string]any{"id": id})
	if err != nil {
		return nil, err
	}
	return k.originals.Open(p.Hash)
}

// OriginalPath is where the original of a hash lies. It is not to be written to.
// Errors: *photo.Problem for what is no hash.
func (k *Keeper) OriginalPath(hash string) (string, error) { return k.originals.Path(hash) }

// Originals are the files of the pictures, for archive and check.
func (k *Keeper) Originals() *photo.Originals { return k.originals }

// VerifyPhotos compares every original that a row names with its hash, those in
// the bin too. It changes nothing. Errors: *store.OpError, ctx's.
func (k *Keeper) VerifyPhotos(ctx context.Context) (photo.Report, error) {
	rows, err := k.st.Load(ctx, "photo", nil, "hash")
	if err != nil {
		return photo.Report{}, err
	}
	var hashes []string
	for _, r := range rows {
		if h := text(r["hash"]); len(hashes) == 0 || hashes[len(hashes)-1] != h {
			hashes = append(hashes, h)
		}
	}
	return k.originals.Verify(ctx, hashes)
}
