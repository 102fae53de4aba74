package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/store"
	"example.org/driploop/screens/shell"
)

// open opens the data folder of a command. make says whether one may be begun
// where there is none. It returns nil and the exit code when there is no keeper;
// what happened has then been said.
func (c *call) open(ctx context.Context, make bool) (*keeper.Keeper, int) {
	k, t := c.tryOpen(ctx, make)
	if k == nil {
		fmt.Fprintln(c.stderr, t.sentence)
		return nil, exitNoData
	}
	if err := c.speakAsSet(ctx, k); err != nil {
		return nil, c.closed(k, c.failed(err))
	}
	return k, exitDone
}

// speakAsSet takes the language, region and units that the person has set in the
// window, where the command line does not say otherwise.
func (c *call) speakAsSet(ctx context.Context, k *keeper.Keeper) error {
	p, err := shell.PrefsOver(ctx, k, shell.Prefs{Lang: c.words.Language(), Region: c.region, Units: c.words.System()})
	if err != nil {
		return err
	}
	asked(&p, c.options)
	c.words, c.region = i18n.Speak(p.Lang, p.Region, p.Units), p.Region
	k.SetRegion(care.Region{Code: c.region})
	return nil
}

// trouble is why there is no daybook to open.
type trouble struct {
	sentence string
	dir      string // the data folder, where it is known
	err      error
}

// tryOpen is open without a word: it returns what is to be said.
func (c *call) tryOpen(ctx context.Context, make bool) (*keeper.Keeper, trouble) {
	dir, t := c.folder(make)
	if t.sentence != "" {
		return nil, t
	}
	k, err := keeper.Open(ctx, dir, keeper.Options{Now: c.env.Now, Steady: c.env.Steady, Region: care.Region{Code: c.region}})
	if err != nil {
		return nil, trouble{c.presenter().Error(err), dir, err}
	}
	k.UseDesk(c.deskPlace())
	return k, t
}

// deskPlace is where the visit desk is, "" for the data folder, and what this counter
// is called there: the machine, which is how a shop tells its counters apart.
func (c *call) deskPlace() (where, counter string) {
	if where = c.desk; where == "" {
		where = c.env.Getenv(deskVariable)
	}
	counter, _ = os.Hostname() // a machine without a name is a counter without one
	return where, counter
}

// folder is the data folder of a command. make says whether one may be begun where
// there is none.
func (c *call) folder(make bool) (string, trouble) {
	dir, err := dataFolder(c.data, c.env)
	switch {
	case errors.Is(err, errNoHome):
		return "", trouble{sentence: c.words.T("err.verb.no_home", i18n.Args{"Variable": dataVariable}), err: err}
	case err != nil:
		return "", trouble{sentence: c.presenter().Error(err), err: err}
	}
	if !make {
		if _, gone := os.Stat(filepath.Join(dir, store.FileName)); errors.Is(gone, fs.ErrNotExist) {
			return "", trouble{sentence: c.words.T("err.verb.no_daybook", i18n.Args{"Folder": dir}), dir: dir, err: gone}
		}
	}
	return dir, trouble{}
}

// closed closes the keeper; a failure to do so outweighs a success.
func (c *call) closed(k *keeper.Keeper, code int) int {
	if err := k.Close(); err != nil && code == exitDone {
		return c.failed(err)
	}
	return code
}
