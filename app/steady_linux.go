package main

import (
	"time"

	"golang.org/x/sys/unix"
)

// steady reads the clock that counts from the start of the system, sleep included,
// and that nobody sets. Source: clock_gettime(2), CLOCK_BOOTTIME. Where the system
// has none it is Go's own, which stands still while the machine sleeps.
func steady() time.Duration { return readClock(unix.CLOCK_BOOTTIME) }
