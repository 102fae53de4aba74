package chart

import "math"

// steps of the clock, in seconds, from which time ticks are chosen.
var clock = []float64{60, 120, 300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200,
	86400, 2 * 86400, 7 * 86400, 14 * 86400, 28 * 86400, 56 * 86400, 91 * 86400, 182 * 86400, 364 * 86400}

// niceStep gives the least step of 1, 2 or 5 times a power of ten that is at
// least raw; with whole clock steps for time.
// Source: the choice of 1, 2, 5 follows Heckbert, "Nice numbers for graph
// labels", Graphics Gems 1990.
func niceStep(raw float64, time bool) float64 {
	if time && raw > 30 {
		for _, s := range clock {
			if s >= raw {
				return s
			}
		}
		last := clock[len(clock)-1]
		return math.Ceil(raw/last) * last
	}
	p := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, k := range []float64{1, 2, 5} {
		if k*p >= raw*(1-1e-9) {
			return k * p
		}
	}
	return 10 * p
}

// ticksIn gives the multiples of step within lo to hi, shifted by the zone.
func ticksIn(lo, hi, step, zone float64) []float64 {
	if step <= 0 || !finite(lo, hi, step) || (hi-lo)/step > 1000 {
		return nil
	}
	var out []float64
	first := math.Ceil((lo+zone)/step - 1e-9)
	for k := first; k*step-zone <= hi+step*1e-9; k++ {
		v := k*step - zone
		if v == 0 {
			v = 0 // never a negative zero in a label
		}
		out = append(out, v)
	}
	return out
}

// widen makes a span that holds zero if asked, is never empty, and ends on
// whole steps when round is set. It gives the step for about n intervals.
func widen(lo, hi float64, a Axis, n float64, round bool) (float64, float64, float64) {
	if a.Fixed && finite(a.Min, a.Max) && a.Min < a.Max {
		return a.Min, a.Max, niceStep((a.Max-a.Min)/n, a.Time)
	}
	if a.FromZero {
		lo, hi = math.Min(lo, 0), math.Max(hi, 0)
	}
	if a.Time && hi-lo < 1 || hi-lo < 1e-12*math.Max(1, math.Max(math.Abs(lo), math.Abs(hi))) {
		pad := math.Max(math.Abs(lo)*0.1, 0.5)
		if a.Time {
			pad = 43200 // judgement: one moment alone is shown in the middle of a day
		}
		if !a.FromZero || lo < 0 {
			lo -= pad
		}
		hi += pad
	}
	step := niceStep((hi-lo)/n, a.Time)
	if round {
		lo, hi = math.Floor(lo/step+1e-9)*step, math.Ceil(hi/step-1e-9)*step
	}
	return lo, hi, step
}
