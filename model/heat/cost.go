package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// CostResult is the energy and the money of a year.
type CostResult struct {
	Energy quantity.Energy // in a year of 365 days
	Cost   quantity.Value  // KindMoney, in a year; missing without a tariff
	Trail  *working.Trail
}

// RunningCost returns what a mean power costs in a year of 365 days. tariff is the
// price of a kilowatt-hour as KindMoney, or missing when it is not known. Errors:
// *working.Refusal for power (0 to 20 kW) and tariff (0 to 1000, KindMoney).
func RunningCost(power quantity.Power, tariff quantity.Value) (CostResult, error) {
	return CostResult{}, working.Refuse("power", "refuse.missing")
}
