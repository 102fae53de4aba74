package nitrogen

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
)

const (
	molarN   = 14.007  // Source: IUPAC 2021
	molarCO2 = 44.0095 // Source: IUPAC 2021
	// pH stays defined when alkalinity runs out, meq/L. // judgement
	leastAlk = 0.02

	// A stirred, aired tank. // judgement
	usualOxygen = 7.5 // mg/L
	usualCO2    = 3.0 // mg/L
)

// tank is a run under way: the state, its surroundings, and what depends on
// them alone, worked out once for each change of surroundings.
type tank struct {
	p           Params
	y           vector
	production  float64 // mg N/(L·d)
	returns     float64
	temperature quantity.Temperature
	co2, oxygen float64 // mg/L
	bal         Balance

	muA, muN, bA, bN float64 // at this temperature and oxygen, 1/d
	pk1              float64
	ph1              float64 // pH at one meq/L
	nh3              float64 // 10^(pKa − pK1)·CO2: NH4 over NH3 times alkalinity
}

// prepare works out what depends on the surroundings.
func (k *tank) prepare() error {
	c, _, err := water.CarbonateConstants(k.temperature)
	if err != nil {
		return err
	}
	// The fraction at pH 7 gives the pKa of ammonia at this temperature.
	f, _, err := water.AmmoniaFraction(k.temperature, 7)
	if err != nil {
		return err
	}
	pka := 7 + math.Log10(1/float64(f)-1)
	t := k.temperature.Kelvin()
	decay := math.Pow(k.p.DecayTheta, float64(k.temperature)-20)
	k.pk1 = c.PK1
	k.ph1 = c.PK1 - math.Log10(k.co2/molarCO2)
	k.nh3 = math.Pow(10, pka-c.PK1) * k.co2 / molarCO2
	k.muA = warm(k.p.GrowthA, k.p.EnergyA, t) * k.oxygen / (k.p.OxygenA + k.oxygen)
	k.muN = warm(k.p.GrowthN, k.p.EnergyN, t) * k.oxygen / (k.p.OxygenN + k.oxygen)
	k.bA, k.bN = k.p.DecayA*decay, k.p.DecayN*decay
	return nil
}

// ph of the water: alkalinity against dissolved CO2.
func (k *tank) ph(alk float64) float64 {
	return k.ph1 + math.Log(max(alk, leastAlk))/math.Ln10
}

// freeAmmonia is un-ionised ammonia as nitrogen. With pH = pK1 + lg(Alk/CO2),
// 10^(pKa − pH) is nh3/Alk, so that no power is needed at each step.
func (k *tank) freeAmmonia(a, alk float64) float64 {
	alk = max(alk, leastAlk)
	return a * alk / (alk + k.nh3)
}

var ln235 = math.Log(2.35)

// speedOfPH is the pH function of the Henze set, one at pH 7.2 and nothing from 9.5.
func speedOfPH(ph float64) float64 {
	if ph >= 9.5 {
		return 0
	}
	g := 1.13 * (9.5 - ph) / (9.8 - ph)
	if ph < 7.2 {
		g *= math.Exp(ln235 * (ph - 7.2)) // 2.35^(pH − 7.2)
	}
	return g
}

// slope is the right-hand side of the model.
func (k *tank) slope(y *vector) vector {
	a, b, alk := max(0, y[0]), max(0, y[1]), max(0, y[5])
	g := speedOfPH(k.ph(alk))
	p := &k.p
	// Each product of limits is one division: this is where a run spends its time.
	rA := k.muA * g * alk * a * y[3] / ((p.HalfAlk + alk) * (p.HalfA + a))
	rN := k.muN * g * b * p.InhibitNH3 * y[4] / ((p.HalfN + b) * (p.InhibitNH3 + k.freeAmmonia(a, alk)))
	takenA, takenN := rA/p.YieldA, rN/p.YieldN
	return vector{
		k.production - takenA,
		takenA - takenN,
		takenN,
		rA - k.bA*y[3],
		rN - k.bN*y[4],
		(k.returns*k.production - 2*takenA) / molarN,
	}
}
