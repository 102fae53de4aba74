package durable

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
)

var errFault = errors.New("injected fault")

// faults lets the n-th operation of a safe write fail, once or from then on.
type faults struct {
	n, count   int
	persistent bool
	hit        string // the first operation that was made to fail
}

func (ft *faults) step(name string) error {
	ft.count++
	if ft.count == ft.n || (ft.persistent && ft.count > ft.n) {
		if ft.hit == "" {
			ft.hit = name
		}
		return errFault
	}
	return nil
}

// faultyFile asks the plan before every operation on the real file.
type faultyFile struct {
	*os.File
	ft *faults
}

func (f faultyFile) Write(p []byte) (int, error) {
	if err := f.ft.step("write"); err != nil {
		n, _ := f.File.Write(p[:len(p)/2]) // a failed write may have written some
		return n, err
	}
	return f.File.Write(p)
}

func (f faultyFile) Stat() (fs.FileInfo, error) {
	if err := f.ft.step("stat"); err != nil {
		return nil, err
	}
	return f.File.Stat()
}

func (f faultyFile) Chmod(m fs.FileMode) error {
	if err := f.ft.step("chmod"); err != nil {
		return err
	}
	return f.File.Chmod(m)
}

func (f faultyFile) Sync() error {
	if err := f.ft.step("sync"); err != nil {
		return err
	}
	return f.File.Sync()
}

func (f faultyFile) Close() error {
	err := f.File.Close()
	if fault := f.ft.step("close"); fault != nil {
		return fault
	}
	return err
}

// inject sets the seams to ft and returns what puts them back.
func inject(ft *faults) (restore func()) {
	oc, oo, or, od, om := createTemp, openSync, rename, syncDir, remove
	wrap := func(name string, open func(string) (file, error)) func(string) (file, error) {
		return func(p string) (file, error) {
			if err := ft.step(name); err != nil {
				return nil, err
			}
			f, err := open(p)
			if err != nil {
				return nil, err
			}
			return faultyFile{f.(*os.File), ft}, nil
		}
	}
	createTemp, openSync = wrap("create", oc), wrap("open", oo)
	rename = func(a, b string) error {
		if err := ft.step("rename"); err != nil {
			return err
		}
		return or(a, b)
	}
	syncDir = func(d string) error {
		if err := ft.step("syncdir"); err != nil {
			return err
		}
		return od(d)
	}
	remove = func(p string) error {
		if err := ft.step("remove"); err != nil {
			return err
		}
		return om(p)
	}
	return func() { createTemp, openSync, rename, syncDir, remove = oc, oo, or, od, om }
}

// TestFaultSweep (D2-03) fails every operation in turn, once and from then on:
// the file is the old one or the complete new one, and no temporary file is
// left after the next start.
func TestFaultSweep(t *testing.T) {
	oldData, newData := []byte("the old record"), bytes.Repeat([]byte("new "), 5000)
	jobs := map[string]func(dir, path string) error{
		"WriteFile": func(_, path string) error { return WriteFile(path, newData, 0o600) },
		"Publish": func(dir, path string) error {
			temp := filepath.Join(dir, TempPrefix+"made-elsewhere")
			if err := os.WriteFile(temp, newData, 0o600); err != nil {
				t.Fatal(err)
			}
			return Publish(temp, path)
		},
	}
	injected := 0
	want := map[string]int{"WriteFile": 8, "Publish": 5} // operations without a fault
	for name, job := range jobs {
		for _, persistent := range []bool{false, true} {
			swept := 0
			for n := 1; ; n++ {
				dir := t.TempDir()
				path := filepath.Join(dir, "record")
				if err := os.WriteFile(path, oldData, 0o600); err != nil {
					t.Fatal(err)
				}
				ft := &faults{n: n, persistent: persistent}
				restore := inject(ft)
				err := job(dir, path)
				restore()
				got, readErr := os.ReadFile(path)
				if readErr != nil {
					t.Fatalf("%s n=%d (%s): file gone: %v", name, n, ft.hit, readErr)
				}
				if ft.hit == "" {
					if err != nil || !bytes.Equal(got, newData) {
						t.Fatalf("%s without fault: err %v, %d bytes", name, err, len(got))
					}
					break
				}
				swept++
				isOld, isNew := bytes.Equal(got, oldData), bytes.Equal(got, newData)
				if !isOld && !isNew {
					t.Errorf("%s n=%d (%s): neither old nor new: %d bytes", name, n, ft.hit, len(got))
				}
				var we *WriteError
				if !errors.As(err, &we) || we.Path != path || !errors.Is(err, errFault) {
					t.Errorf("%s n=%d (%s): error %v does not name %s", name, n, ft.hit, err, path)
				}
				if isNew != (we != nil && we.Op == OpSyncDir) {
					t.Errorf("%s n=%d (%s): op %v, replaced %v", name, n, ft.hit, err, isNew)
				}
				if left := temps(t, dir); !persistent && left != 0 {
					t.Errorf("%s n=%d (%s): %d temporary files left", name, n, ft.hit, left)
				}
				if _, err := Sweep(dir); err != nil {
					t.Errorf("sweep: %v", err)
				}
				if left := temps(t, dir); left != 0 {
					t.Errorf("%s n=%d (%s): %d temporary files after Sweep", name, n, ft.hit, left)
				}
			}
			if swept != want[name] {
				t.Errorf("%s: swept %d operations, expected %d", name, swept, want[name])
			}
			injected += swept
		}
	}
	drill.Tally(t, "D2-03", "operations of a safe write that fail, once and from then on", injected, 0)
}

func temps(t *testing.T, dir string) int {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), TempPrefix) {
			n++
		}
	}
	return n
}

// lossyFile claims to have written everything and drops the last byte.
type lossyFile struct{ *os.File }

func (f lossyFile) Write(p []byte) (int, error) {
	_, err := f.File.Write(p[:len(p)-1])
	return len(p), err
}

func TestLengthIsCompared(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "record")
	old := createTemp
	createTemp = func(d string) (file, error) {
		f, err := old(d)
		if err != nil {
			return nil, err
		}
		return lossyFile{f.(*os.File)}, nil
	}
	err := WriteFile(path, []byte("four"), 0o600)
	createTemp = old
	if !errors.Is(err, ErrLength) {
		t.Errorf("lossy disk: got %v, want %v", err, ErrLength)
	}
	if err := WriteFrom(path, strings.NewReader("short"), 6, 0o600); !errors.Is(err, ErrLength) {
		t.Errorf("short source: got %v, want %v", err, ErrLength)
	}
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("refused write left a file: %v", err)
	}
	if n := temps(t, dir); n != 0 {
		t.Errorf("%d temporary files left", n)
	}
}

type badReader struct{}

func (badReader) Read([]byte) (int, error) { return 0, errFault }

func TestReadErrorIsNotAWriteFault(t *testing.T) {
	path := filepath.Join(t.TempDir(), "record")
	err := WriteFrom(path, io.MultiReader(strings.NewReader("some"), badReader{}), -1, 0o600)
	var we *WriteError
	if !errors.As(err, &we) || we.Op != OpRead {
		t.Errorf("got %v, want op %q", err, OpRead)
	}
}

func TestWriteFromUnknownSize(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a file é.txt")
	if err := WriteFrom(path, strings.NewReader("any length"), -1, 0o640); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(path)
	if err != nil || string(got) != "any length" {
		t.Errorf("got %q, %v", got, err)
	}
}

func TestSweepKeepsRecords(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"record", TempPrefix + "1", TempPrefix + "2", "x" + TempPrefix} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(dir, TempPrefix+"folder"), 0o700); err != nil {
		t.Fatal(err)
	}
	n, err := Sweep(dir)
	entries, _ := os.ReadDir(dir)
	if err != nil || n != 2 || len(entries) != 3 {
		t.Errorf("removed %d, left %d, err %v; want 2, 3, nil", n, len(entries), err)
	}
	if n, err := Sweep(filepath.Join(dir, "absent")); n != 0 || err != nil {
		t.Errorf("absent folder: %d, %v", n, err)
	}
}
