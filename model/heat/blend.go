package heat

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Scalds is the temperature at which water burns skin within minutes, hotter water
// within seconds. Source: Moritz and Henriques 1947, from memory.
const Scalds quantity.Temperature = 50

// Blending. The gentle shift is judgement.
const (
	blendMin, blendMax quantity.Temperature           = 0, 95
	gentleShift        quantity.TemperatureDifference = 1
)

// BlendResult is how to mix hot and cold water in a bucket.
type BlendResult struct {
	HotShare quantity.Ratio // of the mixture's volume, 0 to 1
	Trail    *working.Trail
	Findings []working.Finding
}

// Hot returns the hot part of a bucket of the given volume.
func (b BlendResult) Hot(total quantity.Volume) quantity.Volume {
	return total * quantity.Volume(b.HotShare)
}

// Cold returns the cold part of a bucket of the given volume.
func (b BlendResult) Cold(total quantity.Volume) quantity.Volume { return total - b.Hot(total) }

// Blend returns the share of hot water that brings cold water to target. Errors:
// *working.Refusal for hot and cold (0 to 95 °C, hot above cold) and target
// (between cold and hot).
func Blend(hot, cold, target quantity.Temperature) (BlendResult, error) {
	err := first(
		working.InRange("hot", "q.heat.hot", hot.Value(), blendMin.Value(), blendMax.Value()),
		working.InRange("cold", "q.heat.cold", cold.Value(), blendMin.Value(), blendMax.Value()),
		working.InRange("target", "q.heat.target", target.Value(), blendMin.Value(), blendMax.Value()))
	if err != nil {
		return BlendResult{}, err
	}
	values := map[string]quantity.Value{"Hot": hot.Value(), "Cold": cold.Value(), "Target": target.Value()}
	if float64(hot-cold) < leastDifference {
		return BlendResult{}, &working.Refusal{Field: "hot", Code: "refuse.heat.hot_not_hotter", Values: values}
	}
	if target < cold || target > hot {
		return BlendResult{}, &working.Refusal{Field: "target", Code: "refuse.heat.target_not_between", Values: values,
			Accept: working.Limit{Name: "q.heat.target", Low: cold.Value(), High: hot.Value()}}
	}
	share := quantity.Ratio(float64(target-cold) / float64(hot-cold))
	r := BlendResult{HotShare: share}
	r.Trail = working.New("ask.heat.blend").
		Given("T_h", "q.heat.hot", hot.Value()).
		Given("T_c", "q.heat.cold", cold.Value()).
		Given("T", "q.heat.target", target.Value()).
		Step("x", "q.heat.hot_share", "x = (T - T_c)/(T_h - T_c)", share.Value(), working.Algebra).
		Assume("assume.heat.bucket").
		Within("q.heat.target", cold.Value(), hot.Value())
	if hot > Scalds {
		r.Findings = append(r.Findings, working.Find(working.Wait, "find.heat.scald").With("Hot", hot.Value()).With("Limit", Scalds.Value()))
	}
	return r, nil
}

// ChangeResult is what a water change does to the tank's temperature.
type ChangeResult struct {
	After    quantity.Temperature
	Shift    quantity.TemperatureDifference // After less before; negative is cooler
	Trail    *working.Trail
	Findings []working.Finding
}

// Change returns the temperature after replacing share of a tank's water by
// fresh water. Errors: *working.Refusal for tank, fresh (0 to 45 °C), share (0 to 1).
func Change(tank, fresh quantity.Temperature, share quantity.Ratio) (ChangeResult, error) {
	err := first(waterIn("tank", tank), waterIn("fresh", fresh),
		working.InRange("share", "q.heat.change_share", share.Value(), quantity.Ratio(0).Value(), quantity.Ratio(1).Value()))
	if err != nil {
		return ChangeResult{}, err
	}
	shift := quantity.TemperatureDifference(float64(share) * float64(fresh-tank))
	r := ChangeResult{After: tank.Plus(shift), Shift: shift}
	r.Trail = working.New("ask.heat.change").
		Given("T_t", "q.heat.tank", tank.Value()).
		Given("T_f", "q.heat.fresh", fresh.Value()).
		Given("s", "q.heat.change_share", share.Value()).
		Step("ΔT", "q.heat.shift", "ΔT = s·(T_f - T_t)", shift.Value(), working.Algebra).
		Step("T", "q.heat.after", "T = T_t + ΔT", r.After.Value(), working.Algebra).
		Assume("assume.heat.no_heater")
	if math.Abs(float64(shift)) > float64(gentleShift)+1e-9 {
		r.Findings = append(r.Findings, working.Find(working.Wait, "find.heat.change_shifts").
			With("Shift", quantity.TemperatureDifference(math.Abs(float64(shift))).Value()).
			With("After", r.After.Value()).With("Gentle", gentleShift.Value()))
	}
	return r, nil
}

// ShareResult is the largest water change that keeps the temperature shift small.
type ShareResult struct {
	Share quantity.Ratio
	Trail *working.Trail
}

// LargestChange returns the largest share of water that fresh water may replace
// so that the tank's temperature moves by at most limit (0.1 to 10 K). Errors:
// *working.Refusal for tank, fresh, limit.
func LargestChange(tank, fresh quantity.Temperature, limit quantity.TemperatureDifference) (ShareResult, error) {
	err := first(waterIn("tank", tank), waterIn("fresh", fresh),
		working.InRange("limit", "q.heat.shift_limit", limit.Value(), quantity.TemperatureDifference(0.1).Value(), quantity.TemperatureDifference(10).Value()))
	if err != nil {
		return ShareResult{}, err
	}
	gap := math.Abs(float64(fresh - tank))
	share := quantity.Ratio(1)
	if gap > float64(limit) {
		share = quantity.Ratio(float64(limit) / gap)
	}
	t := working.New("ask.heat.largest_change").
		Given("T_t", "q.heat.tank", tank.Value()).
		Given("T_f", "q.heat.fresh", fresh.Value()).
		Given("ΔT", "q.heat.shift_limit", limit.Value()).
		Step("s", "q.heat.change_share", "s = min(1, ΔT/|T_f - T_t|)", share.Value(), working.Algebra).
		Assume("assume.heat.no_heater")
	return ShareResult{share, t}, nil
}
