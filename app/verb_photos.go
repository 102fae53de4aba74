package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
)

// photosAdd is the one thing that the verb photos does so far.
const photosAdd = "add"

// mostWords is how many files a verb takes: as many as a command line holds.
const mostWords = 1 << 20

// runPhotos adds pictures to the daybook of a tank. An interrupt ends it; what
// is added by then stays.
func runPhotos(c *call) int {
	if len(c.rest) < 2 || c.rest[0] != photosAdd {
		return c.refuse("err.verb.photos", nil)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	k, tank, code := c.openTank(ctx)
	if k == nil {
		return code
	}
	var sources []photo.Source
	for _, path := range c.rest[1:] {
		sources = append(sources, photo.Source{Path: path})
	}
	added, err := k.AddPhotos(ctx, tank.ID, sources, keeper.AddOptions{}, nil)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	return c.closed(k, c.reportPhotos(added))
}

// reportPhotos says what was added, and of every file that was not why. It is a
// failure when a file that was named could not be taken.
func (c *call) reportPhotos(a keeper.Added) int {
	fmt.Fprintln(c.stdout, c.words.N("verb.photos.added", float64(len(a.Photos)), nil))
	for _, t := range a.Twice {
		c.say("verb.photos.twice", i18n.Args{"Name": t.Name})
	}
	for _, u := range a.Undated {
		c.say("verb.photos.undated", i18n.Args{"Name": u.Name})
	}
	if len(a.Broken) > 0 {
		fmt.Fprintln(c.stderr, c.words.N("verb.photos.broken", float64(len(a.Broken)), nil))
	}
	if a.Passed > 0 {
		fmt.Fprintln(c.stdout, c.words.N("verb.photos.passed", float64(a.Passed), nil))
	}
	if a.Cut {
		c.warn("verb.photos.cut", nil)
	}
	if a.Cancelled {
		c.warn("verb.photos.cancelled", nil)
	}
	for _, r := range a.Refused {
		fmt.Fprintf(c.stderr, "%s: %s\n", r.Name, c.presenter().Error(r.Problem))
	}
	if len(a.Refused) > 0 || a.Cancelled {
		return exitFailed
	}
	return exitDone
}
