package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Mixing is a substance before a change, in the new water, and the share changed,
// each with how far it may be off either way.
type Mixing struct {
	Change      Change                 `json:"change"`
	NowOff      quantity.Concentration `json:"now_off"`      // 0 to 100 000 mg/L
	IncomingOff quantity.Concentration `json:"incoming_off"` // of the new water
	FractionOff quantity.Ratio         `json:"fraction_off"` // 0 to 0.5
}

// Predicted is what a test after the change should show.
type Predicted struct {
	After quantity.Concentration `json:"after"`
	Low   quantity.Concentration `json:"low"`
	High  quantity.Concentration `json:"high"`
}

// Predict returns what is in the tank after one change. The range takes the worst
// of all that may be off; it is never below zero.
func Predict(m Mixing) (Predicted, *working.Trail, error) {
	err := first(m.Change.accept(), acceptContent("now_off", "q.water.now_off", m.NowOff, largestContent),
		acceptContent("incoming_off", "q.water.incoming_off", m.IncomingOff, largestContent),
		acceptRatio("fraction_off", "q.water.fraction_off", m.FractionOff, 0, 0.5))
	if err != nil {
		return Predicted{}, nil, err
	}
	mix := func(now, in, f float64) float64 { return now + f*(in-now) }
	c, f := m.Change, float64(m.Change.Fraction)
	p := Predicted{After: quantity.Concentration(mix(float64(c.Now), float64(c.Incoming), f))}
	low, high := math.Inf(1), math.Inf(-1)
	for _, sn := range []float64{-1, 1} {
		for _, si := range []float64{-1, 1} {
			for _, sf := range []float64{-1, 1} {
				x := mix(math.Max(0, float64(c.Now)+sn*float64(m.NowOff)), math.Max(0, float64(c.Incoming)+si*float64(m.IncomingOff)),
					math.Min(1, math.Max(0, f+sf*float64(m.FractionOff))))
				low, high = math.Min(low, x), math.Max(high, x)
			}
		}
	}
	p.Low, p.High = quantity.Concentration(low), quantity.Concentration(high)
	t := c.trail("ask.water.predict").
		Given("ΔC_0", "q.water.now_off", m.NowOff.Value()).Given("ΔC_in", "q.water.incoming_off", m.IncomingOff.Value()).Given("Δf", "q.water.fraction_off", m.FractionOff.Value()).
		Step("C", "q.water.after", "C = C_0 + f·(C_in − C_0)", p.After.Value(), working.Algebra).
		Between(p.Low.Value(), p.High.Value(), "assume.water.worst_of_all").
		Assume("assume.water.well_mixed")
	return p, t, nil
}

// TopUp returns what is dissolved after water that evaporated is replaced: before
// is the content when the tank was last full, share the part of the tank that
// evaporated (0 to 0.9). Salts do not evaporate, so the new water's come on top.
func TopUp(before, incoming quantity.Concentration, share quantity.Ratio) (quantity.Concentration, *working.Trail, error) {
	err := first(acceptContent("before", "q.water.before", before, largestContent), acceptContent("incoming", "q.water.incoming", incoming, largestContent),
		acceptRatio("share", "q.water.evaporated", share, 0, 0.9))
	if err != nil {
		return 0, nil, err
	}
	c := before + incoming*quantity.Concentration(share)
	return c, working.New("ask.water.top_up").
		Given("C_0", "q.water.before", before.Value()).Given("C_in", "q.water.incoming", incoming.Value()).Given("e", "q.water.evaporated", share.Value()).
		Step("C", "q.water.after_top_up", "C = C_0 + e·C_in", c.Value(), working.Algebra).
		Assume("assume.water.salts_stay"), nil
}

// The factor from conductivity to dissolved solids, mg/L for each µS/cm, depends
// on which salts they are. Source: APHA Standard Methods 2510, 0.55 to 0.9, from
// memory; 0.64 is a common setting of meters, common practice, no source.
const (
	SolidsFactor = quantity.Ratio(0.64)
	// judgement: a little beyond what the book gives, and what meters can be set to
	LeastSolidsFactor = quantity.Ratio(0.5)
	MostSolidsFactor  = quantity.Ratio(1)
	solidsLow         = 0.55
	solidsHigh        = 0.9
)

// SolidsOf returns the dissolved solids that a conductivity (0 to 80 000 µS/cm at
// 25 °C) stands for, by a factor of 0.5 to 1 mg/L for each µS/cm; see SolidsFactor.
func SolidsOf(c quantity.Conductivity, factor quantity.Ratio) (quantity.Concentration, *working.Trail, error) {
	err := first(working.InRange("conductivity", "q.water.conductivity", c.Value(), quantity.Conductivity(0).Value(), quantity.Conductivity(80_000).Value()),
		AcceptSolidsFactor(factor))
	if err != nil {
		return 0, nil, err
	}
	s := quantity.Concentration(float64(c) * float64(factor))
	t := working.New("ask.water.solids").
		Given("κ", "q.water.conductivity", c.Value()).Given("k", "q.water.solids_factor", number(float64(factor))).
		Step("S", "q.water.tds_tank", "S = k·κ", s.Value(), srcAPHA).
		Between(quantity.Concentration(float64(c)*solidsLow).Value(), quantity.Concentration(float64(c)*solidsHigh).Value(), "assume.water.which_salts")
	if factor == SolidsFactor {
		t.Assume("assume.water.usual_factor")
	}
	return s, t, nil
}

// AcceptSolidsFactor refuses a factor from conductivity to dissolved solids that is
// not between 0.5 and 1 mg/L for each µS/cm.
func AcceptSolidsFactor(factor quantity.Ratio) error {
	return acceptRatio("factor", "q.water.solids_factor", factor, LeastSolidsFactor, MostSolidsFactor)
}
