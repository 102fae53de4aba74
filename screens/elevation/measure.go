package elevation

import "math"

// mm gives a length of the Spec in millimetres, or 0 where it is not known.
func mm(m float64) float64 {
	if !(m > 0) || m > MaxSize {
		return 0
	}
	return m * 1000
}

// or gives v, or the usual value where v is 0.
func or(v, usual float64) float64 {
	if v == 0 {
		return usual
	}
	return v
}

// share gives f when it is a fraction within 0 and 1, else the usual one.
func share(f, usual float64) float64 {
	if !(f > 0 && f < 1) {
		return usual
	}
	return f
}

// within holds v between lo and hi; where they cross it gives their middle.
func within(v, lo, hi float64) float64 {
	if lo > hi {
		return (lo + hi) / 2
	}
	return math.Max(lo, math.Min(hi, v))
}
