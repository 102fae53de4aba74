package main

import (
	"context"
	"fmt"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
)

// The words of the verb, and the name that stands for the newest sound copy.
const (
	wordList    = "list"
	wordRestore = "restore"
	nameLatest  = "latest"
)

// runSnapshot copies the database into the folder of snapshots and prints where;
// or lists the copies; or goes back to one.
func runSnapshot(c *call) int {
	switch {
	case len(c.rest) == 0:
		return c.makeSnapshot()
	case len(c.rest) == 1 && c.rest[0] == wordList:
		return c.listSnapshots()
	case len(c.rest) == 2 && c.rest[0] == wordRestore:
		return c.restoreSnapshot(c.rest[1])
	}
	return c.refuse("err.verb.snapshot", nil)
}

func (c *call) makeSnapshot() int {
	ctx := context.Background()
	k, code := c.open(ctx, false)
	if k == nil {
		return code
	}
	path, err := k.Snapshot(ctx)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	fmt.Fprintln(c.stdout, path)
	return c.closed(k, exitDone)
}

// listSnapshots needs no daybook: it is for when there is none any more.
func (c *call) listSnapshots() int {
	dir, t := c.folder(true)
	if t.sentence != "" {
		fmt.Fprintln(c.stderr, t.sentence)
		return exitNoData
	}
	copies, err := keeper.CopiesIn(context.Background(), dir, c.env.Now().Location())
	if err != nil {
		return c.failed(err)
	}
	if len(copies) == 0 {
		c.say("verb.snapshot.none", i18n.Args{"Folder": dir})
	}
	for _, one := range copies {
		title, lines := c.presenter().Copy(one)
		fmt.Fprintln(c.stdout, keeper.CopyName(one))
		fmt.Fprintln(c.stdout, indent+title)
		for _, l := range lines {
			fmt.Fprintln(c.stdout, indent+l)
		}
	}
	return exitDone
}

// restoreSnapshot goes back to a copy, whether or not the daybook can be opened.
func (c *call) restoreSnapshot(name string) int {
	ctx := context.Background()
	dir, t := c.folder(true)
	if t.sentence != "" {
		fmt.Fprintln(c.stderr, t.sentence)
		return exitNoData
	}
	k, t := c.tryOpen(ctx, true)
	if k == nil {
		way := c.rescue(ctx, t)
		if way == nil {
			fmt.Fprintln(c.stderr, t.sentence)
			return exitNoData
		}
		if name == nameLatest {
			name = ""
		}
		one, aside, err := keeper.Rescue(ctx, dir, name, c.env.Now)
		if err != nil {
			return c.refused(err)
		}
		fmt.Fprintln(c.stdout, c.presenter().Rescued(one))
		c.say("page.copies.rescued", i18n.Args{"Path": aside})
		return exitDone
	}
	if err := c.speakAsSet(ctx, k); err != nil {
		return c.closed(k, c.failed(err))
	}
	if name == nameLatest {
		var err error
		if name, err = latest(ctx, k); err != nil {
			return c.closed(k, c.failed(err))
		}
	}
	p, err := k.PreviewBack(ctx, name)
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	for _, line := range c.presenter().Back(p) {
		fmt.Fprintln(c.stdout, line)
	}
	aside, err := k.GoBack(ctx, name)
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	c.say("page.copies.gone", i18n.Args{"Path": aside})
	return c.closed(k, exitDone)
}

// latest is the name of the newest sound snapshot, or a name that none has.
func latest(ctx context.Context, k *keeper.Keeper) (string, error) {
	copies, err := k.Copies(ctx)
	for _, one := range copies {
		if one.Sound && one.Kind != keeper.CopyAside {
			return keeper.CopyName(one), err
		}
	}
	return nameLatest, err
}
