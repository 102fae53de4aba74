package nitrogen

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

const (
	// Ammonia nitrogen a gram of protein eaten. Source: Timmons & Ebeling;
	// from memory, 16 % N in protein, 80 % taken up, 80 % excreted, 90 % as ammonia.
	tanPerProtein = 0.092
	loadSpread    = 0.30 // Source: the spread of such an estimate, 30 % either way
	oxygenPerN    = 4.57 // g a g N, 3.43 + 1.14. Source: stoichiometry of both steps
	// Calcium carbonate a g N, two protons a nitrogen. Source: stoichiometry;
	// fish give half back with the ammonia they excrete.
	alkalinityPerN = 7.14
)

// Load is what feeding asks of the filter.
type Load struct {
	TAN         quantity.MassRate      `json:"tan"`          // ammonia nitrogen, g/d
	Rate        quantity.Rate          `json:"rate"`         // the same in the tank's water, mg/L a day
	NitrateWeek quantity.Concentration `json:"nitrate_week"` // nitrate as the ion that a week adds, with no plants
	Oxygen      quantity.MassRate      `json:"oxygen"`       // for nitrification, g/d
	Alkalinity  quantity.MassRate      `json:"alkalinity"`   // used up by nitrification, g CaCO3/d, before fish give half back
}

// LoadOf returns the load of dry feed (0 to 100 g/d) with a share of protein
// (0.1 to 0.7) eaten in a tank of a net volume (1 L to 100 000 L), within 30 %.
// Feed that is not eaten adds more: all of its nitrogen.
func LoadOf(feed quantity.MassRate, protein quantity.Ratio, tank quantity.Volume) (Load, *working.Trail, error) {
	err := first(working.InRange("feed", "q.nitrogen.feed", feed.Value(), quantity.MassRate(0).Value(), quantity.MassRate(100).Value()),
		working.InRange("protein", "q.nitrogen.protein", protein.Value(), quantity.Ratio(0.1).Value(), quantity.Ratio(0.7).Value()),
		acceptTank(tank))
	if err != nil {
		return Load{}, nil, err
	}
	perN, _ := quantity.Nitrate.IonPerN()
	n := float64(feed) * float64(protein) * tanPerProtein // g/d
	l := Load{TAN: quantity.MassRate(n), Rate: quantity.Rate(n * 1000 / tank.Litres()),
		Oxygen: quantity.MassRate(n * oxygenPerN), Alkalinity: quantity.MassRate(n * alkalinityPerN)}
	l.NitrateWeek = quantity.Concentration(float64(l.Rate) * 7 * perN)
	t := working.New("ask.nitrogen.load").
		Given("F", "q.nitrogen.feed", feed.Value()).
		Given("p", "q.nitrogen.protein", protein.Value()).
		Given("V", "q.nitrogen.tank", tank.Value()).
		Step("O", "q.nitrogen.oxygen_need", "O = 4.57·N", l.Oxygen.Value(), srcMasses).
		Step("Alk", "q.nitrogen.alkalinity_need", "Alk = 7.14·N", l.Alkalinity.Value(), srcMasses).
		Step("N", "q.nitrogen.tan_rate", "N = F·p·0.092", l.TAN.Value(), srcTimmons).
		Step("NO3", "q.nitrogen.nitrate_week", "NO3 = 7·4.427·N/V", l.NitrateWeek.Value(), srcMasses).
		Step("P", "q.nitrogen.production", "P = N/V", l.Rate.Value(), srcTimmons).
		Between((l.Rate*(1-loadSpread)).Value(), (l.Rate*(1+loadSpread)).Value(), "assume.nitrogen.feed_differs").
		Assume("assume.nitrogen.eaten", "assume.nitrogen.no_plants")
	return l, t, nil
}

func acceptTank(v quantity.Volume) error {
	return working.InRange("tank", "q.nitrogen.tank", v.Value(), quantity.Litres(1).Value(), quantity.Litres(100_000).Value())
}
