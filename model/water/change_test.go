package water

import (
	"fmt"
	"math"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"pgregory.net/rapid"
)

// one returns the number of a calculation that must succeed.
func one[T ~float64](x T, tr *working.Trail, err error) float64 {
	if err != nil || tr == nil || !tr.Finite() {
		panic(fmt.Sprint(tr, err))
	}
	return float64(x)
}

func TestWaterChanges(t *testing.T) {
	cycle := func(in, g, d, f float64) Cycle {
		c, tr, err := SteadyCycle(quantity.Concentration(in), quantity.Rate(g), quantity.Time(d)*day, quantity.Ratio(f))
		fine(t, tr, err)
		return c
	}
	replaced := func(x float64) float64 { // flow × time ÷ volume of x, in 100 L
		return one(Replaced(quantity.Flow(0.1/86400), 0.1, quantity.Time(x)*day))
	}
	exact := func() float64 {
		n, whole, tr, err := ChangesFor(Change{100, 10, 0.3}, 30)
		fine(t, tr, err)
		if whole != 5 {
			t.Errorf("4.22 changes are %d whole ones, want 5", whole)
		}
		return n
	}
	flow := one(FlowThrough(Change{Now: 40, Incoming: 5}, quantity.Flow(0.1/86400), 0.1, day))
	cycles := []Cycle{cycle(5, 1, 7, 0.25), cycle(4.4268, 0.412353, 7, 0.25)}
	trough := 0
	for _, r := range table(t, "water_change.csv", 16) {
		var got float64
		switch r.cell["case"] {
		case "single: C0=40 Cin=5 f=0.25":
			got = one(AfterChanges(Change{40, 5, 0.25}, 1))
		case "f to go from 80 to 40 with Cin=10":
			got = one(FractionFor(80, 10, 40))
		case "changes needed f=0.3 C0=100 Cin=10 target 30":
			got = exact()
		case "  steady trough same":
			got = float64(cycles[trough].Trough)
			trough++
		case "steady peak g=1 mg/L/d D=7 d f=0.5 Cin=5":
			got = float64(cycle(5, 1, 7, 0.5).Peak)
		case "steady peak g=0.412353 mg/L/d D=7 d f=0.25 Cin=4.4268":
			got = float64(cycles[1].Peak)
		case "flow-through: fraction replaced after Q*t/V=0.5":
			got = replaced(0.5)
		case "flow-through: fraction replaced after Q*t/V=0.693147":
			got = replaced(0.693147)
		case "flow-through: fraction replaced after Q*t/V=2":
			got = replaced(2)
		case "flow-through C0=40 Cin=5 x=1":
			got = flow
		case "blend 8 L at 10 C + 4 L at 55 C":
			got = one(Blend(0.008, 10, 0.004, 55))
		case "hot fraction for 25 C from 10 C and 55 C":
			got = one(HotShare(10, 55, 25))
		case "max f for dT<=1 C, tank 26 new 20":
			got = one(LargestChange(26, 20, 1))
		case "min new-water T for f=0.5, dT<=1, tank 25":
			got = one(ColdestNewWater(25, 0.5, 1))
		case "evaporated 10% unreplaced: TDS factor":
			got = one(EvaporationFactor(0.1))
		default:
			t.Fatalf("%s:%d: no check for %q", r.file, r.line, r.cell["case"])
		}
		want := r.num("expected")
		r.near("expected", "exact algebra", got, 1e-6*want+0.5*math.Pow(10, math.Floor(math.Log10(want))-5)) // 1e-6 and the six figures printed
	}
	// Reference sheet, section 8.
	for what, c := range map[string][2]float64{
		"four changes of a quarter":    {one(AfterChanges(Change{40, 5, 0.25}, 4)), 16.0742},
		"peak, g 1, a quarter a week":  {float64(cycles[0].Peak), 33},
		"trough, half a week":          {float64(cycle(5, 1, 7, 0.5).Trough), 12},
		"one volume through":           {replaced(1), 0.632121},
		"30 % at 20 into 26":           {one(TemperatureAfterChange(26, 20, 0.3)), 24.2},
		"five of a hundred fall to 95": {one(AfterChanges(Change{100, 0, 0.05}, 1)), 95},
	} {
		if !near(c[0], c[1], 6e-5*max(1, c[1])) {
			t.Errorf("%s: want %g, got %g", what, c[1], c[0])
		}
	}
}

func TestChangeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(low, high float64, n string) float64 { return rapid.Float64Range(low, high).Draw(t, n) }
		c := Change{quantity.Concentration(f(0, 500, "now")), quantity.Concentration(f(0, 500, "in")), quantity.Ratio(f(0, 1, "f"))}
		after := one(AfterChanges(c, 1))
		low, high := float64(min(c.Now, c.Incoming)), float64(max(c.Now, c.Incoming))
		if after < low-1e-9 || after > high+1e-9 {
			t.Fatalf("%+v gives %g", c, after)
		}
		if !near(one(AfterChanges(c, 0)), float64(c.Now), 1e-9) || !near(one(AfterChanges(Change{c.Now, c.Incoming, 1}, 1)), float64(c.Incoming), 1e-9) {
			t.Fatal("no change leaves all, a whole one nothing")
		}
		if math.Abs(float64(c.Now-c.Incoming)) > 1 && c.Fraction > 0.02 && c.Fraction < 0.98 {
			if g := one(FractionFor(c.Now, c.Incoming, quantity.Concentration(after))); !near(g, float64(c.Fraction), 1e-6) {
				t.Fatalf("fraction %g came back as %g", c.Fraction, g)
			}
			n, _, _, err := ChangesFor(c, quantity.Concentration(one(AfterChanges(c, 3))))
			if err == nil && !near(n, 3, 1e-3) {
				t.Fatalf("three changes came back as %g", n)
			}
		}
		// A steady cycle repeats itself: one change at the peak gives the trough.
		if c.Fraction > 0.01 {
			y, tr, err := SteadyCycle(c.Incoming, quantity.Rate(f(0, 10, "g")), quantity.Time(f(0.1, 30, "d"))*day, c.Fraction)
			fine(t, tr, err)
			if got := one(AfterChanges(Change{min(y.Peak, largestContent), c.Incoming, c.Fraction}, 1)); !near(got, float64(y.Trough), 1e-6*max(1, got)) {
				t.Fatalf("peak %g falls to %g, trough %g", y.Peak, got, y.Trough)
			}
		}
		a, b := quantity.Temperature(f(1, 30, "a")), quantity.Temperature(f(40, 90, "b"))
		m := quantity.Temperature(one(Blend(quantity.Volume(f(0.001, 1, "va")), a, quantity.Volume(f(0.001, 1, "vb")), b)))
		x := quantity.Volume(one(HotShare(a, b, m)))
		if back := one(Blend(1-x, a, x, b)); !near(back, float64(m), 1e-9) {
			t.Fatalf("blend %g came back as %g", m, back)
		}
	})
}

func TestChangeRefuses(t *testing.T) {
	_, tr, err := AfterChanges(Change{40, 5, 1.2}, 1)
	refused(t, "fraction", tr, err)
	_, tr, err = AfterChanges(Change{40, 5, 0.2}, -1)
	refused(t, "changes", tr, err)
	_, tr, err = AfterChanges(Change{quantity.Concentration(nan), 5, 0.2}, 1)
	refused(t, "now", tr, err)
	_, tr, err = FractionFor(40, 5, 4) // below the tap
	refused(t, "target", tr, err)
	_, _, tr, err = ChangesFor(Change{40, 5, 0.3}, 5) // only a whole change reaches the tap
	refused(t, "target", tr, err)
	_, tr, err = SteadyCycle(5, 1, day, 0)
	refused(t, "fraction", tr, err)
	_, tr, err = Replaced(1, 0, day)
	refused(t, "tank", tr, err)
	_, tr, err = Blend(0, 20, 0, 30)
	refused(t, "volume_1", tr, err)
	_, tr, err = HotShare(25, 25, 25)
	refused(t, "hot", tr, err)
	_, tr, err = HotShare(10, 30, 31)
	refused(t, "target", tr, err)
	_, tr, err = EvaporationFactor(1)
	refused(t, "evaporated", tr, err)
	_, tr, err = TDSShift(0, 100, 0.3)
	refused(t, "tank_tds", tr, err)
	_, tr, err = LargestChange(25, 20, 0)
	refused(t, "step", tr, err)
	if f := one(FractionFor(5, 5, 5)); f != 0 {
		t.Errorf("nothing to do: change %g", f)
	}
	if f := one(LargestChange(25, 25, 1)); f != 1 {
		t.Errorf("same temperature: change up to %g, want all", f)
	}
}

func TestGentleChange(t *testing.T) {
	tds := func(x float64) *quantity.Concentration { c := quantity.Concentration(x); return &c }
	mild, err := GentleChange(WaterPair{Fraction: 0.25, Tank: 25, New: 24, TankPH: &Buffered{7.4, dkh(5)}, NewPH: &Buffered{7.5, dkh(5)}, TankTDS: tds(300), NewTDS: tds(250)})
	if err != nil || len(mild) != 4 {
		t.Fatal(mild, err)
	}
	for _, c := range mild {
		if c.State != working.Steady || c.Finding != nil || c.Trail == nil {
			t.Errorf("mild change: %+v", c)
		}
	}
	rough, err := GentleChange(WaterPair{Fraction: 0.5, Tank: 26, New: 14, TankPH: &Buffered{6.4, dkh(1)}, NewPH: &Buffered{8.0, dkh(12)}, TankTDS: tds(100), NewTDS: tds(500)})
	if err != nil || len(rough) != 4 {
		t.Fatal(rough, err)
	}
	for i, c := range rough {
		if c.State != working.Act || c.Finding == nil || i > 0 && c.Use > rough[i-1].Use {
			t.Errorf("rough change: %+v", c)
		}
	}
	// Half is within bounds in an emergency only.
	calm, _ := GentleChange(WaterPair{Fraction: 0.5, Tank: 25, New: 25, Emergency: true})
	if len(calm) != 2 || working.Worst(calm[0].State, calm[1].State) != working.Steady {
		t.Errorf("what was not measured is not judged: %+v", calm)
	}
	_, err = GentleChange(WaterPair{Fraction: 2, Tank: 25, New: 25})
	refused(t, "fraction", nil, err)
}
