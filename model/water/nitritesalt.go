package water

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

const (
	// Chloride in salt by mass. Source: atomic masses Cl 35.453, Na 22.990.
	chlorideInSalt = 0.60663
	// Chloride to nitrite by mass of ions. Source: SRAC 462, channel catfish.
	chlorideRatio = 10.0
	// The older minimum. // from memory
	leastRatio = 6.0
	// Complete suppression in the laboratory. Source: SRAC 462, 16:1 by moles.
	mostRatio = 12.3
)

// NitriteWater is water with nitrite. The basis is forced: taking nitrogen for
// ion changes the answer 3.3 times.
type NitriteWater struct {
	Nitrite  quantity.Concentration `json:"nitrite"` // 0 to 100 mg/L on Basis
	Basis    quantity.Basis         `json:"basis"`
	Chloride quantity.Value         `json:"chloride"` // in the water now, KindConcentration; a missing one is refused
	Water    quantity.Volume        `json:"water"`
	Ratio    float64                `json:"ratio"` // chloride to nitrite ion by mass, 6 to 12.3; 0 takes 10
}

// ChlorideNeed is the chloride that holds nitrite off in channel catfish. It is
// water chemistry to be read beside a water change, never instead of one.
type ChlorideNeed struct {
	Target   quantity.Concentration `json:"target"` // chloride wanted, mg/L
	Add      quantity.Concentration `json:"add"`    // chloride to add, mg/L
	Salt     quantity.Concentration `json:"salt"`   // as sodium chloride, mg/L
	SaltMass quantity.Mass          `json:"salt_mass"`
	Findings []working.Finding      `json:"findings"`
}

// NitriteChloride returns the chloride for a nitrite reading. Fish differ:
// some have no protection from chloride at all.
func NitriteChloride(w NitriteWater) (ChlorideNeed, *working.Trail, error) {
	if err := acceptContent("nitrite", "q.water.nitrite", w.Nitrite, 100); err != nil {
		return ChlorideNeed{}, nil, err
	}
	ion, ok := quantity.ToIon(w.Nitrite, quantity.Nitrite, w.Basis)
	if !ok {
		return ChlorideNeed{}, nil, working.Refuse("basis", "refuse.water.basis")
	}
	r := w.Ratio
	if r == 0 {
		r = chlorideRatio
	}
	if err := working.InRange("ratio", "q.water.chloride_ratio", number(r), number(leastRatio), number(mostRatio)); err != nil {
		return ChlorideNeed{}, nil, err
	}
	target := ion * quantity.Concentration(r)
	need, tr, err := chlorideTo("ask.water.nitrite_chloride", target, w.Chloride, w.Water)
	if err != nil {
		return ChlorideNeed{}, nil, err
	}
	scale := func(k float64) quantity.Value { // the salt at another ratio
		low := max(0, ion*quantity.Concentration(k)-quantity.Concentration(w.Chloride.X))
		return quantity.Mass(float64(low) / chlorideInSalt * w.Water.Litres() * 1e-6).Value()
	}
	// The ratio was found for one kind of fish: advice only.
	tr.As(working.RuleOfThumb).
		Given("NO2", "q.water.nitrite", ion.Value()).Given("r", "q.water.chloride_ratio", number(r)).
		Between(scale(leastRatio), scale(mostRatio), "assume.water.catfish").
		Cites(srcSRAC462).Assume("assume.water.catfish")
	need.Findings = []working.Finding{working.Find(working.Act, "find.water.do.change"), working.Find(working.Act, "find.water.do.less_food"),
		working.Find(working.Wait, "find.water.salt_note")}
	if ion == 0 {
		need.Findings = nil
	}
	return need, tr, nil
}

// ChlorideTo returns the salt that brings water to a chloride content (0 to
// 1000 mg/L), such as the 100 mg/L that SRAC 462 keeps in reserve in
// nitrite-prone water.
func ChlorideTo(target quantity.Concentration, now quantity.Value, water quantity.Volume) (ChlorideNeed, *working.Trail, error) {
	if err := acceptContent("target", "q.water.chloride_target", target, 1000); err != nil {
		return ChlorideNeed{}, nil, err
	}
	return chlorideTo("ask.water.chloride", target, now, water)
}

func chlorideTo(ask working.Key, target quantity.Concentration, now quantity.Value, water quantity.Volume) (ChlorideNeed, *working.Trail, error) {
	switch now.Kind {
	case quantity.KindConcentration:
	case quantity.KindNone:
		return ChlorideNeed{}, nil, working.Refuse("chloride", "refuse.missing")
	default:
		return ChlorideNeed{}, nil, working.Refuse("chloride", "refuse.water.reading_kind")
	}
	have := quantity.Concentration(now.X)
	err := first(acceptContent("chloride", "q.water.chloride", have, largestContent),
		acceptVolume("water", "q.water.tank_volume", water, smallestTank, largestTank))
	if err != nil {
		return ChlorideNeed{}, nil, err
	}
	n := ChlorideNeed{Target: target, Add: max(0, target-have)}
	n.Salt = n.Add / chlorideInSalt
	n.SaltMass = quantity.Mass(float64(n.Salt) * water.Litres() * 1e-6)
	tr := working.New(ask).
		Given("Cl_0", "q.water.chloride", have.Value()).Given("V", "q.water.tank_volume", water.Value()).
		Step("Cl", "q.water.chloride_target", "Cl = r·NO2", target.Value(), "").
		Step("ΔCl", "q.water.chloride_add", "ΔCl = max(0; Cl − Cl_0)", n.Add.Value(), working.Algebra).
		Step("s", "q.water.salt", "s = ΔCl/0.60663", n.Salt.Value(), srcMolar).
		Step("m", "q.water.salt_mass", "m = s·V", n.SaltMass.Value(), working.Algebra).
		Assume("assume.water.salt_is_chemistry")
	return n, tr, nil
}
