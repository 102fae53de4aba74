package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// The trade's figures. Source: common practice, no source.
const (
	turnoverLow, turnoverHigh = 4.0, 6.0 // tank volumes an hour of real flow
	turnoverBrisk             = 10.0     // from which still-water fish have to work
	realLow, realHigh         = 0.5, 0.7 // real flow over the label's
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
	if err := volumeIn(water); err != nil {
		return FlowResult{}, err
	}
	perHour := quantity.Flow(float64(water) / hour)
	r := FlowResult{Low: turnoverLow * perHour, High: turnoverHigh * perHour}
	r.LabelLow, r.LabelHigh = r.Low/realHigh, r.High/realLow
	r.Trail = working.New("ask.heat.filter_flow").
		Given("V", "q.heat.water_volume", water.Value()).
		Constant("k_1", "q.heat.real_low", quantity.Ratio(realLow).Value(), working.Trade).
		Constant("k_2", "q.heat.real_high", quantity.Ratio(realHigh).Value(), working.Trade).
		Step("q_1", "q.heat.flow_low", "q_1 = 4·V/h", r.Low.Value(), working.Trade).
		Step("q_2", "q.heat.flow_high", "q_2 = 6·V/h", r.High.Value(), working.Trade).
		Step("q_L2", "q.heat.label_high", "q_L2 = q_2/k_1", r.LabelHigh.Value(), "").
		Step("q_L1", "q.heat.label_low", "q_L1 = q_1/k_2", r.LabelLow.Value(), "").
		Between(r.LabelLow.Value(), r.LabelHigh.Value(), "assume.heat.real_flow").
		Within("q.heat.water_volume", volumeMin.Value(), volumeMax.Value()).
		As(working.RuleOfThumb)
	return r, nil
}

// TurnoverResult is what a filter with a given label does in a tank.
type TurnoverResult struct {
	RealLow, RealHigh quantity.Flow // 0.5 and 0.7 of the label
	Low, High         float64       // tank volumes an hour at those flows
	Fastest, Slowest  quantity.Time // for one tank volume: at RealHigh and at RealLow
	Check             working.Check // 4 tank volumes an hour against 0.6 of the label
	Trail             *working.Trail
	Findings          []working.Finding
}

// Turnover judges a filter by its label (10 L/h to 20 m³/h) in a tank holding
// water. Errors: *working.Refusal for label_flow, water_volume.
func Turnover(label quantity.Flow, water quantity.Volume) (TurnoverResult, error) {
	if err := first(
		working.InRange("label_flow", "q.heat.label_flow", label.Value(), labelFlowMin.Value(), flowMax.Value()),
		volumeIn(water)); err != nil {
		return TurnoverResult{}, err
	}
	r := TurnoverResult{RealLow: realLow * label, RealHigh: realHigh * label}
	r.Slowest = quantity.Time(float64(water) / float64(r.RealLow))
	r.Fastest = quantity.Time(float64(water) / float64(r.RealHigh))
	r.Low, r.High = hour/float64(r.Slowest), hour/float64(r.Fastest)
	wanted := quantity.Flow(turnoverLow * float64(water) / hour)
	r.Trail = working.New("ask.heat.turnover").
		Given("q_L", "q.heat.label_flow", label.Value()).
		Given("V", "q.heat.water_volume", water.Value()).
		Constant("k_1", "q.heat.real_low", quantity.Ratio(realLow).Value(), working.Trade).
		Constant("k_2", "q.heat.real_high", quantity.Ratio(realHigh).Value(), working.Trade).
		Step("q_1", "q.heat.flow_low", "4·V/h", wanted.Value(), working.Trade).
		Step("t_1", "q.heat.turnover_slowest", "t_1 = V/(k_1·q_L)", r.Slowest.Value(), "").
		Step("t_2", "q.heat.turnover_fastest", "t_2 = V/(k_2·q_L)", r.Fastest.Value(), "").
		Between(r.Fastest.Value(), r.Slowest.Value(), "assume.heat.real_flow").
		As(working.RuleOfThumb)
	real := (r.RealLow + r.RealHigh) / 2
	r.Check = working.Check{Name: "q.heat.turnover_check", Use: float64(wanted / real),
		Demand: wanted.Value(), Capacity: real.Value(), Trail: r.Trail}
	if code := r.remark(); code != "" {
		// A rule of the trade asks for care, it never demands action.
		r.Check.State = working.Wait
		f := working.Find(working.Wait, code).With("Low", r.RealLow.Value()).With("High", r.RealHigh.Value()).
			With("Wanted", wanted.Value()).With("Fastest", r.Fastest.Value()).With("Slowest", r.Slowest.Value())
		r.Check.Finding = &f
		r.Findings = append(r.Findings, f)
	}
	return r, nil
}

// remark returns what to say of the turnover, or nothing.
func (r TurnoverResult) remark() working.Key {
	switch {
	case r.Check.Use > 1:
		return "find.heat.filter_weak"
	case r.Low > turnoverBrisk:
		return "find.heat.filter_brisk"
	}
	return ""
}
