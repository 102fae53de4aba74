package water

import (
	"errors"
	"sort"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Interpret judges the readings of one visit and says what to do. The findings
// come gravest first; then, where something is wrong, the advice in the order
// in which to follow it: what helps the fish now, stop feeding, change water,
// find the cause, test again. What was not measured is said last, and is never
// taken for zero. A reading below what the kit shows is "not detected".
//
// Ammonia is judged as NH3, from total ammonia with the pH and temperature of
// the same hour; of another hour, the band is widened and its high end judged.
// A reading that cannot be judged gives a finding of its own.
func Interpret(t Tests) []working.Finding {
	v := visit{Tests: t, got: map[Test]canonical{}}
	v.read()
	v.ammonia()
	v.nitrite()
	v.nitrate()
	v.bands()
	v.chlorine()
	v.told()
	v.edges()
	v.fast()
	if t.Gasping {
		v.say(working.Find(working.Act, "find.water.gasping"), stir, change, cause)
	}
	sort.SliceStable(v.found, func(i, j int) bool { return v.found[i].State > v.found[j].State })
	return append(append(v.found, v.advice()...), v.missing...)
}

// visit gathers findings and the advice that they call for.
type visit struct {
	Tests
	got       map[Test]canonical
	found     []working.Finding
	missing   []working.Finding
	steps     [stepCount]bool
	emergency bool
}

func (v *visit) say(f working.Finding, steps ...step) {
	v.found = append(v.found, f)
	for _, s := range steps {
		v.steps[s] = true
	}
}

// read takes in every reading that can be judged.
func (v *visit) read() {
	for _, x := range AllTests() {
		c, err := x.canonical(v.Of(x))
		var r *working.Refusal
		switch {
		case err == nil:
			v.got[x] = c
		case !v.Of(x).Known():
			if x == TestAmmonia || x == TestNitrite || x == TestPH || x == TestTemperature {
				v.missing = append(v.missing, working.Find(working.Steady, "find.water.not_measured").Word("Test", x.Name()))
			}
		case v.Of(x).Beyond && errors.As(err, &r) && r.Code == "refuse.water.beyond":
			v.say(working.Find(beyondState(x), "find.water.beyond_unknown").Word("Test", x.Name()), again)
		case errors.As(err, &r) && r.Code == "refuse.water.basis":
			v.say(working.Find(working.Wait, "find.water.basis_missing").Word("Test", x.Name()))
		default:
			v.say(working.Find(working.Wait, "find.water.unreadable").Word("Test", x.Name()))
		}
	}
}

// told says what has no line of its own: phosphate and dissolved solids are
// watched over time and against the tap.
func (v *visit) told() {
	for _, x := range []Test{TestPhosphate, TestTDS} {
		c, ok := v.got[x]
		switch {
		case !ok:
		case !c.detected:
			v.notDetected(x, c)
		case x == TestPhosphate:
			v.say(working.Find(working.Steady, "find.water.phosphate_told").With("Phosphate", x.value(c.x)))
		default:
			v.say(working.Find(working.Steady, "find.water.tds_told").With("TDS", x.value(c.x)))
		}
	}
}

// notDetected says that a kit saw nothing, and how little it can see.
func (v *visit) notDetected(x Test, c canonical) {
	v.say(x.tell(working.Find(working.Steady, "find.water.not_detected").Word("Test", x.Name()), "Limit", c, c.limit))
}

// nitrite is judged as the ion: up to 0.2 mg/L in order (OATA), over 1.0 act.
// The upper line is judgement. With gasping fish any nitrite calls to act.
func (v *visit) nitrite() {
	c, ok := v.got[TestNitrite]
	switch {
	case !ok:
	case !c.detected:
		v.notDetected(TestNitrite, c)
	case c.x > 1.0, v.Gasping:
		v.say(TestNitrite.tell(working.Find(working.Act, "find.water.nitrite_act"), "Nitrite", c, c.x), stop, change, cause, again)
	case c.x > 0.2:
		v.say(TestNitrite.tell(working.Find(working.Wait, "find.water.nitrite_watch"), "Nitrite", c, c.x), lessFood, again)
	default:
		v.say(TestNitrite.tell(working.Find(working.Steady, "find.water.nitrite_ok"), "Nitrite", c, c.x))
	}
}

// nitrate is judged as the ion: up to 40 mg/L and 50 above the tap (OATA) in
// order, to 80 watch, over 100 or twice over 80 act. Camargo et al. 2005 find
// harm to sensitive species from 44 mg/L over a long time.
func (v *visit) nitrate() {
	c, ok := v.got[TestNitrate]
	if !ok {
		return
	}
	say := func(s working.State, code working.Key) working.Finding {
		return TestNitrate.tell(working.Find(s, code), "Nitrate", c, c.x)
	}
	tap, errTap := TestNitrate.canonical(v.TapNitrate)
	before, okBefore := v.before(TestNitrate)
	switch {
	case !c.detected:
		v.notDetected(TestNitrate, c)
	case c.x > 100, c.x > 80 && okBefore && before.x > 80:
		v.say(say(working.Act, "find.water.nitrate_act"), change, cause, again)
	case errTap == nil && c.x > tap.x+50:
		v.say(TestNitrate.tell(say(working.Wait, "find.water.nitrate_above_tap"), "Tap", c, tap.x), routine)
	case c.x > 40:
		v.say(say(working.Wait, "find.water.nitrate_watch"), routine)
	default:
		v.say(say(working.Steady, "find.water.nitrate_ok"))
	}
}

// chlorine: none is in order, any is to be watched, 0.02 mg/L and more harms
// (US EPA 440/5-84-030 and WEF). Most kits cannot see so little.
func (v *visit) chlorine() {
	c, ok := v.got[TestChlorine]
	switch {
	case !ok:
	case !c.detected && c.limit > float64(ChlorineAct):
		v.say(working.Find(working.Steady, "find.water.chlorine_unseen").With("Limit", TestChlorine.value(c.limit)))
	case !c.detected:
		v.notDetected(TestChlorine, c)
	case c.x >= float64(ChlorineAct):
		v.say(working.Find(working.Act, "find.water.chlorine_act").With("Chlorine", TestChlorine.value(c.x)), conditioner, cause, again)
	default:
		v.say(working.Find(working.Wait, "find.water.chlorine_watch").With("Chlorine", TestChlorine.value(c.x)), conditioner, again)
	}
}

// before returns the earlier visit's reading of a test.
func (v *visit) before(x Test) (canonical, bool) {
	if v.Earlier == nil {
		return canonical{}, false
	}
	c, err := x.canonical(v.Earlier.Of(x))
	return c, err == nil
}

// fast judges how far pH and temperature moved since the visit before, a day
// counting as the shortest time. Lines: 0.3 and 0.5 pH, 2 K a day. // common practice, no source
func (v *visit) fast() {
	for _, x := range []Test{TestPH, TestTemperature} {
		now, ok := v.got[x]
		then, ok2 := v.before(x)
		days, ok3 := v.daysSince(x)
		if !ok || !ok2 || !ok3 {
			continue
		}
		moved := now.x - then.x
		if moved < 0 {
			moved = -moved
		}
		perDay := moved / days
		if surely(then, now) == 0 || !then.told() && moved <= now.limit+1e-9 { // within one step of the kit is no move
			continue
		}
		switch {
		case x == TestPH && perDay > 0.5:
			v.say(working.Find(working.Act, "find.water.ph_fast").With("Change", quantity.PH(moved).Value()), small, cause, again)
		case x == TestPH && perDay > 0.3:
			v.say(working.Find(working.Wait, "find.water.ph_fast").With("Change", quantity.PH(moved).Value()), again)
		case x == TestTemperature && perDay > 2:
			v.say(working.Find(working.Act, "find.water.temperature_fast").With("Change", quantity.TemperatureDifference(moved).Value()), heater, cause)
		}
	}
}

// daysSince returns the days between the two readings of a test, at least one;
// false when a time is not known, is out of order or is over three days.
func (v *visit) daysSince(x Test) (float64, bool) {
	if v.Earlier == nil {
		return 0, false
	}
	a, b := v.Earlier.Of(x).At, v.Of(x).At
	if a.IsZero() || b.IsZero() || !b.After(a) || b.Sub(a) > 72*time.Hour {
		return 0, false
	}
	return max(1, b.Sub(a).Hours()/24), true
}
