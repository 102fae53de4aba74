package main

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/store"
)

// folderCase is a data folder in which something cannot be done.
type folderCase struct {
	name  string
	below string                         // of a folder of the test's own
	shut  func(t *testing.T, dir string) // makes it so, once a daybook is in it
	how   string                         // of drill.Run, or "" for another account
	same  bool                           // for this account and everything allowed
	write bool                           // changes are taken
}

func chmod(t *testing.T, path string, mode fs.FileMode) {
	t.Helper()
	if err := os.Chmod(path, mode); err != nil {
		t.Fatal(err)
	}
}

// forAll lets every account write in all of a folder.
func forAll(t *testing.T, dir string) {
	t.Helper()
	for at := filepath.Dir(dir); at != "/" && at != "."; at = filepath.Dir(at) {
		if info, err := os.Stat(at); err == nil && info.Mode().Perm()&0o055 != 0o055 {
			_ = os.Chmod(at, 0o755)
		}
	}
	if err := filepath.WalkDir(dir, func(at string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			return os.Chmod(at, 0o777)
		}
		return os.Chmod(at, 0o666)
	}); err != nil {
		t.Fatal(err)
	}
}

// printOf is a hash of every file of a folder, with what SQLite may add to one that it
// only reads left out.
func printOf(t *testing.T, dir string) string {
	t.Helper()
	var b strings.Builder
	if err := filepath.WalkDir(dir, func(at string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == store.LockName || strings.HasSuffix(at, "-shm") || strings.HasSuffix(at, "-wal") {
			return err
		}
		data, err := os.ReadFile(at)
		fmt.Fprintf(&b, "%s %x\n", at, sha256.Sum256(data))
		return err
	}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestFoldersThatAllowLittle (D2-05): in a folder, a file or a mount that is for
// reading only the daybook is read and an archive of it goes elsewhere, a change is
// refused in words and nothing in it changes; an odd or long path is as any other.
func TestFoldersThatAllowLittle(t *testing.T) {
	cases := []folderCase{
		{name: "folder for reading", below: "data", shut: func(t *testing.T, dir string) { chmod(t, dir, 0o555) }},
		{name: "file for reading", below: "data", shut: func(t *testing.T, dir string) { chmod(t, filepath.Join(dir, store.FileName), 0o444) }},
		{name: "mount for reading", below: "data", how: drill.ReadOnly},
		{name: "spaces", below: "a folder  with spaces ", same: true, write: true},
		{name: "emoji and signs", below: "🐟 ñ ' % # ? & 水", same: true, write: true},
		{name: "a long path", below: strings.Repeat(strings.Repeat("long", 20)+"/", 4) + "data", same: true, write: true},
	}
	ops := 0
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			root := t.TempDir()
			dir, out := filepath.Join(root, filepath.FromSlash(c.below)), filepath.Join(root, "elsewhere")
			if err := os.MkdirAll(out, 0o777); err != nil {
				t.Fatal(err)
			}
			do := func(free bool, args ...string) string {
				t.Helper()
				ops++
				env := childArgs + "=" + strings.Join(append(args, flagData, dir, flagLang, "es"), "\n")
				if c.how != "" && !free {
					return drill.Run(t, dir, c.how, env)
				}
				cmd := exec.Command(os.Args[0])
				user := os.Getuid()
				if user == 0 && !c.same && !free {
					user = 65534 // the account without rights
				}
				cmd.Env = append(os.Environ(), env, childUser+"="+strconv.Itoa(user))
				raw, err := cmd.CombinedOutput()
				if err != nil {
					t.Fatalf("%v: %s", err, raw)
				}
				return strings.TrimSpace(string(raw))
			}
			want := func(said, code string) {
				t.Helper()
				if !strings.HasPrefix(said, "code "+code+" ") || strings.Contains(said, "panic") {
					t.Errorf("got %s, want code %s", said, code)
				}
			}
			want(do(true, "demo"), "0")
			forAll(t, root)
			if c.shut != nil {
				c.shut(t, dir)
			}
			before := printOf(t, dir)
			want(do(false, "check"), "0")
			want(do(false, "archive", filepath.Join(out, "all.dlarchive")), "0")
			said := do(false, "snapshot")
			if c.write {
				want(said, "0")
				return
			}
			want(said, "1")
			if !strings.Contains(said, "solo para leer") && !strings.Contains(said, "No se puede escribir") {
				t.Errorf("a change: %s", said)
			}
			if after := printOf(t, dir); after != before {
				t.Errorf("the folder is now\n%s\nand was\n%s", after, before)
			}
			chmod(t, dir, 0o755)
			chmod(t, filepath.Join(dir, store.FileName), 0o644)
			want(do(true, "snapshot"), "0")
		})
	}
	drill.Tally(t, "D2-05", fmt.Sprintf("verbs in %d folders that allow little, or have odd names", len(cases)), ops, 0)
}
