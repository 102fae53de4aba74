package water

import (
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// A value within a zone is judged as the zone says.
func TestZonesAreWhatIsJudged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SampledFrom([]Test{TestNitrite, TestNitrate, TestPH, TestKH, TestGH, TestOxygen, TestTemperature}).Draw(t, "test")
		n := natures[x]
		v := rapid.Float64Range(max(n.low, 0.15), n.high).Draw(t, "value")
		if x == TestNitrate {
			v = max(v, 2)
		}
		r := Reading{Value: quantity.Value{Kind: n.kind, X: v}, Basis: x.JudgedBasis()}
		var ts Tests
		switch x {
		case TestNitrite:
			ts.Nitrite = r
		case TestNitrate:
			ts.Nitrate = r
		case TestPH:
			ts.PH = r
		case TestKH:
			ts.KH = r
		case TestGH:
			ts.GH = r
		case TestOxygen:
			ts.Oxygen = r
		case TestTemperature:
			ts.Temperature = r
		}
		want := working.Steady
		for _, z := range x.Zones() {
			if v > z.From+1e-9 && v < z.To-1e-9 {
				want = z.State
				if got := working.WorstOf(Interpret(ts)); got != want {
					t.Fatalf("%s of %v is judged %v, its zone says %v", x, v, got, want)
				}
			}
		}
	})
}
