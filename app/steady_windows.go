package main

import (
	"time"

	"golang.org/x/sys/windows"
)

// steady counts from the start of the system, sleep included. Source: GetTickCount64.
func steady() time.Duration { return windows.DurationSinceBoot() }
