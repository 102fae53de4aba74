package main

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/paper"
)

// runPaper writes a paper of a tank as a PDF file.
func runPaper(c *call) int {
	var kinds []string
	for _, k := range paper.Kinds() {
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
	ctx := context.Background()
	k, code := c.open(ctx, false)
	if k == nil {
		return code
	}
	tank, ok, err := c.tank(ctx, k)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	if !ok {
		return c.closed(k, c.refuse("err.verb.no_tank", nil))
	}
	var b bytes.Buffer
	if err = paper.Write(ctx, paper.Kind(c.rest[0]), k, tank.ID, c.presenter(), size, &b); err == nil {
		err = durable.WriteFile(c.rest[1], b.Bytes(), 0o644)
	}
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	fmt.Fprintln(c.stdout, c.rest[1])
	return c.closed(k, exitDone)
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
