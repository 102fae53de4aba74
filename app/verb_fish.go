package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
)

// The words of the verb fish.
const (
	fishList = "list"
	fishAdd  = "add"
	fishOut  = "out"
)

// runFish lists what lives in a tank, takes animals into it or out of it.
func runFish(c *call) int {
	word := fishList
	if len(c.rest) > 0 {
		word = c.rest[0]
	}
	n := 0
	switch {
	case word == fishList && len(c.rest) <= 1:
	case word == fishAdd && len(c.rest) == 3, word == fishOut && len(c.rest) == 4:
		var err error
		if n, err = strconv.Atoi(c.rest[2]); err != nil {
			return c.refuse("err.verb.fish", nil)
		}
	default:
		return c.refuse("err.verb.fish", nil)
	}
	ctx := context.Background()
	k, tank, code := c.openTank(ctx)
	if k == nil {
		return code
	}
	p := c.presenter()
	k.SetNames(p.KindNames)
	all, err := k.Stock(ctx, tank.ID)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	switch word {
	case fishAdd:
		a := keeper.Newcomers{Count: n}
		if kind, told := k.KindTold(c.rest[1]); told {
			a.Species = string(kind)
		} else {
			a.Name = c.rest[1]
		}
		a.What = p.FishName(keeper.Fish{Name: a.Name, Species: a.Species})
		_, _, err = k.Arrive(ctx, tank.ID, a)
	case fishOut:
		i := slices.IndexFunc(all, func(l keeper.Living) bool { return strings.EqualFold(p.FishName(l.Fish), c.rest[1]) })
		if i < 0 {
			return c.closed(k, c.refuse("refuse.keeper.no_fish", nil))
		}
		_, err = k.Depart(ctx, tank.ID, keeper.Departure{Fish: all[i].ID, Count: n, Why: keeper.Why(c.rest[3]), What: p.FishName(all[i].Fish)})
	}
	if refused := (*working.Refusal)(nil); errors.As(err, &refused) {
		words, _ := c.words.Problem(err)
		fmt.Fprintln(c.stderr, words)
		return c.closed(k, exitRefused)
	}
	if err == nil {
		all, err = k.Stock(ctx, tank.ID)
	}
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	for _, l := range all {
		latin := ""
		if l.Animal != nil {
			latin = l.Animal.Scientific
		}
		fmt.Fprintln(c.stdout, strings.TrimRight(strings.Join([]string{strconv.Itoa(l.Count), p.FishName(l.Fish), latin, l.Since.Day(), p.LengthToday(l)}, "\t"), "\t"))
	}
	if len(all) == 0 {
		c.say("page.stock.nobody", nil)
	}
	return c.closed(k, exitDone)
}
