package photo

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Source is where a picture comes from: a file or folder by Path, or Bytes.
type Source struct {
	Path  string
	Name  string // as shown; empty is the last part of Path
	Bytes []byte // where there is no Path
	// Loose says that the person named the folder, not this file: what is no
	// picture is passed over without a word.
	Loose bool
}

// Base is the name to show.
func (s Source) Base() string {
	if s.Name != "" {
		return s.Name
	}
	return filepath.Base(s.Path)
}

// Limits of a folder. // judgement
const (
	FolderDepth = 4    // folders within folders that are gone into
	FolderFiles = 5000 // files that are looked at
)

// Expand replaces folders by the files in them, in order of their names, down to
// FolderDepth. Links within a folder and names that begin with a dot are passed
// over. cut is true when there were more than FolderFiles. A folder that cannot
// be read stays, to be told of. Errors: ctx's.
func Expand(ctx context.Context, sources []Source) (out []Source, cut bool, err error) {
	var walk func(dir string, depth int) error
	walk = func(dir string, depth int) error {
		if err := ctx.Err(); err != nil {
			return err
		}
		entries, err := os.ReadDir(dir)
		if err != nil {
			out = append(out, Source{Path: dir})
			return nil
		}
		for _, e := range entries {
			path := filepath.Join(dir, e.Name())
			switch {
			case strings.HasPrefix(e.Name(), "."):
			case e.IsDir() && depth < FolderDepth:
				if err := walk(path, depth+1); err != nil {
					return err
				}
			case e.Type().IsRegular() && len(out) >= FolderFiles:
				cut = true
				return nil
			case e.Type().IsRegular():
				out = append(out, Source{Path: path, Loose: true})
			}
		}
		return nil
	}
	for _, s := range sources {
		if info, err := os.Stat(s.Path); s.Path == "" || err != nil || !info.IsDir() {
			out = append(out, s)
			continue
		}
		if err := walk(s.Path, 0); err != nil {
			return nil, false, err
		}
	}
	return slices.Clip(out), cut, nil
}

// Read reads the whole of a source under the limit of bytes. changed is when the
// file was last written, zero for Bytes. Errors: *Problem with NotAFile, Gone,
// Empty or TooBig.
func (s Source) Read(l Limits) (data []byte, changed time.Time, err error) {
	if s.Path == "" {
		switch {
		case len(s.Bytes) == 0:
			return nil, changed, problem(Empty, nil)
		case int64(len(s.Bytes)) > l.Bytes:
			return nil, changed, tooBig(l)
		}
		return s.Bytes, changed, nil
	}
	// A pipe would wait for its writer when opened: it is looked at first, and
	// once more when it is open.
	info, err := os.Stat(s.Path)
	if err != nil {
		return nil, changed, problem(Gone, err)
	}
	if !info.Mode().IsRegular() {
		return nil, changed, problem(NotAFile, nil)
	}
	f, err := os.Open(s.Path)
	if err != nil {
		return nil, changed, problem(Gone, err)
	}
	defer f.Close()
	if info, err = f.Stat(); err != nil || !info.Mode().IsRegular() {
		return nil, changed, problem(NotAFile, err)
	}
	if data, err = readAll(f, info.Size(), l); err != nil {
		return nil, changed, err
	}
	return data, info.ModTime(), nil
}

// readAll reads an open file; size is what it is said to be, and is not trusted.
func readAll(f io.Reader, size int64, l Limits) ([]byte, error) {
	if size > l.Bytes {
		return nil, tooBig(l)
	}
	data := make([]byte, 0, max(size, 0)+512)
	r := io.LimitReader(f, l.Bytes+1)
	for {
		n, err := r.Read(data[len(data):cap(data)])
		data = data[:len(data)+n]
		switch {
		case int64(len(data)) > l.Bytes:
			return nil, tooBig(l)
		case errors.Is(err, io.EOF) && len(data) == 0:
			return nil, problem(Empty, nil)
		case errors.Is(err, io.EOF):
			return data, nil
		case err != nil:
			return nil, problem(Gone, err)
		case len(data) == cap(data):
			data = slices.Grow(data, 1<<20)
		}
	}
}
