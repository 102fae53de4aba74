package chart

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestNiceStep(t *testing.T) {
	for _, c := range []struct {
		raw  float64
		time bool
		want float64
	}{
		{0.7, false, 1}, {1, false, 1}, {1.1, false, 2}, {2.2, false, 5}, {5.1, false, 10}, {0.03, false, 0.05}, {470, false, 500},
		{45, true, 60}, {4000, true, 7200}, {80000, true, 86400}, {3 * 86400, true, 7 * 86400}, {400 * 86400, true, 728 * 86400}, {0.2, true, 0.2},
	} {
		if got := niceStep(c.raw, c.time); math.Abs(got-c.want) > 1e-9*c.want {
			t.Errorf("niceStep(%v, %v): expected %v, got %v", c.raw, c.time, c.want, got)
		}
	}
}

func TestTicksLieInTheSpanOnWholeSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e6, 1e6).Draw(t, "lo")
		hi := lo + rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1e-3, 1e6)).Draw(t, "span")
		a := Axis{FromZero: rapid.Bool().Draw(t, "zero"), Time: rapid.Bool().Draw(t, "time"), Zone: float64(rapid.IntRange(-12, 14).Draw(t, "zone")) * 3600}
		if !a.Time {
			a.Zone = 0
		}
		n := float64(rapid.IntRange(1, 8).Draw(t, "n"))
		round := rapid.Bool().Draw(t, "round")
		l, h, step := widen(lo, hi, a, n, round)
		if !(l < h) || l > lo+step*1e-6 || h < hi-step*1e-6 || !(step > 0) || a.FromZero && (l > 0 || h < 0) {
			t.Fatalf("%v to %v: widened to %v to %v by %v", lo, hi, l, h, step)
		}
		if (h-l)/step > n+2.1 {
			t.Fatalf("%v steps where %v were asked", (h-l)/step, n)
		}
		for _, v := range ticksIn(l, h, step, a.Zone) {
			k := (v + a.Zone) / step
			if v < l-step*1e-6 || v > h+step*1e-6 || math.Abs(k-math.Round(k)) > 1e-6 {
				t.Fatalf("tick %v of step %v in %v to %v", v, step, l, h)
			}
		}
	})
}

// A day's ticks fall on local midnights: zone one hour ahead.
func TestTimeTicksFollowTheZone(t *testing.T) {
	const midnight = 20416*86400 + 23*3600
	got := ticksIn(midnight-3600, midnight+2*86400, 86400, 3600)
	if len(got) != 3 || got[0] != midnight {
		t.Errorf("expected midnights from %d, got %v", midnight, got)
	}
}
