package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// lines are where the judgement of a test changes, in the unit it is judged in;
// their sources stand with the functions that judge.
var lines = map[Test][]float64{
	TestNitrite:     {0.2, 1.0},
	TestNitrate:     {40, 80, 100},
	TestPH:          {6.0, 6.5, 8.0, 8.5},
	TestKH:          {2 * degree, 3 * degree},
	TestGH:          {2 * degree, 4 * degree, 15 * degree, 20 * degree},
	TestOxygen:      {4, 6},
	TestChlorine:    {float64(ChlorineAct)},
	TestCO2:         {15, 30},
	TestTemperature: {20, 24, 26, 30},
}

// harmful are the tests of which doubt itself is a reason for care.
func harmful(x Test) bool {
	return x == TestAmmonia || x == TestNitrite || x == TestChlorine || x == TestOxygen
}

func beyondState(x Test) working.State {
	if harmful(x) {
		return working.Act
	}
	return working.Wait
}

// edges says of each reading whose kit is known where the truth may lie on either
// side of a line: a value lies within half a step of what the kit shows, or within
// half of the way to the colours of its card on either side. A
// reading beyond the card is at least its last colour, and is told so.
func (v *visit) edges() {
	for _, x := range AllTests() {
		c, ok := v.got[x]
		if !ok {
			continue
		}
		if c.beyond {
			v.say(x.tell(working.Find(beyondState(x), "find.water.beyond").Word("Test", x.Name()), "Limit", c, c.x), again)
			continue
		}
		if !c.told() || !c.detected {
			continue
		}
		at, low, high := lines[x], c.x-c.below, c.x+c.above
		scale := 1.0
		if x == TestAmmonia {
			b, known := v.nh3(c.x)
			if !known {
				continue
			}
			perN, _ := quantity.Ammonia.IonPerN()
			at, scale = []float64{float64(TargetNH3) / perN, float64(HarmNH3N)}, c.x/b.likely
		}
		for _, line := range at {
			line *= scale // of total ammonia, at this pH and temperature
			if low < line-1e-9 && line+1e-9 < high {
				s := working.Steady
				if harmful(x) {
					s = working.Wait
				}
				f := working.Find(s, "find.water.either_side").Word("Test", x.Name())
				for name, y := range map[string]float64{"Line": line, "Low": math.Max(0, low), "High": high} {
					f = x.tell(f, name, c, y)
				}
				v.say(f)
				break
			}
		}
	}
}
