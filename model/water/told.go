package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Told is the working of how far a reading may be off by what its kit can tell: the
// value with its spread, as it is judged. It reports false where the kit says nothing,
// and for a reading that cannot be judged, was not detected or lies beyond the card.
// Source: JCGM 100:2008 (GUM), F.2.2.1: what an indication stands for lies anywhere
// within half a step of it.
func (x Test) Told(r Reading) (*working.Trail, bool) {
	c, err := x.canonical(r)
	if err != nil || !c.told() || !c.detected || c.beyond {
		return nil, false
	}
	low := c.x - c.below
	if x.Kind() != quantity.KindTemperature {
		low = math.Max(0, low)
	}
	t := working.New("ask.water.told").Given("r", x.Name(), x.value(c.x)).
		Given("a", "q.water.told_below", x.change(c.below)).Given("b", "q.water.told_above", x.change(c.above)).
		Between(x.value(low), x.value(c.x+c.above), "assume.water.told").Cites(srcGUM)
	t.Result = working.Step{Symbol: "r", Name: x.Name(), Value: x.value(c.x), Source: srcGUM}
	return t, true
}
