package water

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Hydrate is the form of sodium thiosulfate that a label's percentage counts.
type Hydrate string

// The two forms in trade.
const (
	Pentahydrate Hydrate = "pentahydrate"
	Anhydrous    Hydrate = "anhydrous"
)

// StatedStrength is what a label says of its own contents.
type StatedStrength struct {
	Label    Label                  `json:"label"`
	Share    quantity.Ratio         `json:"share"`    // thiosulfate by mass, above 0 to 1
	Form     Hydrate                `json:"form"`     // which form the share counts
	Residual quantity.Concentration `json:"residual"` // total chlorine in the tap water, 0 to 10 mg/L as Cl2
}

// StoichiometricCheck holds the label's own dose against the chlorine of the
// tap, for a label that states how much thiosulfate it carries. Demand is
// thiosulfate needed, capacity is what the dose brings, both a litre of treated
// water. It says whether the label's dose suffices, and never gives another
// dose: the maker's advice for strong chlorine does.
func StoichiometricCheck(s StatedStrength) (working.Check, error) {
	err := first(s.Label.accept(), acceptRatio("share", "q.water.strength", s.Share, 0.0001, 1),
		acceptContent("residual", "q.water.residual", s.Residual, 10))
	if err != nil {
		return working.Check{}, err
	}
	per, least := PerChlorinePenta, leastPenta
	switch s.Form {
	case Pentahydrate:
	case Anhydrous:
		per, least = PerChlorineAnhyd, leastAnhyd
	default:
		return working.Check{}, working.Refuse("form", "refuse.water.hydrate")
	}
	kg := s.Label.Amount.X
	if s.Label.Amount.Kind == quantity.KindVolume {
		kg *= 1000 // one kilogram a litre: thiosulfate solutions are heavier, so this errs to the safe side
	}
	brings := quantity.Concentration(kg * 1e6 * float64(s.Share) / s.Label.Per.Litres())
	needs := s.Residual * quantity.Concentration(per)
	covers := brings / quantity.Concentration(per)
	tr := working.New("ask.water.label_covers").As(working.Ranged).
		Given("a", "q.water.label_amount", s.Label.Amount).
		Given("V_L", "q.water.label_per", s.Label.Per.Value()).
		Given("w", "q.water.strength", s.Share.Value()).
		Given("C", "q.water.residual", s.Residual.Value()).
		Step("n", "q.water.thiosulfate_needed", "n = r·C", needs.Value(), srcMolar).
		Step("b", "q.water.thiosulfate_brought", "b = a·w/V_L", brings.Value(), working.Algebra).
		Step("C_L", "q.water.covers", "C_L = b/r", covers.Value(), srcMolar).
		Between(covers.Value(), (brings/quantity.Concentration(least)).Value(), "assume.water.thiosulfate_path").
		Assume("assume.water.own_label", "assume.water.solution_density")
	c := working.Graded(working.Check{Name: "q.water.label_covers", Use: float64(needs / brings),
		Demand: needs.Value(), Capacity: brings.Value(), Trail: tr}, 0.9)
	f := working.Find(c.State, "find.water.label_enough").With("Covers", covers.Value()).With("Residual", s.Residual.Value())
	if c.State == working.Act {
		f.Code = "find.water.label_short"
	}
	c.Finding = &f
	return c, nil
}
