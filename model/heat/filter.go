package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// FlowResult is the flow that a tank wants from its filter.
type FlowResult struct {
	Low, High           quantity.Flow // real flow, 4 and 6 tank volumes an hour
	LabelLow, LabelHigh quantity.Flow // what to look for on a label: Low/0.7 and High/0.5
	Trail               *working.Trail
}

// RequiredFlow returns the filter flow for a tank holding water (1 to 3000 L).
// Errors: *working.Refusal for water_volume.
func RequiredFlow(water quantity.Volume) (FlowResult, error) {
	return FlowResult{}, working.Refuse("water_volume", "refuse.missing")
}

// TurnoverResult is what a filter with a given label does in a tank.
type TurnoverResult struct {
	RealLow, RealHigh quantity.Flow  // 0.5 and 0.7 of the label
	Low, High         quantity.Value // tank volumes an hour at those flows, KindCount
	Checks            []working.Check
	Findings          []working.Finding
	Trail             *working.Trail
}

// Turnover judges a filter by its label (10 L/h to 20 m³/h) in a tank holding
// water. Errors: *working.Refusal for label_flow, water_volume.
func Turnover(label quantity.Flow, water quantity.Volume) (TurnoverResult, error) {
	return TurnoverResult{}, working.Refuse("water_volume", "refuse.missing")
}
