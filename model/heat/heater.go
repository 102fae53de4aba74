package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Sizing. Sources: the reserve and the share of each of two heaters are
// common practice, no source; so is the size from which two are better than one.
const (
	heaterReserve = 1.25
	twoHeatersAt  = 200.0 // W of need, above which two share the work
	shareOfTwo    = 0.6   // of the need, for each of two
)

// HeaterInput is what a heater is sized for.
type HeaterInput struct {
	Enclosure Enclosure
	Water     quantity.Volume      // what is really filled in, 1 L to what the box holds
	SetPoint  quantity.Temperature // 0 to 45 °C, above RoomLow
	RoomLow   quantity.Temperature // the lowest that the room falls to
	RoomUsual quantity.Temperature // as the room mostly is, not below RoomLow
	Start     quantity.Temperature // of the water when the heater is first switched on
	Humidity  quantity.Ratio       // of the room's air, 0 to 1
}

// HeaterResult is a heater, or several alike, and what they do in this tank.
type HeaterResult struct {
	Loss      LossResult     // at SetPoint and RoomLow
	Need      quantity.Power // 1.25 times that loss
	Size      quantity.Power // of each heater
	Count     int            // heaters of that size: 1 or 2, or as asked of HeaterCheck
	Installed quantity.Power // Size times Count
	Rule      RuleOfThumb    // the trade's watts per gallon, as a cross-check only
	Runaway   RunawayResult  // if the thermostat of one heater stays on
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

// CommonSizes lists the heater sizes that are commonly sold, in W, ascending.
// Source: common practice, no source.
func CommonSizes() []quantity.Power {
	return []quantity.Power{25, 50, 75, 100, 150, 200, 250, 300, 400, 500}
}

// nextSize returns the smallest common size that is at least p.
func nextSize(p quantity.Power) (quantity.Power, bool) {
	for _, s := range CommonSizes() {
		if s >= p {
			return s, true
		}
	}
	return 0, false
}

func (in HeaterInput) check() error {
	err := first(
		in.Enclosure.check(), in.Enclosure.holds(in.Water),
		waterIn("set_point", in.SetPoint), waterIn("start", in.Start),
		roomIn("room_low", in.RoomLow), roomIn("room_usual", in.RoomUsual), humidityIn(in.Humidity),
	)
	switch {
	case err != nil:
		return err
	case in.RoomUsual < in.RoomLow:
		return &working.Refusal{Field: "room_usual", Code: "refuse.heat.usual_below_lowest",
			Values: map[string]quantity.Value{"Value": in.RoomUsual.Value(), "Low": in.RoomLow.Value()}}
	case float64(in.SetPoint-in.RoomLow) < leastDifference:
		return &working.Refusal{Field: "set_point", Code: "refuse.heat.no_heater_needed",
			Values: map[string]quantity.Value{"Value": in.SetPoint.Value(), "Room": in.RoomLow.Value()}}
	}
	return nil
}

// HeaterSize picks the heater for a tank: the next common size above the need,
// and two of them when the need is above 200 W. Errors: *working.Refusal for the
// fields of Loss, and water_volume, set_point, start, room_low, room_usual; for
// set_point also when no heater is needed or no common pair is large enough.
func HeaterSize(in HeaterInput) (HeaterResult, error) {
	if err := in.check(); err != nil {
		return HeaterResult{}, err
	}
	loss, err := Loss(in.Enclosure, in.SetPoint, in.RoomLow, in.Humidity)
	if err != nil {
		return HeaterResult{}, err
	}
	need := heaterReserve * loss.Total
	t := working.New("ask.heat.heater_size").
		Given("Q", "q.heat.loss_total", loss.Total.Value()).
		Given("T_set", "q.heat.set_point", in.SetPoint.Value()).
		Given("T_a", "q.heat.room_low", in.RoomLow.Value()).
		Step("P_n", "q.heat.need", "P_n = 1.25·Q", need.Value(), working.Trade)
	pick := "P = min{P_k ≥ P_n}"
	count, each := 1, need
	if need > twoHeatersAt {
		count, each, pick = 2, shareOfTwo*need, "P = min{P_k ≥ P_2}"
		t.Step("P_2", "q.heat.need_each", "P_2 = 0.6·P_n", each.Value(), working.Trade).Assume("assume.heat.two_heaters")
	}
	size, ok := nextSize(each)
	if !ok {
		return HeaterResult{}, &working.Refusal{Field: "set_point", Code: "refuse.heat.too_large",
			Values: map[string]quantity.Value{"Need": need.Value()}}
	}
	t.Step("P", "q.heat.heater_size", pick, size.Value(), working.Trade).
		Assume("assume.heat.common_sizes", "assume.heat.spread")
	// The reserve equals the spread of the loss, so the size itself is the upper end.
	if least, ok := nextSize(each * quantity.Power((1-lossSpread)/heaterReserve)); ok {
		t.Between(least.Value(), size.Value(), "assume.heat.reserve_covers")
	}
	r, err := in.judge(loss, size, count)
	if err != nil {
		return HeaterResult{}, err
	}
	r.Trail = t
	code := working.Key("find.heat.size_one")
	if count > 1 {
		code = "find.heat.size_two"
	}
	r.Findings = append([]working.Finding{working.Find(working.Steady, code).
		With("Power", size.Value()).With("Loss", loss.Total.Value()).With("Room", in.RoomLow.Value())}, r.Findings...)
	return r, nil
}

// HeaterCheck looks at count heaters of a size that somebody has already. Errors:
// those of HeaterSize but for the largest pair, and the fields heater_power (1 to
// 3000 W) and heater_count (1 to 4).
func HeaterCheck(in HeaterInput, size quantity.Power, count int) (HeaterResult, error) {
	err := first(in.check(),
		working.InRange("heater_power", "q.heat.heater_power", size.Value(), quantity.Power(1).Value(), quantity.Power(3000).Value()),
		working.InRange("heater_count", "q.heat.heater_count", quantity.Count(count).Value(), quantity.Count(1).Value(), quantity.Count(4).Value()))
	if err != nil {
		return HeaterResult{}, err
	}
	loss, err := Loss(in.Enclosure, in.SetPoint, in.RoomLow, in.Humidity)
	if err != nil {
		return HeaterResult{}, err
	}
	r, err := in.judge(loss, size, count)
	if err != nil {
		return HeaterResult{}, err
	}
	r.Trail = working.New("ask.heat.heater_check").
		Given("P", "q.heat.heater_power", size.Value()).
		Given("n", "q.heat.heater_count", quantity.Count(count).Value()).
		Given("Q", "q.heat.loss_total", loss.Total.Value()).
		Step("P_n", "q.heat.need", "P_n = 1.25·Q", r.Need.Value(), working.Trade).
		Step("P_i", "q.heat.installed", "P_i = n·P", r.Installed.Value(), working.Algebra).
		Assume("assume.heat.spread")
	return r, nil
}

// judge fills in everything that follows from the loss and the heaters.
func (in HeaterInput) judge(loss LossResult, size quantity.Power, count int) (HeaterResult, error) {
	r := HeaterResult{Loss: loss, Need: heaterReserve * loss.Total, Size: size, Count: count,
		Installed: size * quantity.Power(count), Rule: ruleOfThumb(in.Water)}
	capacity, err := in.Enclosure.Capacity(in.Water)
	if err != nil {
		return HeaterResult{}, err
	}
	ua := quantity.Conductance(loss.Conductance.X)
	r.Runaway = runaway(ua, size, in.RoomUsual)
	if r.WarmUp, err = WarmUp(capacity, ua, r.Installed, in.RoomUsual, in.Start, in.SetPoint); err != nil {
		return HeaterResult{}, err
	}
	r.Checks = []working.Check{r.reserve(), r.Runaway.Check}
	for _, c := range r.Checks {
		if c.Finding != nil {
			r.Findings = append(r.Findings, *c.Finding)
		}
	}
	r.Findings = append(r.Findings, r.further(in)...)
	return r, nil
}

// reserve checks the loss against the installed power: in order with the whole
// reserve, to be watched without it, too weak below the loss itself.
func (r HeaterResult) reserve() working.Check {
	c := working.Graded(working.Check{Name: "q.heat.reserve", Use: float64(r.Loss.Total / r.Installed),
		Demand: r.Loss.Total.Value(), Capacity: r.Installed.Value(), Trail: r.Loss.Trail}, 1/heaterReserve)
	if c.State != working.Steady {
		code := working.Key("find.heat.little_reserve")
		if c.State == working.Act {
			code = "find.heat.too_weak"
		}
		f := working.Find(c.State, code).With("Power", r.Installed.Value()).With("Loss", r.Loss.Total.Value()).With("Need", r.Need.Value())
		c.Finding = &f
	}
	return c
}

// further lists what else there is to say of a heater.
func (r HeaterResult) further(in HeaterInput) []working.Finding {
	var fs []working.Finding
	if r.Installed > 2*r.Loss.Total {
		state := working.Steady // a small surplus of watts is harmless where even a stuck heater is
		if r.Runaway.Check.State != working.Steady {
			state = working.Wait
		}
		fs = append(fs, working.Find(state, "find.heat.oversized").
			With("Power", r.Installed.Value()).With("Loss", r.Loss.Total.Value()))
	}
	if !r.WarmUp.Reached {
		fs = append(fs, working.Find(working.Act, "find.heat.never_warm").
			With("Power", r.Installed.Value()).With("Water", in.SetPoint.Value()).With("Room", in.RoomUsual.Value()))
	}
	switch {
	case r.Need > r.Rule.High:
		fs = append(fs, working.Find(working.Steady, "find.heat.rule_too_small").
			With("Need", r.Need.Value()).With("Low", r.Rule.Low.Value()).With("High", r.Rule.High.Value()))
	case r.Need < r.Rule.Low:
		fs = append(fs, working.Find(working.Steady, "find.heat.rule_generous").
			With("Need", r.Need.Value()).With("Low", r.Rule.Low.Value()).With("High", r.Rule.High.Value()))
	}
	return fs
}

// ruleOfThumb is shown beside the need as a cross-check and never used. Source:
// common practice, no source.
func ruleOfThumb(water quantity.Volume) RuleOfThumb {
	low, high := quantity.Power(3*water/usGallon), quantity.Power(5*water/usGallon)
	t := working.New("ask.heat.rule").
		Given("V", "q.heat.water_volume", water.Value()).
		Step("P_5", "q.heat.rule_high", "P_5 = 5·V/V_gal", high.Value(), working.Trade).
		Step("P_3", "q.heat.rule_low", "P_3 = 3·V/V_gal", low.Value(), working.Trade).
		Between(low.Value(), high.Value(), "assume.heat.rule").As(working.RuleOfThumb)
	return RuleOfThumb{low, high, t}
}
