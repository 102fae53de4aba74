package shell_test

import (
	"context"
	"net/url"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	_ "example.org/driploop/i18n/earlyenv" // before the toolkit reads the locale
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/shell"
)

// stage is the program in a window of the headless driver.
type stage struct {
	*shell.Shell
	k      *keeper.Keeper
	w      fyne.Window
	papers string // the folder that papers go to
	end    func() // closes window and daybook; the end of the test does too
	viewer *viewer
}

// viewer is an app that keeps what it was asked to open, in place of the system.
type viewer struct {
	fyne.App
	opened []string
	err    error
}

func (v *viewer) OpenURL(u *url.URL) error {
	v.opened = append(v.opened, u.String())
	return v.err
}

func open(t *testing.T, p shell.Prefs) stage {
	t.Helper()
	return openIn(t, t.TempDir(), shell.Options{Prefs: p})
}

// openIn opens the daybook of a folder. What the options leave out of the clock and the
// rest is as in most tests: noon of one day, and a folder of papers of its own.
func openIn(t *testing.T, dir string, o shell.Options) stage {
	t.Helper()
	if o.Now == nil {
		o.Now = func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) }
	}
	k, err := keeper.Open(context.Background(), dir, keeper.Options{Now: o.Now, Steady: o.Steady})
	if err != nil {
		t.Fatal(err)
	}
	v := &viewer{App: test.NewTempApp(t)}
	o.App = v
	w := o.App.NewWindow("")
	w.SetPadded(false)
	o.Keeper, o.Canvas, o.Inline, o.PaperDir = k, w.Canvas, true, t.TempDir()
	s := stage{shell.New(o), k, w, o.PaperDir, sync.OnceFunc(func() {
		w.Close()
		if err := k.Close(); err != nil {
			t.Error(err)
		}
	}), v}
	w.SetContent(s.Root())
	w.Resize(fyne.NewSize(1280, 800))
	t.Cleanup(s.end)
	return s
}

func english() shell.Prefs {
	return shell.Prefs{Lang: "en", Region: "US", Units: quantity.US, Text: 100, Still: true, Theme: look.Light}
}

// sample makes the example tank.
func (s stage) sample(t testing.TB) string {
	t.Helper()
	id, err := s.Example(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return id
}

// tankOf is a tank of First fill without anything in it.
func (s stage) tankOf(t *testing.T) string {
	t.Helper()
	id, err := s.k.StartTank(context.Background(), "Hall", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	return id
}
