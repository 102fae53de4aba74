package fish

import (
	"math"

	"example.org/driploop/model/quantity"
)

// Ages of a tank in weeks. // common practice, no source
const (
	week        = 7 * day
	youngTank   = 6 * week
	matureTank  = 12 * week
	delicate    = 2 // hardiness up to which a young tank is too young
	femalesEach = 2 // females a male
	crowded     = 0.60
)

// Shares of the least tank. The trade's sizes round: a tank of 54 L is the one of
// 60. Below that it is tight, and the rules of room and swimming length decide;
// below the second no number of them belongs in it. // judgement, by small danios,
// which leaflets keep from 60 L or from 10 US gallons
const (
	labelTank = 0.9
	tightTank = 0.6
)

// below reports whether a tank is smaller than a share of a kind's least.
func (h Home) below(a *Animal, share quantity.Volume) bool {
	return h.Tank < a.LeastTank*share*(1-slack)
}

// byItself holds what a kind asks of the tank and of its own number.
func (j *judge) byItself(k *kind) {
	if k.has(bitLaw) {
		j.note(note{rule: Law, verdict: Wait, a: k, says: "find.fish.law"})
	}
	switch {
	case j.home.below(k.Animal, tightTank):
		j.note(note{rule: TankSize, verdict: No, a: k, says: "find.fish.tank_small", x: float64(j.home.Tank), limit: float64(k.LeastTank)})
	case j.home.below(k.Animal, labelTank):
		j.note(note{rule: TankSize, verdict: Wait, a: k, says: "find.fish.tank_tight", x: float64(j.home.Tank), limit: float64(k.LeastTank)})
	}
	if k.has(bitSalt) && !j.home.Salted {
		j.note(note{rule: Salt, verdict: Wait, a: k, says: "find.fish.salt_needed"})
	}
	if j.home.Salted && !k.has(bitSalt|bitTakesSalt) {
		j.note(note{rule: Salt, verdict: No, a: k, says: "find.fish.salt_home"})
	}
	if k.count < k.MinGroup {
		j.note(note{rule: GroupSize, verdict: Wait, a: k, says: "find.fish.group", x: float64(k.count), limit: float64(k.MinGroup)})
	}
	if k.has(bitSexRatio) && k.males > 0 {
		if f := k.count - k.males; f > 0 && f < femalesEach*k.males {
			j.note(note{rule: Sexes, verdict: Wait, a: k, says: "find.fish.sex_ratio", x: float64(k.males), limit: float64(f)})
		}
	}
	j.age(k)
}

// age holds a kind against how long the tank has run.
func (j *judge) age(k *kind) {
	n := note{rule: TankAge, verdict: Wait, a: k, says: "find.fish.tank_young"}
	switch {
	case k.has(bitMature):
		n.limit = matureTank
	case k.Hardiness <= delicate:
		n.limit = youngTank
	}
	switch {
	case j.home.Fishless:
		n.says = "find.fish.fishless"
		if !k.planned { // what is only planned can wait
			n.verdict = No
		}
	case n.limit == 0:
		return
	case j.home.Age == nil:
		n.verdict, n.says = Steady, "find.fish.age_unknown"
	case float64(*j.home.Age) >= n.limit:
		return
	default:
		n.x = float64(*j.home.Age)
	}
	j.note(n)
}

// levels tells of a level of the water that holds most of the life.
func (j *judge) levels() {
	if j.quiet || len(j.kinds) < 2 {
		return
	}
	share := map[Zone]float64{}
	all, most := 0.0, &j.kinds[0]
	load := func(k *kind) float64 { return float64(k.count) * math.Pow(k.grams, massExponent) }
	for i := range j.kinds {
		k := &j.kinds[i]
		x := load(k)
		all += x
		if k.Zone == AllOf {
			for _, z := range []Zone{Top, Middle, Bottom} {
				share[z] += x / 3
			}
		} else {
			share[k.Zone] += x
		}
		if k.Zone != AllOf && (most.Zone == AllOf || x > load(most)) {
			most = k
		}
	}
	for _, z := range []Zone{Top, Middle, Bottom} {
		if share[z] > crowded*all {
			for i := range j.kinds {
				if k := &j.kinds[i]; k.Zone == z && (most.Zone != z || load(k) > load(most)) {
					most = k
				}
			}
			if most.Zone == z {
				j.note(note{rule: Levels, verdict: Steady, a: most, says: "find.fish.level", x: share[z] / all, limit: crowded})
			}
		}
	}
}
