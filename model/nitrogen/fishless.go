package nitrogen

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Feedstock is what ammonia for a fishless start comes as.
type Feedstock string

// The two in trade.
const (
	Solution Feedstock = "solution" // ammonia in water, nothing else in it
	Chloride Feedstock = "chloride" // pure ammonium chloride powder
)

// Nitrogen by mass. Source: IUPAC 2021 masses, NH3 17.031 and NH4Cl 53.489.
const (
	nInAmmonia  = molarN / (molarN + 3*1.008)
	nInChloride = molarN / (molarN + 4*1.008 + 35.45)
	// Most ammonia worth dosing, mg N/L: more slows the bacteria that it is to
	// feed. // judgement, from the inhibition of Hiatt & Grady 2008
	mostDose = 4.0
)

// AmmoniaDose is a dose of ammonia for a tank without animals.
type AmmoniaDose struct {
	Target quantity.Concentration `json:"target"` // rise wanted, mg/L as nitrogen, 0 to 4
	Tank   quantity.Volume        `json:"tank"`   // net volume
	Kind   Feedstock              `json:"kind"`
	Share  quantity.Ratio         `json:"share"` // NH3 by mass in a Solution, 0.005 to 0.30; not used for Chloride
}

// Amount returns what to add: a volume of solution or a mass of powder.
func (d AmmoniaDose) Amount() (quantity.Value, *working.Trail, error) {
	err := first(inRange("target", "q.nitrogen.dose", d.Target, mostDose), acceptTank(d.Tank))
	if err != nil {
		return quantity.Value{}, nil, err
	}
	n := float64(d.Target) * d.Tank.Litres() * 1e-6 // kg of nitrogen
	t := working.New("ask.nitrogen.ammonia_dose").
		Given("N", "q.nitrogen.dose", d.Target.Value()).
		Given("V", "q.nitrogen.tank", d.Tank.Value()).
		Assume("assume.nitrogen.no_animals", "assume.nitrogen.pure_ammonia")
	switch d.Kind {
	case Chloride:
		m := quantity.Mass(n / nInChloride)
		return m.Value(), t.Step("m", "q.nitrogen.chloride_mass", "m = N·V/0.2619", m.Value(), srcMasses), nil
	case Solution:
		if err := working.InRange("share", "q.nitrogen.share", d.Share.Value(), quantity.Ratio(0.005).Value(), quantity.Ratio(0.30).Value()); err != nil {
			return quantity.Value{}, nil, err
		}
		density := 998 - 360*float64(d.Share) // kg/m³, from memory: 957 at 10 %, 907 at 25 %, within 1 %
		v := quantity.Volume(n / nInAmmonia / float64(d.Share) / density)
		return v.Value(), t.Given("w", "q.nitrogen.share", d.Share.Value()).
			Constant("ρ", "q.nitrogen.density", quantity.Density(density).Value(), srcAmmoniaD).
			Step("v", "q.nitrogen.solution_volume", "v = N·V/(0.8225·w·ρ)", v.Value(), srcMasses), nil
	}
	return quantity.Value{}, nil, working.Refuse("kind", "refuse.nitrogen.feedstock")
}
