package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// dearest is the highest price of a kilowatt-hour that is taken, in any currency.
// Source: judgement; it must leave room for currencies with small units.
const dearest = 1e5

// CostResult is the energy and the money of a year.
type CostResult struct {
	Energy quantity.Energy // in a year of 365 days
	Cost   quantity.Value  // KindMoney, in a year; missing without a tariff
	Trail  *working.Trail
}

// RunningCost returns what a mean power costs in a year of 365 days. tariff is the
// price of a kilowatt-hour as KindMoney, or missing when it is not known. Errors:
// *working.Refusal for power (0 to 20 kW) and tariff (0 to 100000, KindMoney).
func RunningCost(power quantity.Power, tariff quantity.Value) (CostResult, error) {
	if err := first(
		working.InRange("power", "q.heat.mean_power", power.Value(), quantity.Power(0).Value(), quantity.Power(20000).Value()),
		tariffIn(tariff)); err != nil {
		return CostResult{}, err
	}
	r := CostResult{Energy: quantity.Energy(float64(power) * year)}
	r.Trail = working.New("ask.heat.running_cost").
		Given("P", "q.heat.mean_power", power.Value()).
		Step("E", "q.heat.energy_year", "E = P·365·24 h", r.Energy.Value(), working.Algebra)
	if tariff.Known() {
		r.Cost = quantity.Value{Kind: quantity.KindMoney, X: float64(r.Energy) / kilowattHour * tariff.X}
		r.Trail.Given("c", "q.heat.tariff", tariff).
			Step("M", "q.heat.cost_year", "M = E·c", r.Cost, working.Algebra)
	}
	return r, nil
}

// tariffIn refuses a tariff that is neither missing nor a price.
func tariffIn(tariff quantity.Value) error {
	switch tariff.Kind {
	case quantity.KindNone:
		return nil
	case quantity.KindMoney:
		money := func(x float64) quantity.Value { return quantity.Value{Kind: quantity.KindMoney, X: x} }
		return working.InRange("tariff", "q.heat.tariff", tariff, money(0), money(dearest))
	}
	return working.Refuse("tariff", "refuse.heat.not_money")
}
