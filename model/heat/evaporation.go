package heat

import "math"

// still returns the evaporation from a quiet open surface in kg/(m²·h): the
// larger of natural convection of humid air and of the forced convection of a
// room's ordinary air movement. The densities are dry air per volume of humid
// air; with the density of the humid air itself the result is 14 to 28 % low.
// Nothing condenses here: where vapour would flow back the answer is zero. Source:
// Shah 2014.
func still(water, room, humidity float64) float64 {
	w, a := moistAt(water, 1), moistAt(room, humidity)
	forced := 5e-5 * (w.vapour - a.vapour)
	natural := 0.0
	if d := a.dryDensity - w.dryDensity; d > 0 {
		natural = 35 * w.dryDensity * math.Cbrt(d) * (w.ratio - a.ratio)
	}
	return math.Max(0, math.Max(natural, forced))
}

// brisk returns the evaporation in kg/(m²·h) after Carrier's formula without air
// speed. It gives 1.2 to 2.6 times Shah's figure over quiet water and serves as
// the upper end of the range.
func brisk(water, room, humidity float64) float64 {
	d := saturation(water) - humidity*saturation(room)
	return math.Max(0, 0.089*d/vaporisation(water)*3600)
}
