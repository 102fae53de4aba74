package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// The demand of a group of zebrafish of 0.49 g at 24 °C, mg O2 an hour a fish.
// Source: Lucas & Priede 1992, routine rate in a group 560 mg/(kg·h).
const (
	anchorDemand = 0.560 * 0.49
	anchorMass   = 0.49 // g
	anchorTemp   = 24.0 // °C
	massExponent = 0.80 // from memory: Clarke & Johnston 1999; 0.63 to 0.65 in small reef fishes
	demandQ10    = 1.83 // from memory: Clarke & Johnston 1999
	// Source: the reference sheet's verdict on such a model, 40 % either way.
	demandSpread = 0.40
)

// FishOxygen returns the oxygen that one fish of a body mass (0.05 to 500 g)
// uses in everyday swimming at t (20 to 30 °C), in grams a day, with a range of
// 40 % either way.
func FishOxygen(mass quantity.Mass, t quantity.Temperature) (quantity.MassRate, *working.Trail, error) {
	err := first(working.InRange("mass", "q.water.fish_mass", mass.Value(), quantity.Mass(0.05e-3).Value(), quantity.Mass(0.5).Value()),
		acceptTemperature("temperature", t, 20, 30))
	if err != nil {
		return 0, nil, err
	}
	perHour := anchorDemand * math.Pow(float64(mass)*1000/anchorMass, massExponent) * math.Pow(demandQ10, (float64(t)-anchorTemp)/10)
	r := quantity.MassRate(perHour * 24 / 1000)
	return r, working.New("ask.water.fish_oxygen").
		Given("M", "q.water.fish_mass", mass.Value()).
		Given("t", "q.water.temperature", t.Value()).
		Step("R", "q.water.fish_oxygen", "R = 24·0.2744·(M/0.49 g)^0.80·1.83^((t − 24)/10) mg/d", r.Value(), srcLucas).
		Cites(srcClarke).
		Between((r*(1-demandSpread)).Value(), (r*(1+demandSpread)).Value(), "assume.water.fish_differ").
		Within("q.water.temperature", quantity.Temperature(20).Value(), quantity.Temperature(30).Value()).
		Assume("assume.water.fish_calm"), nil
}
