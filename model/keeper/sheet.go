package keeper

import (
	"context"
	"errors"
	"os"

	"example.org/driploop/model/code"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/slip"
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

// ReadSheet adds to a sheet the codes of a printed profile, visit slip or reply that it
// finds in the pictures at paths, by the same guarded reader as every picture, until it
// is whole; at what is left it glances, for codes of another sheet. Codes of anything
// else are passed over. Errors: *slip.Error: no such code is there, or one that cannot
// be; *photo.Problem; ctx's own. Of several pictures it is the first error, and none once
// the sheet is whole, except where codes of another sheet were among them. The codes
// gathered before stay.
func (k *Keeper) ReadSheet(ctx context.Context, s *slip.Sheet, paths ...string) error {
	return readSheets(ctx, k.decoder, s, paths...)
}

func readSheets(ctx context.Context, d *photo.Decoder, s *slip.Sheet, paths ...string) error {
	var first error
	for _, path := range paths {
		read := readSheet
		if s.Whole() {
			read = glance
		}
		err := read(ctx, d, s, path)
		var wrong *slip.Error
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case errors.As(err, &wrong) && wrong.Code == slip.CodeSheetMixed:
			return err
		case first == nil:
			first = err
		}
	}
	if s.Whole() {
		return nil
	}
	return first
}

// glance looks once at a picture beside a sheet that is whole. Errors: *slip.Error where
// it shows a code of another one.
func glance(ctx context.Context, d *photo.Decoder, s *slip.Sheet, path string) (refused error) {
	data, err := readPicture(path)
	if err != nil {
		return err
	}
	img, _, err := d.Decode(ctx, data, quickSide)
	if err != nil {
		return err
	}
	code.Found(img, func(text string) bool {
		if slip.IsCode(text) && refused == nil {
			refused = s.Add(text)
		}
		return refused != nil
	})
	return refused
}

func readSheet(ctx context.Context, d *photo.Decoder, s *slip.Sheet, path string) error {
	data, err := readPicture(path)
	if err != nil {
		return err
	}
	img, _, err := d.Decode(ctx, data, photo.MostSide)
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

// ShowsSheet looks quickly whether the picture at path shows a printed sheet, for a
// picture of which nobody said so. It can miss one.
func (k *Keeper) ShowsSheet(ctx context.Context, path string) bool {
	data, err := readPicture(path)
	if err != nil {
		return false
	}
	img, _, err := k.decoder.Decode(ctx, data, quickSide)
	return err == nil && code.Found(img, slip.IsCode)
}
