package water

import (
	"math"
	"slices"
	"testing"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"pgregory.net/rapid"
)

var noon = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

func at(x Test, v float64) Reading {
	r := Reading{Value: quantity.Value{Kind: x.Kind(), X: v}, At: noon}
	switch x {
	case TestAmmonia:
		r.Basis = quantity.AsN
	case TestNitrite, TestNitrate:
		r.Basis = quantity.AsIon
	}
	return r
}

// with makes a visit of a few readings taken together.
func with(readings map[Test]float64) Tests {
	var t Tests
	for x, v := range readings {
		t.set(x, at(x, v))
	}
	return t
}

func (t *Tests) set(x Test, r Reading) {
	p := map[Test]*Reading{TestAmmonia: &t.Ammonia, TestNitrite: &t.Nitrite, TestNitrate: &t.Nitrate, TestPH: &t.PH, TestKH: &t.KH, TestGH: &t.GH,
		TestTemperature: &t.Temperature, TestOxygen: &t.Oxygen, TestChlorine: &t.Chlorine, TestCO2: &t.CO2, TestPhosphate: &t.Phosphate, TestTDS: &t.TDS}[x]
	*p = r
}

func codes(fs []working.Finding) []working.Key {
	var out []working.Key
	for _, f := range fs {
		out = append(out, f.Code)
	}
	return out
}

func has(fs []working.Finding, k working.Key) bool { return slices.Contains(codes(fs), k) }

// TestThresholds walks each row of the table of thresholds across its lines.
func TestThresholds(t *testing.T) {
	type step struct {
		x    float64
		want working.State
	}
	const ok, watch, act = working.Steady, working.Wait, working.Act
	single := map[string]struct {
		test  Test
		unit  float64
		steps []step
	}{
		"nitrite NO2-":         {TestNitrite, 1, []step{{0.2, ok}, {0.21, watch}, {1.0, watch}, {1.01, act}}},
		"nitrate NO3-":         {TestNitrate, 1, []step{{40, ok}, {41, watch}, {80, watch}, {101, act}}},
		"pH":                   {TestPH, 1, []step{{5.9, act}, {6.0, watch}, {6.4, watch}, {6.5, ok}, {8.0, ok}, {8.1, watch}, {8.5, watch}, {8.6, act}}},
		"KH":                   {TestKH, degree, []step{{1.9, act}, {2, watch}, {2.9, watch}, {3, ok}, {8, ok}}},
		"GH":                   {TestGH, degree, []step{{1.9, act}, {2, watch}, {3.9, watch}, {4, ok}, {15, ok}, {15.1, watch}, {20, watch}, {20.1, act}}},
		"temperature tropical": {TestTemperature, 1, []step{{19.9, act}, {22, watch}, {23.9, watch}, {24, ok}, {26, ok}, {26.1, watch}, {28, watch}, {30.1, act}}},
		"dissolved oxygen":     {TestOxygen, 1, []step{{3.9, act}, {4, watch}, {5.9, watch}, {6, ok}}},
		"CO2":                  {TestCO2, 1, []step{{14.9, ok}, {15, watch}, {30, watch}, {30.1, act}}},
	}
	checked := 0
	for _, r := range table(t, "thresholds.csv", 12) {
		name := r.cell["parameter"]
		check := func(what string, got, want working.State) {
			if got != want {
				t.Errorf("%s:%d (%s) %s: want %s, got %s", r.file, r.line, r.cell["source"], what, want, got)
			}
		}
		if c, found := single[name]; found {
			checked++
			for _, s := range c.steps {
				v := with(map[Test]float64{c.test: s.x * c.unit})
				check(name, working.WorstOf(Interpret(v)), s.want)
			}
			continue
		}
		switch name {
		case "total ammonia (TAN) via NH3":
			// At pH 8.0 and 25 °C the limits are TAN of 0.307, 0.932 and 3.727 mg/L (tan_limit.csv).
			for _, s := range []step{{0.30, ok}, {0.32, watch}, {0.92, watch}, {0.94, act}, {3.75, act}} {
				fs := Interpret(with(map[Test]float64{TestAmmonia: s.x, TestPH: 8, TestTemperature: 25}))
				check(name, fs[0].State, s.want)
				if (s.x > 3.727) != has(fs, "find.water.nh3_emergency") {
					t.Errorf("TAN %g: %v", s.x, codes(fs))
				}
			}
		case "total ammonia in mature tank (any pH)":
			for _, s := range []step{{0.2, ok}, {0.25, watch}, {0.5, watch}, {0.51, act}} {
				v := with(map[Test]float64{TestAmmonia: s.x, TestPH: 7, TestTemperature: 25})
				v.Mature = true
				check(name, working.WorstOf(Interpret(v)), s.want)
			}
			v := with(map[Test]float64{TestAmmonia: 0.4, TestPH: 7, TestTemperature: 25})
			v.Mature = true
			earlier := with(map[Test]float64{TestAmmonia: 0.2})
			v.Earlier = &earlier
			check(name+", rising", working.WorstOf(Interpret(v)), act)
		case "chlorine total":
			for _, s := range []step{{0, ok}, {0.019, watch}, {0.02, act}} {
				v := with(map[Test]float64{TestChlorine: s.x})
				v.Chlorine.Resolution = quantity.Concentration(0.01).Value()
				check(name, working.WorstOf(Interpret(v)), s.want)
			}
		case "TDS change at one water change":
			for _, s := range []step{{200, ok}, {201, watch}, {300, watch}, {301, act}} { // of 1000, by a whole change
				tank, fresh := quantity.Concentration(1000), quantity.Concentration(1000+s.x)
				cs, err := GentleChange(WaterPair{Fraction: 1, Tank: 25, New: 25, TankTDS: &tank, NewTDS: &fresh})
				if err != nil {
					t.Fatal(err)
				}
				for _, c := range cs {
					if c.Name == "q.water.tds_step" {
						check(name, c.State, s.want)
					}
				}
			}
		default:
			t.Fatalf("%s:%d: no check for %q", r.file, r.line, name)
		}
		checked++
	}
	if checked != 12 {
		t.Errorf("%d rows checked, want 12", checked)
	}
}

func TestDailyChange(t *testing.T) {
	for _, c := range []struct {
		x          Test
		then, now  float64
		hours      int
		resolution float64
		want       working.State
		code       working.Key
	}{
		{TestPH, 7.0, 7.3, 24, 0.1, working.Steady, ""},
		{TestPH, 7.0, 7.4, 24, 0.1, working.Wait, "find.water.ph_fast"},
		{TestPH, 7.6, 7.0, 24, 0.1, working.Act, "find.water.ph_fast"},
		{TestPH, 7.6, 7.0, 48, 0.1, working.Steady, ""}, // 0.3 a day
		{TestPH, 7.6, 7.0, 24, 0.6, working.Steady, ""}, // within one step of the kit
		{TestPH, 7.6, 7.0, 100, 0.1, working.Steady, ""},
		{TestTemperature, 24, 26, 24, 0.1, working.Steady, ""},
		{TestTemperature, 26, 24, 2, 0.1, working.Steady, ""},
		{TestTemperature, 24, 26.0, 1, 0.1, working.Steady, ""},
		{TestTemperature, 23.5, 25.6, 6, 0.1, working.Act, "find.water.temperature_fast"},
	} {
		v, earlier := with(map[Test]float64{c.x: c.now}), with(map[Test]float64{c.x: c.then})
		r, e := v.Of(c.x), earlier.Of(c.x)
		r.Resolution = quantity.Value{Kind: c.x.Kind(), X: c.resolution}
		e.At = noon.Add(-time.Duration(c.hours) * time.Hour)
		v.set(c.x, r)
		earlier.set(c.x, e)
		v.Earlier = &earlier
		fs := Interpret(v)
		if got := working.WorstOf(fs); got != c.want || c.code != "" && !has(fs, c.code) {
			t.Errorf("%s %g to %g in %d h: want %s %s, got %s %v", c.x, c.then, c.now, c.hours, c.want, c.code, got, codes(fs))
		}
	}
}

// TestOrderOfAdvice: stop feeding, then change water, then find the cause;
// readings first, what is missing last.
// A line of a person's own moves the emergency and nothing else: at pH 8.0 and
// 25 °C, TAN of 1.9 and 3.727 mg/L hold about 0.10 and 0.20 mg/L (tan_limit.csv).
func TestEmergencyLine(t *testing.T) {
	for _, c := range []struct {
		line quantity.Concentration
		tan  float64
		want working.Key
	}{
		{0, 1.9, "find.water.nh3_act"}, {0.1, 1.9, "find.water.nh3_emergency"}, {0.1, 1.8, "find.water.nh3_act"},
		{0.4, 3.8, "find.water.nh3_act"}, {0.4, 7.6, "find.water.nh3_emergency"},
	} {
		v := with(map[Test]float64{TestAmmonia: c.tan, TestPH: 8, TestTemperature: 25})
		v.Emergency = c.line
		if fs := Interpret(v); fs[0].Code != c.want {
			t.Errorf("line %g, TAN %g: expected %s, got %v", c.line, c.tan, c.want, codes(fs))
		}
	}
	for _, bad := range []quantity.Concentration{0.04, 0.6, -1, quantity.Concentration(math.NaN())} {
		v := with(map[Test]float64{TestAmmonia: 3.8, TestPH: 8, TestTemperature: 25})
		v.Emergency = bad
		if fs := Interpret(v); AcceptEmergency(bad) == nil || !has(fs, "find.water.emergency_line") || !has(fs, "find.water.nh3_emergency") {
			t.Errorf("line %g: %v", bad, codes(fs))
		}
	}
}

func TestOrderOfAdvice(t *testing.T) {
	fs := Interpret(with(map[Test]float64{TestAmmonia: 5, TestNitrite: 2, TestPH: 8, TestTemperature: 25, TestNitrate: 20}))
	order := []working.Key{"find.water.nh3_emergency", "find.water.do.stop_feeding", "find.water.do.change_share", "find.water.do.find_cause", "find.water.do.test_again"}
	last := -1
	for _, k := range order {
		i := slices.Index(codes(fs), k)
		if i <= last {
			t.Fatalf("%s stands at %d in %v", k, i, codes(fs))
		}
		last = i
	}
	if has(fs, "find.water.do.less_food") || has(fs, "find.water.do.routine") {
		t.Errorf("the stronger advice stands for the weaker: %v", codes(fs))
	}
	for _, f := range fs {
		if f.Code == "find.water.do.change_share" && f.Values["Share"].X != 0.5 {
			t.Errorf("an emergency asks for half, got %v", f.Values)
		}
	}
	if fs := Interpret(with(map[Test]float64{TestOxygen: 3})); slices.Index(codes(fs), "find.water.do.stir") > slices.Index(codes(fs), "find.water.do.stop_feeding") {
		t.Errorf("without oxygen the surface comes first: %v", codes(fs))
	}
	gasp := Interpret(Tests{Gasping: true, Nitrite: at(TestNitrite, 0.15)})
	if !has(gasp, "find.water.gasping") || !has(gasp, "find.water.nitrite_act") || working.WorstOf(gasp) != working.Act {
		t.Errorf("gasping with any nitrite: %v", codes(gasp))
	}
}

// TestMissingIsNotZero and neither is "not detected".
func TestMissingIsNotZero(t *testing.T) {
	none := Interpret(Tests{})
	for _, f := range none {
		if f.Code != "find.water.not_measured" || f.State != working.Steady {
			t.Errorf("no readings give %+v", f)
		}
	}
	if len(none) != 4 {
		t.Errorf("%d of the four main tests are called not measured", len(none))
	}
	zero := Interpret(with(map[Test]float64{TestAmmonia: 0, TestNitrite: 0, TestPH: 7, TestTemperature: 25}))
	n := 0
	for _, f := range zero {
		if f.Code == "find.water.not_detected" {
			n++
			if f.Values["Limit"].X <= 0 {
				t.Errorf("not detected, with no limit: %+v", f)
			}
		}
		if f.Code == "find.water.nh3_ok" || f.Code == "find.water.nitrite_ok" {
			t.Errorf("a kit that shows nothing does not show zero: %+v", f)
		}
	}
	if n != 2 {
		t.Errorf("%d readings not detected, want 2: %v", n, codes(zero))
	}
	// What a coarse kit cannot see may harm at a high pH: 1.0 mg N/L at pH 8.5.
	v := with(map[Test]float64{TestAmmonia: 0, TestPH: 8.5, TestTemperature: 26})
	v.Ammonia.Resolution = quantity.Concentration(1).Value()
	if fs := Interpret(v); !has(fs, "find.water.kit_coarse") {
		t.Errorf("a coarse kit at pH 8.5: %v", codes(fs))
	}
	alone := Interpret(with(map[Test]float64{TestAmmonia: 0.4}))
	if !has(alone, "find.water.nh3_needs_ph") || has(alone, "find.water.nh3_ok") {
		t.Errorf("ammonia alone: %v", codes(alone))
	}
	if high := Interpret(with(map[Test]float64{TestAmmonia: 2})); !has(high, "find.water.tan_act") {
		t.Errorf("much ammonia alone: %v", codes(high))
	}
	// Nitrite of 0.1 as nitrogen is 0.33 as the ion: the basis decides.
	asN := with(map[Test]float64{TestNitrite: 0.1})
	if asN.Nitrite.Basis = quantity.AsN; working.WorstOf(Interpret(asN)) != working.Wait {
		t.Error("0.1 mg/L nitrite as nitrogen is to be watched")
	}
	if asN.Nitrite.Basis = ""; !has(Interpret(asN), "find.water.basis_missing") {
		t.Error("nitrite without a basis was judged")
	}
	bad := with(map[Test]float64{TestPH: 70})
	bad.KH = at(TestPH, 7)
	fs := Interpret(bad)
	if fs[0].Code != "find.water.unreadable" || fs[1].Code != "find.water.unreadable" || has(fs, "find.water.ph_high") {
		t.Errorf("a pH of 70 and a KH in pH: %v", codes(fs))
	}
}

// TestOtherHour: with pH of another hour the band is wider and its high end judged.
func TestOtherHour(t *testing.T) {
	v := with(map[Test]float64{TestAmmonia: 0.30, TestPH: 8, TestTemperature: 25})
	same := Interpret(v)
	v.PH.At = noon.Add(-3 * time.Hour)
	other := Interpret(v)
	if same[0].State != working.Steady || other[0].State != working.Wait || !has(other, "find.water.other_hour") || has(same, "find.water.other_hour") {
		t.Errorf("same hour %v, another %v", codes(same), codes(other))
	}
	if !(other[0].Values["High"].X > same[0].Values["High"].X && other[0].Values["Low"].X < same[0].Values["Low"].X) {
		t.Errorf("the band is no wider: %v, %v", same[0].Values, other[0].Values)
	}
}

func TestLimitsNameTheirSources(t *testing.T) {
	for _, x := range AllTests() {
		if len(x.Sources()) == 0 || x.Name() == "" {
			t.Errorf("%s: no source or no name", x)
		}
		for _, id := range x.Sources() {
			if _, ok := working.LookUp(id); !ok {
				t.Errorf("%s: %q is not registered", x, id)
			}
		}
	}
}

// TestNitrateInContext: over 80 mg/L twice is sustained; more than 50
// above the tap (OATA) is named as such.
func TestNitrateInContext(t *testing.T) {
	for _, c := range []struct {
		now, before, tap float64
		want             working.Key
	}{
		{90, 0, 45, "find.water.nitrate_watch"}, {90, 79, 45, "find.water.nitrate_watch"}, {90, 81, 45, "find.water.nitrate_act"}, {79, 90, 45, "find.water.nitrate_watch"},
		{54, 0, 3, "find.water.nitrate_above_tap"}, {53, 0, 3, "find.water.nitrate_watch"}, {101, 0, 90, "find.water.nitrate_act"}, {40, 0, 3, "find.water.nitrate_ok"},
	} {
		v, e := with(map[Test]float64{TestNitrate: c.now}), with(map[Test]float64{TestNitrate: c.before})
		v.Earlier, v.TapNitrate = &e, at(TestNitrate, c.tap)
		if fs := Interpret(v); !has(fs, c.want) {
			t.Errorf("nitrate %g after %g, tap %g: want %s, got %v", c.now, c.before, c.tap, c.want, codes(fs))
		}
	}
}

// TestKitBand: a colour kit reads within a quarter either way (common practice, no source).
func TestKitBand(t *testing.T) {
	f := Interpret(with(map[Test]float64{TestAmmonia: 1, TestPH: 8, TestTemperature: 25}))[0]
	for name, k := range map[string]float64{"Low": 0.75, "High": 1.25} {
		if got := f.Values[name].X / f.Values["NH3"].X; !near(got, k, 1e-9) {
			t.Errorf("%s is %g of the likely figure, want %g", name, got, k)
		}
	}
}

// TestHardnessClasses: USGS classes at 60, 120 and 180 mg/L.
func TestHardnessClasses(t *testing.T) {
	for _, c := range []struct {
		gh   quantity.Hardness
		want working.Key
	}{{0, "word.water.soft"}, {60, "word.water.soft"}, {61, "word.water.moderate"}, {120, "word.water.moderate"}, {121, "word.water.hard"}, {180, "word.water.hard"}, {181, "word.water.very_hard"}} {
		if got := HardnessClass(c.gh); got != c.want {
			t.Errorf("USGS, %g mg/L: want %s, got %s", c.gh, c.want, got)
		}
	}
}

func drawTests(t *rapid.T) Tests {
	var v Tests
	for _, x := range AllTests() {
		if rapid.Bool().Draw(t, string(x)) {
			n := natures[x]
			r := at(x, rapid.OneOf(rapid.Float64Range(n.low, n.high), rapid.Float64(), rapid.SampledFrom([]float64{0, nan, math.Inf(1), -1})).Draw(t, "value"))
			r.Basis = rapid.SampledFrom([]quantity.Basis{"", quantity.AsN, quantity.AsIon}).Draw(t, "basis")
			if rapid.Bool().Draw(t, "res") {
				r.Resolution = quantity.Value{Kind: n.kind, X: rapid.SampledFrom([]float64{0, 0.25, 1, nan, -1}).Draw(t, "resolution")}
			}
			r.Beyond = rapid.IntRange(0, 3).Draw(t, "beyond") == 0
			r.At = rapid.SampledFrom([]time.Time{{}, noon, noon.Add(2 * time.Hour), noon.Add(-30 * time.Hour)}).Draw(t, "at")
			v.set(x, r)
		}
	}
	v.Mature, v.Gasping = rapid.Bool().Draw(t, "mature"), rapid.Bool().Draw(t, "gasping")
	v.TapNitrate = at(TestNitrate, rapid.Float64Range(0, 50).Draw(t, "tap"))
	return v
}

// TestInterpretAnything: no reading, however odd, breaks it; no number that is
// none leaves it; its messages have their placeholders filled.
func TestInterpretAnything(t *testing.T) {
	say := messages(t, "en", "water")
	rapid.Check(t, func(t *rapid.T) {
		v := drawTests(t)
		if rapid.Bool().Draw(t, "earlier") {
			e := drawTests(t)
			v.Earlier = &e
		}
		fs := Interpret(v)
		for _, f := range fs {
			filled(t, say, f)
		}
		again := Interpret(v)
		if !slices.Equal(codes(fs), codes(again)) {
			t.Fatalf("the same readings are judged %v and %v", codes(fs), codes(again))
		}
	})
}

// TestWorseReadingsAreNoMilder: more ammonia, nitrite or nitrate never improves the verdict.
func TestWorseReadingsAreNoMilder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SampledFrom([]Test{TestAmmonia, TestNitrite, TestNitrate}).Draw(t, "test")
		v := with(map[Test]float64{TestPH: rapid.Float64Range(6, 8.5).Draw(t, "ph"), TestTemperature: 25})
		v.Mature = rapid.Bool().Draw(t, "mature")
		a := rapid.Float64Range(0.3, 20).Draw(t, "a")
		b := a * rapid.Float64Range(1, 5).Draw(t, "k")
		v.set(x, at(x, a))
		low := working.WorstOf(Interpret(v))
		v.set(x, at(x, b))
		if high := working.WorstOf(Interpret(v)); high < low {
			t.Fatalf("%s %g is %s, %g is %s", x, a, low, b, high)
		}
	})
}

func TestTrend(t *testing.T) {
	var rs []Reading
	for i := range 6 {
		r := at(TestNitrate, 10+5*float64(i))
		r.At = noon.AddDate(0, 0, i)
		rs = append(rs, r)
	}
	rs[3].Value.X = 90 // one odd reading
	rs = append(rs, Reading{}, at(TestPH, 7))
	tr, err := TrendOf(TestNitrate, rs)
	if err != nil || tr.Direction != Rising || !near(tr.PerDay.X, 5, 1e-9) || tr.Readings != 6 {
		t.Errorf("five a day with one odd reading: %+v %v", tr, err)
	}
	slices.Reverse(rs) // order does not matter
	if again, _ := TrendOf(TestNitrate, rs); again != tr {
		t.Errorf("in another order %+v", again)
	}
	for i := range rs {
		rs[i].Value.X = 20
	}
	if tr, _ := TrendOf(TestNitrate, rs); tr.Direction != Flat {
		t.Errorf("a steady series: %+v", tr)
	}
	_, err = TrendOf(TestNitrate, rs[:2])
	refused(t, "nitrate", nil, err)
	_, err = TrendOf("colour", rs)
	refused(t, "colour", nil, err)
}

func TestJump(t *testing.T) {
	later := func(x Test, v float64, hours int) Reading {
		r := at(x, v)
		r.At = noon.Add(time.Duration(hours) * time.Hour)
		return r
	}
	for _, c := range []struct {
		x       Test
		a, b    float64
		hours   int
		changed quantity.Ratio
		want    bool
	}{
		{TestPH, 7, 7.5, 24, 0, false}, {TestPH, 6, 9, 24, 0, true}, {TestPH, 6, 9, 24, 0.5, false}, {TestNitrate, 80, 5, 12, 0, true},
		{TestNitrate, 10, 20, 12, 0, false}, {TestTemperature, 25, 52, 1, 0, false}, {TestTemperature, 25, 40, 1, 0, true}, {TestGH, 5 * degree, 20 * degree, 24, 0, true},
		{TestAmmonia, 0, 20, 48, 0, true}, {TestOxygen, 8, 1, 1, 0, false},
	} {
		f, got := Jump(c.x, at(c.x, c.a), later(c.x, c.b, c.hours), c.changed)
		if got != c.want {
			t.Errorf("%s %g to %g in %d h, %g changed: want %v", c.x, c.a, c.b, c.hours, c.changed, c.want)
		}
		if got {
			filled(t, messages(t, "en", "water"), f)
		}
	}
}

func BenchmarkInterpret(b *testing.B) {
	v := with(map[Test]float64{TestAmmonia: 1, TestNitrite: 0.5, TestNitrate: 50, TestPH: 7.8, TestKH: 5 * degree, TestGH: 8 * degree, TestTemperature: 25, TestChlorine: 0, TestOxygen: 7, TestCO2: 5})
	e := with(map[Test]float64{TestAmmonia: 0.5, TestPH: 7.4, TestTemperature: 24})
	v.Earlier = &e
	b.ReportAllocs()
	for b.Loop() {
		Interpret(v)
	}
}
