package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Zone is a span of values that is judged alike, in the unit and on the basis in
// which the test is judged. From and To may be infinite.
type Zone struct {
	From, To float64
	State    working.State
}

// zoned are the states between the lines of a test, from the lowest value up. A
// zone says what a value alone is: what is known besides may make it graver.
var zoned = map[Test][]working.State{
	TestNitrite:     {working.Steady, working.Wait, working.Act},
	TestNitrate:     {working.Steady, working.Wait, working.Wait, working.Act},
	TestPH:          {working.Act, working.Wait, working.Steady, working.Wait, working.Act},
	TestKH:          {working.Act, working.Wait, working.Steady},
	TestGH:          {working.Act, working.Wait, working.Steady, working.Wait, working.Act},
	TestOxygen:      {working.Act, working.Wait, working.Steady},
	TestChlorine:    {working.Wait, working.Act},
	TestCO2:         {working.Steady, working.Wait, working.Act},
	TestTemperature: {working.Act, working.Wait, working.Steady, working.Wait, working.Act},
}

// Zones lists how the values of a test are judged, from the lowest up, zones of
// one state taken together; none for a test without lines of its own: total
// ammonia is judged by what of it is un-ionised.
func (x Test) Zones() []Zone { return zones(lines[x], zoned[x]) }

// NH3Zones lists how un-ionised ammonia, mg/L as nitrogen, is judged; emergency
// is a person's own line, zero takes EmergencyNH3.
func NH3Zones(emergency quantity.Concentration) []Zone {
	if emergency <= 0 {
		emergency = EmergencyNH3
	}
	perN, _ := quantity.Ammonia.IonPerN()
	return zones([]float64{float64(TargetNH3) / perN, float64(HarmNH3N), float64(emergency)}, []working.State{working.Steady, working.Wait, working.Act, working.Act})
}

func zones(at []float64, states []working.State) []Zone {
	var out []Zone
	from := math.Inf(-1)
	for i, s := range states {
		to := math.Inf(1)
		if i < len(at) {
			to = at[i]
		}
		if n := len(out); n > 0 && out[n-1].State == s {
			out[n-1].To = to
		} else {
			out = append(out, Zone{from, to, s})
		}
		from = to
	}
	return out
}

// Judged gives a reading as it is judged: its value and what its kit can see, in
// the unit of the test, ammonia as nitrogen, nitrite and nitrate as the ion.
// detected is false where the kit saw nothing; the value is no number to reckon
// with then. Errors: as Accept.
func (x Test) Judged(r Reading) (value, limit float64, detected bool, err error) {
	c, err := x.canonical(r)
	return c.x, c.limit, c.detected, err
}

// JudgedBasis is the basis on which a test is judged.
func (x Test) JudgedBasis() quantity.Basis {
	switch x {
	case TestAmmonia:
		return quantity.AsN
	case TestNitrite, TestNitrate:
		return quantity.AsIon
	}
	return quantity.BasisNone
}
