package care

import (
	"example.org/driploop/model/nitrogen"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Matured is what one way of maturing the filter costs in days.
type Matured struct {
	Way               string
	Low, Likely, High quantity.Time
	Trail             *working.Trail
}

// The first fish that a filter must keep up with: three of 1.5 g fed 2.5 % of
// their mass a day, 45 % of it protein. Source: the worked example of the
// reference run for fish-in starts.
const (
	firstFeed    = quantity.MassRate(3 * 1.5 * 0.025)
	firstProtein = quantity.Ratio(0.45)
	// Tap water of middling carbonate hardness, 6 dKH. Judgement; it decides how
	// soon a fishless start runs short of it.
	tapAlkalinity = quantity.Hardness(6 * 17.848)
)

// Maturing compares the ways of maturing the filter for this tank. The days are
// a wide range: nobody counts the bacteria. A way that the model cannot follow,
// outside 15 to 30 °C say, is left out.
func (f *Facts) Maturing() []Matured {
	full, err := f.Full()
	if err != nil {
		return nil
	}
	load, _, err := nitrogen.LoadOf(firstFeed, firstProtein, full.Net)
	if err != nil {
		return nil
	}
	var out []Matured
	for _, w := range []struct {
		ours string
		way  nitrogen.Way
	}{{MatureFishless, nitrogen.Fishless}, {MatureWithFish, nitrogen.WithFish}, {MatureSeeded, nitrogen.Seeded}} {
		d, trail, err := nitrogen.Maturing(nitrogen.Plan{Way: w.way, Temperature: f.settled(), Load: load.Rate,
			Tap: nitrogen.Tap{Alkalinity: tapAlkalinity}})
		if err == nil {
			out = append(out, Matured{Way: w.ours, Low: d.Low, Likely: d.Likely, High: d.High, Trail: trail})
		}
	}
	return out
}
