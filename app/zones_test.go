package main

import (
	"slices"
	"testing"
)

// The program carries the zones of the world, for machines that have none.
func TestZonesAreCarried(t *testing.T) {
	for _, p := range own(t) {
		if p.short() == "app" {
			if !slices.Contains(p.Deps, "time/tzdata") {
				t.Error("app does not carry time/tzdata")
			}
			return
		}
	}
	t.Error("no package app")
}
