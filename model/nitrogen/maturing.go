package nitrogen

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// Duration is what a way costs: days as a range, and what fish meet meanwhile
// in the likely case.
type Duration struct {
	Way     Way                    `json:"way"`
	Low     quantity.Time          `json:"low"`
	Likely  quantity.Time          `json:"likely"`
	High    quantity.Time          `json:"high"`
	Open    bool                   `json:"open"`    // some case was not ready by the end of the look, which High then is
	NH3N    quantity.Concentration `json:"nh3_n"`   // highest un-ionised ammonia, as N
	Nitrite quantity.Concentration `json:"nitrite"` // highest nitrite, as N
	Extra   int                    `json:"extra"`   // water changes that tests called for beyond the weekly one
}

// horizon is how far Maturing looks, d.
const horizon = 150

// The cases whose spread makes the range: growth as measured at its slowest
// (Blackburne et al. 2007) and at the top of what is published for the nitrite
// takers (Sin et al. 2008), and bacteria at the start ten times more or fewer.
// // judgement: nobody counts them
var cases = []struct{ growthA, growthN, seed float64 }{
	{0.78, 0.78, 1}, // the default figures: the likely case
	{0.54, 0.67, 1},
	{1.05, 1.05, 1},
	{0.78, 0.78, 0.1},
	{0.78, 0.78, 10},
}

// seededSpread replaces the factor of ten where filter material was brought:
// it is known better. // judgement
const seededSpread = 3.0

// Maturing returns how long a plan takes until the filter keeps up with its
// load, as a range from the spread of growth and of the bacteria at the start.
// Rule of thumb: trust tests, not days.
//
// With fish, a quarter of the water is changed each week and a third more on a
// day when ammonia or nitrite call for it. Without, ammonia is given again once
// it is used up, and half the water changed when KH gives out. Ready means: a
// full dose is gone in a day, or three days running the day's ammonia turns to
// nitrate with next to nothing left on the way.
func Maturing(p Plan) (Duration, *working.Trail, error) {
	if err := p.accept(); err != nil {
		return Duration{}, nil, err
	}
	d := Duration{Way: p.Way}
	for i, c := range cases {
		f := Defaults()
		f.GrowthA, f.GrowthN = c.growthA, c.growthN
		m, err := follow(p, f, c.seed)
		if err != nil {
			return Duration{}, nil, err
		}
		at := quantity.Time(m.days) * secondsADay
		if i == 0 {
			d.Low, d.Likely, d.High = at, at, at
			d.NH3N, d.Nitrite, d.Extra = quantity.Concentration(m.worstNH3), quantity.Concentration(m.worstNitrite), m.extra
		}
		d.Low, d.High, d.Open = min(d.Low, at), max(d.High, at), d.Open || !m.ready
	}
	t := working.New("ask.nitrogen.maturing").As(working.RuleOfThumb).
		Given("T", "q.nitrogen.temperature", p.Temperature.Value()).
		Given("P", "q.nitrogen.production", p.Load.Value()).
		Constant("X_0", "q.nitrogen.eaters_a", p.start(Defaults()).State.EatersA.Value(), working.Ours).
		Constant("Z_0", "q.nitrogen.eaters_n", p.start(Defaults()).State.EatersN.Value(), working.Ours).
		Step("t", "q.nitrogen.days", "A < 0.25 mg/L, NO2 < 0.25 mg/L", d.Likely.Value(), srcHiatt).
		Between(d.Low.Value(), d.High.Value(), "assume.nitrogen.bacteria_unknown").
		Cites(srcSin, srcBlackburn, srcVannecke, srcHenze, srcStart).
		Assume("assume.nitrogen.tests_decide", "assume.nitrogen.no_plants")
	return d, t, nil
}

// Compare returns the durations of all ways for one tank, in the order of Ways.
func Compare(p Plan) ([]Duration, error) {
	var out []Duration
	for _, w := range Ways() {
		p.Way = w
		d, _, err := Maturing(p)
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}

// Below these a kit shows nothing, mg/L: total ammonia as nitrogen, nitrite as
// the ion. // common practice, no source
const (
	clearAmmonia = 0.25
	clearNitrite = 0.25
	// With fish, a matured filter leaves this much nitrite, mg/L as the ion, and
	// turns this share of the day's ammonia into nitrate. // judgement
	keptNitrite = 0.5
	keptShare   = 0.8
)

// course is what following a plan day by day found.
type course struct {
	days                   float64
	ready                  bool
	worstNH3, worstNitrite float64 // mg N/L
	extra                  int
}

// keeper looks after the tank of a plan day by day, as a person with a test kit does.
type keeper struct {
	tank
	plan      Plan
	perN      float64 // nitrite ion a nitrogen
	sinceDose int     // days, fishless
	steady    int     // days in a row with all ammonia turned to nitrate
	course
}

func follow(p Plan, f Params, seed float64) (course, error) {
	s := p.start(f)
	if p.Way == Seeded {
		seed = math.Pow(seed, math.Log(seededSpread)/math.Log(10))
	}
	s.State.EatersA *= quantity.Concentration(seed)
	s.State.EatersN *= quantity.Concentration(seed)
	perN, _ := quantity.Nitrite.IonPerN()
	k := keeper{tank: tank{p: f, y: s.State.vector()}, plan: p, perN: perN}
	warmth, air, oxygen := p.Temperature, quantity.Concentration(usualCO2), quantity.Concentration(usualOxygen)
	err := first(s.Production.apply(&k.tank), Setting{Temperature: &warmth, CO2: &air, Oxygen: &oxygen}.apply(&k.tank))
	if err != nil {
		return course{}, err
	}
	for d := 1; d <= horizon; d++ {
		nitrate := k.y[2]
		if err := k.advance(1); err != nil {
			return course{}, err
		}
		k.days = float64(d)
		k.worstNH3 = max(k.worstNH3, k.freeAmmonia(k.y[0], k.y[5]))
		k.worstNitrite = max(k.worstNitrite, k.y[1])
		if k.isReady(k.y[2] - nitrate) {
			k.ready = true
			break
		}
		if err := k.tend(d); err != nil {
			return course{}, err
		}
	}
	return k.course, nil
}

// clear reports that neither ammonia nor nitrite shows on a kit.
func (k *keeper) clear() bool { return k.y[0] < clearAmmonia && k.y[1]*k.perN < clearNitrite }

func (k *keeper) isReady(nitrateFormed float64) bool {
	if k.plan.Way == Fishless {
		return k.clear() && k.sinceDose == 0 && k.days > 1
	}
	if k.y[0] < clearAmmonia && k.y[1]*k.perN < keptNitrite && nitrateFormed >= keptShare*k.production {
		k.steady++
	} else {
		k.steady = 0
	}
	return k.steady >= 3
}

// tend does what the day's test calls for.
func (k *keeper) tend(d int) error {
	if k.plan.Way == Fishless {
		k.sinceDose++
		if k.y[0] < clearAmmonia && (k.sinceDose >= doseEvery || k.clear()) {
			k.sinceDose = 0
			if err := (Dose{furtherDose, FromChloride}).apply(&k.tank); err != nil {
				return err
			}
		}
		if k.y[5]*perEquivalent < float64(lowKH) {
			return k.change(0.5)
		}
		return nil
	}
	switch {
	case k.freeAmmonia(k.y[0], k.y[5]) > float64(water.HarmNH3N), k.y[1]*k.perN > 1.0:
		k.extra++
		return k.change(0.3)
	case d%weekly == 0:
		return k.change(weeklyShare)
	}
	return nil
}

func (k *keeper) change(f quantity.Ratio) error { return Change{f, k.plan.Tap}.apply(&k.tank) }
