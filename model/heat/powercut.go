package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// PowerCutInput is a tank whose heater goes off.
type PowerCutInput struct {
	Enclosure Enclosure
	Water     quantity.Volume      // what is really filled in, 1 to 3000 L
	Start     quantity.Temperature // of the water when the power goes
	Room      quantity.Temperature // held constant
	Humidity  quantity.Ratio
	Lasts     quantity.Time        // how far to look ahead, 10 min to 14 days
	Watch     quantity.Temperature // the temperature whose time is asked for, 0 to 45 °C
}

// Sample is one point of a cooling curve.
type Sample struct {
	At    quantity.Time // since the power went
	Water quantity.Temperature
}

// PowerCutResult is the cooling curve.
type PowerCutResult struct {
	Curve        []Sample             // evenly spaced, first at zero, last at Lasts
	End          quantity.Temperature // at Lasts
	Reaches      bool                 // whether Watch is met within Lasts
	ReachesAfter quantity.Value       // s; missing when it is not met
	BelowRoom    bool                 // evaporation took it below the room's temperature
	TimeConstant quantity.Time        // at the start: heat capacity over conductance
	Trail        *working.Trail
	Findings     []working.Finding
}

// PowerCut follows C·dT/dt = -Loss(T) from Start. Errors: *working.Refusal for the
// fields of Loss and water_volume, start, lasts, watch.
func PowerCut(in PowerCutInput) (PowerCutResult, error) {
	return PowerCutResult{}, working.Refuse("start", "refuse.missing")
}
