package main

import (
	"context"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/shell"
)

// runDemo makes the example tank, with the words of the language spoken.
func runDemo(c *call) int {
	ctx := context.Background()
	k, code := c.open(ctx, true)
	if k == nil {
		return code
	}
	if why := k.ReadOnly(); why != nil {
		return c.closed(k, c.failed(why))
	}
	tanks, err := k.Tanks(ctx)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	said := working.Key("verb.demo.made")
	for _, t := range tanks {
		if t.Origin == keeper.Example {
			said = "verb.demo.there"
		}
	}
	if _, err := shell.MakeExample(ctx, k, c.presenter(), c.env.Now()); err != nil {
		return c.closed(k, c.failed(err))
	}
	c.say(said, i18n.Args{"Folder": k.Dir()})
	return c.closed(k, exitDone)
}
