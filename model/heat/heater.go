package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// HeaterInput is what a heater is sized for.
type HeaterInput struct {
	Enclosure Enclosure
	Water     quantity.Volume      // what is really filled in, 1 to 3000 L
	SetPoint  quantity.Temperature // 0 to 45 °C, above RoomLow
	RoomLow   quantity.Temperature // the lowest that the room falls to
	RoomUsual quantity.Temperature // as the room mostly is, not below RoomLow
	Start     quantity.Temperature // of the water when the heater is first switched on
	Humidity  quantity.Ratio       // of the room's air, 0 to 1
}

// HeaterResult is a heater, or two alike, and what they do in this tank.
type HeaterResult struct {
	Loss      LossResult     // at SetPoint and RoomLow
	Need      quantity.Power // 1.25 times that loss
	Size      quantity.Power // of each heater
	Count     int            // heaters of that size, 1 or 2 (HeaterCheck: as asked)
	Installed quantity.Power // Size times Count
	Rule      RuleOfThumb    // the trade's watts per gallon, as a cross-check only
	Runaway   RunawayResult  // if one thermostat stays on
	WarmUp    WarmUpResult   // from Start to SetPoint in RoomUsual, all heaters on

	Trail    *working.Trail // of Size
	Checks   []working.Check
	Findings []working.Finding
}

// RuleOfThumb is the trade's rule of 3 to 5 W a US gallon.
type RuleOfThumb struct {
	Low, High quantity.Power
	Trail     *working.Trail
}

// RunawayResult is where the water ends when a thermostat sticks.
type RunawayResult struct {
	Ends  quantity.Temperature // T_room + P/UA, an upper figure: evaporation grows faster
	Trail *working.Trail
}

// WarmUpResult is how long warming takes and the energy it needs.
type WarmUpResult struct {
	Reached bool            // whether the heater gets there at all
	Time    quantity.Value  // s; missing when it does not get there
	Stored  quantity.Energy // heat that stays in water and glass
	Drawn   quantity.Value  // J from the mains; missing when it does not get there
	Trail   *working.Trail
}

// CommonSizes lists the heater sizes that are commonly sold, in W, ascending.
func CommonSizes() []quantity.Power { return nil }

// HeaterSize picks the heater for a tank: the next common size above the need,
// and two of them from the size where one would exceed about 200 W. Errors:
// *working.Refusal for the fields of Loss and water_volume, set_point, room_low,
// room_usual, start, and for set_point when no common pair is large enough.
func HeaterSize(in HeaterInput) (HeaterResult, error) {
	return HeaterResult{}, working.Refuse("set_point", "refuse.missing")
}

// HeaterCheck looks at count heaters of a size that somebody has already. Errors:
// those of HeaterSize, and the fields heater_power (1 to 3000 W) and heater_count
// (1 to 4).
func HeaterCheck(in HeaterInput, size quantity.Power, count int) (HeaterResult, error) {
	return HeaterResult{}, working.Refuse("set_point", "refuse.missing")
}

// WarmUp returns how long a heater of the given power takes from start to set
// in a room, with t = τ·ln((T_max - T_start)/(T_max - T_set)), τ = C/UA. A start
// at or above set takes no time. Errors: fields heat_capacity, conductance,
// heater_power, room, start, set_point.
func WarmUp(c HeatCapacity, ua quantity.Conductance, power quantity.Power, room, start, set quantity.Temperature) (WarmUpResult, error) {
	return WarmUpResult{}, working.Refuse("set_point", "refuse.missing")
}
