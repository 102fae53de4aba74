package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"example.org/driploop/i18n"
	visits "example.org/driploop/model/desk"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
)

// The words of the verb desk.
const (
	deskList    = "list"
	deskReceive = "receive"
	deskSave    = "save"
	deskForget  = "forget"
)

// runDesk lists the slips on the visit desk, takes some in, saves one to a file or
// deletes one.
func runDesk(c *call) int {
	word := deskList
	if len(c.rest) > 0 {
		word = c.rest[0]
	}
	var do func(context.Context, *keeper.Keeper) int
	switch n := len(c.rest); {
	case word == deskList:
		do = c.listDesk
	case word == deskReceive && n > 1:
		do = c.receive
	case word == deskSave && n == 3:
		do = func(ctx context.Context, k *keeper.Keeper) int {
			file, err := k.DeskFile(ctx, c.rest[1])
			if err == nil {
				err = durable.WriteFile(c.rest[2], file, 0o644)
			}
			if err != nil {
				return c.offDesk(err)
			}
			return exitDone
		}
	case word == deskForget && n == 2:
		do = func(ctx context.Context, k *keeper.Keeper) int {
			wiped, err := k.ForgetVisit(ctx, c.rest[1])
			if err != nil {
				return c.offDesk(err)
			}
			if !wiped {
				c.say("page.desk.not_wiped", nil)
			}
			return exitDone
		}
	default:
		return c.refuse("err.verb.desk", nil)
	}
	ctx := context.Background()
	k, code := c.open(ctx, true)
	if k == nil {
		return code
	}
	return c.closed(k, do(ctx, k))
}

// listDesk writes a line for each slip, the newest first: id, when it came, when it
// was answered, whose it is, what it is about; with tabs between.
func (c *call) listDesk(ctx context.Context, k *keeper.Keeper) int {
	q := visits.Query{Limit: visits.MaxPage}
	if len(c.rest) > 1 {
		q.Words = strings.Join(c.rest[1:], " ")
	}
	p, none := c.presenter(), true
	for {
		page, err := k.DeskVisits(ctx, q)
		if err != nil {
			return c.offDesk(err)
		}
		for _, v := range page {
			none = false
			answered := "-"
			if !v.Answered.IsZero() {
				answered = v.Answered.Local().Format(i18n.WhenLayout)
			}
			fmt.Fprintln(c.stdout, strings.Join([]string{v.ID, v.Received.Local().Format(i18n.WhenLayout), answered, p.DeskLine(v).Title, v.About}, "\t"))
		}
		if len(page) < q.Limit {
			break
		}
		q.After = &page[len(page)-1]
	}
	if none {
		c.say("page.desk.none", nil)
	}
	return exitDone
}

// receive takes slips in; one that cannot be read does not keep the others out.
func (c *call) receive(ctx context.Context, k *keeper.Keeper) int {
	code := exitDone
	told := func(path string, v slip.Visit, taken bool, err error) {
		switch {
		case err != nil:
			fmt.Fprintln(c.stderr, c.words.T("verb.desk.file", i18n.Args{"File": path, "What": c.presenter().Error(err)}))
			code = exitRefused
		case taken:
			c.say("verb.desk.taken", i18n.Args{"File": path, "Id": v.ID})
		default:
			c.say("verb.desk.there", i18n.Args{"File": path, "Id": v.ID})
		}
	}
	pictures, files := keeper.Papers(c.rest[1:])
	for _, path := range files {
		v, taken, err := k.ReceiveVisit(ctx, path, c.presenter().VisitSaid)
		told(path, v, taken, err)
	}
	if len(pictures) > 0 { // of one paper, named by the first of them
		v, taken, err := c.receivePaper(ctx, k, pictures)
		told(pictures[0], v, taken, err)
	}
	return code
}

// receivePaper takes the slip in that pictures of a paper show.
func (c *call) receivePaper(ctx context.Context, k *keeper.Keeper, pictures []string) (slip.Visit, bool, error) {
	at, err := keeper.FindSlip(ctx, pictures...)
	if err != nil {
		return slip.Visit{}, false, err
	}
	file, err := at.Bytes()
	if err != nil {
		return slip.Visit{}, false, err
	}
	return k.ReceiveFile(ctx, file, c.presenter().VisitSaid)
}

// offDesk tells of a failure: a slip that is not there was asked for wrongly.
func (c *call) offDesk(err error) int {
	var e *visits.Error
	if errors.As(err, &e) && e.Code == visits.CodeAbsent {
		fmt.Fprintln(c.stderr, c.presenter().Error(err))
		return exitRefused
	}
	return c.failed(err)
}
