package main

import (
	"context"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/shell"
)

// deskOf is the example tank's daybook, with a hand on the keyboard.
func deskOf(t *testing.T, prefs shell.Prefs, size fyne.Size) (*stage, *walker, string) {
	t.Helper()
	s, err := newStage(test.NewTempApp(t), prefs, size)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.strike(); err != nil {
			t.Error(err)
		}
	})
	id, err := s.shell.Example(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	s.shell.Go(nav.Route{Place: nav.Daybook, Tank: id})
	return s, &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock}, id
}

func snap(t *testing.T, s *stage, name string) {
	dir := os.Getenv("SNAP")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name+".png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, s.window.Canvas().Capture()); err != nil {
		t.Fatal(err)
	}
}

func TestSnaps(t *testing.T) {
	for _, c := range []struct {
		lang  string
		theme look.Variant
		text  int
		size  fyne.Size
	}{{"en", look.Light, 100, fyne.NewSize(1280, 800)}, {"es", look.Dark, 150, fyne.NewSize(1024, 700)}} {
		p := tourPrefs(c.lang, c.theme)
		p.Text = c.text
		s, w, id := deskOf(t, p, c.size)
		tag := c.lang + strconv.Itoa(c.text) + "-"
		snap(t, s, tag+"00-daybook")
		do := func(err error) {
			t.Helper()
			if err != nil {
				t.Fatal(err)
			}
		}
		k := s.keeper
		for _, x := range []journal.TestKit{{Name: "drops", Reading: journal.NameAmmonia, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "0.25", Steps: strings.Fields("0 0.25 0.5 1 2 4")},
			{Name: "drops", Reading: journal.NameNitrite, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "0.25", Steps: strings.Fields("0 0.25 0.5 1 2 5")}} {
			_, err := k.AddKit(context.Background(), x)
			do(err)
		}
		_, err := k.AddEntry(context.Background(), id, journal.Entry{Kind: journal.TapTested, Readings: []journal.Reading{{Name: journal.NameNitrate, Measure: quantity.Measure{Number: "10", Unit: "mg/l", Basis: quantity.AsIon}}, {Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0", Unit: "mg/l", Basis: quantity.AsIon}}}})
		do(err)
		do(w.press("feed", fyne.KeyReturn))
		snap(t, s, tag+"01-fed")
		do(w.press("more-fields", fyne.KeyReturn))
		snap(t, s, tag+"02-fed-more")
		do(w.press("cancel", fyne.KeyReturn))
		do(w.press("test", fyne.KeyReturn))
		snap(t, s, tag+"03-test")
		do(w.give(answer{field: journal.NameNitrite, text: "2"}))
		do(w.give(answer{field: journal.NamePH, text: "7.4"}))
		snap(t, s, tag+"04-test-typed")
		do(w.press("more-fields", fyne.KeyReturn))
		snap(t, s, tag+"04-test-more")
		do(w.press("kits", fyne.KeyReturn))
		snap(t, s, tag+"05-kits")
		do(w.press("add-kit", fyne.KeyReturn))
		snap(t, s, tag+"06-kit-form")
		do(w.press("cancel", fyne.KeyReturn))
		do(w.press("close", fyne.KeyReturn))
		do(w.press("plan-change", fyne.KeyReturn))
		snap(t, s, tag+"07-changed")
		do(w.press("work-out", fyne.KeyReturn))
		snap(t, s, tag+"08-change")
		do(w.press("take-over", fyne.KeyReturn))
		snap(t, s, tag+"09-taken")
		do(w.press("keep", fyne.KeyReturn))
		snap(t, s, tag+"10-daybook")
		do(w.press("bin", fyne.KeyReturn))
		snap(t, s, tag+"11-bin")
		_ = parts.IDOf
	}
}
