package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/paper"
)

// wordTake takes a file instead of writing one.
const wordTake = "take"

// runArchive writes the whole daybook to a file, or takes such a file.
func runArchive(c *call) int {
	switch {
	case len(c.rest) == 1 && c.rest[0] != wordTake:
		return c.saveArchive(c.rest[0])
	case len(c.rest) == 2 && c.rest[0] == wordTake && !c.own[flagNoPlace]:
		return c.takeArchive(c.rest[1])
	}
	return c.refuse("err.verb.archive", nil)
}

func (c *call) saveArchive(path string) int {
	ctx := context.Background()
	k, code := c.open(ctx, false)
	if k == nil {
		return code
	}
	p := c.presenter()
	did, err := k.SaveArchive(ctx, path, keeper.ArchiveOptions{Language: c.words.Language(), WithoutPlace: c.own[flagNoPlace],
		Page: func(w io.Writer, all keeper.Contents) error { return paper.Archive(w, p, all) }}, nil)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	fmt.Fprintln(c.stdout, path)
	if n := len(did.Lost); n > 0 {
		fmt.Fprintln(c.stderr, c.words.N("page.archive.without", float64(n), i18n.Args{"Names": strings.Join(did.Lost, ", ")}))
	}
	return c.closed(k, exitDone)
}

func (c *call) takeArchive(path string) int {
	ctx := context.Background()
	k, code := c.open(ctx, true)
	if k == nil {
		return code
	}
	p, err := k.ReadArchive(ctx, path)
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	for _, line := range c.presenter().Incoming(p) {
		fmt.Fprintln(c.stdout, line)
	}
	did, err := k.TakeArchive(ctx, path, nil)
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	for _, line := range c.presenter().Taken(did) {
		fmt.Fprintln(c.stdout, line)
	}
	return c.closed(k, exitDone)
}

// refused says why an input was not taken, or what went wrong otherwise.
func (c *call) refused(err error) int {
	if words, ok := c.words.Problem(err); ok {
		fmt.Fprintln(c.stderr, words)
		return exitRefused
	}
	return c.failed(err)
}
