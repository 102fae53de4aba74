package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// What one change may do to the tank. // common practice, no source, but for
// the 2 K, at which Lim et al. 2003 released fish.
const (
	routineFraction   = quantity.Ratio(0.30)
	emergencyFraction = quantity.Ratio(0.50)
	newWaterWithin    = quantity.TemperatureDifference(2)
	phStep            = quantity.PH(0.3)
	tdsStep           = quantity.Ratio(0.20)
)

// WaterPair is the tank and the new water of a change about to be made. What
// was not measured stays nil and is not judged: it is never taken for equal.
type WaterPair struct {
	Fraction  quantity.Ratio          `json:"fraction"`  // 0 to 1
	Emergency bool                    `json:"emergency"` // up to half, repeated rather than enlarged
	Tank      quantity.Temperature    `json:"tank_temp"` // 0 to 50 °C
	New       quantity.Temperature    `json:"new_temp"`
	TankPH    *Buffered               `json:"tank_ph,omitempty"`
	NewPH     *Buffered               `json:"new_ph,omitempty"`
	TankTDS   *quantity.Concentration `json:"tank_tds,omitempty"`
	NewTDS    *quantity.Concentration `json:"new_tds,omitempty"`
}

// GentleChange checks a change against what fish take in their stride: its
// size, temperature, pH and dissolved solids. All limits are rules of thumb.
// The gravest check comes first.
func GentleChange(p WaterPair) ([]working.Check, error) {
	_, trT, err := TemperatureAfterChange(p.Tank, p.New, p.Fraction)
	if err != nil {
		return nil, err
	}
	most := routineFraction
	if p.Emergency {
		most = emergencyFraction
	}
	size := working.New("ask.water.change_size").As(working.RuleOfThumb).Cites(working.Trade).
		Step("f", "q.water.fraction", "f ≤ f_max", p.Fraction.Value(), "")
	trT.As(working.RuleOfThumb).Cites(srcLim)
	gap := quantity.TemperatureDifference(math.Abs(float64(p.New - p.Tank)))
	checks := []working.Check{
		gentle("q.water.change_size", float64(p.Fraction/most), p.Fraction.Value(), most.Value(), size, "find.water.change_large"),
		gentle("q.water.new_gap", float64(gap/newWaterWithin), gap.Value(), newWaterWithin.Value(), trT, "find.water.new_gap"),
	}
	if p.TankPH != nil && p.NewPH != nil {
		m, tr, err := MixPH(*p.TankPH, *p.NewPH, p.Fraction, p.Tank)
		if err != nil {
			return nil, err
		}
		step := quantity.PH(math.Abs(float64(m.PH - p.TankPH.PH)))
		checks = append(checks, gentle("q.water.ph_step", float64(step/phStep), step.Value(), phStep.Value(), tr.Cites(working.Trade).As(working.RuleOfThumb), "find.water.ph_step"))
	}
	if p.TankTDS != nil && p.NewTDS != nil {
		s, tr, err := TDSShift(*p.TankTDS, *p.NewTDS, p.Fraction)
		if err != nil {
			return nil, err
		}
		step := quantity.Ratio(math.Abs(float64(s)))
		checks = append(checks, gentle("q.water.tds_step", float64(step/tdsStep), step.Value(), tdsStep.Value(), tr.Cites(working.Trade).As(working.RuleOfThumb), "find.water.tds_step"))
	}
	return working.Governing(checks), nil
}

// gentle grades a check of a rule of thumb: half as much again is the line
// from care to act.
func gentle(name working.Key, use float64, demand, limit quantity.Value, tr *working.Trail, say working.Key) working.Check {
	c := working.Check{Name: name, Use: use, Demand: demand, Capacity: limit, Trail: tr, State: working.Steady}
	if use > 1 {
		c.State = working.Wait
		if use > 1.5 { // Source: 30 % of TDS against 20 %; the others by the same judgement
			c.State = working.Act
		}
		f := working.Find(c.State, say).With("Value", demand).With("Limit", limit)
		c.Finding = &f
	}
	return c
}

// TDSShift returns by what share of itself the tank's content of dissolved
// solids (above 1 mg/L) moves when a fraction is changed; negative when it falls.
func TDSShift(tank, incoming quantity.Concentration, f quantity.Ratio) (quantity.Ratio, *working.Trail, error) {
	err := first(working.InRange("tank_tds", "q.water.tds_tank", tank.Value(), quantity.Concentration(1).Value(), largestContent.Value()),
		acceptContent("new_tds", "q.water.tds_new", incoming, largestContent), acceptRatio("fraction", "q.water.fraction", f, 0, 1))
	if err != nil {
		return 0, nil, err
	}
	s := f * quantity.Ratio((incoming-tank)/tank)
	return s, working.New("ask.water.tds_shift").
		Given("S_t", "q.water.tds_tank", tank.Value()).Given("S_n", "q.water.tds_new", incoming.Value()).Given("f", "q.water.fraction", f.Value()).
		Step("s", "q.water.tds_step", "s = f·(S_n − S_t)/S_t", s.Value(), working.Algebra), nil
}
