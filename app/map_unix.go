//go:build unix

package main

import (
	"os"
	"os/signal"
	"strings"
	"syscall"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/nav"
)

// answerMap writes the map of the windows whenever the process gets SIGUSR1, if
// mapVariable names a file. where tells where one is. Paths in a file beside the
// map that ends in dropEnding are dropped on the window first, one a line: no
// tool can do that from outside.
func answerMap(env Env, where func() nav.Route, drop func(paths []string)) {
	path := env.Getenv(mapVariable)
	if path == "" {
		return
	}
	asked := make(chan os.Signal, 1)
	signal.Notify(asked, syscall.SIGUSR1)
	go func() {
		for range asked {
			fyne.Do(func() {
				if raw, err := os.ReadFile(path + dropEnding); err == nil && os.Remove(path+dropEnding) == nil {
					drop(strings.Fields(string(raw)))
				}
				mapNow(path, where)
			})
		}
	}()
}
