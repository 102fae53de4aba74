//go:build unix

package shell_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
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
			id, err := s.Example(ctx)
			if err != nil {
				t.Fatal(err)
			}
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
