//go:build !linux

package keeper

const childTask = "DRIPLOOP_TEST_FULL"

// fullChild is a child of drills that run on Linux.
func fullChild(string) {}
