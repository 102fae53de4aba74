//go:build !windows && !darwin

package claim

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"

	"example.org/driploop/model/durable"
)

// Can reports whether this system has records that a program can write by itself.
func Can() bool { return true }

// record is a file of ours.
type record struct {
	path string
	data []byte
}

// records are the types, the entry and the icon.
func (c Claim) records() ([]record, error) {
	types, err := c.types()
	if err != nil {
		return nil, err
	}
	in := func(parts ...string) string { return filepath.Join(append([]string{c.Data}, parts...)...) }
	side := fmt.Sprintf("%dx%d", IconSide, IconSide)
	return []record{
		{in("mime", "packages", c.entryID()+".xml"), types},
		{in("icons", "hicolor", side, "apps", c.entryID()+".png"), c.Icon},
		{in("applications", c.entryID()+".desktop"), c.entry()},
	}, nil
}

// State tells how the claim stands. Errors: the system's own, of a file that cannot
// be read.
func (c Claim) State() (State, error) {
	rs, err := c.records()
	if err != nil {
		return State{}, err
	}
	s := State{Made: true}
	for _, r := range rs {
		s.Places = append(s.Places, r.path)
		there, err := os.ReadFile(r.path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			s.Made = false
			continue
		case err != nil:
			return State{Places: s.Places}, err
		}
		s.Some = true
		s.Made = s.Made && bytes.Equal(there, r.data)
	}
	return s, nil
}

// Make writes the records and has the system take notice. Errors: the system's own,
// after which the records are as they were; *ToolError, after which they are written.
func (c Claim) Make() error {
	return c.each(func(r record) error {
		if err := os.MkdirAll(filepath.Dir(r.path), 0o700); err != nil {
			return err
		}
		return durable.WriteFile(r.path, r.data, 0o644)
	})
}

// TakeBack removes the records. Errors: as Make's.
func (c Claim) TakeBack() error {
	return c.each(func(r record) error { return remove(r.path) })
}

// each does something to every record and has the system take notice; where that
// fails with one, those before it become what they were.
func (c Claim) each(do func(record) error) error {
	rs, err := c.records()
	if err != nil {
		return err
	}
	before, err := contents(rs)
	if err != nil {
		return err
	}
	for i, r := range rs {
		if err := do(r); err != nil {
			return errors.Join(err, put(before[:i]))
		}
	}
	return c.notice()
}

// remove removes a file, if it is there.
func remove(path string) error {
	if err := os.Remove(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// contents is what stands where the records go; no data for nothing.
func contents(rs []record) ([]record, error) {
	out := make([]record, len(rs))
	for i, r := range rs {
		b, err := os.ReadFile(r.path)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return nil, err
		}
		out[i] = record{r.path, b}
	}
	return out, nil
}

// put makes files what they were.
func put(rs []record) error {
	var first error
	for _, r := range rs {
		var err error
		if r.data == nil {
			err = remove(r.path)
		} else {
			err = durable.WriteFile(r.path, r.data, 0o644)
		}
		if first == nil {
			first = err
		}
	}
	return first
}

// notice has the system read its records anew, by its own tools.
func (c Claim) notice() error {
	var first error
	for _, tool := range [][]string{{"update-mime-database", filepath.Join(c.Data, "mime")}, {"update-desktop-database", filepath.Join(c.Data, "applications")}} {
		if _, err := os.Stat(tool[1]); err != nil {
			continue // nothing of it was ever there
		}
		if said, err := exec.Command(tool[0], tool[1]).CombinedOutput(); err != nil && first == nil {
			if len(said) > 0 {
				err = fmt.Errorf("%w: %s", err, said)
			}
			first = &ToolError{tool[0], err}
		}
	}
	return first
}
