package water

import (
	"math"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

const (
	// Colour kits read within a quarter either way. // common practice, no source
	kitSpread = 0.25
	// What pH and temperature may have done since another hour. // judgement
	otherHourPH   = 0.2
	otherHourTemp = 1.0
	// Total ammonia of a mature tank, mg/L as N. // common practice, no source
	matureWatch = 0.25
	matureAct   = 0.5
)

// ammonia judges NH3 where pH and temperature allow it, and total ammonia of a
// mature tank besides.
func (v *visit) ammonia() {
	c, ok := v.got[TestAmmonia]
	if !ok {
		return
	}
	band, known := v.nh3(c.x)
	switch {
	case !c.detected:
		v.ammoniaUnseen(c)
		return
	case known:
		v.judgeNH3(c, band)
	default:
		v.say(working.Find(working.Wait, "find.water.nh3_needs_ph").With("TAN", TestAmmonia.value(c.x)), again)
	}
	before, okBefore := v.before(TestAmmonia)
	rising := okBefore && before.detected && c.x > before.x*(1+kitSpread) && c.x-before.x >= c.limit && (!c.told() || surely(before, c) > 0)
	tan := TestAmmonia.value(c.x)
	switch {
	case (v.Mature || !known) && c.x > matureAct, v.Mature && c.x >= matureWatch && rising:
		v.say(working.Find(working.Act, "find.water.tan_act").With("TAN", tan), stop, change, cause, again)
	case v.Mature && c.x >= matureWatch:
		v.say(working.Find(working.Wait, "find.water.tan_watch").With("TAN", tan), lessFood, again)
	}
}

// ammoniaUnseen says so when a kit saw nothing, and warns where even what it
// cannot see might harm.
func (v *visit) ammoniaUnseen(c canonical) {
	v.notDetected(TestAmmonia, c)
	if b, ok := v.nh3(c.limit); ok && b.likely > float64(HarmNH3N) {
		v.say(working.Find(working.Wait, "find.water.kit_coarse").With("Limit", TestAmmonia.value(c.limit)))
	}
}

// nh3Band is un-ionised ammonia, mg/L as nitrogen.
type nh3Band struct {
	low, likely, high float64
	sameHour          bool
}

// nh3 returns the band for a total ammonia, when pH and temperature are known
// and lie where the equation holds.
func (v *visit) nh3(tan float64) (nh3Band, bool) {
	ph, ok1 := v.got[TestPH]
	t, ok2 := v.got[TestTemperature]
	if !ok1 || !ok2 {
		return nh3Band{}, false
	}
	b := nh3Band{sameHour: sameHour(v.Ammonia.At, v.PH.At) && sameHour(v.Ammonia.At, v.Temperature.At)}
	dp, dt := 0.0, 0.0
	if !b.sameHour {
		dp, dt = otherHourPH, otherHourTemp
	}
	at := func(p, k float64) (float64, bool) {
		// The widened ends stay where the equation holds.
		f, _, err := AmmoniaFraction(quantity.Temperature(math.Max(0, math.Min(50, t.x+k))), quantity.PH(ph.x+p))
		return float64(f) * tan, err == nil
	}
	likely, ok := at(0, 0)
	if !ok {
		return nh3Band{}, false
	}
	b.likely = likely
	low, okLow := at(-dp, -dt)
	high, okHigh := at(dp, dt)
	if !okLow {
		low = 0
	}
	if !okHigh {
		high = tan
	}
	b.low, b.high = low*(1-kitSpread), math.Min(tan, high)*(1+kitSpread)
	if c := v.got[TestAmmonia]; c.told() && tan > 0 { // a coarse card is worse than a quarter either way
		b.low, b.high = math.Min(b.low, low*math.Max(0, 1-c.below/tan)), math.Max(b.high, math.Min(tan, high)*(1+c.above/tan))
	}
	return b, true
}

// sameHour reports whether both times are known and within an hour.
func sameHour(a, b time.Time) bool {
	return !a.IsZero() && !b.IsZero() && a.Sub(b).Abs() <= time.Hour
}

func (v *visit) judgeNH3(c canonical, b nh3Band) {
	perN, _ := quantity.Ammonia.IonPerN()
	as := func(n float64) quantity.Value { return quantity.Concentration(n).Value() } // as the chart and the line of one's own
	emergency := EmergencyNH3
	if v.Emergency != 0 {
		if AcceptEmergency(v.Emergency) == nil {
			emergency = v.Emergency
		} else {
			v.say(working.Find(working.Wait, "find.water.emergency_line").With("Line", as(float64(EmergencyNH3))).On("Line", quantity.AsN))
		}
	}
	judged := b.likely
	if !b.sameHour {
		judged = b.high
		v.say(working.Find(working.Steady, "find.water.other_hour"))
	}
	f := working.Finding{}.On("NH3", quantity.AsN).With("NH3", as(b.likely)).With("Low", as(b.low)).With("High", as(b.high)).With("TAN", TestAmmonia.value(c.x))
	switch {
	case judged > float64(emergency):
		f.Code, f.State = "find.water.nh3_emergency", working.Act
		v.emergency = true
		v.say(f, stop, change, cause, again)
	case judged > float64(HarmNH3N):
		f.Code, f.State = "find.water.nh3_act", working.Act
		v.say(f, stop, change, cause, again)
	case judged*perN > float64(TargetNH3):
		f.Code, f.State = "find.water.nh3_watch", working.Wait
		v.say(f, lessFood, again)
	default:
		f.Code, f.State = "find.water.nh3_ok", working.Steady
		v.say(f)
	}
}
