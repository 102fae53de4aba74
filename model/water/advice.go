package water

import "example.org/driploop/model/working"

// step is one piece of advice. Their order is the order in which to follow
// them: what helps the fish within minutes, then stop feeding, change water and
// find the cause.
type step uint8

const (
	stir        step = iota // move the surface
	conditioner             // treat chlorine by the conditioner's own label
	stop                    // stop feeding
	lessFood                // feed less
	change                  // change water now
	routine                 // change water in the usual round, a little more
	small                   // change pH and hardness in small steps only
	heater                  // look at the heater and what warms or cools
	cause                   // find the cause
	again                   // test again
	stepCount
)

// advice lists the steps that the findings called for, each once.
func (v *visit) advice() []working.Finding {
	s := working.WorstOf(v.found)
	if v.steps[stop] { // the stronger step stands for the weaker one
		v.steps[lessFood] = false
	}
	if v.steps[change] {
		v.steps[routine] = false
	}
	var out []working.Finding
	for i := range stepCount {
		if v.steps[i] {
			out = append(out, v.adviseOn(i, s))
		}
	}
	return out
}

func (v *visit) adviseOn(i step, s working.State) working.Finding {
	switch i {
	case stir:
		return working.Find(s, "find.water.do.stir")
	case conditioner:
		return working.Find(s, "find.water.do.conditioner")
	case stop:
		return working.Find(s, "find.water.do.stop_feeding")
	case lessFood:
		return working.Find(s, "find.water.do.less_food")
	case change:
		f := routineFraction
		if v.emergency {
			f = emergencyFraction
		}
		return working.Find(s, "find.water.do.change_share").With("Share", f.Value())
	case routine:
		return working.Find(s, "find.water.do.routine").With("Share", routineFraction.Value())
	case small:
		return working.Find(s, "find.water.do.small_steps")
	case heater:
		return working.Find(s, "find.water.do.heater")
	case cause:
		return working.Find(s, "find.water.do.find_cause")
	}
	return working.Find(s, "find.water.do.test_again")
}
