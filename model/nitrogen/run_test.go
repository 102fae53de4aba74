package nitrogen

import (
	"errors"
	"math"
	"testing"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
	"pgregory.net/rapid"
)

// TestNitrogenIsConserved: three doses of run A sum to 12 mg N/L just before
// the change on day 42 (reference sheet, section 6), to 1e-9.
func TestNitrogenIsConserved(t *testing.T) {
	p := Plan{Fishless, 26, 0.09315, tapOfReference}
	s, evs, err := p.Schedule(Defaults(), 42*days)
	if err != nil {
		t.Fatal(err)
	}
	r, _, err := Run(Defaults(), s, evs, 42*days, days)
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, x := range r.Samples {
		if x.At == 42*days && x.Phase == Before {
			found++
			if got := float64(x.State.Nitrogen()); math.Abs(got-12) > 1e-9 {
				t.Errorf("run A, day 42 before the change: nitrogen %.15g, want 12", got)
			}
		}
	}
	if found != 1 {
		t.Fatalf("day 42 sampled %d times before its change, want once", found)
	}
}

// TestRunC: run B with seed from a mature filter settles in about two weeks and
// stays far below run B (reference sheet, section 6).
func TestRunC(t *testing.T) {
	run := func(w Way) Result {
		p := Plan{w, 25, 0.09315, tapOfReference}
		s, evs, err := p.Schedule(Defaults(), 42*days)
		if err != nil {
			t.Fatal(err)
		}
		r, _, err := Run(Defaults(), s, evs, 42*days, days/2)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	peak := func(r Result, of func(State) quantity.Concentration) (most float64) {
		for _, x := range r.Samples {
			most = max(most, float64(of(x.State)))
		}
		return most
	}
	nitrite := func(s State) quantity.Concentration { return s.Nitrite }
	tan := func(s State) quantity.Concentration { return s.Ammonia }
	b, c := run(WithFish), run(Seeded)
	if pb, pc := peak(b, nitrite), peak(c, nitrite); pc > 0.4*pb {
		t.Errorf("nitrite peak seeded %g, unseeded %g: want far lower", pc, pb)
	}
	if pb, pc := peak(b, tan), peak(c, tan); pc > 0.4*pb {
		t.Errorf("ammonia peak seeded %g, unseeded %g: want far lower", pc, pb)
	}
	for _, x := range c.Samples {
		if x.At > 18*days && (x.State.Ammonia > 0.25 || x.State.Nitrite > 0.2) {
			t.Errorf("run C day %g: ammonia %g, nitrite %g: not settled after two weeks and a half", float64(x.At/days), x.State.Ammonia, x.State.Nitrite)
		}
	}
}

// TestPeaksOfRuns holds the peaks that the reference sheet names for runs A and B.
func TestPeaksOfRuns(t *testing.T) {
	for _, c := range []struct {
		plan               Plan
		nitrite, on, until float64
	}{
		{Plan{Fishless, 26, 0.09315, tapOfReference}, 5.87, 26.5, 42},
		{Plan{WithFish, 25, 0.09315, tapOfReference}, 1.89, 35, 63},
	} {
		until := quantity.Time(c.until) * days
		s, evs, err := c.plan.Schedule(Defaults(), until)
		if err != nil {
			t.Fatal(err)
		}
		r, _, err := Run(Defaults(), s, evs, until, days/2)
		if err != nil {
			t.Fatal(err)
		}
		most, at := 0.0, 0.0
		for _, x := range r.Samples {
			if n := float64(x.State.Nitrite); n > most {
				most, at = n, float64(x.At/days)
			}
		}
		if math.Abs(most-c.nitrite) > 0.02 || math.Abs(at-c.on) > 0.5 {
			t.Errorf("reference sheet, %s: nitrite peak %g on day %g, got %g on day %g", c.plan.Way, c.nitrite, c.on, most, at)
		}
	}
}

// TestOrderOfSolver: halving the step divides the error by about sixteen.
func TestOrderOfSolver(t *testing.T) {
	end := func(n int) vector {
		w, air, o := quantity.Temperature(26), quantity.Concentration(usualCO2), quantity.Concentration(usualOxygen)
		k := tank{p: Defaults(), y: vector{2, 0.5, 1, 0.05, 0.02, 2.14}, production: 0.1, returns: 1}
		if err := (Setting{Temperature: &w, CO2: &air, Oxygen: &o}).apply(&k); err != nil {
			t.Fatal(err)
		}
		for range n {
			k.y = k.rk4(4 / float64(n))
		}
		return k.y
	}
	exact := end(4096)
	apart := func(n int) float64 {
		y, sum := end(n), 0.0
		for i := range y {
			sum += math.Abs(y[i] - exact[i])
		}
		return sum
	}
	for _, n := range []int{32, 64, 128} {
		if order := math.Log2(apart(n) / apart(2*n)); order < 3.7 || order > 4.4 {
			t.Errorf("order of the method from %d to %d steps: %.2f, want about 4", n, 2*n, order)
		}
	}
}

func drawEvents(t *rapid.T) []Event {
	f := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Event {
		at := quantity.Time(rapid.Float64Range(0, 30).Draw(t, "at")) * days
		switch rapid.IntRange(0, 4).Draw(t, "what") {
		case 0:
			return Event{at, Dose{quantity.Concentration(f(0, 3, "dose")), FromSolution}}
		case 1:
			return Event{at, Change{quantity.Ratio(f(0, 1, "share")), tapOfReference}}
		case 2:
			return Event{at, Production{quantity.Rate(f(0, 0.5, "rate")), FromFish}}
		case 3:
			return Event{at, Stock{quantity.Rate(f(0, 0.2, "by"))}}
		}
		w := quantity.Temperature(f(15, 30, "t"))
		ph := quantity.PH(f(6.5, 8.5, "ph"))
		return Event{at, Setting{Temperature: &w, PH: &ph}}
	}), 0, 12).Draw(t, "events")
}

// TestBalance: whatever happens, nitrogen in the water is what was there plus
// what came and went, to 1e-9 of it; nothing turns negative or infinite.
func TestBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := func(high float64, name string) quantity.Concentration {
			return quantity.Concentration(rapid.Float64Range(0, high).Draw(t, name))
		}
		s := Start{State: State{x(5, "a"), x(5, "b"), x(50, "c"), x(2, "x"), x(1, "z"), meq(rapid.Float64Range(0, 6).Draw(t, "alk"))},
			Temperature: quantity.Temperature(rapid.Float64Range(15, 30).Draw(t, "t")), Production: Production{quantity.Rate(x(1, "p")), FromFish}}
		r, tr, err := Run(Defaults(), s, drawEvents(t), 30*days, days/4)
		if err != nil {
			t.Fatal(err)
		}
		want := s.State.Nitrogen() + r.Balance.Produced + r.Balance.Dosed + r.Balance.Exchanged
		if math.Abs(float64(r.End.Nitrogen()-want)) > 1e-9*max(1, float64(want)) {
			t.Fatalf("nitrogen at the end %.12g, want %.12g", r.End.Nitrogen(), want)
		}
		if !tr.Finite() {
			t.Fatal("trail is not finite")
		}
		for i, p := range r.Samples {
			for _, y := range p.State.vector() {
				if !(y >= 0) || math.IsInf(y, 0) {
					t.Fatalf("state %+v at %g", p.State, p.At)
				}
			}
			if !quantity.Finite(float64(p.PH)) || !(p.NH3N >= 0 && p.NH3N <= p.State.Ammonia) {
				t.Fatalf("pH %g, NH3 %g of %g", p.PH, p.NH3N, p.State.Ammonia)
			}
			if i > 0 && p.At < r.Samples[i-1].At {
				t.Fatal("samples out of order")
			}
		}
	})
}

// TestHardestTank runs the most bacteria that are accepted: the step shortens and the method stays stable.
func TestHardestTank(t *testing.T) {
	s := Start{State: State{5, 5, 1, 50, 50, meq(5)}, Temperature: 30}
	r, _, err := Run(Defaults(), s, nil, 5*days, days)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(r.End.Nitrogen()); math.Abs(got-11) > 1e-9 {
		t.Errorf("nitrogen %.15g, want 11", got)
	}
	if r.End.Ammonia > 1e-6 {
		t.Errorf("ammonia %g left beside 50 mg/L of bacteria", r.End.Ammonia)
	}
}

func TestLimitsOfRun(t *testing.T) {
	empty, _, err := Run(Defaults(), Start{Temperature: 25}, nil, 30*days, days)
	if err != nil {
		t.Fatal(err)
	}
	if empty.End != (State{}) {
		t.Errorf("an empty tank stays empty, got %+v", empty.End)
	}
	// No bacteria: all production stays ammonia.
	r, _, err := Run(Defaults(), Start{State: State{Alkalinity: meq(2)}, Temperature: 25, Production: Production{0.1, FromFish}}, nil, 10*days, days)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(r.End.Ammonia)-1) > 1e-9 || r.End.Nitrite != 0 {
		t.Errorf("ten days of 0.1 with no bacteria: %+v, want 1 of ammonia", r.End)
	}
	// A whole change leaves tap water, and the bacteria.
	r, _, err = Run(Defaults(), Start{State: State{3, 2, 9, 0.1, 0.1, meq(3)}, Temperature: 25}, []Event{{days, Change{1, tapOfReference}}}, days, days)
	if err != nil {
		t.Fatal(err)
	}
	if r.End.Nitrogen() != tapOfReference.Nitrate || r.End.EatersA <= 0 {
		t.Errorf("whole change: %+v", r.End)
	}
}

// TestAlkalinityOfAmmonia: stoichiometry: ammonia solution and fish bring one
// equivalent a mole of nitrogen, ammonium chloride none; turning it all to
// nitrate takes two (reference sheet, section 6: 7.14 g CaCO3 a g N gross, 3.57 net).
func TestAlkalinityOfAmmonia(t *testing.T) {
	mole := quantity.Concentration(molarN / 10) // a tenth of a millimole a litre
	for _, c := range []struct {
		from AlkalinityReturn
		net  float64 // g CaCO3 a g N that is lost in all
	}{{FromSolution, 3.57}, {FromFish, 3.57}, {FromChloride, 7.14}} {
		s := Start{State: State{EatersA: 1, EatersN: 1, Alkalinity: meq(3)}, Temperature: 26}
		r, _, err := Run(Defaults(), s, []Event{{0, Dose{mole, c.from}}}, 5*days, days)
		if err != nil {
			t.Fatal(err)
		}
		lost := float64(s.State.Alkalinity-r.End.Alkalinity) / float64(mole)
		if math.Abs(lost-c.net) > 0.01 {
			t.Errorf("returns %g: %g g CaCO3 a g N, want %g", c.from, lost, c.net)
		}
	}
	// Feeding brings the same, day by day.
	s := Start{State: State{Alkalinity: meq(3)}, Temperature: 25, Production: Production{quantity.Rate(molarN / 10), FromFish}}
	r, _, err := Run(Defaults(), s, nil, 10*days, days)
	if err != nil {
		t.Fatal(err)
	}
	if gained := float64(r.End.Alkalinity)/perEquivalent - 3; math.Abs(gained-1) > 1e-9 {
		t.Errorf("a millimole from fish, none taken up: alkalinity rose %g meq/L, want 1", gained)
	}
}

// TestSettingPH: the pH that an event sets is the pH of the sample after it.
func TestSettingPH(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ph := quantity.PH(rapid.Float64Range(6, 9).Draw(t, "ph"))
		s := Start{State: State{Ammonia: 1, Alkalinity: meq(rapid.Float64Range(0.1, 6).Draw(t, "alk"))}, Temperature: 25}
		r, _, err := Run(Defaults(), s, []Event{{days, Setting{PH: &ph}}}, 2*days, days)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range r.Samples {
			if x.Phase != After {
				continue
			}
			if math.Abs(float64(x.PH-ph)) > 1e-9 {
				t.Fatalf("pH set to %g, sampled %g", ph, x.PH)
			}
			a, _, err := water.UnionisedAmmonia(x.State.Ammonia, 25, ph)
			if err != nil || math.Abs(float64(a.AsN-x.NH3N)) > 1e-9 {
				t.Fatalf("NH3 %g in the run, %g by package water (%v)", x.NH3N, a.AsN, err)
			}
		}
	})
}

func TestWarmerIsFaster(t *testing.T) {
	var last float64
	for _, w := range []quantity.Temperature{16, 20, 24, 28} {
		p := Plan{Fishless, w, 0.1, tapOfReference}
		s, _, err := p.Schedule(Defaults(), days)
		if err != nil {
			t.Fatal(err)
		}
		r, _, err := Run(Defaults(), s, nil, 10*days, days)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(r.End.Nitrite + r.End.Nitrate); got <= last {
			t.Errorf("at %g °C %g mg/L taken up, no more than when cooler (%g)", w, got, last)
		} else {
			last = got
		}
	}
}

func TestRunRefuses(t *testing.T) {
	good := Start{State: State{Alkalinity: meq(2)}, Temperature: 25}
	nan := quantity.Concentration(math.NaN())
	hot := quantity.Temperature(31)
	ph, co2 := quantity.PH(7), quantity.Concentration(3)
	with := func(f func(*Start)) Start { s := good; f(&s); return s }
	bad := Defaults()
	bad.GrowthA = 9
	for name, c := range map[string]struct {
		p     Params
		s     Start
		evs   []Event
		until quantity.Time
		field string
	}{
		"figure":        {bad, good, nil, days, "growth_a"},
		"no figures":    {Params{}, good, nil, days, "growth_a"},
		"temperature":   {Defaults(), with(func(s *Start) { s.Temperature = 12 }), nil, days, "temperature"},
		"not a number":  {Defaults(), with(func(s *Start) { s.State.Ammonia = nan }), nil, days, "ammonia"},
		"negative":      {Defaults(), with(func(s *Start) { s.State.Nitrite = -1 }), nil, days, "nitrite"},
		"too long":      {Defaults(), good, nil, 500 * days, "until"},
		"no action":     {Defaults(), good, []Event{{}}, days, "event"},
		"late event":    {Defaults(), good, []Event{{2 * days, Dose{1, 0}}}, days, "at"},
		"dose":          {Defaults(), good, []Event{{0, Dose{11, 0}}}, days, "dose"},
		"hot":           {Defaults(), good, []Event{{0, Setting{Temperature: &hot}}}, days, "temperature"},
		"pH and CO2":    {Defaults(), good, []Event{{0, Setting{PH: &ph, CO2: &co2}}}, days, "ph"},
		"fish not here": {Defaults(), good, []Event{{0, Stock{-0.1}}}, days, "stock"},
		"share":         {Defaults(), good, []Event{{0, Change{1.5, tapOfReference}}}, days, "fraction"},
	} {
		_, tr, err := Run(c.p, c.s, c.evs, c.until, days)
		var r *working.Refusal
		if !errors.As(err, &r) || r.Field != c.field || tr != nil {
			t.Errorf("%s: got %v, want a refusal of %s", name, err, c.field)
		}
	}
}

func TestRemarks(t *testing.T) {
	s := Start{State: State{Ammonia: 10, EatersA: 1, EatersN: 1, Alkalinity: meq(1)}, Temperature: 26}
	r, _, err := Run(Defaults(), s, nil, 10*days, days/2)
	if err != nil {
		t.Fatal(err)
	}
	codes := map[working.Key]bool{}
	for _, f := range r.Findings {
		codes[f.Code] = true
	}
	if !codes["find.nitrogen.kh_low"] || !codes["find.nitrogen.ph_outside"] {
		t.Errorf("ten of ammonia on one meq/L uses up the alkalinity: findings %v", r.Findings)
	}
	got := r.Samples[0].Readings(time.Unix(1e9, 0), 26)
	for _, x := range []water.Test{water.TestAmmonia, water.TestNitrite, water.TestNitrate, water.TestPH, water.TestKH, water.TestTemperature} {
		if err := x.Accept(got.Of(x)); err != nil {
			t.Errorf("readings of a sample: %s: %v", x, err)
		}
	}
	fs := water.Interpret(got)
	if working.WorstOf(fs) != working.Act {
		t.Errorf("ten of ammonia is judged %v", working.WorstOf(fs))
	}
}

func BenchmarkSixtyDays(b *testing.B) {
	p := Plan{WithFish, 25, 0.09315, tapOfReference}
	s, evs, err := p.Schedule(Defaults(), 60*days)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Run(Defaults(), s, evs, 60*days, days/2); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMaturing(b *testing.B) {
	for b.Loop() {
		if _, _, err := Maturing(Plan{WithFish, 25, 0.09315, tapOfReference}); err != nil {
			b.Fatal(err)
		}
	}
}
