package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Transfer is how fast oxygen goes through a surface (the coefficient K_L),
// each 0.05 to 3 m/d and in order. It is judgement for a tank, so that a person
// who has measured can put in their own.
type Transfer struct {
	Low    quantity.Velocity `json:"low"`
	Likely quantity.Velocity `json:"likely"`
	High   quantity.Velocity `json:"high"`
}

// StillSurface is the transfer through water that nothing stirs.
//
// Judgement: 0.2, 0.5 and 1.0 m/d. Published bounds are 0.6 in the calmest
// streams (Chin 2006) and 2.6 on a windy lake (Gelda 1996).
func StillSurface() Transfer { return Transfer{Low: perDay(0.2), Likely: perDay(0.5), High: perDay(1)} }

// perDay makes a velocity of metres a day.
func perDay(x float64) quantity.Velocity { return quantity.Velocity(x / float64(day)) }

// accept refuses a transfer outside the range, or out of order.
func (t Transfer) accept() error {
	least, most := perDay(0.05), perDay(3)
	return first(
		working.InRange("transfer.likely", "q.water.transfer", t.Likely.Value(), least.Value(), most.Value()),
		working.InRange("transfer.low", "q.water.transfer", t.Low.Value(), least.Value(), t.Likely.Value()),
		working.InRange("transfer.high", "q.water.transfer", t.High.Value(), t.Likely.Value(), most.Value()))
}

// PowerCut is a tank whose pumps have stopped.
type PowerCut struct {
	Water       quantity.Volume        `json:"water"`       // 1 L to 100 000 L
	Surface     quantity.Area          `json:"surface"`     // open water surface, 0.005 to 100 m²
	Temperature quantity.Temperature   `json:"temperature"` // 0 to 40 °C
	Pressure    quantity.Pressure      `json:"pressure"`    // air, 50 to 110 kPa
	Fish        quantity.MassRate      `json:"fish"`        // oxygen all fish use, g/d, see FishOxygen
	Other       quantity.Rate          `json:"other"`       // all else, mg/(L·d); 0.5 to 1 by judgement, 0 to 50 accepted
	Start       quantity.Ratio         `json:"start"`       // share of saturation at the start, 0 to 1.5
	Critical    quantity.Concentration `json:"critical"`    // oxygen that fish need, mg/L, 1 to 8

	// Transfer through the surface; the zero Transfer takes StillSurface.
	Transfer Transfer `json:"transfer,omitzero"`
}

// Crossing is when oxygen falls to the critical level; Never if it stays above.
type Crossing struct {
	Never bool                   `json:"never"`
	At    quantity.Time          `json:"at"`    // meaningless when Never
	Level quantity.Concentration `json:"level"` // where oxygen settles in the end, at least 0
}

// OxygenLeft is how long a tank keeps its oxygen: Low with the slowest exchange
// at the surface, High with the fastest.
type OxygenLeft struct {
	Low        Crossing               `json:"low"`
	Likely     Crossing               `json:"likely"`
	High       Crossing               `json:"high"`
	Saturation quantity.Concentration `json:"saturation"`
	Findings   []working.Finding      `json:"findings"`
}

// PowerCutOxygen returns how long oxygen lasts with no pump, as a range: the
// exchange of a still surface is known to a factor of five. The tank counts as
// well mixed. Filter bacteria die off within hours as well, for which there is
// no good figure.
func PowerCutOxygen(p PowerCut) (OxygenLeft, *working.Trail, error) {
	if p.Transfer == (Transfer{}) {
		p.Transfer = StillSurface()
	}
	err := first(p.Transfer.accept(),
		acceptVolume("water", "q.water.tank_volume", p.Water, smallestTank, largestTank),
		working.InRange("surface", "q.water.surface", p.Surface.Value(), quantity.Area(0.005).Value(), quantity.Area(100).Value()),
		working.InRange("fish", "q.water.fish_oxygen", p.Fish.Value(), quantity.MassRate(0).Value(), quantity.MassRate(10_000).Value()),
		working.InRange("other", "q.water.other_oxygen", p.Other.Value(), quantity.Rate(0).Value(), quantity.Rate(50).Value()),
		acceptRatio("start", "q.water.oxygen_start", p.Start, 0, 1.5),
		working.InRange("critical", "q.water.oxygen_critical", p.Critical.Value(), quantity.Concentration(1).Value(), quantity.Concentration(8).Value()))
	if err != nil {
		return OxygenLeft{}, nil, err
	}
	sat, tr, err := OxygenSaturation(p.Temperature, p.Pressure, 0)
	if err != nil {
		return OxygenLeft{}, nil, err
	}
	r := OxygenLeft{Saturation: sat,
		Low: p.crossing(sat, p.Transfer.Low), Likely: p.crossing(sat, p.Transfer.Likely), High: p.crossing(sat, p.Transfer.High)}
	r.Findings = powerCutAdvice(r)
	tr.Ask = "ask.water.power_cut"
	tr.As(working.RuleOfThumb).
		Given("V", "q.water.tank_volume", p.Water.Value()).
		Given("A", "q.water.surface", p.Surface.Value()).
		Given("R_f", "q.water.fish_oxygen", p.Fish.Value()).
		Given("r", "q.water.other_oxygen", p.Other.Value()).
		Given("C_c", "q.water.oxygen_critical", p.Critical.Value()).
		Cites(srcChin)
	if p.Transfer == StillSurface() {
		tr.Constant("K_L", "q.water.transfer", p.Transfer.Likely.Value(), working.Ours)
	} else {
		tr.Given("K_L", "q.water.transfer", p.Transfer.Likely.Value())
	}
	tr.Step("C_∞", "q.water.oxygen_settles", "C_∞ = C − (R_f + r·V)/(K_L·A)", r.Likely.Level.Value(), working.Algebra).
		Assume("assume.water.well_mixed", "assume.water.still_surface")
	if r.Likely.Never {
		return r, tr, nil
	}
	tr.Step("t", "q.water.oxygen_time", "t = ln((C_0 − C_∞)/(C_c − C_∞))·V/(K_L·A)", r.Likely.At.Value(), working.Algebra)
	if !r.High.Never {
		tr.Between(r.Low.At.Value(), r.High.At.Value(), "assume.water.still_surface")
	}
	return r, tr, nil
}

// crossing solves dC/dt = k·(C* − C) − R/V for the critical level.
func (p PowerCut) crossing(sat quantity.Concentration, speed quantity.Velocity) Crossing {
	transfer := float64(speed) * float64(day)                          // m/d
	demand := float64(p.Fish)*1000 + float64(p.Other)*p.Water.Litres() // mg/d
	k := transfer * float64(p.Surface) / float64(p.Water)              // 1/d
	level := float64(sat) - demand/(1000*transfer*float64(p.Surface))
	c := Crossing{Level: quantity.Concentration(math.Max(0, level))}
	start, critical := float64(p.Start)*float64(sat), float64(p.Critical)
	switch {
	case start <= critical: // already there
	case level >= critical:
		c.Never = true
	default:
		c.At = day * quantity.Time(math.Log((start-level)/(critical-level))/k)
		c.Never = !quantity.Finite(float64(c.At))
	}
	if c.Never {
		c.At = 0
	}
	return c
}

func powerCutAdvice(r OxygenLeft) []working.Finding {
	var f []working.Finding
	switch {
	case r.Low.Never:
		f = append(f, working.Find(working.Steady, "find.water.power_never").With("Level", r.Low.Level.Value()))
	case r.Likely.Never:
		f = append(f, working.Find(working.Wait, "find.water.power_perhaps").With("Time", r.Low.At.Value()))
	case r.High.Never:
		f = append(f, working.Find(working.Act, "find.water.power_from").With("Low", r.Low.At.Value()).With("Likely", r.Likely.At.Value()))
	default:
		f = append(f, working.Find(working.Act, "find.water.power_hours").With("Low", r.Low.At.Value()).With("High", r.High.At.Value()))
	}
	s := f[0].State
	return append(f, working.Find(s, "find.water.power_lid"), working.Find(s, "find.water.power_stir"),
		working.Find(s, "find.water.power_no_food"), working.Find(s, "find.water.power_filter"))
}
