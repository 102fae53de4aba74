//go:build unix

package shell_test

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/screens/nav"
)

// A daybook that is deleted under the window is missed without a change, told above
// the page, and put back by keyboard with all that it held.
func TestDaybookIsPutBack(t *testing.T) {
	for _, lang := range []string{"en", "es"} {
		t.Run(lang, func(t *testing.T) {
			p := english()
			p.Lang = lang
			s := open(t, p)
			ctx := context.Background()
			id := s.sample(t)
			before, err := s.k.Record(ctx, id)
			if err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(s.k.Dir(), store.FileName)
			now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
			s.Tick(now)
			if s.w.Canvas().Overlays().Top() != nil {
				t.Fatal("a panel is up, and nothing is wrong")
			}
			if err := os.Remove(file); err != nil {
				t.Fatal(err)
			}
			s.Tick(now.Add(time.Minute))
			words := i18n.Speak(lang, "US", quantity.US)
			if !s.shows(words.T("page.gone.banner", nil)) {
				t.Error("nothing is told above the page")
			}
			if s.w.Canvas().Overlays().Top() == nil {
				t.Fatal("nothing is offered")
			}
			s.shoot(t, "gone-"+lang)
			s.enter(t, "put-back")
			if s.shows(words.T("page.gone.banner", nil)) {
				t.Error("it is still told to be away")
			}
			if err := s.k.RenameTank(ctx, id, "Renamed"); err != nil {
				t.Fatal(err)
			}
			after, err := s.k.Record(ctx, id)
			if err != nil || len(after.Entries) != len(before.Entries) || len(before.Entries) == 0 {
				t.Errorf("%d entries, then %d, %v", len(before.Entries), len(after.Entries), err)
			}
			if _, err := os.Stat(file); err != nil {
				t.Error(err)
			}
		})
	}
}

// One that is moved away and back needs nobody's help.
func TestDaybookComesBackByItself(t *testing.T) {
	s := open(t, english())
	file := filepath.Join(s.k.Dir(), store.FileName)
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	if err := os.Rename(file, file+".moved"); err != nil {
		t.Fatal(err)
	}
	s.Tick(now.Add(time.Minute))
	said := i18n.Speak("en", "US", quantity.US).T("page.gone.banner", nil)
	if !s.shows(said) || s.w.Canvas().Overlays().Top() == nil {
		t.Error("nothing is told")
	}
	if err := os.Rename(file+".moved", file); err != nil {
		t.Fatal(err)
	}
	s.Tick(now.Add(2 * time.Minute))
	if s.shows(said) {
		t.Error("it is still told to be away")
	}
}

// Another program writes a whole daybook over this one while an entry is being typed
// (D2-07): the change is refused and said, what was typed stays, and is written once
// one has gone back to a copy, or on with the file that stands there.
func TestDaybookIsWrittenOver(t *testing.T) {
	for _, way := range []string{"a copy", "the file there"} {
		t.Run(way, func(t *testing.T) {
			ctx := context.Background()
			s := open(t, english())
			id := s.sample(t)
			copied, err := s.k.Snapshot(ctx)
			if err != nil {
				t.Fatal(err)
			}
			before, err := s.k.Record(ctx, id)
			if err != nil {
				t.Fatal(err)
			}
			if err := s.k.RenameTank(ctx, id, "Later"); err != nil {
				t.Fatal(err)
			}
			s.Go(nav.Route{Place: nav.Daybook, Tank: id, Write: journal.Note})
			s.fillIn(t, "note", "typed in vain")
			if out, err := exec.Command("cp", copied, filepath.Join(s.k.Dir(), store.FileName)).CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			s.hit(t, "keep", fyne.KeyReturn)
			words := i18n.Speak("en", "US", quantity.US)
			if !s.shows(words.T("page.gone.over_heading", nil)) || !s.shows(words.T("page.gone.over_banner", nil)) {
				t.Error("nothing is told")
			}
			s.shoot(t, "written-over")
			if way == "a copy" {
				s.hit(t, "copies", fyne.KeyReturn)
				s.hit(t, "back-"+filepath.Base(copied), fyne.KeyReturn)
				s.shoot(t, "written-over-back")
				s.hit(t, "back", fyne.KeyReturn)
			} else {
				s.hit(t, "take-there", fyne.KeyReturn)
			}
			s.shoot(t, "written-over-after")
			if s.shows(words.T("page.gone.over_banner", nil)) {
				t.Error("it is still told to be written over")
			}
			if note, ok := s.at(t, "note").(interface{ Text() string }); ok && note.Text() != "typed in vain" {
				t.Errorf("the form holds %q", note.Text())
			}
			s.hit(t, "keep", fyne.KeyReturn)
			after, err := s.k.Record(ctx, id)
			if err != nil || len(after.Entries) != len(before.Entries)+1 || after.Name != before.Name {
				t.Fatalf("%d entries of %q after %d of %q, %v", len(after.Entries), after.Name, len(before.Entries), before.Name, err)
			}
			if got := after.Entries[len(after.Entries)-1].Note; got != "typed in vain" {
				t.Errorf("it was written as %q", got)
			}
			if v, err := s.k.Verify(ctx); err != nil || !v.OK() {
				t.Errorf("%+v, %v", v, err)
			}
		})
	}
}
