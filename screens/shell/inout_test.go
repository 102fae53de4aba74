package shell_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/shell"
)

// An archive is saved by keyboard, is known when it is taken where it came from, and
// taken elsewhere in one step that is taken back.
func TestArchiveIsSavedAndTaken(t *testing.T) {
	from, to := open(t, english()), open(t, english())
	ctx := context.Background()
	from.sample(t)
	from.ShowArchive()
	from.enter(t, "save")
	found, err := filepath.Glob(filepath.Join(from.papers, "*.dlarchive"))
	if err != nil || len(found) != 1 {
		t.Fatalf("%v, %v", found, err)
	}
	from.TakeFile(found[0])
	from.enter(t, "close") // all of it is here
	to.TakeFile(found[0])
	to.enter(t, "take")
	tanks, err := to.k.Tanks(ctx)
	if err != nil || len(tanks) != 1 || to.Route().Place != nav.Start {
		t.Fatalf("%+v, %v", tanks, err)
	}
	to.Undo()
	if tanks, err = to.k.Tanks(ctx); err != nil || len(tanks) != 0 {
		t.Errorf("after undo: %+v, %v", tanks, err)
	}
}

// In the smallest window with the largest text the panel of an archive and that of
// writing one have their buttons in view.
func TestArchivePanelsFit(t *testing.T) {
	from := open(t, english())
	ctx := context.Background()
	for range 2 { // a list that is longer than the panel
		if _, err := from.k.MakeExample(ctx, keeper.Words{Name: "Kitchen corner", Fish: "Zebra danio", Notice: "Cloudy.", Shown: func(care.NoteID) (string, string, string) { return "shown", "en", "hash" }}); err != nil {
			t.Fatal(err)
		}
	}
	from.ShowArchive()
	from.enter(t, "save")
	found, err := filepath.Glob(filepath.Join(from.papers, "*.dlarchive"))
	if err != nil || len(found) != 1 {
		t.Fatalf("%v, %v", found, err)
	}
	for _, p := range []shell.Prefs{english(), spanish()} {
		p.Text = 150
		to := open(t, p)
		to.w.Resize(fyne.NewSize(1024, 700))
		show := func(name, id string) {
			t.Helper()
			to.shoot(t, name+"-"+p.Lang)
			c := to.w.Canvas()
			o, ok := c.Focused().(fyne.CanvasObject)
			if !ok || parts.IDOf(c.Focused()) != id {
				t.Fatalf("%s: the focus is at %q", name, parts.IDOf(c.Focused()))
			}
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
			if at.Y < 0 || at.Y+o.Size().Height > 700 || at.X < 0 || at.X+o.Size().Width > 1024 {
				t.Errorf("%s %s: the button is at %v, %v", p.Lang, name, at, o.Size())
			}
		}
		to.ShowArchive()
		show("archive-save", "save")
		to.w.Canvas().Overlays().Top().Hide()
		to.TakeFile(found[0])
		show("archive-take", "take")
	}
}

// A table is looked at, taken and taken back by keyboard; its report lies beside.
func TestTableIsTaken(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	id := s.sample(t)
	s.Go(nav.Route{Place: nav.Daybook, Tank: id})
	before, err := s.k.Record(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "mine.csv")
	if err := os.WriteFile(path, []byte("date,ph\n2026-03-04,7.4\n2026-03-05,nonsense\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	there := filepath.Join(s.papers, "mine-report.csv")
	if err := os.WriteFile(there, []byte("of another"), 0o600); err != nil {
		t.Fatal(err)
	}
	s.TakeFile(path)
	s.enter(t, "take")
	after, err := s.k.Record(ctx, id)
	if err != nil || len(after.Entries) != len(before.Entries)+1 {
		t.Fatalf("%d entries, then %d, %v", len(before.Entries), len(after.Entries), err)
	}
	if data, err := os.ReadFile(filepath.Join(s.papers, "mine-report-2.csv")); err != nil || !strings.Contains(string(data), "nonsense") {
		t.Errorf("the report: %q, %v", data, err)
	}
	if data, err := os.ReadFile(there); err != nil || string(data) != "of another" {
		t.Errorf("a file of the person was written over: %q, %v", data, err)
	}
	s.Undo()
	if after, err = s.k.Record(ctx, id); err != nil || len(after.Entries) != len(before.Entries) {
		t.Errorf("after undo: %d entries, %v", len(after.Entries), err)
	}
	s.TakeFile(filepath.Join(t.TempDir(), "gone.csv")) // says so, and nothing else happens
	if s.w.Canvas().Overlays().Top() != nil {
		t.Error("a table that is not there opened a panel")
	}
}
