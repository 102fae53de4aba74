package heat

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// lossSpread is how far the model may be off either way: draughts, the corner of
// a room, gaps in the lid. Source: judgement.
const lossSpread = 0.25

// LossResult is the steady heat flow from the water to the room. A part is
// negative where heat flows in. A table of the reference model is met within
// 2 %; the model itself holds within ±25 %.
type LossResult struct {
	Total           quantity.Power
	Low, High       quantity.Power // Total ∓ 25 %
	Walls           quantity.Power
	Bottom          quantity.Power
	Surface         quantity.Power       // Evaporating + SurfaceDry
	Evaporating     quantity.Power       // taken along by the water that evaporates
	SurfaceDry      quantity.Power       // convection and radiation, or through the lid
	WallU           quantity.Value       // W/(m²·K) of the walls; missing below 0.1 K of difference
	Conductance     quantity.Value       // W/K, Total over the difference; missing below 0.1 K, or where heat flows against it
	WallOutside     quantity.Temperature // of the walls' outer face
	Evaporation     quantity.Volume      // a day
	EvaporationLow  quantity.Volume      // a day, in very still air or under a tight lid
	EvaporationHigh quantity.Volume      // a day, with some air movement or a gap in the lid
	Trail           *working.Trail
	Findings        []working.Finding
}

// flows are the parts of the heat flow in W, and what goes with them.
type flows struct {
	walls, bottom, evaporating, dry float64
	wallOutside                     float64 // °C
	vapour, vapourLow, vapourHigh   float64 // kg/s
}

func (f flows) total() float64 { return f.walls + f.bottom + f.evaporating + f.dry }

// flows computes the parts without asking whether the inputs are valid: the
// cooling curve calls it at every stage.
func (b box) flows(water, room, humidity float64) flows {
	var f flows
	flux, outside := wallFlux(b.wallR, b.height, water, room)
	f.walls, f.wallOutside = flux*b.wallArea, outside
	f.bottom = b.bottomU * b.footprint * (water - room)
	open := still(water, room, humidity) * b.footprint / 3600
	carrier := brisk(water, room, humidity) * b.footprint / 3600
	if b.lid {
		f.vapour, f.vapourLow, f.vapourHigh = lidLetsBy*open, lidLetsByLow*open, lidLetsByHigh*open
		f.dry = b.lidU * b.footprint * (water - room)
	} else {
		f.vapour, f.vapourLow, f.vapourHigh = open, (1-lossSpread)*open, math.Max(open, carrier)
		f.dry = topFlux(b.topLength, water, room) * b.footprint
	}
	f.evaporating = f.vapour * vaporisation(water)
	return f
}

// Loss returns what an enclosure of still water at temperature water loses to a
// room at temperature room and relative humidity. Evaporation is the volume a
// day. Errors: *working.Refusal for the fields length, width, height, wall,
// material, cover, support, water (0 to 45 °C), room (-10 to 45 °C), humidity (0 to 1).
func Loss(e Enclosure, water, room quantity.Temperature, humidity quantity.Ratio) (LossResult, error) {
	if err := first(e.check(), waterIn("water", water), roomIn("room", room), humidityIn(humidity)); err != nil {
		return LossResult{}, err
	}
	b := e.box()
	f := b.flows(float64(water), float64(room), float64(humidity))
	r := f.result(water.Minus(room), b)
	r.Trail = lossTrail(e, b, f, r, water, room, humidity)
	if !r.Trail.Finite() {
		return LossResult{}, working.Refuse("water", "refuse.not_a_number")
	}
	r.Findings = r.findings(e, water, room)
	return r, nil
}

func (f flows) result(difference quantity.TemperatureDifference, b box) LossResult {
	total, dT := f.total(), float64(difference)
	daily := func(kgPerSecond float64) quantity.Volume {
		return quantity.Volume(kgPerSecond * day / waterDensity)
	}
	r := LossResult{
		Total:           quantity.Power(total),
		Low:             quantity.Power(total - lossSpread*math.Abs(total)),
		High:            quantity.Power(total + lossSpread*math.Abs(total)),
		Walls:           quantity.Power(f.walls),
		Bottom:          quantity.Power(f.bottom),
		Surface:         quantity.Power(f.evaporating + f.dry),
		Evaporating:     quantity.Power(f.evaporating),
		SurfaceDry:      quantity.Power(f.dry),
		WallOutside:     quantity.Temperature(f.wallOutside),
		Evaporation:     daily(f.vapour),
		EvaporationLow:  daily(f.vapourLow),
		EvaporationHigh: daily(f.vapourHigh),
	}
	if math.Abs(dT) >= leastDifference {
		r.WallU = quantity.Value{Kind: quantity.KindTransmittance, X: f.walls / b.wallArea / dT}
		if total*dT > 0 {
			r.Conductance = quantity.Conductance(total / dT).Value()
		}
	}
	return r
}

func lossTrail(e Enclosure, b box, f flows, r LossResult, water, room quantity.Temperature, humidity quantity.Ratio) *working.Trail {
	u := func(x float64) quantity.Value { return quantity.Value{Kind: quantity.KindTransmittance, X: x} }
	t := working.New("ask.heat.loss").
		Given("L", "q.heat.length", e.Length.Value()).
		Given("W", "q.heat.width", e.Width.Value()).
		Given("H", "q.heat.height", e.Height.Value()).
		Given("t", "q.heat.wall", e.Wall.Value()).
		Given("T_w", "q.heat.water_temperature", water.Value()).
		Given("T_a", "q.heat.room_temperature", room.Value()).
		Given("φ", "q.heat.humidity", humidity.Value()).
		Constant("h_in", "q.heat.film_inside", u(filmInside), working.Ours).
		Constant("ρ", "q.heat.water_density", quantity.Density(waterDensity).Value(), srcWater).
		Constant("U_b", "q.heat.bottom_u", u(b.bottomU), working.Ours).
		Cites(e.Material.stuff().source).
		Step("A_w", "q.heat.wall_area", "A_w = 2·(L + W)·H", quantity.Area(b.wallArea).Value(), working.Algebra).
		Step("A", "q.heat.footprint", "A = L·W", quantity.Area(b.footprint).Value(), working.Algebra).
		Step("T_s", "q.heat.wall_outside", "(T_w - T_s)/(1/h_in + t/k) = h_c·(T_s - T_a) + ε·σ·(T_s⁴ - T_a⁴)", r.WallOutside.Value(), srcChurchill).
		Step("Q_w", "q.heat.loss_walls", "Q_w = A_w·(T_w - T_s)/(1/h_in + t/k)", r.Walls.Value(), "").
		Step("Q_b", "q.heat.loss_bottom", "Q_b = U_b·A·(T_w - T_a)", r.Bottom.Value(), working.Ours)
	vapour := quantity.Value{Kind: quantity.KindAreaFlux, X: f.vapour * 3600 / b.footprint}
	if b.lid {
		t.Constant("c", "q.heat.lid_lets_by", quantity.Ratio(lidLetsBy).Value(), working.Ours).
			Step("E", "q.heat.evaporation_flux", "E = c·max(35·ρ_w·(ρ_a - ρ_w)^(1/3)·(W_w - W_a), 0.00005·(p_w - p_a))", vapour, srcShah).
			Step("Q_d", "q.heat.loss_lid", "Q_d = A·(T_w - T_a)/(1/10 + 0.004 + 1/9)", r.SurfaceDry.Value(), working.Ours).
			Assume("assume.heat.lid_closed")
	} else {
		t.Step("E", "q.heat.evaporation_flux", "E = max(35·ρ_w·(ρ_a - ρ_w)^(1/3)·(W_w - W_a), 0.00005·(p_w - p_a))", vapour, srcShah).
			Step("Q_d", "q.heat.loss_surface_dry", "Q_d = A·(h_c·(T_w - T_a) + ε·σ·(T_w⁴ - T_a⁴))", r.SurfaceDry.Value(), srcMcAdams).
			Cites(srcCarrier)
	}
	t.Step("V_E", "q.heat.evaporation_daily", "V_E = 24·E·A/ρ", r.Evaporation.Value(), "").
		Step("Q_E", "q.heat.loss_evaporation", "Q_E = E·A·h_fg", r.Evaporating.Value(), srcRogersYau)
	t.Step("Q", "q.heat.loss_total", "Q = Q_w + Q_b + Q_d + Q_E", r.Total.Value(), working.Algebra)
	total := t.Result
	if r.Conductance.Known() {
		t.Step("UA", "q.heat.conductance", "UA = Q/(T_w - T_a)", r.Conductance, "")
		t.Result = total
	}
	t.Cites(srcHylandWexler).
		Between(r.Low.Value(), r.High.Value(), "assume.heat.spread").
		Assume("assume.heat.still_air", "assume.heat.bottom").
		Within("q.heat.water_temperature", waterMin.Value(), waterMax.Value()).
		Within("q.heat.room_temperature", roomMin.Value(), roomMax.Value()).
		Within("q.heat.humidity", quantity.Ratio(0).Value(), quantity.Ratio(1).Value())
	if water < shahMin {
		t.Assume("assume.heat.cool_water")
	}
	return t
}

func (r LossResult) findings(e Enclosure, water, room quantity.Temperature) []working.Finding {
	var fs []working.Finding
	if e.Cover == Open && r.Evaporating > 0 && r.Evaporating >= 0.25*r.Total && r.Total > 0 {
		fs = append(fs, working.Find(working.Steady, "find.heat.lid_saves").
			With("Heat", r.Evaporating.Value()).With("Total", r.Total.Value()).With("Daily", r.Evaporation.Value()))
	}
	if room > water && r.Total < 0 {
		fs = append(fs, working.Find(working.Steady, "find.heat.room_warms").With("Heat", (-r.Total).Value()))
	}
	return fs
}
