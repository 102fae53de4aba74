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
	of   int // its place among those given
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
	return seen{at: at, zero: nothing(a) && nothing(n)}, true
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

// Gate is whether tests let animals in at a moment.
type Gate struct {
	Open bool      `json:"open"`
	From time.Time `json:"from"` // the earliest moment at which it may be open
	// Rests are the visits that it rests on, by their place among those given: the
	// two that open it, or the one that shuts it or waits for a second.
	Rests   []int           `json:"rests,omitempty"`
	Says    working.Key     `json:"says"` // the code of Finding
	Finding working.Finding `json:"-"`    // what lacks, or that nothing does
}

// GateOf says whether tests let animals in at a moment: the last visits with both
// tests saw nothing, two of them a day apart, the later one fresh. Visits after
// the moment, and those with a test or its time missing, do not count.
func GateOf(tests []water.Tests, at time.Time) Gate {
	var list []seen
	for i, v := range tests {
		if s, ok := bothOf(v); ok && !s.at.After(at) {
			s.of = i
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(x, y seen) int { return x.at.Compare(y.at) })
	shut := func(says working.Key, from time.Time, rests ...int) Gate {
		return Gate{From: from, Rests: rests, Says: says, Finding: working.Find(working.Wait, says)}
	}
	if len(list) == 0 {
		return shut("find.fish.gate_untested", at.Add(testsApart))
	}
	last := list[len(list)-1]
	if !last.zero {
		return shut("find.fish.gate_not_zero", at.Add(testsApart), last.of)
	}
	if at.Sub(last.at) > testsFresh {
		return shut("find.fish.gate_old", at.Add(testsApart), last.of)
	}
	// Back through what was zero ever since.
	for i := len(list) - 2; i >= 0 && list[i].zero; i-- {
		if last.at.Sub(list[i].at) >= testsApart {
			return Gate{Open: true, From: at, Rests: []int{list[i].of, last.of}, Says: "find.fish.gate_open", Finding: working.Find(working.Steady, "find.fish.gate_open")}
		}
	}
	from := last.at.Add(testsApart)
	if from.Before(at) {
		from = at
	}
	return shut("find.fish.gate_once", from, last.of)
}
