//go:build unix

package main

import (
	"os"
	"os/signal"
	"syscall"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/nav"
)

// answerMap writes the map of the windows whenever the process gets SIGUSR1, if
// mapVariable names a file. where tells where one is.
func answerMap(env Env, where func() nav.Route) {
	path := env.Getenv(mapVariable)
	if path == "" {
		return
	}
	asked := make(chan os.Signal, 1)
	signal.Notify(asked, syscall.SIGUSR1)
	go func() {
		for range asked {
			fyne.Do(func() { mapNow(path, where) })
		}
	}()
}
