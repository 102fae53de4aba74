package load

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Lifting defaults. Judgement, except where marked.
const (
	liftConstant  quantity.Mass   = 23   // Source: NIOSH 94-110
	floorHands    quantity.Length = 0.25 // height of a bucket's bail on the floor
	floorReach    quantity.Length = 0.30
	rimReach      quantity.Length = 0.50
	emptyBucket   quantity.Mass   = 0.6
	liftPerMinute                 = 0.94 // FM, one lift a minute for up to an hour. Source: NIOSH 94-110 table 5
	waterLitre                    = 0.998
)

// gripFactor is CM. Source: NIOSH 94-110 table 7; the lower value of the two heights.
func (g Grip) factor() float64 {
	switch g {
	case GoodGrip:
		return 1
	case PoorGrip:
		return 0.90
	}
	return 0.95
}

// lift holds the variables of the lifting equation, in metres.
type lift struct {
	reach, hands, travel quantity.Length
	frequency, grip      float64
}

// limit is the recommended weight limit, LC·HM·VM·DM·AM·FM·CM with AM = 1 (no
// twist). Source: NIOSH 94-110.
func (l lift) limit() quantity.Mass {
	const cm = 100
	h := max(25, float64(l.reach)*cm)
	hm := 25 / h
	vm := 1 - 0.003*math.Abs(float64(l.hands)*cm-75)
	dm := 1.0
	if d := float64(l.travel) * cm; d > 25 {
		dm = 0.82 + 4.5/d
	}
	return liftConstant * quantity.Mass(hm*vm*dm*l.frequency*l.grip)
}

// LiftAdvice returns how much water to lift at once, by the revised NIOSH
// lifting equation (NIOSH 94-110). Refusals: heights or reach outside its range.
func LiftAdvice(in LiftInput) (Lift, error) {
	if in.Reach == 0 {
		in.Reach = rimReach
	}
	if in.Bucket == 0 {
		in.Bucket = emptyBucket
	}
	if err := firstRefusal(side("rim_height", "q.load.rim_height", in.RimHeight, 0.3, 1.75),
		side("reach", "q.load.reach", in.Reach, 0.2, 0.63), mass("bucket", "q.load.bucket", in.Bucket, 0.05),
		bound{"volume", "q.load.lift_volume", in.Volume.Value(), quantity.Volume(0).Value(), quantity.Litres(200).Value()}); err != nil {
		return Lift{}, err
	}
	travel := quantity.Length(math.Abs(float64(in.RimHeight - floorHands)))
	start := lift{floorReach, floorHands, travel, liftPerMinute, in.Grip.factor()}
	end := lift{in.Reach, in.RimHeight, travel, liftPerMinute, in.Grip.factor()}
	out := Lift{Start: start.limit(), End: end.limit()}
	out.Limit = min(out.Start, out.End)
	out.Water = quantity.Litres(max(0, float64(out.Limit-in.Bucket)) / waterLitre)
	out.Trail = working.New("ask.load.lift").
		Given("H", "q.load.reach", in.Reach.Value()).Given("V", "q.load.rim_height", in.RimHeight.Value()).
		Given("D", "q.load.travel", travel.Value()).
		Constant("LC", "q.load.lift_constant", liftConstant.Value(), srcNIOSH).
		Constant("FM", "q.load.lift_frequency", quantity.Ratio(liftPerMinute).Value(), srcNIOSH).
		Constant("CM", "q.load.lift_grip", quantity.Ratio(in.Grip.factor()).Value(), srcNIOSH).
		Step("RWL_0", "q.load.lift_start", "RWL = LC·HM·VM·DM·FM·CM", out.Start.Value(), srcNIOSH).
		Step("RWL_1", "q.load.lift_end", "RWL = LC·HM·VM·DM·FM·CM", out.End.Value(), srcNIOSH).
		Step("V_w", "q.load.lift_water", "V_w = (min(RWL) − m_b)/ρ", out.Water.Value(), working.Algebra).
		Within("q.load.reach", quantity.Length(0.2).Value(), quantity.Length(0.63).Value()).
		Assume("assume.load.no_twist", "assume.load.steady_feet").As(working.RuleOfThumb)
	out.Findings = append(out.Findings, working.Find(working.Steady, "find.load.lift_most").With("Volume", out.Water.Value()))
	if in.Volume > 0 {
		carried := quantity.Mass(in.Volume.Litres()*waterLitre) + in.Bucket
		out.Index = quantity.Ratio(carried / out.Limit)
		if out.Index > 1 {
			out.Findings = append(out.Findings, working.Find(working.Act, "find.load.lift_too_heavy").
				With("Mass", carried.Value()).With("Limit", out.Limit.Value()))
		}
	}
	return out, nil
}
