package water

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// bands judges the tests that are graded by fixed bands.
// Sources: SRAC 464 for pH 6.5 to 9 in culture; USGS for the classes of
// hardness; OATA for oxygen of 6 mg/L; the other lines are common practice, and
// oxygen 4 mg/L and CO2 are judgement.
func (v *visit) bands() {
	v.ph()
	v.hardness()
	v.temperature()
	v.oxygen()
}

func (v *visit) ph() {
	c, ok := v.got[TestPH]
	if !ok {
		return
	}
	f := working.Finding{}.With("PH", TestPH.value(c.x))
	switch {
	case c.x < 6.0:
		v.grade(f, working.Act, "find.water.ph_low", small, cause, again)
	case c.x > 8.5:
		v.grade(f, working.Act, "find.water.ph_high", small, cause, again)
	case c.x < 6.5:
		v.grade(f, working.Wait, "find.water.ph_low_watch", again)
	case c.x > 8.0:
		v.grade(f, working.Wait, "find.water.ph_high_watch", again)
	default:
		v.grade(f, working.Steady, "find.water.ph_ok")
	}
}

func (v *visit) grade(f working.Finding, s working.State, code working.Key, steps ...step) {
	f.State, f.Code = s, code
	v.say(f, steps...)
}

func (v *visit) hardness() {
	if c, ok := v.got[TestKH]; ok {
		f := working.Finding{}.With("KH", TestKH.value(c.x))
		switch d := c.x / degree; {
		case d < 2:
			v.grade(f, working.Act, "find.water.kh_low", small, cause, again)
		case d < 3:
			v.grade(f, working.Wait, "find.water.kh_watch", again)
		case d > 8:
			v.grade(f, working.Steady, "find.water.kh_high")
		default:
			v.grade(f, working.Steady, "find.water.kh_ok")
		}
	}
	if c, ok := v.got[TestGH]; ok {
		f := working.Finding{}.With("GH", TestGH.value(c.x)).Word("Class", HardnessClass(quantity.Hardness(c.x)))
		switch d := c.x / degree; {
		case d < 2, d > 20:
			v.grade(f, working.Act, "find.water.gh_act", small, cause)
		case d < 4, d > 15:
			v.grade(f, working.Wait, "find.water.gh_watch")
		default:
			v.grade(f, working.Steady, "find.water.gh_ok")
		}
	}
}

// HardnessClass names general hardness: soft to 60, moderate to 120, hard to
// 180, then very hard, in mg/L as CaCO3. Source: USGS classes.
func HardnessClass(gh quantity.Hardness) working.Key {
	switch {
	case gh <= 60:
		return "word.water.soft"
	case gh <= 120:
		return "word.water.moderate"
	case gh <= 180:
		return "word.water.hard"
	}
	return "word.water.very_hard"
}

// temperature judges a tropical community tank.
func (v *visit) temperature() {
	c, ok := v.got[TestTemperature]
	if !ok {
		return
	}
	f := working.Finding{}.With("Temperature", TestTemperature.value(c.x))
	switch {
	case c.x < 20:
		v.grade(f, working.Act, "find.water.cold", heater, again)
	case c.x > 30:
		v.grade(f, working.Act, "find.water.hot", stir, heater, again)
	case c.x < 24:
		v.grade(f, working.Wait, "find.water.cool_watch", heater)
	case c.x > 26:
		v.grade(f, working.Wait, "find.water.warm_watch", heater)
	default:
		v.grade(f, working.Steady, "find.water.temperature_ok")
	}
}

func (v *visit) oxygen() {
	if c, ok := v.got[TestOxygen]; ok {
		f := working.Finding{}.With("Oxygen", TestOxygen.value(c.x))
		switch {
		case c.x < 4:
			v.grade(f, working.Act, "find.water.oxygen_act", stir, stop, cause, again)
		case c.x < 6:
			v.grade(f, working.Wait, "find.water.oxygen_watch", stir, again)
		default:
			v.grade(f, working.Steady, "find.water.oxygen_ok")
		}
	}
	if c, ok := v.got[TestCO2]; ok {
		f := working.Finding{}.With("CO2", TestCO2.value(c.x))
		switch {
		case c.x > 30:
			v.grade(f, working.Act, "find.water.co2_act", stir, cause, again)
		case c.x >= 15:
			v.grade(f, working.Wait, "find.water.co2_watch", again)
		default:
			v.grade(f, working.Steady, "find.water.co2_ok")
		}
	}
}
