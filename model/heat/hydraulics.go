package heat

import (
	"math"

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
	if err := first(
		working.InRange("flow", "q.heat.flow", flow.Value(), quantity.Flow(0).Value(), flowMax.Value()),
		h.check()); err != nil {
		return HeadLossResult{}, err
	}
	loss, re, f := h.loss(float64(flow))
	r := HeadLossResult{Loss: quantity.Length(loss), Reynolds: re, Friction: f}
	r.Trail = h.givens(working.New("ask.heat.head_loss")).
		Given("q", "q.heat.flow", flow.Value()).
		Step("v", "q.heat.velocity", "v = 4·q/(π·d²)", velocityValue(h.velocity(float64(flow))), working.Algebra).
		Step("Re", "q.heat.reynolds", "Re = v·d/ν", quantity.Ratio(re).Value(), working.Algebra).
		Step("f", "q.heat.friction", frictionFormula(re), quantity.Ratio(f).Value(), srcPipe).
		Step("h", "q.heat.head_loss", "h = (f·L/d + ΣK)·v²/(2·g)", r.Loss.Value(), srcPipe).
		Assume("assume.heat.smooth_hose")
	if !r.Trail.Finite() {
		return HeadLossResult{}, working.Refuse("flow", "refuse.not_a_number")
	}
	return r, nil
}

// Water and hose. Source: kinematic viscosity of water at 25 °C 0.9e-6 m²/s,
// common table value; roughness 1.5 µm for drawn plastic, common table value.
const (
	waterViscosity = 0.9e-6
	roughness      = 1.5e-6
	laminarEnds    = 2300.0
	pumpSpread     = 0.15 // of the flow; judgement, the shape of the pump's curve is assumed
)

func velocityValue(x float64) quantity.Value {
	return quantity.Value{Kind: quantity.KindVelocity, X: x}
}

func frictionFormula(re float64) string {
	if re < laminarEnds {
		return "f = 64/Re"
	}
	return "f = 0.25/log₁₀(ε/(3.7·d) + 5.74/Re^0.9)²"
}

func (h Hose) velocity(flow float64) float64 {
	return 4 * flow / (math.Pi * float64(h.Bore) * float64(h.Bore))
}

// loss returns height lost in m, Reynolds number and friction factor.
func (h Hose) loss(flow float64) (head, re, f float64) {
	if flow <= 0 {
		return 0, 0, 0
	}
	d, v := float64(h.Bore), h.velocity(flow)
	re = v * d / waterViscosity
	if re < laminarEnds {
		f = 64 / re
	} else {
		l := math.Log10(roughness/(3.7*d) + 5.74/math.Pow(re, 0.9))
		f = 0.25 / (l * l)
	}
	return (f*float64(h.Length)/d + float64(h.Fittings)) * v * v / (2 * quantity.StandardGravity), re, f
}

func (h Hose) check() error {
	return first(
		working.InRange("bore", "q.heat.bore", h.Bore.Value(), quantity.Length(0.004).Value(), quantity.Length(0.06).Value()),
		working.InRange("hose_length", "q.heat.hose_length", h.Length.Value(), quantity.Length(0).Value(), quantity.Length(50).Value()),
		working.InRange("fittings", "q.heat.fittings", h.Fittings.Value(), quantity.Ratio(0).Value(), quantity.Ratio(200).Value()),
		working.InRange("lift", "q.heat.lift", h.Lift.Value(), quantity.Length(0).Value(), quantity.Length(10).Value()))
}

func (h Hose) givens(t *working.Trail) *working.Trail {
	return t.Given("d", "q.heat.bore", h.Bore.Value()).
		Given("L", "q.heat.hose_length", h.Length.Value()).
		Given("ΣK", "q.heat.fittings", h.Fittings.Value())
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
	if err := first(
		working.InRange("pump_head", "q.heat.pump_head", p.Head.Value(), quantity.Length(0.05).Value(), quantity.Length(20).Value()),
		working.InRange("pump_flow", "q.heat.pump_flow", p.Flow.Value(), labelFlowMin.Value(), flowMax.Value()),
		h.check()); err != nil {
		return OperatingPoint{}, err
	}
	if h.Lift >= p.Head {
		return OperatingPoint{}, &working.Refusal{Field: "lift", Code: "refuse.heat.lift_too_high",
			Values: map[string]quantity.Value{"Lift": h.Lift.Value(), "Head": p.Head.Value()}}
	}
	flow := quantity.Flow(operatingFlow(p, h))
	head := quantity.Length(p.at(float64(flow)))
	r := OperatingPoint{Flow: flow, Head: head}
	loss, re, f := h.loss(float64(flow))
	r.Trail = h.givens(working.New("ask.heat.operating_point")).
		Given("z", "q.heat.lift", h.Lift.Value()).
		Given("H_0", "q.heat.pump_head", p.Head.Value()).
		Given("q_0", "q.heat.pump_flow", p.Flow.Value()).
		Step("v", "q.heat.velocity", "v = 4·q/(π·d²)", velocityValue(h.velocity(float64(flow))), working.Algebra).
		Step("Re", "q.heat.reynolds", "Re = v·d/ν", quantity.Ratio(re).Value(), working.Algebra).
		Step("f", "q.heat.friction", frictionFormula(re), quantity.Ratio(f).Value(), srcPipe).
		Step("h", "q.heat.head_loss", "h = (f·L/d + ΣK)·v²/(2·g)", quantity.Length(loss).Value(), srcPipe).
		Step("H", "q.heat.operating_head", "H = H_0·(1 - (q/q_0)²)", head.Value(), working.Ours).
		Step("q", "q.heat.operating_flow", "H_0·(1 - (q/q_0)²) = z + h", flow.Value(), working.Algebra).
		Between(((1 - pumpSpread) * flow).Value(), min((1+pumpSpread)*flow, p.Flow).Value(), "assume.heat.pump_curve").
		Assume("assume.heat.smooth_hose")
	if !r.Trail.Finite() {
		return OperatingPoint{}, working.Refuse("pump_flow", "refuse.not_a_number")
	}
	if flow < realLow*p.Flow {
		r.Findings = append(r.Findings, working.Find(working.Wait, "find.heat.flow_strangled").
			With("Flow", flow.Value()).With("Label", p.Flow.Value()))
	}
	return r, nil
}

// at returns the pump's head in m at a flow.
func (p Pump) at(flow float64) float64 {
	x := flow / float64(p.Flow)
	return float64(p.Head) * (1 - x*x)
}

// operatingFlow bisects between no flow and the pump's largest: the pump's
// head falls and the hose's loss rises with the flow. At the step of friction
// between laminar and turbulent flow the answer is that step's flow.
func operatingFlow(p Pump, h Hose) float64 {
	low, high := 0.0, float64(p.Flow)
	for range 60 {
		mid := (low + high) / 2
		loss, _, _ := h.loss(mid)
		if p.at(mid) > float64(h.Lift)+loss {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
