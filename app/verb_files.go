package main

import (
	"errors"
	"fmt"

	"example.org/driploop/i18n"
	"example.org/driploop/model/claim"
)

// The words of the verb files.
const (
	filesOpen  = "open"
	filesLeave = "leave"
)

// runFiles has the system open our files by double click, stops that, or tells how it
// stands. It needs no daybook.
func runFiles(c *call) int {
	word := ""
	if len(c.rest) > 0 {
		word = c.rest[0]
	}
	x := c.filesClaim()
	if x == nil {
		return c.refuse("err.verb.files_cannot", nil)
	}
	var err error
	switch word {
	case "":
	case filesOpen:
		err = x.Make()
	case filesLeave:
		err = x.TakeBack()
	default:
		return c.refuse("err.verb.files", nil)
	}
	var tool *claim.ToolError
	if err != nil && !errors.As(err, &tool) {
		return c.failed(err)
	}
	s, err := x.State()
	if err != nil {
		return c.failed(err)
	}
	p := c.presenter()
	fmt.Fprintln(c.stdout, p.Files(s))
	for _, at := range s.Places {
		fmt.Fprintln(c.stdout, indent+at)
	}
	if tool != nil {
		c.warn("page.files.tool", i18n.Args{"Tool": tool.Tool})
		return exitFailed
	}
	return exitDone
}
