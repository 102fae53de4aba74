package shell_test

import (
	"context"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/shell"
)

// BenchmarkKeystroke is a key typed in a size of the tank: the page computed
// anew, the stand's frame solved, the elevation drawn, the parts set again. The
// painting of the window comes on top; it is measured beside it.
func BenchmarkKeystroke(b *testing.B) {
	for _, c := range []struct {
		name  string
		step  care.Step
		field string
	}{{"tank", care.TankPlace, "tank.length"}, {"frame", care.StandFloor, "stand.height"}, {"fill", care.FillTreat, "dose.amount"}, {"bag", care.HomeComing, "bag.volume"}} {
		b.Run(c.name, func(b *testing.B) {
			now := func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) }
			k, err := keeper.Open(context.Background(), b.TempDir(), keeper.Options{Now: now})
			if err != nil {
				b.Fatal(err)
			}
			defer k.Close()
			a := test.NewApp()
			w := a.NewWindow("")
			s := shell.New(shell.Options{App: a, Keeper: k, Prefs: shell.Prefs{Lang: "en", Units: quantity.Metric, Text: 100, Still: true}, Now: now, Canvas: w.Canvas, Inline: true})
			w.SetContent(s.Root())
			w.Resize(fyne.NewSize(1280, 800))
			id, err := s.Example(context.Background())
			if err != nil {
				b.Fatal(err)
			}
			s.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: c.step})
			for parts.IDOf(w.Canvas().Focused()) != c.field {
				w.Canvas().FocusNext()
			}
			for i := 0; b.Loop(); i++ {
				w.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
				w.Canvas().Focused().TypedRune('1' + rune(i%9))
			}
		})
	}
}
