package shell_test

import (
	"bytes"
	"context"
	"errors"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/nav"
)

// A paper is opened, from the line that says where it is, by the program that the system
// has for it; where there is none that is said. What is no paper has no such button.
func TestPaperIsOpenedByTheSystem(t *testing.T) {
	s := open(t, english())
	id, err := s.k.StartProfile(context.Background(), "Ten gallons?", "us")
	if err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.Counter})
	s.hit(t, "file-"+id, fyne.KeyReturn)
	if slices.Contains(strings.Split(s.texts(), "\n"), "Open") {
		t.Error("a starter profile is offered to be opened by another program")
	}
	s.hit(t, "sheet-"+id, fyne.KeyReturn)
	s.hit(t, "bar-act", fyne.KeyReturn)
	if len(s.viewer.opened) != 1 {
		t.Fatalf("opened %v", s.viewer.opened)
	}
	u, err := url.Parse(s.viewer.opened[0])
	if err != nil || u.Scheme != "file" || u.Host != "" || filepath.Base(u.Path) != "ten-gallons.pdf" {
		t.Fatalf("opened %v, %v", u, err)
	}
	if data, err := os.ReadFile(u.Path); err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
		t.Errorf("what is opened is no paper: %v", err)
	}
	s.viewer.err = errors.New("exec: not found")
	s.hit(t, "sheet-"+id, fyne.KeyReturn)
	s.hit(t, "bar-act", fyne.KeyReturn)
	if all := s.texts(); !strings.Contains(strings.Join(strings.Fields(all), ""), "couldnotbeopened") {
		t.Errorf("without a program for papers it says: %s", all)
	}
}

// What is handed over never takes the place of another file; the same profile again is
// the same file.
func TestHandedOverBesideOtherFiles(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	var ids []string
	for range 2 { // two profiles of one name
		id, err := s.k.StartProfile(ctx, "Starter", "us")
		if err != nil {
			t.Fatal(err)
		}
		ids = append(ids, id)
	}
	if err := s.k.SetProfileNotes(ctx, ids[1], map[string]string{"en": "Feed little."}); err != nil {
		t.Fatal(err)
	}
	own := []string{filepath.Join(s.papers, "starter.dlprofile"), filepath.Join(s.papers, "starter.pdf")}
	for _, path := range own {
		if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s.Go(nav.Route{Place: nav.Counter})
	for _, press := range []string{"file-" + ids[0], "file-" + ids[0], "file-" + ids[1], "sheet-" + ids[0], "sheet-" + ids[1]} {
		s.hit(t, press, fyne.KeyReturn)
	}
	for _, path := range own {
		if data, err := os.ReadFile(path); err != nil || string(data) != "mine" {
			t.Errorf("%s was written over: %v", filepath.Base(path), err)
		}
	}
	for i, name := range []string{"starter-2.dlprofile", "starter-3.dlprofile"} {
		p, _, err := s.k.OpenProfile(ctx, filepath.Join(s.papers, name))
		if err != nil || (p.Notes["en"] != "") != (i == 1) {
			t.Errorf("%s holds the notes %v, %v", name, p.Notes, err)
		}
	}
	for ending, want := range map[string]int{".dlprofile": 3, ".pdf": 3} {
		if all, err := filepath.Glob(filepath.Join(s.papers, "*"+ending)); err != nil || len(all) != want {
			t.Errorf("files *%s: %v, %v, want %d", ending, all, err, want)
		}
	}
}

// A table that a person wrote into stays as they left it; one that says the same again is
// the same file.
func TestTablesAreWrittenBesideOtherFiles(t *testing.T) {
	s := open(t, english())
	id := measuredTank(t, s, "Hall")
	s.Go(nav.Route{Place: nav.Charts, Tank: id})
	s.hit(t, "flip", fyne.KeyReturn)
	for range 2 {
		s.hit(t, "save-table", fyne.KeyReturn)
	}
	first := filepath.Join(s.papers, "driploop-measured.csv")
	if all, err := filepath.Glob(filepath.Join(s.papers, "*.csv")); err != nil || len(all) != 1 {
		t.Fatalf("tables: %v, %v", all, err)
	}
	if err := os.WriteFile(first, []byte("my own column"), 0o600); err != nil {
		t.Fatal(err)
	}
	s.hit(t, "save-table", fyne.KeyReturn)
	if data, err := os.ReadFile(first); err != nil || string(data) != "my own column" {
		t.Errorf("the table was written over: %q, %v", data, err)
	}
	if data, err := os.ReadFile(filepath.Join(s.papers, "driploop-measured-2.csv")); err != nil || len(data) == 0 {
		t.Errorf("no table beside it: %v", err)
	}
}
