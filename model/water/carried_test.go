package water

import (
	"errors"
	"math"
	"testing"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"pgregory.net/rapid"
)

// Worked by hand: 2.5 buckets of 8 L are 20 L; a surface of 0.174 m² that falls by
// 80 mm gives 13.92 L; 13.92 of 48 L are 29 %.
func TestWaterCarriedByHand(t *testing.T) {
	v, tr, err := VolumeByBuckets(2.5, quantity.Litres(8))
	if err != nil || !near(v.Litres(), 20, 1e-12) || !near(tr.Spread.Low.X, 0.019, 1e-9) || !near(tr.Spread.High.X, 0.021, 1e-9) {
		t.Errorf("buckets: %v %+v %v", v, tr, err)
	}
	v, tr, err = VolumeByDrop(0.174, 0.3, 0.08)
	if err != nil || !near(v.Litres(), 13.92, 1e-12) || !near(tr.Spread.High.X-v64(v), 0.174*0.0015, 1e-9) {
		t.Errorf("drop: %v %+v %v", v, tr, err)
	}
	f, _, err := ShareChanged(quantity.Litres(13.92), quantity.Litres(48))
	if err != nil || !near(float64(f), 0.29, 1e-12) {
		t.Errorf("share: %v %v", f, err)
	}
	for _, bad := range []func() error{
		func() error { _, _, err := VolumeByDrop(0.174, 0.3, 0.31); return err }, // into the gravel
		func() error { _, _, err := VolumeByBuckets(quantity.Count(nan), quantity.Litres(8)); return err },
		func() error { _, _, err := VolumeByBuckets(0, quantity.Litres(8)); return err },
		func() error { _, _, err := ShareChanged(quantity.Litres(49), quantity.Litres(48)); return err },
		func() error { _, _, err := SolidsOf(-1, SolidsFactor); return err },
		func() error { _, _, err := TopUp(1, 1, 0.95); return err },
	} {
		var r *working.Refusal
		if err := bad(); !errors.As(err, &r) {
			t.Errorf("taken: %v", err)
		}
	}
}

func v64(v quantity.Volume) float64 { return float64(v) }

// water_change.csv: 40 mg/L, a quarter changed for 5 mg/L, leaves 31.25. By hand,
// with 5 mg/L either way on the tank, 1 on the tap and 2 % on the share: at worst
// (45 + 0.23·(6 − 45)) = 36.03 and (35 + 0.27·(4 − 35)) = 26.63.
func TestPredictedMix(t *testing.T) {
	p, tr, err := Predict(Mixing{Change: Change{Now: 40, Incoming: 5, Fraction: 0.25}, NowOff: 5, IncomingOff: 1, FractionOff: 0.02})
	if err != nil || !near(float64(p.After), 31.25, 1e-12) || !near(float64(p.High), 36.03, 1e-9) || !near(float64(p.Low), 26.63, 1e-9) || !tr.Finite() {
		t.Errorf("%+v %v", p, err)
	}
}

// Mass balance: what is in the tank after a change is what stayed and what came;
// it lies between the two waters, and inside its own range.
func TestMixingKeepsMass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now, in := rapid.Float64Range(0, 1000).Draw(t, "now"), rapid.Float64Range(0, 1000).Draw(t, "in")
		f, v := rapid.Float64Range(0, 1).Draw(t, "f"), rapid.Float64Range(1, 500).Draw(t, "V")
		p, _, err := Predict(Mixing{Change: Change{Now: quantity.Concentration(now), Incoming: quantity.Concentration(in), Fraction: quantity.Ratio(f)},
			NowOff: quantity.Concentration(rapid.Float64Range(0, 10).Draw(t, "off")), FractionOff: 0.03})
		if err != nil {
			t.Fatal(err)
		}
		after := float64(p.After)
		if mass := now*v*(1-f) + in*v*f; math.Abs(after*v-mass) > 1e-9*(1+mass) {
			t.Errorf("%g mg after, %g mg put in", after*v, mass)
		}
		if after < math.Min(now, in)-1e-9 || after > math.Max(now, in)+1e-9 || p.Low > p.After+1e-9 || p.High < p.After-1e-9 || p.Low < 0 {
			t.Errorf("%+v between %g and %g", p, now, in)
		}
	})
}

// Salts do not evaporate: 300 mg/L topped up by 5 % with water of 180 mg/L are
// 309 mg/L, and with pure water 300, however often.
func TestToppingUpKeepsSalts(t *testing.T) {
	c, _, err := TopUp(300, 180, 0.05)
	if err != nil || !near(float64(c), 309, 1e-12) {
		t.Errorf("%v %v", c, err)
	}
	for range 10 {
		if c, _, err = TopUp(c, 0, 0.1); err != nil || !near(float64(c), 309, 1e-12) {
			t.Fatalf("pure water: %v %v", c, err)
		}
	}
	// A tank of V evaporates e·V, then is filled again: the mass is that before and
	// that of the new water.
	rapid.Check(t, func(t *rapid.T) {
		before, in, e := rapid.Float64Range(0, 2000).Draw(t, "before"), rapid.Float64Range(0, 2000).Draw(t, "in"), rapid.Float64Range(0, 0.9).Draw(t, "e")
		c, _, err := TopUp(quantity.Concentration(before), quantity.Concentration(in), quantity.Ratio(e))
		if err != nil {
			t.Fatal(err)
		}
		k, _, err := EvaporationFactor(quantity.Ratio(e))
		if err != nil {
			t.Fatal(err)
		}
		low := before * float64(k) // what is left, in less water
		if got := low*(1-e) + in*e; math.Abs(got-float64(c)) > 1e-9*(1+got) {
			t.Errorf("%v, by the two steps %g", c, got)
		}
	})
}

// water_change.csv and the limits for one change: 25 °C against 15 °C moves the
// tank by 2 K at a fifth; dissolved solids of 1000 against 200 by a fifth at a quarter.
func TestGentleShare(t *testing.T) {
	tds := func(x float64) *quantity.Concentration { c := quantity.Concentration(x); return &c }
	for _, c := range []struct {
		p    WaterPair
		want float64
		held working.Key
	}{
		{WaterPair{Fraction: 0.2, Tank: 25, New: 25}, 0.2, ""},
		{WaterPair{Fraction: 0.9, Tank: 25, New: 25}, 0.3, "q.water.change_size"},
		{WaterPair{Fraction: 0.9, Emergency: true, Tank: 25, New: 25}, 0.5, "q.water.change_size"},
		{WaterPair{Fraction: 0.9, Emergency: true, Tank: 25, New: 15}, 0.2, "q.water.new_gap"},
		{WaterPair{Fraction: 0.5, Emergency: true, Tank: 25, New: 25, TankTDS: tds(1000), NewTDS: tds(200)}, 0.25, "q.water.tds_step"},
	} {
		f, held, tr, err := GentleShare(c.p)
		if err != nil || !near(float64(f), c.want, 1e-9) || held != c.held || !tr.Finite() {
			t.Errorf("%+v: %v by %q, %v", c.p, f, held, err)
		}
	}
	// The share that the pH allows is where the mixture has moved by 0.3.
	p := WaterPair{Fraction: 0.5, Emergency: true, Tank: 25, New: 25, TankPH: &Buffered{6.5, quantity.Hardness(2 * degree)}, NewPH: &Buffered{8, quantity.Hardness(10 * degree)}}
	f, held, _, err := GentleShare(p)
	if err != nil || held != "q.water.ph_step" {
		t.Fatalf("%v by %q, %v", f, held, err)
	}
	m, _, err := MixPH(*p.TankPH, *p.NewPH, f, 25)
	if err != nil || !near(float64(m.PH-6.5), 0.3, 1e-3) {
		t.Errorf("pH %v, %v", m.PH, err)
	}
}

// What passes GentleShare passes GentleChange but for the gap that blending mends.
func TestGentleShareIsGentle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := WaterPair{Fraction: quantity.Ratio(rapid.Float64Range(0, 1).Draw(t, "f")), Emergency: rapid.Bool().Draw(t, "e"), Tank: 25, New: 25}
		a := quantity.Concentration(rapid.Float64Range(20, 2000).Draw(t, "tank"))
		b := quantity.Concentration(rapid.Float64Range(0, 2000).Draw(t, "new"))
		p.TankTDS, p.NewTDS = &a, &b
		f, _, _, err := GentleShare(p)
		if err != nil {
			t.Fatal(err)
		}
		if f > p.Fraction {
			t.Fatalf("%v is more than the %v wanted", f, p.Fraction)
		}
		p.Fraction = f * (1 - 1e-9)
		cs, err := GentleChange(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cs {
			if c.State != working.Steady {
				t.Fatalf("%v of %+v: %+v", f, p, c)
			}
		}
	})
}

// A card that steps by 0.25 mg/L leaves open on which side of 0.2 mg/L of nitrite
// (OATA) a reading of 0.25 lies, and not where one of 0.5 does.
func TestEitherSideOfALine(t *testing.T) {
	step := quantity.Concentration(0.25).Value()
	for _, c := range []struct {
		x    float64
		open bool
	}{{0.25, true}, {0.5, false}, {1.0, true}, {2, false}} {
		v := with(map[Test]float64{TestNitrite: c.x})
		v.Nitrite.Resolution = step
		if got := has(Interpret(v), "find.water.either_side"); got != c.open {
			t.Errorf("nitrite %g: open %v", c.x, got)
		}
		v.Nitrite.Resolution = quantity.Value{}
		if has(Interpret(v), "find.water.either_side") {
			t.Errorf("nitrite %g of a kit that is not known", c.x)
		}
	}
	// At pH 8.0 and 25 °C the harm line lies at TAN 0.932 mg/L (tan_limit.csv).
	for _, c := range []struct {
		x    float64
		open bool
	}{{1, true}, {2, false}} {
		v := with(map[Test]float64{TestAmmonia: c.x, TestPH: 8, TestTemperature: 25})
		v.Ammonia.Resolution = step
		if got := has(Interpret(v), "find.water.either_side"); got != c.open {
			t.Errorf("ammonia %g: open %v", c.x, got)
		}
	}
}

// Beyond the card is at least the last colour, and is never judged as in order.
func TestBeyondTheCard(t *testing.T) {
	for _, x := range AllTests() {
		v := with(map[Test]float64{x: natures[x].high / 100})
		if x == TestPH {
			v.PH.Value.X = 7.6
		}
		if x == TestTemperature {
			v.Temperature.Value.X = 25
		}
		r := v.Of(x)
		r.Beyond = true
		v.set(x, r)
		if fs := Interpret(v); !has(fs, "find.water.beyond") || working.WorstOf(fs) == working.Steady {
			t.Errorf("%s: %v", x, codes(fs))
		}
		r.Value.X = 0
		v.set(x, r)
		if fs := Interpret(v); !has(fs, "find.water.beyond_unknown") || working.WorstOf(fs) == working.Steady {
			t.Errorf("%s of an unknown card: %v", x, codes(fs))
		}
	}
}

// Moves that the record does not explain are pointed out; a change explains them.
func TestDoubts(t *testing.T) {
	later := func(x Test, v float64, days int) Reading {
		r := at(x, v)
		r.At = noon.Add(time.Duration(days) * 24 * time.Hour)
		return r
	}
	for _, c := range []struct {
		what    string
		x       Test
		from    float64
		to      float64
		days    int
		between Between
		want    working.Key
	}{
		{"nitrate halved", TestNitrate, 40, 10, 3, Between{}, "find.water.nitrate_halved"},
		{"nitrate halved by a change", TestNitrate, 40, 20, 3, Between{Changed: 0.5}, ""},
		{"nitrate halved in a month", TestNitrate, 40, 10, 30, Between{}, ""},
		{"KH up by ten degrees", TestKH, 4 * degree, 14 * degree, 1, Between{}, "find.water.jump"},
		{"KH up by one degree", TestKH, 4 * degree, 5 * degree, 1, Between{}, ""},
		// 0.09 mg N/L a day, the first fish of tan_production.csv: four times that is 0.37 mg/L.
		{"ammonia beyond the load", TestAmmonia, 0.1, 1.0, 1, Between{Load: 0.09315}, "find.water.ammonia_beyond_load"},
		{"ammonia within the load", TestAmmonia, 0.1, 0.4, 1, Between{Load: 0.09315}, ""},
		{"ammonia of an unknown load", TestAmmonia, 0.1, 1.0, 1, Between{}, ""},
	} {
		f, ok := Doubt(c.x, at(c.x, c.from), later(c.x, c.to, c.days), c.between)
		if ok != (c.want != "") || f.Code != c.want {
			t.Errorf("%s: %v %v", c.what, ok, f.Code)
		}
	}
}

// A course is told where it matters: nitrite that rises, hardness that falls.
func TestCourses(t *testing.T) {
	series := func(x Test, vs ...float64) []Reading {
		var out []Reading
		for i, v := range vs {
			r := at(x, v)
			r.At = noon.Add(time.Duration(i) * 24 * time.Hour)
			out = append(out, r)
		}
		return out
	}
	for _, c := range []struct {
		x    Test
		vs   []float64
		want working.Key
	}{
		{TestNitrite, []float64{0.1, 0.5, 0.9}, "find.water.rising"}, {TestNitrite, []float64{0.9, 0.5, 0.1}, ""},
		{TestKH, []float64{6 * degree, 5 * degree, 3 * degree}, "find.water.falling"}, {TestPH, []float64{7.2, 7.2, 7.3}, ""},
	} {
		f, ok := Course(c.x, series(c.x, c.vs...))
		if ok != (c.want != "") || f.Code != c.want || ok && f.Values["PerDay"].X <= 0 {
			t.Errorf("%s %v: %v %+v", c.x, c.vs, ok, f)
		}
	}
}

// A conductivity of 500 µS/cm is 320 mg/L at the usual factor of 0.64.
func TestSolidsOfConductivity(t *testing.T) {
	s, tr, err := SolidsOf(500, SolidsFactor)
	if err != nil || !near(float64(s), 320, 1e-12) || !near(tr.Spread.Low.X, 275, 1e-9) || !near(tr.Spread.High.X, 450, 1e-9) {
		t.Errorf("%v %+v %v", s, tr, err)
	}
}
