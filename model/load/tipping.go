package load

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Screening values for tipping. Judgement and common practice, no source: the
// push of a child, a factor on it, an angle, and height over depth.
const (
	childPush     quantity.Force = 150
	tipFactor                    = 1.5
	tipAngle                     = 10 * math.Pi / 180
	tallFrom                     = 2.0
	tooTallBeyond                = 3.0
)

// tip returns the push at height at that tips a mass on a base of the given
// depth. Source: statics, F = m·g·(B/2)/h.
func tip(m quantity.Mass, depth, at quantity.Length) quantity.Force {
	return m.Weight() * quantity.Force(depth/2/at)
}

// tipping screens the stand against being pushed over. A stand held to the
// wall is not screened.
func (r *report) tipping(in StandInput) {
	push := in.Height + in.Load.Height
	usual := in.Load.Usual
	if usual <= 0 {
		usual = in.Load.Mass / 1.2 // the least the upper mass may stand for
	}
	if empty := in.Load.Empty + in.Mass; empty > 0 {
		r.Cautions = append(r.Cautions, working.Find(working.Wait, "find.load.caution_empty").
			With("Force", tip(empty, in.Depth, push).Value()))
	}
	if in.Anchored == Yes {
		return
	}
	m := usual + in.Mass
	// An unknown mass of the stand counts as none for the push and lifts nothing.
	centre := (float64(usual)*float64(in.Height+in.Load.Centre) + float64(in.Mass)*float64(in.Height)/2) / float64(m)
	f := tip(m, in.Depth, push)
	tr := working.New("ask.load.tipping").Given("m", "q.load.tip_mass", m.Value()).Given("B", "q.load.stand_depth", in.Depth.Value()).
		Given("h", "q.load.push_height", push.Value()).
		Constant("F_0", "q.load.child_push", childPush.Value(), working.Ours).
		Step("F", "q.load.tip_force", "F = m·g·B/(2·h)", f.Value(), working.Algebra).As(working.RuleOfThumb)
	r.tipCheck("q.load.check_tip_force", (childPush * tipFactor).Value(), f.Value(), working.Wait, tr)
	if centre > 0 {
		angle := quantity.Angle(math.Atan(float64(in.Depth) / 2 / centre))
		tr = working.New("ask.load.tip_angle").Given("B", "q.load.stand_depth", in.Depth.Value()).
			Given("h_c", "q.load.centre", quantity.Length(centre).Value()).
			Step("φ", "q.load.tip_angle", "φ = atan(B/(2·h_c))", angle.Value(), working.Algebra).As(working.RuleOfThumb)
		r.tipCheck("q.load.check_tip_angle", quantity.Angle(tipAngle).Value(), angle.Value(), working.Act, tr)
	}
	ratio := float64(push / in.Depth)
	switch {
	case ratio > tooTallBeyond && in.Anchored == No:
		r.find(working.Find(working.Act, "find.load.too_tall").With("Height", push.Value()).With("Depth", in.Depth.Value()))
	case ratio > tallFrom:
		r.find(working.Find(working.Wait, "find.load.tall").With("Height", push.Value()).With("Depth", in.Depth.Value()))
	}
	if ratio > tallFrom || f < childPush*tipFactor {
		r.offer(r.cure("find.load.cure_anchor"))
		need := max(push/tallFrom, quantity.Length(float64(childPush*tipFactor)*2*float64(push)/float64(m.Weight())))
		r.offer(r.cure("find.load.cure_deeper").With("Depth", need.Value()))
	}
}

// tipCheck adds a check that is steady within its limit and beyond it has the
// given state: the limits are screening values already.
func (r *report) tipCheck(name working.Key, demand, capacity quantity.Value, beyond working.State, tr *working.Trail) {
	use := demand.X / capacity.X
	tr.Step("u", "q.load.use", "u = E_d/R_d", quantity.Ratio(use).Value(), working.Algebra)
	c := working.Check{Name: name, Use: use, Demand: demand, Capacity: capacity, Trail: tr}
	if !(use <= 1) {
		c.State = beyond
	}
	r.Checks = append(r.Checks, c)
}

// standMassPerMetre stands in for a stand of unknown mass on the floor. Judgement.
const standMassPerMetre = 30

// ownMass is the mass of the stand for the load on the floor.
func (in StandInput) ownMass() quantity.Mass {
	if in.Mass > 0 {
		return in.Mass
	}
	return quantity.Mass(standMassPerMetre * float64(in.Length))
}

// feet shares the weight among the feet for the drawing: four at the corners,
// six with legs under the middle.
func (r *report) feet(in StandInput) {
	r.Total = (in.Load.Mass + in.ownMass()).Weight()
	w, l, d := r.Total, in.Length, in.Depth
	rock := w / 2
	if in.Kind == SelfBuilt && in.Frame.MiddleLegs == Yes {
		for _, y := range []quantity.Length{0, d} {
			// Two equal spans: 3/16, 10/16 and 3/16 of each side's half. Source: Gere 2009.
			r.Feet = append(r.Feet, Foot{0, y, w * 3 / 32, rock}, Foot{l / 2, y, w * 10 / 32, rock}, Foot{l, y, w * 3 / 32, rock})
		}
		return
	}
	for _, y := range []quantity.Length{0, d} {
		r.Feet = append(r.Feet, Foot{0, y, w / 4, rock}, Foot{l, y, w / 4, rock})
	}
}
