package nitrogen

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Params are the figures of the model. The unit stands beside each; the values
// at 20 °C are turned to the tank's temperature by the model.
type Params struct {
	GrowthA    float64 `json:"growth_a"` // 1/d at 20 °C, bacteria that take ammonia
	GrowthN    float64 `json:"growth_n"` // 1/d at 20 °C, bacteria that take nitrite
	DecayA     float64 `json:"decay_a"`  // 1/d at 20 °C
	DecayN     float64 `json:"decay_n"`  // 1/d at 20 °C
	YieldA     float64 `json:"yield_a"`  // mg COD a mg N
	YieldN     float64 `json:"yield_n"`  // mg COD a mg N
	HalfA      float64 `json:"half_a"`   // mg N/L of total ammonia at half speed
	HalfN      float64 `json:"half_n"`   // mg N/L of nitrite at half speed
	OxygenA    float64 `json:"oxygen_a"` // mg/L of oxygen at half speed
	OxygenN    float64 `json:"oxygen_n"` // mg/L
	InhibitNH3 float64 `json:"inhibit"`  // mg NH3-N/L that halves the nitrite takers
	EnergyA    float64 `json:"energy_a"` // J/mol
	EnergyN    float64 `json:"energy_n"` // J/mol
	DecayTheta float64 `json:"theta"`    // decay a kelvin
	HalfAlk    float64 `json:"half_alk"` // meq/L
	SeedA      float64 `json:"seed_a"`   // mg COD/L at the start of a new tank
	SeedN      float64 `json:"seed_n"`   // mg COD/L
}

// Sheet is one figure of the model with where it comes from.
type Sheet struct {
	Name   string           `json:"name"` // as in the JSON of Params
	Value  float64          `json:"value"`
	Low    float64          `json:"low"` // accepted and published range
	High   float64          `json:"high"`
	Unit   string           `json:"unit"`
	Source working.SourceID `json:"source"`
}

// DefaultSheet lists the figures, their ranges and sources.
func DefaultSheet() []Sheet {
	return []Sheet{
		{"growth_a", 0.78, 0.4, 2.1, "1/d", srcHiatt}, // range: Sin 2008 from 0.5; Henze 0.45
		{"growth_n", 0.78, 0.4, 1.05, "1/d", srcHiatt},
		{"decay_a", 0.096, 0.04, 0.3, "1/d", srcHiatt},
		{"decay_n", 0.096, 0.04, 0.3, "1/d", srcHiatt},
		{"yield_a", 0.18, 0.11, 0.21, "mg COD/mg N", srcHiatt},
		{"yield_n", 0.06, 0.03, 0.09, "mg COD/mg N", srcHiatt},
		{"half_a", 0.5, 0.14, 2, "mg N/L", srcSin}, // default: judgement inside the range
		{"half_n", 0.5, 0.1, 3, "mg N/L", srcSin},
		{"oxygen_a", 0.6, 0.1, 1.45, "mg/L", srcHiatt},
		{"oxygen_n", 1.2, 0.3, 1.5, "mg/L", srcHiatt},
		{"inhibit", 0.2, 0.05, 1, "mg N/L", srcHiatt}, // Park & Bae 2009: 0.64
		{"energy_a", 68_000, 40_000, 100_000, "J/mol", srcVannecke},
		{"energy_n", 44_000, 20_000, 100_000, "J/mol", srcVannecke},
		{"theta", 1.029, 1, 1.12, "1", srcHenze},
		{"half_alk", 0.05, 0.001, 0.5, "meq/L", working.Ours},
		{"seed_a", 1e-5, 0, 10, "mg COD/L", working.Ours}, // calibrated on start-ups
		{"seed_n", 3e-6, 0, 10, "mg COD/L", working.Ours},
	}
}

// Defaults returns the default figures.
func Defaults() Params {
	var p Params
	for i, f := range p.fields() {
		*f = DefaultSheet()[i].Value
	}
	return p
}

// fields lists the figures in the order of DefaultSheet.
func (p *Params) fields() []*float64 {
	return []*float64{&p.GrowthA, &p.GrowthN, &p.DecayA, &p.DecayN, &p.YieldA, &p.YieldN, &p.HalfA, &p.HalfN, &p.OxygenA, &p.OxygenN,
		&p.InhibitNH3, &p.EnergyA, &p.EnergyN, &p.DecayTheta, &p.HalfAlk, &p.SeedA, &p.SeedN}
}

// Accept refuses a figure outside its published range.
func (p Params) Accept() error {
	sheet := DefaultSheet()
	for i, f := range p.fields() {
		v := func(x float64) quantity.Value { return quantity.Value{Kind: quantity.KindRatio, X: x} }
		if err := working.InRange(sheet[i].Name, "q.nitrogen.parameter", v(*f), v(sheet[i].Low), v(sheet[i].High)); err != nil {
			return err
		}
	}
	return nil
}

// gasConstant in J/(mol·K). Source: CODATA 2018, exact.
const gasConstant = 8.314462618

// warm turns a growth rate at 20 °C to kelvin k by its activation energy.
func warm(rate, energy, k float64) float64 {
	return rate * math.Exp(energy*(k-293.15)/(gasConstant*k*293.15))
}
