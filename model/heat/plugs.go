package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Plug is one appliance of the tank.
type Plug struct {
	Power quantity.Power // on its label, 0 to 3000 W
	Daily quantity.Time  // how long it runs in a day, 0 to 24 h
	Share quantity.Ratio // of that time it draws its power: 1, less for a heater
}

// Outlet is the supply that one extension block hangs on.
type Outlet uint8

// The outlets.
const (
	Outlet230V Outlet = iota // 230 V, 10 A
	Outlet120V               // 120 V, 15 A, 80 % for continuous load
)

// PlugsResult is all appliances together.
type PlugsResult struct {
	AllOn    quantity.Power // everything at once
	Mean     quantity.Power // over day and night
	Sockets  int
	Cost     CostResult
	Check    working.Check // AllOn against what the outlet carries
	Trail    *working.Trail
	Findings []working.Finding
}

// Plugs adds up the appliances on one outlet. Errors: *working.Refusal for
// plug_power, plug_daily, plug_share, plugs (none, or more than 50), tariff.
func Plugs(list []Plug, o Outlet, tariff quantity.Value) (PlugsResult, error) {
	return PlugsResult{}, working.Refuse("plugs", "refuse.missing")
}
