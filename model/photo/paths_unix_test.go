//go:build unix

package photo

import (
	"context"
	"net"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/unix"
)

// Pipes, sockets and devices would wait or never end: they are not opened.
func TestHostilePathsOfUnix(t *testing.T) {
	dir := t.TempDir()
	pipe, socket := filepath.Join(dir, "pipe.jpg"), filepath.Join(dir, "s.jpg")
	if err := unix.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("unix", socket)
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	link := filepath.Join(dir, "link.jpg")
	if err := os.Symlink("/dev/zero", link); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{pipe, socket, "/dev/zero", "/dev/full", link} {
		_, _, err := Source{Path: path}.Read(Usual())
		if p := ProblemOf(err); p == nil || p.Code != NotAFile {
			t.Errorf("%s: %v, want %s", path, err, NotAFile)
		}
	}
}

// A folder gives its files in order, a few floors down, and what is linked from
// it stays outside.
func TestExpandKeepsToTheFolder(t *testing.T) {
	dir := t.TempDir()
	write := func(parts ...string) string {
		path := filepath.Join(append([]string{dir}, parts...)...)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	want := []string{write("b", "1.jpg"), write("b", "c", "d", "e", "4.jpg"), write("z.txt")}
	write("b", "c", "d", "e", "f", "5.jpg")
	write("b", ".hidden.jpg")
	write(".cache", "x.jpg")
	outside := filepath.Join(t.TempDir(), "o.jpg")
	if err := os.WriteFile(outside, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, l := range [][2]string{{outside, "o.jpg"}, {dir, "round"}} {
		if err := os.Symlink(l[0], filepath.Join(dir, l[1])); err != nil {
			t.Fatal(err)
		}
	}
	got, cut, err := Expand(context.Background(), []Source{{Path: dir}, {Path: outside}, {Bytes: []byte("x"), Name: "n"}})
	if err != nil || cut || len(got) != len(want)+2 {
		t.Fatalf("%v %v %v, want %v and two more", got, cut, err, want)
	}
	for i, w := range want {
		if got[i].Path != w || !got[i].Loose {
			t.Errorf("%d is %+v, want %s", i, got[i], w)
		}
	}
	if got[3].Path != outside || got[3].Loose || got[4].Name != "n" {
		t.Errorf("what was named itself came as %+v", got[3:])
	}
}
