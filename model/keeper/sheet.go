package keeper

import (
	"bytes"
	"context"
	"os"

	"example.org/driploop/model/code"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// readPicture reads the file of a picture, no larger than pictures may be. Errors:
// *slip.Error.
func readPicture(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err := plainFile(info, err); err != nil {
		return nil, err
	}
	if limit := photo.Usual().Bytes; info.Size() > limit {
		return nil, &slip.Error{Code: slip.CodeSheetOther}
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, &slip.Error{Code: slip.CodeUnreadable, Err: err}
	}
	return data, nil
}

// ReadSheet adds to a sheet the codes of a printed profile that it finds in the
// picture at path, by the same guarded reader as every picture. Codes of anything
// else are passed over. Errors: *slip.Error: no code of a profile is there, or one
// that cannot be; *photo.Problem; ctx's own. The codes gathered before stay.
func (k *Keeper) ReadSheet(ctx context.Context, s *slip.Sheet, path string) error {
	data, err := readPicture(path)
	if err != nil {
		return err
	}
	img, _, err := k.decoder.Decode(ctx, data, photo.MostSide)
	if err != nil {
		return err
	}
	var refused error
	added := map[string]bool{}
	take := func(texts []string) bool {
		for _, t := range texts {
			if added[t] || !slip.IsCode(t) {
				continue
			}
			added[t] = true
			if err := s.Add(t); err != nil && refused == nil {
				refused = err
			}
		}
		return s.Whole() || refused != nil
	}
	texts, err := code.Read(ctx, img, take)
	if err != nil {
		return err
	}
	take(texts)
	if refused == nil && len(added) == 0 {
		return &slip.Error{Code: slip.CodeSheetOther}
	}
	return refused
}

// quickSide is the size, in pixels of the longer side, at which a picture is looked
// at of which nobody said that it shows a sheet. // judgement
const quickSide = 1600

// ShowsSheet looks quickly whether the picture at path shows a printed profile, for
// a picture of which nobody said so. It can miss one.
func (k *Keeper) ShowsSheet(ctx context.Context, path string) bool {
	data, err := readPicture(path)
	if err != nil {
		return false
	}
	img, _, err := k.decoder.Decode(ctx, data, quickSide)
	return err == nil && code.Found(img, slip.IsCode)
}

// OpenSheet reads the profile that a whole sheet carries, as OpenProfile reads that
// of a file: it is the same one, bit for bit. Errors: *slip.Error.
func (k *Keeper) OpenSheet(ctx context.Context, s *slip.Sheet) (slip.Profile, []working.Finding, error) {
	file, err := s.File()
	if err != nil {
		return slip.Profile{}, nil, err
	}
	return k.openProfile(ctx, bytes.NewReader(file), int64(len(file)))
}
