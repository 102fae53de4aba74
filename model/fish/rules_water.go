package fish

import (
	"math"

	"example.org/driploop/model/working"
)

// Overlaps below which a shared band is too narrow. // common practice, no source
const (
	narrowTemp = 1.0 // K: a heater holds within 0.5
	narrowPH   = 0.5
	narrowGH   = 2.0 // degrees
	// A set point further outside than this is a no; the ranges are known to 2 K. // judgement
	farTemp = 2.0
	farPH   = 0.5
	farGH   = 4.0
	// From this lowest temperature on a kind is a warm-water one. // common practice, no source
	warmFrom = 22.0
)

// bandRule is a rule on one figure of the water.
type bandRule struct {
	rule               Rule
	apart, narrow, set working.Key
	least, far         float64
	of                 func(*Animal) *[2]float64
	apartIs            func(a, b *kind) Verdict
	now                func(Home) (float64, bool)
}

var bandRules = []bandRule{
	{Temperature, "find.fish.temp_apart", "find.fish.temp_narrow", "find.fish.temp_set", narrowTemp, farTemp, func(a *Animal) *[2]float64 { return &a.temp },
		func(_, _ *kind) Verdict { return No }, func(h Home) (float64, bool) {
			if h.Water.Temperature == nil {
				return 0, false
			}
			return float64(*h.Water.Temperature), true
		}},
	{Acidity, "find.fish.ph_apart", "find.fish.ph_narrow", "find.fish.ph_set", narrowPH, farPH, func(a *Animal) *[2]float64 { return &a.ph },
		func(_, _ *kind) Verdict { return No }, func(h Home) (float64, bool) {
			if h.Water.PH == nil {
				return 0, false
			}
			return float64(*h.Water.PH), true
		}},
	{Hardness, "find.fish.gh_apart", "find.fish.gh_narrow", "find.fish.gh_set", narrowGH, farGH, func(a *Animal) *[2]float64 { return &a.dgh },
		func(a, b *kind) Verdict { // one that lives in nothing else decides
			if (a.traits|b.traits)&(bitSoft|bitHard) != 0 {
				return No
			}
			return Wait
		}, func(h Home) (float64, bool) {
			if h.Water.GH == nil {
				return 0, false
			}
			return float64(*h.Water.GH) / degree, true
		}},
}

// water holds the bands of all against each other (the two that are furthest
// apart are named) and against the water that the tank has.
func (j *judge) water() {
	all := make([]*kind, len(j.kinds))
	for i := range j.kinds {
		all[i] = &j.kinds[i]
	}
	for i := range bandRules {
		r := &bandRules[i]
		j.band(r, all)
		for _, k := range all {
			j.set(r, k)
		}
	}
}

// set holds a kind against a figure of the water that the tank has.
func (j *judge) set(r *bandRule, k *kind) {
	x, ok := r.now(j.home)
	if !ok {
		return
	}
	s := r.of(k.Animal)
	if off := math.Max(s[0]-x, x-s[1]); off > slack {
		v := Wait
		if off > r.far+slack {
			v = No
		}
		j.note(note{rule: r.rule, verdict: v, a: k, says: r.set, x: x})
	}
}

// slack lets through what only rounding puts beyond an end.
const slack = 1e-9

// band finds the overlap of some kinds in one figure.
func (j *judge) band(r *bandRule, kinds []*kind) {
	if len(kinds) < 2 {
		return
	}
	low, high := kinds[0], kinds[0] // the one that wants the most, the one that bears the least
	firm := Steady
	for _, k := range kinds {
		if r.of(k.Animal)[0] > r.of(low.Animal)[0] {
			low = k
		}
		if r.of(k.Animal)[1] < r.of(high.Animal)[1] {
			high = k
		}
	}
	overlap := r.of(high.Animal)[1] - r.of(low.Animal)[0]
	if low == high {
		return
	}
	switch {
	case overlap < -slack:
		// Hardness: some pair that is apart may be firmer than the furthest one.
		firm = r.apartIs(high, low)
		for _, a := range kinds {
			for _, b := range kinds {
				if r.of(b.Animal)[0]-r.of(a.Animal)[1] > slack && r.apartIs(a, b) > firm {
					firm, high, low = r.apartIs(a, b), a, b
				}
			}
		}
		j.note(note{rule: r.rule, verdict: firm, a: high, b: low, says: r.apart, x: r.of(high.Animal)[1], limit: r.of(low.Animal)[0]})
	case overlap < r.least-slack:
		j.note(note{rule: r.rule, verdict: Wait, a: high, b: low, says: r.narrow, x: r.of(low.Animal)[0], limit: r.of(high.Animal)[1]})
	}
}

// salts holds brackish animals against those of fresh water, and cold against warm.
func (j *judge) salts(a, b *kind) {
	if a.has(bitSalt) && !b.has(bitSalt|bitTakesSalt) {
		j.note(note{rule: Salt, verdict: No, a: a, b: b, says: "find.fish.salt"})
	}
	if a.has(bitCold) && b.temp[0] >= warmFrom {
		j.note(note{rule: ColdAndWarm, verdict: No, a: a, b: b, says: "find.fish.cold_warm", x: a.temp[1], limit: b.temp[0]})
	}
}
