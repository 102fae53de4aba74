package water

import (
	"math"
	"sort"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Direction is where a series of readings goes.
type Direction string

// The directions. Flat is also a move smaller than the kit can see.
const (
	Rising  Direction = "rising"
	Falling Direction = "falling"
	Flat    Direction = "flat"
)

// Trend is the course of a series of readings of one test.
type Trend struct {
	Direction Direction      `json:"direction"`
	PerDay    quantity.Value `json:"per_day"` // change a day, of the test's kind; a difference for temperature
	Readings  int            `json:"readings"`
}

// TrendOf returns the trend of the readings of a test: the median of the slopes
// between all pairs, which one odd reading cannot turn. Readings that are
// missing, unreadable or without a time are left out; it refuses fewer than
// three. Ammonia counts as nitrogen, nitrite and nitrate as the ion.
// Source: Theil 1950, Sen 1968 (from memory).
func TrendOf(x Test, readings []Reading) (Trend, error) {
	type point struct {
		at time.Time
		c  canonical
	}
	var ps []point
	for _, r := range readings {
		if c, err := x.canonical(r); err == nil && !r.At.IsZero() {
			ps = append(ps, point{r.At, c})
		}
	}
	sort.SliceStable(ps, func(i, j int) bool { return ps[i].at.Before(ps[j].at) })
	var slopes []float64
	var span float64
	var least, most canonical
	for i, a := range ps {
		if i == 0 || a.c.x < least.x {
			least = a.c
		}
		if i == 0 || a.c.x > most.x {
			most = a.c
		}
		for _, b := range ps[i+1:] {
			if days := b.at.Sub(a.at).Hours() / 24; days > 0 {
				slopes = append(slopes, (b.c.x-a.c.x)/days)
				span = max(span, days)
			}
		}
	}
	if len(ps) < 3 || len(slopes) == 0 {
		return Trend{}, working.Refuse(string(x), "refuse.water.few_readings")
	}
	sort.Float64s(slopes)
	m := (slopes[(len(slopes)-1)/2] + slopes[len(slopes)/2]) / 2
	_, above := least.room()
	below, _ := most.room()
	kit := below + above + 1e-9 // that far apart both may show the same water
	t := Trend{Direction: Flat, PerDay: x.change(m), Readings: len(ps)}
	switch {
	case !quantity.Finite(m):
		return Trend{}, working.Refuse(string(x), "refuse.not_a_number")
	case m*span > kit:
		t.Direction = Rising
	case m*span < -kit:
		t.Direction = Falling
	}
	return t, nil
}

// change is a difference of a test's readings as a value.
func (x Test) change(d float64) quantity.Value {
	if x == TestTemperature {
		return quantity.TemperatureDifference(d).Value()
	}
	return x.value(d)
}

// fastest is the most that a test can move in a tank within a day with no water
// change, in the unit it is judged in. // judgement, wide on purpose
var fastest = map[Test]float64{
	TestAmmonia:     3,
	TestNitrite:     10,
	TestNitrate:     25,
	TestPH:          1.5,
	TestKH:          6 * degree,
	TestGH:          6 * degree,
	TestTemperature: 8,
	TestOxygen:      8,
}

// Between is what happened between two readings of a test.
type Between struct {
	Changed quantity.Ratio `json:"changed"` // share of the water changed; allows for any move
	Load    quantity.Rate  `json:"load"`    // ammonia nitrogen that the feeding brings; 0 is not known
}

// How far ammonia may outrun what the feeding brings before the test is doubted:
// food left lying and a dead fish bring several times as much. // judgement
const loadMargin = 4

// Doubt reports a move between two readings of a test that the record does not
// explain: one that Jump reports; nitrate that fell by half and more with no
// water changed; ammonia that rose by more than the feeding can bring. Readings
// that cannot be judged, or have no time, never do.
func Doubt(x Test, earlier, later Reading, b Between) (working.Finding, bool) {
	jump, jumped := Jump(x, earlier, later, b.Changed)
	a, err1 := x.canonical(earlier)
	z, err2 := x.canonical(later)
	if err1 != nil || err2 != nil || earlier.At.IsZero() || !later.At.After(earlier.At) || b.Changed > 0 || a.beyond || z.beyond {
		return jump, jumped
	}
	say := func(code working.Key) (working.Finding, bool) {
		return x.tellMove(working.Find(working.Wait, code), a, z), true
	}
	days := later.At.Sub(earlier.At).Hours() / 24
	switch {
	case x == TestNitrate && a.detected && z.x+z.above <= (a.x-a.below)/2 && a.x-z.x > 2*math.Max(a.limit, z.limit) && days <= halvedWithin:
		return say("find.water.nitrate_halved")
	case x == TestAmmonia && b.Load > 0 && z.detected:
		most := float64(b.Load) * math.Max(1, days) * loadMargin
		if surely(a, z) > most {
			f, _ := say("find.water.ammonia_beyond_load")
			f = f.With("Most", x.value(most))
			for name := range f.Values { // the message does not say it
				f = f.On(name, x.JudgedBasis())
			}
			return f, true
		}
	}
	return jump, jumped
}

// halvedWithin is how many days plants would need to take up half of the nitrate
// at least. // judgement
const halvedWithin = 7

// Course says where the readings of a test go when that matters: what harms and
// rises, what holds the pH and falls. It reports false for a flat course, and
// where TrendOf refuses.
func Course(x Test, readings []Reading) (working.Finding, bool) {
	t, err := TrendOf(x, readings)
	if err != nil {
		return working.Finding{}, false
	}
	up := t.Direction == Rising && (x == TestAmmonia || x == TestNitrite || x == TestNitrate || x == TestTDS || x == TestPhosphate || x == TestGH)
	down := t.Direction == Falling && (x == TestPH || x == TestKH || x == TestOxygen)
	rate, of := t.PerDay, canonical{basis: sharedBasis(readings)}
	say := func(s working.State, code working.Key) working.Finding {
		return x.tell(working.Find(s, code).Word("Test", x.Name()), "PerDay", of, rate.X)
	}
	switch {
	case up && (x == TestAmmonia || x == TestNitrite):
		return say(working.Wait, "find.water.rising"), true
	case up:
		return say(working.Steady, "find.water.rising"), true
	case down:
		rate.X = -rate.X
		return say(working.Wait, "find.water.falling"), true
	}
	return working.Finding{}, false
}

// sharedBasis is the basis of readings that have one and the same.
func sharedBasis(readings []Reading) quantity.Basis {
	for _, r := range readings {
		if r.Basis != readings[0].Basis {
			return quantity.BasisNone
		}
	}
	if len(readings) == 0 {
		return quantity.BasisNone
	}
	return readings[0].Basis
}

// Jump reports a change between two readings of a test that a tank can hardly
// make, so that the test was more likely misread: a finding and true. changed is
// the share of water changed in between, which allows for any move. Readings
// that cannot be judged, or have no time, never jump.
func Jump(x Test, earlier, later Reading, changed quantity.Ratio) (working.Finding, bool) {
	limit, ok := fastest[x]
	a, err1 := x.canonical(earlier)
	b, err2 := x.canonical(later)
	if !ok || err1 != nil || err2 != nil || earlier.At.IsZero() || later.At.IsZero() || !later.At.After(earlier.At) || !(changed <= 0) {
		return working.Finding{}, false
	}
	days := math.Max(1, later.At.Sub(earlier.At).Hours()/24)
	if math.Abs(surely(a, b)) <= limit*days {
		return working.Finding{}, false
	}
	return x.tellMove(working.Find(working.Wait, "find.water.jump").Word("Test", x.Name()), a, b), true
}
