package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// AmmoniaFraction returns the share of total ammonia that is un-ionised (NH3)
// at temperature t (0 to 50 °C) and pH (5 to 10) in fresh water.
// Source: Emerson et al. 1975.
func AmmoniaFraction(t quantity.Temperature, ph quantity.PH) (quantity.Ratio, *working.Trail, error) {
	err := first(acceptTemperature("temperature", t, 0, 50), acceptPH("ph", ph, 5, 10))
	if err != nil {
		return 0, nil, err
	}
	pka := ammoniaPKa(t)
	f := quantity.Ratio(1 / (1 + math.Pow(10, pka-float64(ph))))
	return f, working.New("ask.water.nh3_fraction").
		Given("t", "q.water.temperature", t.Value()).
		Given("pH", "q.water.ph", ph.Value()).
		Step("pKa", "q.water.pka", "pKa = 0.09018 + 2729.92/T", quantity.PH(pka).Value(), srcEmerson).
		Step("f", "q.water.nh3_fraction", "f = 1/(1 + 10^(pKa − pH))", f.Value(), srcEmerson).
		Within("q.water.temperature", quantity.Temperature(0).Value(), quantity.Temperature(50).Value()).
		Within("q.water.ph", quantity.PH(5).Value(), quantity.PH(10).Value()).
		Assume("assume.water.fresh"), nil
}

// ammoniaPKa is the negative logarithm of the dissociation constant of NH4+.
func ammoniaPKa(t quantity.Temperature) float64 { return 0.09018 + 2729.92/t.Kelvin() }

// Ammonia is the un-ionised part of a total-ammonia reading, on both bases.
type Ammonia struct {
	Fraction quantity.Ratio         `json:"fraction"`
	AsN      quantity.Concentration `json:"as_n"`   // mg NH3-N/L
	AsNH3    quantity.Concentration `json:"as_nh3"` // mg NH3/L
}

// UnionisedAmmonia returns the NH3 in water with total ammonia tan, mg/L as
// nitrogen (0 to 100 000), at temperature t and pH; ranges as AmmoniaFraction.
func UnionisedAmmonia(tan quantity.Concentration, t quantity.Temperature, ph quantity.PH) (Ammonia, *working.Trail, error) {
	if err := acceptContent("tan", "q.water.tan", tan, largestContent); err != nil {
		return Ammonia{}, nil, err
	}
	f, tr, err := AmmoniaFraction(t, ph)
	if err != nil {
		return Ammonia{}, nil, err
	}
	perN, _ := quantity.Ammonia.IonPerN()
	a := Ammonia{Fraction: f, AsN: tan * quantity.Concentration(f)}
	a.AsNH3 = a.AsN * quantity.Concentration(perN)
	tr.Ask = "ask.water.nh3"
	tr.Given("TAN", "q.water.tan", tan.Value()).
		Step("NH3-N", "q.water.nh3_n", "NH3-N = f·TAN", a.AsN.Value(), working.Algebra).
		Step("NH3", "q.water.nh3", "NH3 = 1.2159·NH3-N", a.AsNH3.Value(), srcMolar)
	return a, tr, nil
}

// TANLimit returns the total ammonia, mg/L as nitrogen, at which un-ionised
// ammonia reaches limit (mg/L on basis b, 0 to 10); ranges as AmmoniaFraction.
func TANLimit(limit quantity.Concentration, b quantity.Basis, t quantity.Temperature, ph quantity.PH) (quantity.Concentration, *working.Trail, error) {
	if err := acceptContent("limit", "q.water.nh3_limit", limit, 10); err != nil {
		return 0, nil, err
	}
	n, ok := quantity.ToN(limit, quantity.Ammonia, b)
	if !ok {
		return 0, nil, working.Refuse("limit", "refuse.water.basis")
	}
	f, tr, err := AmmoniaFraction(t, ph)
	if err != nil {
		return 0, nil, err
	}
	tan := n / quantity.Concentration(f)
	tr.Ask = "ask.water.tan_limit"
	tr.Given("NH3-N", "q.water.nh3_limit", n.Value()).
		Step("TAN", "q.water.tan", "TAN = NH3-N/f", tan.Value(), working.Algebra)
	return tan, tr, nil
}

// Lines that a reading of un-ionised ammonia is judged by.
const (
	TargetNH3 = quantity.Concentration(0.02) // mg/L as NH3. Source: OATA Water Quality Criteria
	HarmNH3N  = quantity.Concentration(0.05) // mg/L as N. Source: UF/IFAS FA16, harm begins
	// EmergencyNH3 calls for a big change of water at once; a person's own line may
	// stand up to MostEmergency.
	EmergencyNH3  = quantity.Concentration(0.20) // mg/L as N. // judgement: about a sixth of a guppy's 96 h LC50
	MostEmergency = quantity.Concentration(0.50) // mg/L as N. // judgement: under half of it
)

// AcceptEmergency refuses an emergency line of a person's own that is not between
// where harm begins, HarmNH3N, and a figure that would warn too late,
// MostEmergency.
func AcceptEmergency(n quantity.Concentration) error {
	return working.InRange("emergency", "q.water.emergency", n.Value(), HarmNH3N.Value(), MostEmergency.Value())
}
