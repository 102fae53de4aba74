package heat

import "math"

// dormandPrince takes one step h of y' = f(y) with the fifth-order formula. k1 is
// f(y); it returns the new value, the estimated error of the step, and f at the new
// value, which is the next step's k1. Source: J. R. Dormand, P. J. Prince, Journal
// of Computational and Applied Mathematics 6, 1980, 19-26.
func dormandPrince(f func(float64) float64, y, k1, h float64) (next, errorEstimate, k7 float64) {
	k2 := f(y + h*k1/5)
	k3 := f(y + h*(3.0/40*k1+9.0/40*k2))
	k4 := f(y + h*(44.0/45*k1-56.0/15*k2+32.0/9*k3))
	k5 := f(y + h*(19372.0/6561*k1-25360.0/2187*k2+64448.0/6561*k3-212.0/729*k4))
	k6 := f(y + h*(9017.0/3168*k1-355.0/33*k2+46732.0/5247*k3+49.0/176*k4-5103.0/18656*k5))
	next = y + h*(35.0/384*k1+500.0/1113*k3+125.0/192*k4-2187.0/6784*k5+11.0/84*k6)
	k7 = f(next)
	fourth := y + h*(5179.0/57600*k1+7571.0/16695*k3+393.0/640*k4-92097.0/339200*k5+187.0/2100*k6+1.0/40*k7)
	return next, next - fourth, k7
}

// follow advances y' = f(y) by span with an error of about tol a step, starting
// from y with slope k1 = f(y). It returns the new value and slope, and false when
// the steps shrink to nothing or the values leave the numbers.
func follow(f func(float64) float64, y, k1, span, tol float64) (float64, float64, bool) {
	const most = 10000
	h, done := span, 0.0
	for range most {
		h = math.Min(h, span-done)
		next, e, k7 := dormandPrince(f, y, k1, h)
		if math.IsNaN(next) || math.IsInf(next, 0) {
			return y, k1, false
		}
		ratio := math.Abs(e) / tol
		if ratio <= 1 {
			done += h
			y, k1 = next, k7
			if span-done <= 1e-12*span {
				return y, k1, true
			}
		}
		h *= math.Min(5, math.Max(0.2, 0.9*math.Pow(math.Max(ratio, 1e-10), -0.2)))
	}
	return y, k1, false
}

// crossing returns where in 0..1 a step from y0 to y1 with slopes s0 and s1 (per
// whole step) passes level, on the cubic through both ends. The level lies
// between the ends.
func crossing(y0, y1, s0, s1, level float64) float64 {
	at := func(u float64) float64 {
		return (1+2*u)*(1-u)*(1-u)*y0 + u*(1-u)*(1-u)*s0 + u*u*(3-2*u)*y1 + u*u*(u-1)*s1
	}
	low, high := 0.0, 1.0
	for range 50 {
		mid := (low + high) / 2
		if (at(mid) > level) == (y0 > level) {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
