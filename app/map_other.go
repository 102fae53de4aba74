//go:build !unix

package main

import "example.org/driploop/screens/nav"

// answerMap does nothing where there is no signal to ask by.
func answerMap(Env, func() nav.Route, func([]string)) {}
