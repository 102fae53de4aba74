package main

import (
	"context"
	"fmt"
)

// runSnapshot copies the database into the folder of snapshots and prints where.
func runSnapshot(c *call) int {
	ctx := context.Background()
	k, code := c.open(ctx, false)
	if k == nil {
		return code
	}
	path, err := k.Snapshot(ctx)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	fmt.Fprintln(c.stdout, path)
	return c.closed(k, exitDone)
}
