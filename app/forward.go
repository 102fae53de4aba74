package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/durable"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/store"
	"example.org/driploop/screens/shell"
)

// ringFor is how long a second start waits to be heard by the first, which looks once
// in a tickEvery. // judgement
const ringFor = 5 * time.Second

// ringLook is how often it looks whether it was. // judgement
const ringLook = 50 * time.Millisecond

// betweenFiles separates the files that a second start passes on: the one byte that
// no path has.
const betweenFiles = "\x00"

// filesOf are the files of a command line, by whole paths.
func filesOf(o options) []string {
	var out []string
	for _, f := range o.rest {
		if path, err := filepath.Abs(f); err == nil {
			out = append(out, path)
		}
	}
	return out
}

// ringFirst asks the window that has the daybook open to come forward and to take the
// files of this start. It reports whether it did: then there is nothing more to do.
func ringFirst(c *call, t trouble) bool {
	var oe *store.OpenError
	if !errors.As(t.err, &oe) || oe.Code != store.CodeLocked {
		return false
	}
	ctx, stop := context.WithTimeout(context.Background(), ringFor)
	defer stop()
	look := time.NewTicker(ringLook)
	defer look.Stop()
	if !durable.Ring(ctx, filepath.Join(t.dir, store.BellName), strings.Join(filesOf(c.options), betweenFiles), look.C) {
		return false
	}
	c.say("verb.forward", nil)
	return true
}

// answerRing brings the window forward when another start has rung, and takes the
// files it passed on. The bell is taken down by the window's own thread: one that
// hangs has heard nothing.
func answerRing(s *shell.Shell, k *keeper.Keeper, w fyne.Window) {
	bell := filepath.Join(k.Dir(), store.BellName)
	if _, err := os.Lstat(bell); err != nil {
		return
	}
	fyne.Do(func() {
		text, rung := durable.Heard(bell)
		if !rung {
			return
		}
		w.Show()
		w.RequestFocus()
		for _, path := range strings.Split(text, betweenFiles) {
			if filepath.IsAbs(path) {
				s.TakeFile(path)
			}
		}
	})
}
