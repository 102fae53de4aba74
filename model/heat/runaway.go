package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// runawayLimit is the water temperature above which a stuck heater is warned of.
// Source: judgement; most fish of a community tank are harmed above it.
const runawayLimit quantity.Temperature = 32

// RunawayResult is where the water ends when a thermostat sticks.
type RunawayResult struct {
	Ends  quantity.Value // °C, T_room + P/UA; missing above 45 °C, where the loss model ends
	Check working.Check  // the heater's power against the power that holds 32 °C
	Trail *working.Trail
}

// runaway computes T_room + P/UA. Evaporation grows faster than the difference of
// temperatures, so the figure is an upper one.
func runaway(ua quantity.Conductance, power quantity.Power, room quantity.Temperature) RunawayResult {
	rise := quantity.TemperatureDifference(float64(power) / float64(ua))
	ends := room.Plus(rise)
	var r RunawayResult
	r.Trail = working.New("ask.heat.runaway").
		Given("P", "q.heat.heater_power", power.Value()).
		Given("UA", "q.heat.conductance", ua.Value()).
		Given("T_a", "q.heat.room_usual", room.Value()).
		Within("q.heat.water_temperature", waterMin.Value(), waterMax.Value()).
		Assume("assume.heat.runaway_upper", "assume.heat.spread")
	if ends <= waterMax {
		r.Ends = ends.Value()
		r.Trail.Step("ΔT", "q.heat.rise", "ΔT = P/UA", rise.Value(), working.Algebra).
			Step("T_max", "q.heat.runaway", "T_max = T_a + ΔT", r.Ends, working.Algebra)
		spread := func(ua float64) quantity.Value {
			return room.Plus(quantity.TemperatureDifference(float64(rise) / ua)).Value()
		}
		r.Trail.Between(spread(1+lossSpread), spread(1-lossSpread), "assume.heat.spread")
	} else {
		holds := quantity.Power(float64(ua) * float64(waterMax-room))
		r.Trail.Step("P_45", "q.heat.holds_limit", "P_45 = UA·(45 - T_a)", holds.Value(), working.Algebra)
	}
	r.Check = runawayCheck(ua, power, room, ends)
	r.Check.Trail = r.Trail
	return r
}

func runawayCheck(ua quantity.Conductance, power quantity.Power, room, ends quantity.Temperature) working.Check {
	allowed := quantity.Power(max(0, float64(ua)*float64(runawayLimit-room)))
	c := working.Check{Name: "q.heat.runaway_check", Demand: power.Value(), Capacity: allowed.Value()}
	if allowed > 0 {
		c.Use = float64(power / allowed)
	} else {
		c.Use = float64(ends / runawayLimit) // the room alone is at the limit: shown as a full bar
	}
	switch {
	case ends > waterMax:
		c.State = working.Act
		f := working.Find(working.Act, "find.heat.runaway_far").With("Power", power.Value()).With("Limit", waterMax.Value())
		c.Finding = &f
	case ends > runawayLimit:
		c.State = working.Wait
		f := working.Find(working.Wait, "find.heat.runaway").With("Water", ends.Value()).With("Limit", runawayLimit.Value())
		c.Finding = &f
	}
	return c
}
