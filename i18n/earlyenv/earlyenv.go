// Package earlyenv gives the process a locale with a language before any other
// package reads it. A system set to C or POSIX has none, and the toolkit logs
// that as an error while it is being initialised, before main runs.
//
// Contract: it imports nothing but os, so that Go initialises it early; a
// program imports it for its effect alone. It replaces by "en.UTF-8" those of
// LC_ALL, LC_MESSAGES and LANG that are C, POSIX or C.UTF-8, and sets LANG when
// none is left that says anything. A locale with a language is never touched.
// The replacement names no region: units and dates stay the neutral ones.
package earlyenv

import "os"

const neutral = "en.UTF-8"

func init() { Settle(os.Getenv, os.Setenv) }

// Settle does the work of the package on the environment that get and set reach.
// An error of set is left alone: a locale that cannot be set is only a log line.
func Settle(get func(string) string, set func(string, string) error) {
	said := false
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		switch v := get(name); v {
		case "":
		case "C", "POSIX", "C.UTF-8", "C.utf8":
			_ = set(name, neutral)
			said = true
		default:
			said = true
		}
	}
	if !said {
		_ = set("LANG", neutral)
	}
}
