package heat

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// WarmUpResult is how long warming takes and the energy it needs.
type WarmUpResult struct {
	Reached bool            // whether the heater gets there at all
	Time    quantity.Value  // s; missing when it does not get there
	Stored  quantity.Energy // heat that stays in water and glass
	Drawn   quantity.Value  // J from the mains; missing when it does not get there
	Trail   *working.Trail
}

// WarmUp returns how long a heater of the given power takes from start to set
// in a room, with t = τ·ln((T_max - T_start)/(T_max - T_set)), τ = C/UA and T_max =
// T_room + P/UA. A start at or above set takes no time. Errors: *working.Refusal for
// heat_capacity (1 kJ/K to 50 MJ/K), conductance (0.01 to 1000 W/K), heater_power (1
// W to 12 kW), room, start, set_point.
func WarmUp(c HeatCapacity, ua quantity.Conductance, power quantity.Power, room, start, set quantity.Temperature) (WarmUpResult, error) {
	perKelvin := quantity.Energy(c)
	err := first(
		working.InRange("heat_capacity", "q.heat.capacity", perKelvin.Value(), quantity.Energy(1e3).Value(), quantity.Energy(5e7).Value()),
		working.InRange("conductance", "q.heat.conductance", ua.Value(), quantity.Conductance(0.01).Value(), quantity.Conductance(1000).Value()),
		working.InRange("heater_power", "q.heat.heater_power", power.Value(), quantity.Power(1).Value(), quantity.Power(12000).Value()),
		roomIn("room", room), waterIn("start", start), waterIn("set_point", set))
	if err != nil {
		return WarmUpResult{}, err
	}
	tau := quantity.Time(float64(c) / float64(ua))
	r := WarmUpResult{Stored: quantity.Energy(float64(c) * math.Max(0, float64(set-start)))}
	t := working.New("ask.heat.warm_up").
		Given("C", "q.heat.capacity", perKelvin.Value()).
		Given("UA", "q.heat.conductance", ua.Value()).
		Given("P", "q.heat.heater_power", power.Value()).
		Given("T_a", "q.heat.room_usual", room.Value()).
		Given("T_0", "q.heat.start", start.Value()).
		Given("T_set", "q.heat.set_point", set.Value()).
		Assume("assume.heat.spread", "assume.heat.constant_ua").
		Cites(srcWater).
		Step("E", "q.heat.stored", "E = C·max(0, T_set - T_0)", r.Stored.Value(), working.Algebra).
		Step("τ", "q.heat.time_constant", "τ = C/UA", tau.Value(), working.Algebra)
	r.Trail = t
	if start >= set {
		r.Reached, r.Time, r.Drawn = true, quantity.Time(0).Value(), quantity.Energy(0).Value()
		t.Step("t", "q.heat.warm_up", "T_0 ≥ T_set", r.Time, working.Algebra)
		return r, nil
	}
	seconds, ok := warmingTime(float64(c), float64(ua), power, room, start, set)
	if !ok {
		rise := quantity.TemperatureDifference(float64(power) / float64(ua))
		t.Step("ΔT", "q.heat.rise", "ΔT = P/UA", rise.Value(), working.Algebra)
		return r, nil
	}
	drawn := quantity.Energy(seconds * float64(power))
	r.Reached, r.Time, r.Drawn = true, quantity.Time(seconds).Value(), drawn.Value()
	t.Step("t", "q.heat.warm_up", "t = τ·ln((T_a + P/UA - T_0)/(T_a + P/UA - T_set))", r.Time, working.Algebra)
	answer := t.Result
	t.Step("E_P", "q.heat.drawn", "E_P = P·t", r.Drawn, working.Algebra)
	t.Result = answer
	fast, _ := warmingTime(float64(c), (1-lossSpread)*float64(ua), power, room, start, set)
	if slow, ok := warmingTime(float64(c), (1+lossSpread)*float64(ua), power, room, start, set); ok {
		t.Between(quantity.Time(fast).Value(), quantity.Time(slow).Value(), "assume.heat.spread")
	} else {
		t.Assume("assume.heat.may_never_warm")
	}
	if !t.Finite() {
		return WarmUpResult{}, working.Refuse("heater_power", "refuse.not_a_number")
	}
	return r, nil
}

// warmingTime returns the seconds from start to set, and false where the heater
// does not get there. With a = P/UA the water ends at T_room + a; only
// differences enter.
func warmingTime(c, ua float64, power quantity.Power, room, start, set quantity.Temperature) (float64, bool) {
	a := float64(power) / ua
	left := a - float64(set-room)
	if left <= 0 {
		return 0, false
	}
	return c / ua * math.Log((a-float64(start-room))/left), true
}
