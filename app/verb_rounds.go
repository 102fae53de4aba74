package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/paper"
)

// The words of the verb rounds.
const (
	roundsList = "list"
	roundsTake = "take"
)

// runRounds writes the rounds of a tank as a calendar file, lists them, or takes
// up the usual ones.
func runRounds(c *call) int {
	word := roundsList
	if len(c.rest) > 0 {
		word = c.rest[0]
	}
	path, write := c.value[flagICS]
	switch {
	case write && len(c.rest) == 0:
		if !strings.EqualFold(filepath.Ext(path), keeper.CalendarEnding) {
			return c.refuse("refuse.rounds.calendar", nil)
		}
		return c.put(path, func(ctx context.Context, k *keeper.Keeper, tank string, w io.Writer) error {
			return paper.WriteCalendar(ctx, k, tank, c.presenter(), c.env.Now(), w)
		})
	case write || word != roundsList && word != roundsTake:
		return c.refuse("err.verb.rounds", nil)
	}
	ctx := context.Background()
	k, tank, code := c.openTank(ctx)
	if k == nil {
		return code
	}
	if word == roundsTake {
		err := c.takeRounds(ctx, k, tank.ID)
		if refused := (*working.Refusal)(nil); errors.As(err, &refused) {
			return c.closed(k, c.refuse(refused.Code, nil))
		}
		if err != nil {
			return c.closed(k, c.failed(err))
		}
	}
	v, err := k.Rounds(ctx, tank.ID)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	for _, d := range c.presenter().Rounds(v, c.env.Now()).All {
		fmt.Fprintln(c.stdout, strings.TrimRight(strings.Join([]string{d.When, d.Name, d.Text, d.Note}, "\t"), "\t"))
	}
	if len(v.All) == 0 {
		c.say("page.rounds.none_title", nil)
	}
	return c.closed(k, exitDone)
}

// takeRounds takes up the usual rounds of a tank that it has not.
func (c *call) takeRounds(ctx context.Context, k *keeper.Keeper, tank string) error {
	b, err := k.RoundBasisOf(ctx, tank)
	if err != nil {
		return err
	}
	offer, err := k.ProposeRounds(ctx, tank, b)
	if err != nil {
		return err
	}
	shown := c.presenter().Offers(offer)
	var take []keeper.Taking
	for i, p := range offer.Proposals {
		take = append(take, keeper.Taking{Proposal: p, Note: shown[i].Note})
	}
	return k.TakeRounds(ctx, tank, b, take)
}
