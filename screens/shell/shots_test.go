package shell

import (
	"context"
	"fmt"
	"image/png"
	"os"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
)

func TestShots(t *testing.T) {
	now := func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600)) }
	k, err := keeper.Open(context.Background(), t.TempDir(), keeper.Options{Now: now})
	if err != nil {
		t.Fatal(err)
	}
	defer k.Close()
	a := test.NewApp()
	w := a.NewWindow("x")
	lang := os.Getenv("L")
	if lang == "" {
		lang = "en"
	}
	pr := Prefs{Lang: lang, Region: "US", Units: "us", Text: 100, Theme: look.Light, Still: true}
	if os.Getenv("D") != "" {
		pr.Theme = look.Dark
	}
	if lang == "es" {
		pr.Region, pr.Units = "ES", "metric"
	}
	s := New(Options{App: a, Keeper: k, Prefs: pr, Now: now, Canvas: func() fyne.Canvas { return w.Canvas() }, Inline: true})
	w.SetContent(s.Root())
	wd, ht := float32(1280), float32(800)
	if os.Getenv("S") != "" {
		wd, ht = 1024, 700
	}
	w.Resize(fyne.NewSize(wd, ht))
	n := 0
	shot := func(name string) {
		n++
		f, _ := os.Create(fmt.Sprintf("/tmp/shots/%s-%02d-%s.png", lang, n, name))
		png.Encode(f, w.Canvas().Capture())
		f.Close()
	}
	os.MkdirAll("/tmp/shots", 0o755)
	s.Go(nav.Route{Place: nav.Start})
	shot("start")
	id, err := s.example(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, st := range care.Steps() {
		s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: st})
		shot(string(st))
	}
	s.Go(nav.Route{Place: nav.Today, Tank: id})
	shot("today")
	s.Go(nav.Route{Place: nav.Daybook, Tank: id})
	shot("daybook")
	s.ShowSettings()
	shot("settings")
}
