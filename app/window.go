package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"example.org/driploop/assets"
	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
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

// startMark makes the window say a dot after its first picture and close, which is
// how its start is measured.
const startMark = "DRIPLOOP_QUIT_AT_START"

// hasDisplay reports whether a window can be shown at all.
func hasDisplay(env Env) bool {
	if env.OS != "linux" && env.OS != "freebsd" && env.OS != "openbsd" && env.OS != "netbsd" {
		return true
	}
	return env.Getenv("DISPLAY") != "" || env.Getenv("WAYLAND_DISPLAY") != ""
}

// readied is what the window waits for: the words, the daybook, the preferences.
type readied struct {
	c       *call
	k       *keeper.Keeper
	trouble trouble // why there is no daybook
	rescue  *rescue // the way out of it
	prefs   shell.Prefs
	err     error // of the preferences
	route   nav.Route
}

// ready gathers it, beside the toolkit's own start.
func ready(o options, env Env) <-chan readied {
	out := make(chan readied, 1)
	go func() {
		r := readied{c: &call{options: o, env: env, stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr}}
		r.c.words, r.c.region = speak(o, env)
		if r.k, r.trouble = r.c.tryOpen(context.Background(), true); r.k == nil {
			r.rescue = r.c.rescue(context.Background(), r.trouble)
		} else {
			if r.prefs, r.err = shell.LoadPrefs(context.Background(), r.k); r.err == nil {
				asked(&r.prefs, o)
				r.route = shell.Begin(context.Background(), r.k, r.prefs)
			}
		}
		out <- r
	}()
	return out
}

// runWindow opens the window and returns when it closes.
func runWindow(o options, env Env) int {
	if !hasDisplay(env) {
		c := &call{options: o, env: env, stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr}
		c.words, c.region = speak(o, env)
		c.warn("err.verb.no_display", nil)
		return exitFailed
	}
	collect := debug.SetGCPercent(-1) // nothing of a start is worth collecting before its first picture
	gathered := ready(o, env)
	a := newApp()
	w := a.NewWindow(appName)
	r := <-gathered
	c, k, prefs := r.c, r.k, r.prefs
	switch {
	case k == nil && ringFirst(c, r.trouble):
		return exitDone
	case k == nil:
		return tellTrouble(c, a, w, r.trouble.sentence, r.rescue, func() int { return exitNoData })
	case r.err != nil:
		return tellTrouble(c, a, w, c.presenter().Error(r.err), nil, func() int { return c.closed(k, exitFailed) })
	}
	dress(a, prefs.Look())
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
	s = shell.New(shell.Options{App: h, Keeper: k, Prefs: prefs, Now: env.Now, Steady: env.Steady, Window: w, Open: r.route, Files: c.filesClaim})
	below := newBelowMenu(s.Root())
	size := fyne.NewSize(windowWidth, windowHeight)
	below.into(w, size)
	s.PaintAhead() // on the second core, while this one makes the window
	w.Resize(size)
	w.CenterOnScreen()
	w.Canvas().SetOnTypedKey(s.Key)
	w.SetOnDropped(func(_ fyne.Position, uris []fyne.URI) {
		paths := make([]string, len(uris))
		for i, u := range uris {
			paths[i] = u.Path()
		}
		s.Dropped(paths)
	})
	a.Lifecycle().SetOnStarted(func() {
		if env.Getenv(startMark) != "" {
			fmt.Fprint(c.stdout, ".")
			h.Quit()
			return
		}
		debug.SetGCPercent(collect)
		w.SetMainMenu(s.Menu())
		below.menuStands()
		s.Settled()
		if why := k.ReadOnly(); why != nil && why.Code == store.CodeNewer { // of others the banner tells
			speaker := present.Presenter{W: i18n.Speak(prefs.Lang, prefs.Region, prefs.Units)}
			beside := a.NewWindow(appName)
			sayTrouble(beside, speaker.W, speaker.Error(why), nil, beside.Close)
			beside.Show()
		}
		s.Daily()
		for _, path := range filesOf(o) {
			s.TakeFile(path)
		}
	})
	beat(s, k, w, stop)
	move(a, env, s, stop)
	answerMap(env, s.Route, s.Dropped)
	w.SetMaster()
	w.ShowAndRun() // returns when the system ends the program
	return put()
}

// newApp makes the toolkit's application. It is to be dressed before any part is
// made.
func newApp() fyne.App {
	a := app.NewWithID(appID)
	a.SetIcon(fyne.NewStaticResource("icon-window.png", assets.WindowIcon))
	return a
}

// dress gives the application our theme: before any part, for the toolkit keeps
// the fonts that it first measured with.
func dress(a fyne.App, o look.Options) {
	if th, err := look.New(o); err == nil {
		a.Settings().SetTheme(th)
	}
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

// beat tells the shell that time passes, and that another start has rung, until the
// channel is closed.
func beat(s *shell.Shell, k *keeper.Keeper, w fyne.Window, stop <-chan struct{}) {
	go func() {
		t := time.NewTicker(tickEvery)
		defer t.Stop()
		for n := 1; ; n++ {
			select {
			case <-stop:
				return
			case now := <-t.C:
				fyne.Do(func() { s.Tick(now) })
				answerRing(s, k, w)
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
