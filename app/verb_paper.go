package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/paper"
)

// runPaper writes a paper of a tank as a PDF file.
func runPaper(c *call) int {
	var kinds []string
	for _, k := range append(paper.Kinds(), paper.Case, paper.Neighbour, paper.Stocking, paper.Home, paper.Profile, paper.VisitSlip, paper.ReplySlip, paper.CareCalendar) {
		kinds = append(kinds, string(k))
	}
	if len(c.rest) < 2 || !slices.Contains(kinds, c.rest[0]) {
		return c.refuse("err.verb.paper", i18n.Args{"Kinds": strings.Join(kinds, ", ")})
	}
	size := paper.SizeFor(c.region)
	if code, ok := c.value[flagSize]; ok {
		if size, ok = paper.SizeNamed(code); !ok {
			return c.refuse("err.verb.paper_size", i18n.Args{"Word": code})
		}
	}
	kind := paper.Kind(c.rest[0])
	days := map[paper.Kind]int{paper.CareCalendar: keeper.CareDays, paper.VisitSlip: keeper.VisitDays}
	if word, ok := c.value[flagDays]; ok {
		if _, ok := days[kind]; !ok {
			return c.refuse("err.verb.paper_days", nil)
		}
		n, err := strconv.Atoi(word)
		if err != nil || n < 0 {
			return c.refuse("err.verb.slip_days", i18n.Args{"Word": word})
		}
		days[kind] = n
	}
	if kind == paper.Profile {
		return c.putProfile(c.rest[1], size)
	}
	if kind == paper.ReplySlip {
		return c.putReply(c.rest[1], c.rest[2:], size)
	}
	return c.put(c.rest[1], func(ctx context.Context, k *keeper.Keeper, tank string, w io.Writer) error {
		about := "" // the case, where one is named
		if len(c.rest) > 2 && (kind == paper.Case || kind == paper.VisitSlip) {
			var err error
			if about, err = caseNamed(ctx, k, tank, c.rest[2]); err != nil {
				return err
			}
		}
		switch kind {
		case paper.Case:
			return paper.WriteCase(ctx, k, tank, about, c.presenter(), size, w, nil)
		case paper.VisitSlip:
			ask := keeper.VisitAsk{Days: days[kind], Case: about, Language: c.words.Language()}
			return paper.WriteVisit(ctx, k, tank, ask, c.presenter(), size, w, nil)
		case paper.CareCalendar:
			return paper.WriteCareCalendar(ctx, k, tank, days[kind], c.presenter(), size, w)
		}
		return paper.Write(ctx, kind, k, tank, c.presenter(), size, w)
	})
}

// caseNamed finds a case by its id or by whom it concerns, the open ones first.
func caseNamed(ctx context.Context, k *keeper.Keeper, tank, name string) (string, error) {
	cs, err := k.Cases(ctx, tank)
	if err != nil {
		return "", err
	}
	for _, x := range cs {
		if x.ID == name || strings.EqualFold(x.About, name) {
			return x.ID, nil
		}
	}
	return "", working.Refuse("case", "refuse.keeper.no_case")
}

// putProfile writes the sheet of a starter profile, the one named with --tank or
// else the newest, and keeps that it was handed out.
func (c *call) putProfile(path string, size paper.Size) int {
	ctx := context.Background()
	k, code := c.open(ctx, false)
	if k == nil {
		return code
	}
	cards, err := k.Profiles(ctx)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	name, named := c.value[flagTank]
	for _, x := range cards {
		if named && x.Tank.Name != name && x.Tank.ID != name {
			continue
		}
		r, err := k.PrepareHandOut(ctx, x.Tank.ID)
		var b bytes.Buffer
		if err == nil {
			err = paper.WriteProfile(ctx, k, x.Tank.ID, r, []string{""}, c.presenter(), size, &b)
		}
		if err == nil {
			err = durable.WriteFile(path, b.Bytes(), 0o644)
		}
		if err == nil {
			err = k.NoteHandOuts(ctx, x.Tank.ID, r, keeper.BySheet, "")
		}
		if err != nil {
			return c.closed(k, c.failed(err))
		}
		fmt.Fprintln(c.stdout, path)
		return c.closed(k, exitDone)
	}
	return c.closed(k, c.refuse("err.verb.no_profile", nil))
}

// putReply writes the paper of a reply whose file is given; who signed it stays as it is.
func (c *call) putReply(path string, reply []string, size paper.Size) int {
	if len(reply) == 0 {
		return c.refuse("err.verb.paper_reply", nil)
	}
	ctx := context.Background()
	at, err := keeper.FindSlip(ctx, reply...)
	if err != nil {
		return c.refused(err)
	}
	k, code := c.open(ctx, true)
	if k == nil {
		return code
	}
	file, err := at.Bytes()
	var b bytes.Buffer
	if err == nil {
		err = paper.WriteReply(ctx, k, file, c.presenter(), size, &b)
	}
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	if err := durable.WriteFile(path, b.Bytes(), 0o644); err != nil {
		return c.closed(k, c.failed(err))
	}
	fmt.Fprintln(c.stdout, path)
	return c.closed(k, exitDone)
}

// put writes a file about the tank asked for, whole or not at all, and prints
// its path.
func (c *call) put(path string, write func(context.Context, *keeper.Keeper, string, io.Writer) error) int {
	ctx := context.Background()
	k, tank, code := c.openTank(ctx)
	if k == nil {
		return code
	}
	var b bytes.Buffer
	err := write(ctx, k, tank.ID, &b)
	if err == nil {
		err = durable.WriteFile(path, b.Bytes(), 0o644)
	}
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	fmt.Fprintln(c.stdout, path)
	return c.closed(k, exitDone)
}

// openTank opens the daybook for a command about one tank: the one named with
// --tank, or else the newest. It returns nil and the exit code when there is none;
// what happened has then been said.
func (c *call) openTank(ctx context.Context) (*keeper.Keeper, keeper.Tank, int) {
	k, code := c.open(ctx, false)
	if k == nil {
		return nil, keeper.Tank{}, code
	}
	tank, ok, err := c.tank(ctx, k)
	switch {
	case err != nil:
		return nil, tank, c.closed(k, c.failed(err))
	case !ok:
		return nil, tank, c.closed(k, c.refuse("err.verb.no_tank", nil))
	}
	return k, tank, exitDone
}

// tank is the one named with --tank, or else the newest.
func (c *call) tank(ctx context.Context, k *keeper.Keeper) (keeper.Tank, bool, error) {
	tanks, err := k.Tanks(ctx)
	if err != nil {
		return keeper.Tank{}, false, err
	}
	name, named := c.value[flagTank]
	for _, t := range slices.Backward(tanks) {
		if !named || t.Name == name || t.ID == name {
			return t, true, nil
		}
	}
	return keeper.Tank{}, false, nil
}
