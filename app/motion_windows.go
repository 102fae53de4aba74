package main

import (
	"syscall"
	"time"
)

// processorTime is what the program has used of the processor, all its threads.
func processorTime() time.Duration {
	var made, ended, kernel, user syscall.Filetime
	self, err := syscall.GetCurrentProcess()
	if err != nil || syscall.GetProcessTimes(self, &made, &ended, &kernel, &user) != nil {
		return 0
	}
	// A span in units of 100 ns, not a date.
	span := func(f syscall.Filetime) time.Duration {
		return time.Duration(int64(f.HighDateTime)<<32|int64(f.LowDateTime)) * 100
	}
	return span(kernel) + span(user)
}
