//go:build !linux && !darwin && !windows

package main

import "time"

// steady is Go's own clock.
func steady() time.Duration { return time.Since(began) }
