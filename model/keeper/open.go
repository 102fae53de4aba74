package keeper

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"

	"example.org/driploop/model/photo"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// Opened is a slip that was opened for looking at, from its file or from pictures of
// its paper: a profile, a visit slip or a reply, as Format says.
type Opened struct {
	Format  string // slip.FormatProfile, FormatVisit or FormatReply
	Profile slip.Profile
	Visit   slip.Visit
	Reply   ReplyView
	// Found is what reading it found: see OpenProfile, OpenVisit, OpenReply.
	Found []working.Finding
	// File is the file that a paper carries, bit for bit; nil of what was a file.
	File []byte
}

// SlipAt is a slip that was found: in a file, or on a paper whose codes were read.
type SlipAt struct {
	Format string // slip.FormatProfile, FormatVisit or FormatReply
	path   string
	file   []byte // of a paper
}

// FindSlip tells which slip lies at paths: in one file, or in pictures of one paper.
// Which of them it is, their content says. Errors: *slip.Error, CodeSheetParts where
// codes of the paper are missing; as ReadSheet's.
func FindSlip(ctx context.Context, paths ...string) (SlipAt, error) {
	if len(paths) != 1 || isPicture(paths[0]) {
		var s slip.Sheet
		err := readSheets(ctx, photo.NewDecoder(photo.Usual()), &s, paths...)
		if err != nil {
			return SlipAt{}, err
		}
		file, err := s.File()
		if err != nil {
			return SlipAt{}, err
		}
		format, err := slip.FormatOf(bytes.NewReader(file), int64(len(file)))
		return SlipAt{Format: format, file: file}, err
	}
	f, size, err := openSlip(ctx, paths[0])
	if err != nil {
		return SlipAt{}, err
	}
	defer f.Close()
	format, err := slip.FormatOf(f, size)
	return SlipAt{Format: format, path: paths[0]}, err
}

// Bytes gives the slip as it was handed over, bit for bit. Errors: *slip.Error.
func (at SlipAt) Bytes() ([]byte, error) {
	if at.file != nil {
		return at.file, nil
	}
	b, err := os.ReadFile(at.path) // no larger than a slip may be, as FindSlip saw
	if err != nil {
		return nil, &slip.Error{Code: slip.CodeUnreadable, Err: err}
	}
	return b, nil
}

// OpenSlip opens a slip that was found. Errors: *slip.Error.
func (k *Keeper) OpenSlip(ctx context.Context, at SlipAt) (Opened, error) {
	if at.file != nil {
		return k.OpenFile(ctx, at.file)
	}
	f, size, err := openSlip(ctx, at.path)
	if err != nil {
		return Opened{}, err
	}
	defer f.Close()
	return k.opened(ctx, f, size)
}

// OpenSheet opens the slip that a whole sheet carries as that of a file is opened: it is
// the same one, bit for bit. Errors: *slip.Error.
func (k *Keeper) OpenSheet(ctx context.Context, s *slip.Sheet) (Opened, error) {
	file, err := s.File()
	if err != nil {
		return Opened{}, err
	}
	return k.OpenFile(ctx, file)
}

// OpenFile opens the slip that a file holds; File is that file. Errors: *slip.Error.
func (k *Keeper) OpenFile(ctx context.Context, file []byte) (Opened, error) {
	o, err := k.opened(ctx, bytes.NewReader(file), int64(len(file)))
	o.File = file
	return o, err
}

func (k *Keeper) opened(ctx context.Context, r io.ReaderAt, size int64) (o Opened, err error) {
	if o.Format, err = slip.FormatOf(r, size); err != nil {
		return Opened{}, err
	}
	switch o.Format {
	case slip.FormatProfile:
		o.Profile, o.Found, err = k.openProfile(ctx, r, size)
	case slip.FormatVisit:
		o.Visit, o.Found, err = readVisit(r, size)
	default:
		o.Reply, o.Found, err = k.openReply(ctx, r, size)
	}
	return o, err
}

// headOfPicture is how much of a file is looked at to tell a picture, in bytes: far
// more than the marks at the beginning of each format take. // judgement
const headOfPicture = 4096

// isPicture reports whether the file at path begins as a picture does.
func isPicture(path string) bool {
	if plainFile(os.Stat(path)) != nil {
		return false
	}
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head := make([]byte, headOfPicture)
	n, err := io.ReadFull(f, head)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) {
		return false
	}
	info, _ := photo.Inspect(head[:n], photo.Usual()) // cut short it has faults, and its kind
	return info.Format != ""
}

// Papers parts paths into pictures, which show a paper, and other files.
func Papers(paths []string) (pictures, files []string) {
	for _, p := range paths {
		if isPicture(p) {
			pictures = append(pictures, p)
		} else {
			files = append(files, p)
		}
	}
	return pictures, files
}

// openSlip opens a plain file for reading.
func openSlip(ctx context.Context, path string) (*os.File, int64, error) {
	if err := ctx.Err(); err != nil {
		return nil, 0, err
	}
	// A pipe would wait for ever when opened, so it is looked at first.
	if err := plainFile(os.Stat(path)); err != nil {
		return nil, 0, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, 0, &slip.Error{Code: slip.CodeUnreadable, Err: err}
	}
	info, err := f.Stat()
	if err := plainFile(info, err); err != nil {
		_ = f.Close()
		return nil, 0, err
	}
	return f, info.Size(), nil
}
