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
)

// open opens the data folder of a command. make says whether one may be begun
// where there is none. It returns nil and the exit code when there is no keeper;
// what happened has then been said.
func (c *call) open(ctx context.Context, make bool) (*keeper.Keeper, int) {
	k, trouble := c.tryOpen(ctx, make)
	if k == nil {
		fmt.Fprintln(c.stderr, trouble)
		return nil, exitNoData
	}
	return k, exitDone
}

// tryOpen is open without a word: it returns the sentence to be said.
func (c *call) tryOpen(ctx context.Context, make bool) (k *keeper.Keeper, trouble string) {
	dir, err := dataFolder(c.data, c.env)
	if errors.Is(err, errNoHome) {
		return nil, c.words.T("err.verb.no_home", i18n.Args{"Variable": dataVariable})
	}
	if err == nil && !make {
		if _, gone := os.Stat(filepath.Join(dir, store.FileName)); errors.Is(gone, fs.ErrNotExist) {
			return nil, c.words.T("err.verb.no_daybook", i18n.Args{"Folder": dir})
		}
	}
	if err == nil {
		if k, err = keeper.Open(ctx, dir, keeper.Options{Now: c.env.Now, Region: care.Region{Code: c.region}}); err == nil {
			return k, ""
		}
	}
	return nil, c.presenter().Error(err)
}

// closed closes the keeper; a failure to do so outweighs a success.
func (c *call) closed(k *keeper.Keeper, code int) int {
	if err := k.Close(); err != nil && code == exitDone {
		return c.failed(err)
	}
	return code
}
