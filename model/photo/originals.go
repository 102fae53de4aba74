package photo

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"time"

	"example.org/driploop/model/durable"
)

// Folder is the name of the folder of originals within the data folder.
const Folder = "photos"

// OrphanAge is how long an original without a row is kept. // judgement
const OrphanAge = 30 * 24 * time.Hour

// Originals keeps files bit for bit, each under the SHA-256 of its content: that
// of abcd… lies in ab/cd…. Its methods may be called by several goroutines.
type Originals struct{ dir string }

// OriginalsIn gives the originals of a data folder. Nothing is made yet.
func OriginalsIn(dataFolder string) *Originals { return &Originals{filepath.Join(dataFolder, Folder)} }

// Hash gives the name a content is kept under: SHA-256 in lower-case hexadecimal.
func Hash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

var hashForm = regexp.MustCompile(`^[0-9a-f]{64}$`)

// IsHash reports whether s has the form of a Hash.
func IsHash(s string) bool { return hashForm.MatchString(s) }

// Path is where the original of a hash lies. Errors: *Problem with NotHeld for
// what is no hash, so that no name can lead out of the folder.
func (o *Originals) Path(hash string) (string, error) {
	if !IsHash(hash) {
		return "", problem(NotHeld, nil)
	}
	return filepath.Join(o.dir, hash[:2], hash[2:]), nil
}

// Put keeps data and returns its hash. When it returns, the file is on the disk.
// What is there already, whole, stays. Errors: *durable.WriteError.
func (o *Originals) Put(data []byte) (string, error) {
	hash := Hash(data)
	path := filepath.Join(o.dir, hash[:2], hash[2:])
	if held, err := os.ReadFile(path); err == nil && bytes.Equal(held, data) {
		// It may have been found while another was still putting it there.
		return hash, durable.SyncDir(filepath.Dir(path))
	}
	if err := o.folder(filepath.Dir(path)); err != nil {
		return "", err
	}
	return hash, durable.WriteFile(path, data, 0o644)
}

// folder makes the folder of a file and flushes the names above it.
func (o *Originals) folder(dir string) error {
	if _, err := os.Stat(dir); err == nil {
		return nil
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return &durable.WriteError{Op: durable.OpCreate, Path: dir, Err: err}
	}
	if err := durable.SyncDir(o.dir); err != nil {
		return err
	}
	return durable.SyncDir(filepath.Dir(o.dir))
}

// Open opens an original for reading. Errors: *Problem with NotHeld.
func (o *Originals) Open(hash string) (*os.File, error) {
	path, err := o.Path(hash)
	if err != nil {
		return nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, problem(NotHeld, err)
	}
	return f, nil
}

// Read reads an original whole and compares it with its hash. Errors: *Problem
// with NotHeld or Changed.
func (o *Originals) Read(hash string, l Limits) ([]byte, error) {
	f, err := o.Open(hash)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := readAll(f, 0, l)
	if err != nil {
		return nil, problem(Changed, err)
	}
	if Hash(data) != hash {
		return nil, problem(Changed, nil)
	}
	return data, nil
}

// Report is what Verify found.
type Report struct {
	Sound   int      // originals that are what was kept
	Missing []string // hashes that no file stands for
	Changed []string // hashes whose file has another content
}

// OK reports whether nothing is wrong.
func (r Report) OK() bool { return len(r.Missing) == 0 && len(r.Changed) == 0 }

// Verify reads the originals of hashes and compares them. It changes nothing.
// Errors: ctx's.
func (o *Originals) Verify(ctx context.Context, hashes []string) (Report, error) {
	var r Report
	for _, h := range hashes {
		if err := ctx.Err(); err != nil {
			return r, err
		}
		f, err := o.Open(h)
		if err != nil {
			r.Missing = append(r.Missing, h)
			continue
		}
		sum := sha256.New()
		_, err = io.Copy(sum, f)
		_ = f.Close()
		if err != nil || hex.EncodeToString(sum.Sum(nil)) != h {
			r.Changed = append(r.Changed, h)
			continue
		}
		r.Sound++
	}
	return r, nil
}

// Sweep removes originals that used does not name and that were written before
// the time given, and what a crash left half written. It returns how many
// originals went. Other files in the folder are left alone. Call it only while
// holding the data folder's lock. Errors: ctx's, *durable.WriteError.
func (o *Originals) Sweep(ctx context.Context, used map[string]bool, before time.Time) (int, error) {
	dirs, err := os.ReadDir(o.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return 0, nil
	}
	if err != nil {
		return 0, &durable.WriteError{Op: durable.OpRead, Path: o.dir, Err: err}
	}
	n := 0
	for _, d := range dirs {
		if err := ctx.Err(); err != nil {
			return n, err
		}
		if !d.IsDir() {
			continue
		}
		dir := filepath.Join(o.dir, d.Name())
		files, err := os.ReadDir(dir)
		if err != nil {
			return n, &durable.WriteError{Op: durable.OpRead, Path: dir, Err: err}
		}
		for _, f := range files {
			hash := d.Name() + f.Name()
			info, err := f.Info()
			if err != nil || !IsHash(hash) || used[hash] || !info.Mode().IsRegular() || !info.ModTime().Before(before) {
				continue
			}
			path := filepath.Join(dir, f.Name())
			if err := os.Remove(path); err != nil {
				return n, &durable.WriteError{Op: durable.OpRemove, Path: path, Err: err}
			}
			n++
		}
	}
	return n, nil
}
