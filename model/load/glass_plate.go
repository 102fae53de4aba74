package load

import (
	"math"

	"example.org/driploop/model/quantity"
)

// Values for glass.
const (
	glassModulus   = quantity.Pressure(70e9) // Source: EN 572-1
	waterForGlass  = 1000.0                  // kg/m³, rounded up
	glassForBottom = 2500.0                  // Source: EN 572-1
)

// plate is a pair of coefficients: stress and sag.
type plate struct{ beta, alpha float64 }

// edge says how the top edge is held.
type edge uint8

const (
	topHeld edge = iota // case 4
	topFree             // case 3
)

// between interpolates linearly; below the first or beyond the last row it
// holds the end. at returns the abscissa of row i.
func between(n int, x float64, at func(int) float64, value func(int) float64) float64 {
	if x <= at(0) {
		return value(0)
	}
	for i := 1; i < n; i++ {
		if x <= at(i) {
			f := (x - at(i-1)) / (at(i) - at(i-1))
			return value(i-1) + f*(value(i)-value(i-1))
		}
	}
	return value(n - 1)
}

// hydrostatic returns the coefficients of a panel of ratio L/H with water to
// the top. Below a ratio of 0.5 those of 0.5 are an upper bound.
func hydrostatic(ratio float64, e edge) plate {
	pick := func(r plateRow) plate {
		if e == topFree {
			return plate{r.beta3, r.alpha3}
		}
		return plate{r.beta4, r.alpha4}
	}
	at := func(i int) float64 { return plateTable[i].ratio }
	return plate{
		between(len(plateTable), ratio, at, func(i int) float64 { return pick(plateTable[i]).beta }),
		between(len(plateTable), ratio, at, func(i int) float64 { return pick(plateTable[i]).alpha }),
	}
}

// freeEdge is β at the middle of a free top edge, water to the top.
func freeEdge(ratio float64) float64 {
	return between(len(plateTable), ratio, func(i int) float64 { return plateTable[i].ratio }, func(i int) float64 { return plateTable[i].topMid })
}

// filled returns the coefficients with water to the fraction fill of the
// height: those of a full panel, cut by the ratio that the partial table gives.
// Below 0.8 those of 0.8, and outside its ratios those of a full panel, are an
// upper bound.
func filled(ratio, fill float64, e edge) plate {
	full := hydrostatic(ratio, e)
	first, last := partialTable[0].ratio, partialTable[len(partialTable)-1].ratio
	if ratio < first || ratio > last || fill >= 1 {
		return full
	}
	cut := func(pick func(partialRow) float64) float64 {
		return between(len(partialTable), ratio, func(i int) float64 { return partialTable[i].ratio }, func(i int) float64 {
			rows := partialTable[i].rows // from full downwards
			n := len(rows)
			f := between(n, fill, func(k int) float64 { return rows[n-1-k].fill }, func(k int) float64 { return pick(rows[n-1-k]) })
			return f / pick(rows[0])
		})
	}
	if e == topFree {
		return plate{full.beta * cut(func(r partialRow) float64 { return r.beta3 }), full.alpha * cut(func(r partialRow) float64 { return r.alpha3 })}
	}
	return plate{full.beta * cut(func(r partialRow) float64 { return r.beta4 }), full.alpha * cut(func(r partialRow) float64 { return r.alpha4 })}
}

// panelStress returns the stress and sag of a panel of height h and thickness t.
func (p plate) panelStress(h, t float64) (quantity.Pressure, quantity.Length) {
	q := waterForGlass * quantity.StandardGravity * h
	return quantity.Pressure(p.beta * q * h * h / (t * t)), quantity.Length(p.alpha * q * h * h * h * h / (float64(glassModulus) * t * t * t))
}

// bottomStress returns pressure, coefficient, stress and sag of a bottom that
// spans between its four edges under water of the given depth and its own weight.
func bottomStress(long, short, depth, t float64) (q quantity.Pressure, beta float64, stress quantity.Pressure, sag quantity.Length) {
	if long < short {
		long, short = short, long
	}
	p := waterForGlass*quantity.StandardGravity*depth + glassForBottom*quantity.StandardGravity*t
	at := func(i int) float64 { return uniformTable[i].ratio }
	n := len(uniformTable)
	beta = between(n, long/short, at, func(i int) float64 { return uniformTable[i].beta })
	alpha := between(n, long/short, at, func(i int) float64 { return uniformTable[i].alpha })
	return quantity.Pressure(p), beta, quantity.Pressure(beta * p * short * short / (t * t)),
		quantity.Length(alpha * p * math.Pow(short, 4) / (float64(glassModulus) * t * t * t))
}

// glassTolerance is how much thinner than its nominal size a pane may be.
// Source: EN 572-2.
func glassTolerance(nominal quantity.Length) quantity.Length {
	switch mm := nominal.Millimetres(); {
	case mm <= 6.01:
		return quantity.Millimetres(0.2)
	case mm <= 12.01:
		return quantity.Millimetres(0.3)
	case mm <= 15.01:
		return quantity.Millimetres(0.5)
	}
	return quantity.Millimetres(1)
}
