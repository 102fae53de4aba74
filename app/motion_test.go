package main

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// However dear a step is, the motion takes its share at most, once that is known;
// a cheap step comes at the full pace.
func TestMotionKeepsItsShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cost := time.Duration(rapid.Int64Range(0, int64(90*time.Millisecond)).Draw(t, "cost"))
		var p pace
		for range 30 {
			p.note(cost)
		}
		rest := p.rest()
		if share := float64(cost) / float64(rest); share > mostShare*1.02 {
			t.Fatalf("steps of %v every %v take %.1f %%", cost, rest, 100*share)
		}
		if cost < 9*time.Millisecond && rest != moveEvery {
			t.Fatalf("steps of %v come every %v", cost, rest)
		}
		if d := drift(rest); d > mostStep || d > rest {
			t.Fatalf("the fish drift %v in %v", d, rest)
		}
	})
}

func TestProcessorTimeGrows(t *testing.T) {
	before := processorTime()
	for n := 0; processorTime() == before; n++ {
		if n > 50_000_000 {
			t.Fatal("it stands still")
		}
	}
	if processorTime() < before {
		t.Error("it runs back")
	}
}
