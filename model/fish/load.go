package fish

import "math"

// The resting use of oxygen of fish. From memory: Clarke & Johnston 1999, 69
// species, ln R(50 g, mmol O2/h) = 15.7 - 5020/T, exponent 0.80 of mass.
const (
	massExponent = 0.80
	restA, restB = 15.7, 5020.0
	restMass     = 50.0 // g
	oxygenMolar  = 32.0 // mg/mmol. Source: IUPAC 2021, rounded
)

// restingOxygen is what a fish of so many grams uses at rest, mg O2/h.
func restingOxygen(grams, celsius float64) float64 {
	return oxygenMolar * math.Exp(restA-restB/(273.15+celsius)) * math.Pow(grams/restMass, massExponent)
}
