// Command driploop leads from an empty box to the first aquarium and keeps its
// daybook: a window for people, and verbs without one.
package main

import (
	"os"
	_ "time/tzdata" // civil times hold where the machine knows no zones

	_ "example.org/driploop/i18n/earlyenv" // before the toolkit reads the locale
)

func main() {
	args := os.Args[1:]
	if code, handled := Run(args, os.Stdin, os.Stdout, os.Stderr, HostEnv()); handled {
		os.Exit(code)
	}
	o, _ := parse(args) // sound, or Run had handled it
	os.Exit(runWindow(o, HostEnv()))
}
