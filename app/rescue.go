package main

import (
	"context"
	"errors"
	"os"
	"os/exec"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/store"
)

// rescue is a way out of a trouble: a sentence that says what it would mean, and
// what it does.
type rescue struct {
	sentence string
	// do puts the copy in place and gives what is then to be said, with a further
	// way on; nil when there is nothing to be done.
	do func() (string, *rescue)
	// again starts the program anew; nil when that would not help.
	again func()
}

// rescue finds the newest sound copy where the daybook itself cannot be read. It
// is nil for troubles that a copy does not cure.
func (c *call) rescue(ctx context.Context, t trouble) *rescue {
	var oe *store.OpenError
	if !errors.As(t.err, &oe) || oe.Code != store.CodeDamaged && oe.Code != store.CodeNotOurs {
		return nil
	}
	p := c.presenter()
	copies, err := keeper.CopiesIn(ctx, t.dir, c.env.Now().Location())
	if err != nil {
		return nil
	}
	for _, one := range copies {
		if !one.Sound {
			continue
		}
		return &rescue{sentence: p.Rescued(one), do: func() (string, *rescue) {
			_, aside, err := keeper.Rescue(ctx, t.dir, one.Path, c.env.Now)
			if err != nil {
				return p.Error(err), nil
			}
			return c.words.T("page.copies.rescued", i18n.Args{"Path": aside}), &rescue{again: startAgain}
		}}
	}
	return &rescue{sentence: c.words.T("page.copies.rescue_none", nil)}
}

// startAgain starts this program once more, as it was called.
func startAgain() {
	self, err := os.Executable()
	if err != nil {
		return
	}
	cmd := exec.Command(self, os.Args[1:]...)
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	_ = cmd.Start() // the person can still do it
}
