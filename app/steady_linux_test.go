package main

import (
	"os"
	"strconv"
	"strings"
	"testing"
	"time"
)

// The clock that waits are counted by is that of the system's own uptime, which holds
// its sleep: it reads between two looks at it. Source: proc_uptime(5), in hundredths
// of a second.
func TestSteadyIsTheUptime(t *testing.T) {
	uptime := func() time.Duration {
		t.Helper()
		b, err := os.ReadFile("/proc/uptime")
		if err != nil {
			t.Fatal(err)
		}
		first, _, _ := strings.Cut(string(b), " ")
		s, err := strconv.ParseFloat(first, 64)
		if err != nil {
			t.Fatal(err)
		}
		return time.Duration(s * float64(time.Second)).Round(10 * time.Millisecond)
	}
	for range 3 {
		before := uptime()
		read := steady()
		after := uptime()
		if read < before || read > after+10*time.Millisecond {
			t.Errorf("it reads %v between uptimes of %v and %v", read, before, after)
		}
	}
}
