package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/shell"
)

// The size the pages are designed for.
const (
	windowWidth  = 1280
	windowHeight = 800
)

// tickEvery is how often pages that wait are drawn anew, noteEvery how often the
// running timers are noted. Judgement: a crash then loses fifteen seconds.
const (
	tickEvery = time.Second
	noteEvery = 15
)

// startMark makes the window close after its first picture, which is how its
// start is measured.
const startMark = "DRIPLOOP_QUIT_AT_START"

// hasDisplay reports whether a window can be shown at all.
func hasDisplay(env Env) bool {
	if env.OS != "linux" && env.OS != "freebsd" && env.OS != "openbsd" && env.OS != "netbsd" {
		return true
	}
	return env.Getenv("DISPLAY") != "" || env.Getenv("WAYLAND_DISPLAY") != ""
}

// runWindow opens the window and returns when it closes.
func runWindow(o options, env Env) int {
	c := &call{options: o, env: env, stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr}
	c.words, c.region = speak(o, env)
	if !hasDisplay(env) {
		c.warn("err.verb.no_display", nil)
		return exitFailed
	}
	k, trouble := c.tryOpen(context.Background(), true)
	if k == nil {
		return tellTrouble(c, trouble, func() int { return exitNoData })
	}
	prefs, err := shell.LoadPrefs(context.Background(), k)
	if err != nil {
		return tellTrouble(c, c.presenter().Error(err), func() int { return c.closed(k, exitFailed) })
	}
	asked(&prefs, o)
	a := newApp(look.Options{Variant: prefs.Theme, TextScale: prefs.Text})
	w := a.NewWindow(appName)
	w.SetPadded(false)
	stop := make(chan struct{})
	var s *shell.Shell
	put := func() int { // everything away
		w.Canvas().Unfocus() // what is half typed is taken
		close(stop)
		s.Finish()
		return c.closed(k, exitDone)
	}
	h := host{a, func() { os.Exit(put()) }}
	h.leaveBy(w)
	s = shell.New(shell.Options{App: h, Keeper: k, Prefs: prefs, Now: env.Now, Window: w})
	w.SetMainMenu(s.Menu())
	w.SetContent(s.Root())
	w.Resize(fyne.NewSize(windowWidth, windowHeight))
	w.CenterOnScreen()
	w.Canvas().SetOnTypedKey(s.Key)
	w.SetOnDropped(func(_ fyne.Position, uris []fyne.URI) {
		for _, u := range uris {
			s.TakeFile(u.Path())
		}
	})
	a.Lifecycle().SetOnStarted(func() {
		s.Settled()
		if why := k.ReadOnly(); why != nil {
			speaker := present.Presenter{W: i18n.Speak(prefs.Lang, prefs.Region, prefs.Units)}
			troubleWindow(a, speaker.W, speaker.Error(why), nil).Show()
		}
		for _, f := range o.rest {
			if path, err := filepath.Abs(f); err == nil {
				s.TakeFile(path)
			}
		}
		if env.Getenv(startMark) != "" {
			h.Quit()
		}
	})
	beat(s, k, stop)
	answerMap(env, s.Route)
	w.SetMaster()
	w.ShowAndRun() // returns when the system ends the program
	return put()
}

// newApp makes the toolkit's application with our theme: before any part, for
// the toolkit keeps the fonts that it first measured with.
func newApp(o look.Options) fyne.App {
	a := app.NewWithID(appID)
	a.SetIcon(metadata().Icon)
	if th, err := look.New(o); err == nil {
		a.Settings().SetTheme(th)
	}
	return a
}

// asked lets the command line overrule the preferences of this run.
func asked(p *shell.Prefs, o options) {
	if o.lang != "" {
		p.Lang = o.lang
	}
	if o.units != "" {
		p.Units = quantity.System(o.units)
	}
}

// beat tells the shell that time passes, until the channel is closed.
func beat(s *shell.Shell, k *keeper.Keeper, stop <-chan struct{}) {
	go func() {
		t := time.NewTicker(tickEvery)
		defer t.Stop()
		for n := 1; ; n++ {
			select {
			case <-stop:
				return
			case now := <-t.C:
				fyne.Do(func() { s.Tick(now) })
				if n%noteEvery == 0 {
					k.TickTimers(context.Background())
				}
			}
		}
	}()
}

// sizeOf reads a size such as 1280x800.
func sizeOf(text string) (fyne.Size, error) {
	w, h, ok := strings.Cut(text, "x")
	if !ok {
		return fyne.Size{}, errNoSize
	}
	var out [2]float32
	for i, s := range []string{w, h} {
		n := 0
		for _, r := range s {
			if r < '0' || r > '9' || n > 1000 {
				return fyne.Size{}, errNoSize
			}
			n = n*10 + int(r-'0')
		}
		if n < leastSide || n > mostSide {
			return fyne.Size{}, errNoSize
		}
		out[i] = float32(n)
	}
	return fyne.NewSize(out[0], out[1]), nil
}

// The sides of a picture, in points.
const (
	leastSide = 600
	mostSide  = 4000
)

var errNoSize = errors.New("no size")

// languagesAsked is the language asked for, or all that are offered.
func languagesAsked(o options) []string {
	if o.lang != "" {
		return []string{o.lang}
	}
	return i18n.Languages()
}
