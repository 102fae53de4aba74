package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/intake"
	"example.org/driploop/model/keeper"
)

// runCSV writes the daybook of a tank as a table, or takes a table.
func runCSV(c *call) int {
	dates, asked := c.value[flagDates]
	switch {
	case asked && dates != string(intake.DayFirst) && dates != string(intake.MonthFirst):
		return c.refuse("err.verb.csv_dates", i18n.Args{"Word": dates})
	case len(c.rest) == 2 && c.rest[0] == wordTake:
		return c.takeCSV(c.rest[1], intake.Order(dates))
	case len(c.rest) == 1 && c.rest[0] != wordTake && !asked && c.value[flagReport] == "":
		return c.put(c.rest[0], func(ctx context.Context, k *keeper.Keeper, tank string, w io.Writer) error {
			return k.WriteCSV(ctx, tank, w)
		})
	}
	return c.refuse("err.verb.csv", nil)
}

func (c *call) takeCSV(path string, order intake.Order) int {
	ctx := context.Background()
	k, tank, code := c.openTank(ctx)
	if k == nil {
		return code
	}
	p := c.presenter()
	sheet, err := k.OpenCSV(path)
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	hints := p.Hints(c.env.Now())
	plan := sheet.Guess(hints)
	if order != "" {
		plan.Order = order
	} else if doubt := p.Doubt(sheet, plan); doubt != "" {
		fmt.Fprintln(c.stderr, doubt)
	}
	for _, line := range p.Columns(sheet, plan) {
		fmt.Fprintln(c.stdout, line)
	}
	did, err := k.TakeCSV(ctx, tank.ID, sheet, plan, hints)
	if len(did.Rows) > 0 {
		said := p.Table
		if err == nil {
			said = p.TableDone
		}
		for _, line := range said(did) {
			fmt.Fprintln(c.stdout, line)
		}
		for _, r := range did.Rows {
			if r.State == keeper.RowRefused {
				fmt.Fprintln(c.stdout, indent+strings.TrimSpace(p.Row(r)))
			}
		}
	}
	if report := c.value[flagReport]; report != "" && len(did.Rows) > 0 {
		var b bytes.Buffer
		werr := p.WriteReport(&b, did)
		if werr == nil {
			werr = durable.WriteFile(report, b.Bytes(), 0o644)
		}
		if werr != nil {
			return c.closed(k, c.failed(werr))
		}
	}
	if err != nil {
		return c.closed(k, c.refused(err))
	}
	return c.closed(k, exitDone)
}
