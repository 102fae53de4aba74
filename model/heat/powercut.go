package heat

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// PowerCutInput is a tank whose heater goes off.
type PowerCutInput struct {
	Enclosure Enclosure
	Water     quantity.Volume      // what is really filled in, 1 L to what the box holds
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
	Curve        []Sample             // evenly spaced from zero to Lasts; ends early at 0 °C
	End          quantity.Temperature // of the curve
	Reaches      bool                 // whether Watch is met within Lasts
	ReachesAfter quantity.Value       // s; missing when it is not met
	BelowRoom    bool                 // evaporation took it below the room's temperature
	Freezes      bool                 // the curve ended early at 0 °C
	TimeConstant quantity.Value       // s, at the start: capacity over conductance; missing without a conductance
	Trail        *working.Trail
	Findings     []working.Finding
}

// curvePoints is how many intervals a curve has: enough for a smooth chart.
const curvePoints = 72

// PowerCut follows C·dT/dt = -Q(T) from Start, with Q as in Loss. An open tank ends
// below the room's temperature, which the simple exponential does not show.
// Errors: *working.Refusal for the fields of Loss, and water_volume, start, lasts,
// watch.
func PowerCut(in PowerCutInput) (PowerCutResult, error) {
	err := first(
		waterIn("start", in.Start), waterIn("watch", in.Watch), roomIn("room", in.Room), humidityIn(in.Humidity),
		working.InRange("lasts", "q.heat.lasts", in.Lasts.Value(), quantity.Time(600).Value(), quantity.Time(secondsOfLongestPowerCut).Value()))
	if err != nil {
		return PowerCutResult{}, err
	}
	capacity, err := in.Enclosure.Capacity(in.Water)
	if err != nil {
		return PowerCutResult{}, err
	}
	loss, err := Loss(in.Enclosure, in.Start, in.Room, in.Humidity)
	if err != nil {
		return PowerCutResult{}, err
	}
	r, ok := in.curve(float64(capacity))
	if !ok {
		return PowerCutResult{}, working.Refuse("start", "refuse.not_a_number")
	}
	if loss.Conductance.Known() {
		r.TimeConstant = quantity.Time(float64(capacity) / loss.Conductance.X).Value()
	}
	r.Trail = in.trail(capacity, loss, r)
	if !r.Trail.Finite() {
		return PowerCutResult{}, working.Refuse("start", "refuse.not_a_number")
	}
	r.Findings = in.findings(r)
	return r, nil
}

// curve solves the cooling and notes when Watch is met.
func (in PowerCutInput) curve(capacity float64) (PowerCutResult, bool) {
	b := in.Enclosure.box()
	slope := func(t float64) float64 {
		return -b.flows(t, float64(in.Room), float64(in.Humidity)).total() / capacity
	}
	r := PowerCutResult{Curve: make([]Sample, 1, curvePoints+1)}
	step := float64(in.Lasts) / curvePoints
	y, k := float64(in.Start), slope(float64(in.Start))
	r.Curve[0] = Sample{0, in.Start}
	meet := func(seconds float64) {
		r.Reaches, r.ReachesAfter = true, quantity.Time(seconds).Value()
	}
	watch := float64(in.Watch)
	if y == watch {
		meet(0)
	}
	for i := range curvePoints {
		next, kNext, ok := follow(slope, y, k, step, 1e-6)
		if !ok {
			return r, false
		}
		begin := float64(i) * step
		if !r.Reaches && (y-watch)*(next-watch) <= 0 && y != next {
			meet(begin + step*crossing(y, next, k*step, kNext*step, watch))
		}
		if next < float64(waterMin) && y >= float64(waterMin) {
			u := crossing(y, next, k*step, kNext*step, float64(waterMin))
			r.Curve = append(r.Curve, Sample{quantity.Time(begin + u*step), waterMin})
			r.Freezes = true
			break
		}
		y, k = next, kNext
		r.Curve = append(r.Curve, Sample{quantity.Time(float64(i+1) * step), quantity.Temperature(y)})
	}
	r.End = r.Curve[len(r.Curve)-1].Water
	// A tenth of a kelvin keeps the solver's rounding out of the answer.
	r.BelowRoom = in.Start >= in.Room && float64(in.Room-r.End) > leastDifference
	return r, true
}

func (in PowerCutInput) trail(capacity HeatCapacity, loss LossResult, r PowerCutResult) *working.Trail {
	last := r.Curve[len(r.Curve)-1]
	t := working.New("ask.heat.power_cut").
		Given("V", "q.heat.water_volume", in.Water.Value()).
		Given("T_0", "q.heat.start", in.Start.Value()).
		Given("T_a", "q.heat.room_temperature", in.Room.Value()).
		Given("φ", "q.heat.humidity", in.Humidity.Value()).
		Given("t", "q.heat.lasts", last.At.Value()).
		Step("C", "q.heat.capacity", "C = V·ρ·c_p + m_wall·c_wall", quantity.Energy(capacity).Value(), srcWater).
		Step("Q_0", "q.heat.loss_start", "Q_0 = Q(T_0)", loss.Total.Value(), srcChurchill).
		Cites(in.Enclosure.Material.stuff().source)
	if r.TimeConstant.Known() {
		simple := simpleCooling(in.Start, in.Room, last.At, r.TimeConstant)
		t.Step("τ", "q.heat.time_constant", "τ = C·(T_0 - T_a)/Q_0", r.TimeConstant, working.Algebra).
			Step("T_e", "q.heat.simple_end", "T_e = T_a + (T_0 - T_a)·exp(-t/τ)", simple.Value(), working.Algebra)
	}
	// The spread takes the fall of the temperature as uncertain as the loss itself.
	shift := lossSpread * math.Abs(float64(in.Start-r.End))
	t.Step("T", "q.heat.end", "C·dT/dt = -Q(T)", r.End.Value(), srcShah).
		Cites(srcMcAdams, srcHylandWexler, srcRogersYau, working.Ours).
		Between(quantity.Temperature(max(float64(waterMin), float64(r.End)-shift)).Value(),
			quantity.Temperature(min(float64(waterMax), float64(r.End)+shift)).Value(), "assume.heat.spread").
		Assume("assume.heat.room_constant", "assume.heat.still_air", "assume.heat.bottom").
		Within("q.heat.water_temperature", waterMin.Value(), waterMax.Value()).
		Within("q.heat.room_temperature", roomMin.Value(), roomMax.Value())
	if in.Enclosure.Cover == Lid {
		t.Assume("assume.heat.lid_closed")
	}
	if r.End < shahMin {
		t.Assume("assume.heat.cool_water")
	}
	return t
}

// simpleCooling is the exponential with the time constant of the start. It is up
// to 0.8 K too warm for an open tank after a day.
func simpleCooling(start, room quantity.Temperature, at quantity.Time, tau quantity.Value) quantity.Temperature {
	return room.Plus(quantity.TemperatureDifference(float64(start.Minus(room)) * math.Exp(-float64(at)/tau.X)))
}

func (in PowerCutInput) findings(r PowerCutResult) []working.Finding {
	var fs []working.Finding
	switch {
	case r.Reaches && in.Watch < in.Start:
		fs = append(fs, working.Find(working.Wait, "find.heat.cut_reaches").With("Water", in.Watch.Value()).With("After", r.ReachesAfter))
	case in.Watch < in.Start:
		fs = append(fs, working.Find(working.Steady, "find.heat.cut_holds").
			With("Water", in.Watch.Value()).With("Lasts", in.Lasts.Value()).With("End", r.End.Value()))
	}
	if r.BelowRoom && !r.Freezes {
		fs = append(fs, working.Find(working.Steady, "find.heat.cut_below_room").With("Room", in.Room.Value()).With("End", r.End.Value()))
	}
	if r.Freezes {
		fs = append(fs, working.Find(working.Act, "find.heat.cut_freezes").With("After", r.Curve[len(r.Curve)-1].At.Value()))
	}
	return fs
}
