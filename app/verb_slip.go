package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/present"
)

// The words of the verb slip beside wordTake.
const (
	slipCheck   = "check"
	slipMake    = "make"
	slipVisit   = "visit"
	slipReply   = "reply"
	slipProfile = "profile"
)

// runSlip looks at the files that people hand to each other, makes and takes them.
func runSlip(c *call) int {
	arg := append(slices.Clone(c.rest), "", "", "", "")
	switch n := len(c.rest); {
	case n >= 2 && arg[0] == slipCheck:
		return c.checkSlip(c.rest[1:])
	case n >= 2 && arg[0] == wordTake:
		return c.takeSlip(c.rest[1:])
	case n == 3 && arg[0] == slipMake && arg[1] == slipVisit:
		return c.makeVisit(arg[2])
	case n == 3 && arg[0] == slipMake && arg[1] == slipProfile:
		return c.makeProfile(arg[2])
	case n >= 4 && arg[0] == slipMake && arg[1] == slipReply:
		return c.makeReply(arg[2], c.rest[3:])
	}
	return c.refuse("err.verb.slip", nil)
}

func (c *call) lines(lines ...string) {
	for _, l := range lines {
		fmt.Fprintln(c.stdout, l)
	}
}

func (c *call) found(fs []working.Finding) {
	p := c.presenter()
	for _, f := range fs {
		fmt.Fprintln(c.stdout, p.Say(f))
	}
}

// checkSlip says which slip a file is, or pictures of a paper show, who signed it and
// what it holds.
func (c *call) checkSlip(paths []string) int {
	ctx := context.Background()
	at, err := keeper.FindSlip(ctx, paths...)
	if err != nil {
		return c.refused(err)
	}
	k, code := c.open(ctx, true)
	if k == nil {
		return code
	}
	o, err := k.OpenSlip(ctx, at)
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	p := c.presenter()
	switch o.Format {
	case slip.FormatProfile:
		c.say("verb.slip.kind_profile", nil)
		c.lines(p.Profile(o.Profile, o.Found)...)
	case slip.FormatVisit:
		v := p.Visit(o.Visit)
		c.say("verb.slip.kind_visit", i18n.Args{"Title": v.Title})
		c.lines(v.Beside)
		c.found(o.Found)
		for _, said := range []string{v.Holds, v.Apart} {
			if said != "" {
				c.lines(said)
			}
		}
		c.holds(p.VisitHeld(o.Visit))
	case slip.FormatReply:
		c.reply(p.Reply(o.Reply), o.Found)
	}
	return c.closed(k, exitDone)
}

func (c *call) holds(hs []present.VisitHold) {
	for _, h := range hs {
		fmt.Fprintln(c.stdout, indent+c.words.T("verb.slip.holds", i18n.Args{"Part": h.Name, "Number": h.Text}))
	}
}

func (c *call) reply(r present.Reply, found []working.Finding) {
	c.say("verb.slip.kind_reply", i18n.Args{"From": r.From[0]})
	c.lines(r.From[1:]...)
	c.lines(r.Beside)
	c.found(found)
	if r.Again != "" {
		c.lines(r.Again)
	}
	for _, x := range r.Items {
		fmt.Fprintln(c.stdout, indent+x.Title)
		for _, l := range append(slices.Clone(x.Lines), x.Why, x.Note) {
			if l != "" {
				fmt.Fprintln(c.stdout, indent+indent+strings.ReplaceAll(l, "\n", "\n"+indent+indent))
			}
		}
	}
}

func (c *call) makeProfile(path string) int {
	ctx := context.Background()
	k, code := c.open(ctx, false)
	if k == nil {
		return code
	}
	err := c.writeProfile(ctx, k, path)
	switch {
	case errors.Is(err, errNoTank):
		return c.closed(k, c.refuse("err.verb.no_tank", nil))
	case err != nil:
		return c.closed(k, c.refused(err))
	}
	c.lines(path)
	return c.closed(k, exitDone)
}

// errNoTank: there is none, or none of that name.
var errNoTank = errors.New("no tank")

// writeProfile hands out the profile of the catalogue that --tank names, as one of its
// editions, or else writes the profile that a tank makes.
func (c *call) writeProfile(ctx context.Context, k *keeper.Keeper, path string) error {
	cards, err := k.Profiles(ctx)
	if err != nil {
		return err
	}
	name := c.value[flagTank]
	for _, card := range cards {
		if name != "" && (card.Tank.Name == name || card.Tank.ID == name) {
			_, err := k.HandOutFile(ctx, card.Tank.ID, path, "")
			return err
		}
	}
	tank, ok, err := c.tank(ctx, k)
	if err == nil && !ok {
		err = errNoTank
	}
	if err != nil {
		return err
	}
	return k.SaveProfile(ctx, tank.ID, path)
}

func (c *call) makeVisit(path string) int {
	ctx := context.Background()
	ask := keeper.VisitAsk{Days: keeper.VisitDays, Language: c.words.Language()}
	if days, ok := c.value[flagDays]; ok {
		n, err := strconv.Atoi(days)
		if err != nil {
			return c.refuse("err.verb.slip_days", i18n.Args{"Word": days})
		}
		ask.Days = n
	}
	if list, ok := c.value[flagWith]; ok {
		for _, word := range strings.Split(list, ",") {
			x := slip.Private(strings.TrimSpace(word))
			if !slices.Contains(slip.Privates(), x) {
				return c.refuse("err.verb.slip_with", i18n.Args{"Word": word})
			}
			if !slices.Contains(ask.Private, x) {
				ask.Private = append(ask.Private, x)
			}
		}
	}
	if q, ok := c.value[flagAsk]; ok {
		ask.Questions = []string{q}
	}
	k, tank, code := c.openTank(ctx)
	if k == nil {
		return code
	}
	if name, ok := c.value[flagCase]; ok {
		id, err := caseNamed(ctx, k, tank.ID, name)
		if err != nil {
			return c.closed(k, c.refused(err))
		}
		ask.Case = id
	}
	v, err := k.SaveVisit(ctx, tank.ID, ask, path, nil)
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	plan := c.presenter().VisitPlan(v)
	c.lines(path, plan.Span)
	c.holds(plan.Holds)
	c.lines(plan.Left...)
	return c.closed(k, exitDone)
}

// mostInput is how much of an answer is read, bytes: more than a reply holds.
const mostInput = 4 << 20

func (c *call) makeReply(path string, visit []string) int {
	ctx := context.Background()
	k, code := c.open(ctx, true)
	if k == nil {
		return code
	}
	at, err := keeper.FindSlip(ctx, visit...)
	var o keeper.Opened
	if err == nil {
		o, err = k.OpenSlip(ctx, at)
	}
	if err == nil && o.Format != slip.FormatVisit {
		err = &slip.Error{Code: slip.CodeOther}
	}
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	begun, err := k.BeginReply(ctx, o.Visit)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	data, err := io.ReadAll(io.LimitReader(c.stdin, mostInput))
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	r, found, err := slip.Proposals(data, begun)
	if err == nil {
		c.found(found)
		err = k.WriteReply(ctx, r, path)
	}
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	c.lines(path)
	return c.closed(k, exitDone)
}

// takeSlip makes a tank of a profile, or takes what can be taken of a reply.
func (c *call) takeSlip(paths []string) int {
	ctx := context.Background()
	at, err := keeper.FindSlip(ctx, paths...)
	if err != nil {
		return c.refused(err)
	}
	if at.Format == slip.FormatVisit {
		return c.refuse("err.verb.slip_visit", nil)
	}
	k, code := c.open(ctx, at.Format == slip.FormatProfile)
	if k == nil {
		return code
	}
	o, err := k.OpenSlip(ctx, at)
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	if o.Format == slip.FormatReply {
		return c.closed(k, c.takeReply(ctx, k, o))
	}
	x := o.Profile
	c.lines(c.presenter().Profile(x, o.Found)...)
	if _, err := k.TakeProfile(ctx, x); err != nil {
		return c.closed(k, c.refused(err))
	}
	c.say("verb.slip.profile_taken", i18n.Args{"Name": x.Tank})
	return c.closed(k, exitDone)
}

func (c *call) takeReply(ctx context.Context, k *keeper.Keeper, o keeper.Opened) int {
	p := c.presenter()
	v := o.Reply
	if _, named := c.value[flagTank]; named {
		tank, ok, err := c.tank(ctx, k)
		switch {
		case err != nil:
			return c.failed(err)
		case !ok:
			return c.refuse("err.verb.no_tank", nil)
		case v.Tank != "" && v.Tank != tank.ID:
			return c.refused(working.Refuse("tank", "refuse.keeper.reply_tank"))
		}
		if v, err = k.ReplyBeside(ctx, v.Reply, tank.ID); err != nil {
			return c.failed(err)
		}
	}
	if v.Tank == "" {
		return c.refuse("err.verb.slip_tank", nil)
	}
	shown := p.Reply(v)
	c.reply(shown, o.Found)
	open := v.Open()
	if len(open) == 0 && !v.Again.IsZero() {
		return c.refused(working.Refuse("reply", "refuse.keeper.reply_all_taken"))
	}
	_, err := k.TakeReply(ctx, v.Tank, v.Reply, open, c.words.Language())
	var refused *working.Refusal
	switch {
	case errors.As(err, &refused):
		return c.refused(err)
	case err != nil:
		return c.failed(err)
	}
	for _, x := range shown.Items {
		if x.Open {
			c.say("verb.slip.took", i18n.Args{"What": x.Title})
		}
	}
	return exitDone
}
