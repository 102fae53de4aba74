package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Pump is a pump's curve, H = H0·(1 - (Q/Q0)²).
type Pump struct {
	Head quantity.Length // H0 at no flow, 0.05 to 20 m
	Flow quantity.Flow   // Q0 at no head, 10 L/h to 20 m³/h
}

// Hose is the way the water takes outside the pump.
type Hose struct {
	Bore     quantity.Length // inner diameter, 4 to 60 mm
	Length   quantity.Length // 0 to 50 m
	Fittings quantity.Ratio  // ΣK of bends, taps, media and outlet, 0 to 200
	Lift     quantity.Length // from water level to outlet, 0 to 10 m
}

// HeadLossResult is the pressure that a hose takes at a flow, as a height of water.
type HeadLossResult struct {
	Loss     quantity.Length
	Reynolds float64
	Friction float64 // Darcy's friction factor
	Trail    *working.Trail
}

// HeadLoss returns the height that a hose takes at a flow, without its lift.
// Errors: *working.Refusal for flow (0 to 20 m³/h), bore, hose_length, fittings, lift.
func HeadLoss(h Hose, flow quantity.Flow) (HeadLossResult, error) {
	return HeadLossResult{}, working.Refuse("flow", "refuse.missing")
}

// OperatingPoint is where pump and hose agree.
type OperatingPoint struct {
	Flow     quantity.Flow
	Head     quantity.Length
	Trail    *working.Trail
	Findings []working.Finding
}

// FilterOperatingPoint returns the flow at which the pump's head equals lift and
// losses of the hose. Errors: *working.Refusal for pump_head, pump_flow, the fields
// of HeadLoss, and lift when the pump does not reach that high.
func FilterOperatingPoint(p Pump, h Hose) (OperatingPoint, error) {
	return OperatingPoint{}, working.Refuse("lift", "refuse.missing")
}
