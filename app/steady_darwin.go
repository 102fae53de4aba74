package main

import (
	"time"

	"golang.org/x/sys/unix"
)

// steady reads the clock that goes on while the machine sleeps and that no change of
// the time moves. Source: clock_gettime(3), CLOCK_MONOTONIC_RAW.
func steady() time.Duration { return readClock(unix.CLOCK_MONOTONIC_RAW) }
