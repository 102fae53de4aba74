package fish

import (
	"slices"
	"time"

	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

const (
	// Two tests stand for a filter that keeps up if they are so far apart. //
	// common practice: 24 h, an hour given away
	testsApart = 23 * time.Hour
	// Older tests say nothing on today. // judgement
	testsFresh = 3 * 24 * time.Hour
)

// seen is a visit with both tests.
type seen struct {
	at   time.Time
	zero bool
}

// bothOf reads a visit: false where one of the two tests or its time is missing.
func bothOf(v water.Tests) (seen, bool) {
	a, n := v.Ammonia, v.Nitrite
	if !reads(water.TestAmmonia, a) || !reads(water.TestNitrite, n) {
		return seen{}, false
	}
	at := a.At
	if n.At.After(at) {
		at = n.At
	}
	return seen{at, nothing(a) && nothing(n)}, true
}

// reads reports whether a reading can be judged here: also one beyond the card,
// which is not zero whatever it is.
func reads(x water.Test, r water.Reading) bool {
	return r.Known() && !r.At.IsZero() && (r.Beyond || x.Accept(r) == nil)
}

// nothing reports whether a kit saw nothing: zero, or less than it can show.
func nothing(r water.Reading) bool {
	return !r.Beyond && (r.Value.X == 0 || r.Resolution.Known() && r.Resolution.X > 0 && r.Value.X < r.Resolution.X)
}

// gate says whether tests let animals in at a moment: the last two visits with
// both tests saw nothing, a day apart, the later one fresh. The finding says what
// lacks, or that nothing does; from is the earliest moment at which it may be open.
func gate(tests []water.Tests, at time.Time) (open bool, from time.Time, f working.Finding) {
	var list []seen
	for _, v := range tests {
		if s, ok := bothOf(v); ok && !s.at.After(at) {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(x, y seen) int { return x.at.Compare(y.at) })
	if len(list) == 0 {
		return false, at.Add(testsApart), working.Find(working.Wait, "find.fish.gate_untested")
	}
	last := list[len(list)-1]
	if !last.zero {
		return false, at.Add(testsApart), working.Find(working.Wait, "find.fish.gate_not_zero")
	}
	if at.Sub(last.at) > testsFresh {
		return false, at.Add(testsApart), working.Find(working.Wait, "find.fish.gate_old")
	}
	// Back through what was zero ever since.
	for i := len(list) - 2; i >= 0 && list[i].zero; i-- {
		if last.at.Sub(list[i].at) >= testsApart {
			return true, at, working.Find(working.Steady, "find.fish.gate_open")
		}
	}
	from = last.at.Add(testsApart)
	if from.Before(at) {
		from = at
	}
	return false, from, working.Find(working.Wait, "find.fish.gate_once")
}
