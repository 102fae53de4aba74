package load

import (
	"errors"

	"example.org/driploop/model/frame"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Values for the frame. Judgement.
const (
	// fixedPanel is the shear stiffness of a thin back nailed or screwed along its
	// edges: 3 mm of fibreboard (0.8 GPa), a tenth of it for the slip of the nails.
	fixedPanel = 0.8e9 * 0.003 / 10
	// lowerRails above the floor, as a share of the height.
	lowerShare    = 0.15
	driftShare    = 200 // of the height, under a push of 5 % of the weight
	bucklingLeast = 4
	leastTimber   = 0.035 // section of unknown timber
	leastTube     = 0.020
	leastWall     = 0.0015
)

// selfBuilt screens a frame of legs and rails.
func (r *report) selfBuilt(in StandInput) error {
	f := in.Frame
	if f.Material == MaterialUnknown {
		r.find(working.Find(working.Wait, "find.load.material_unknown"))
	}
	if !f.Leg.known() || !f.Rail.known() {
		r.find(working.Find(working.Wait, "find.load.section_unknown"))
		least := Section{leastTimber, leastTimber, 0}
		if !f.Material.timber() {
			least = Section{leastTube, leastTube, leastWall}
		}
		if !f.Leg.known() {
			f.Leg = least
		}
		if !f.Rail.known() {
			f.Rail = least
		}
	}
	if f.Leg.Width*2 >= in.Length || f.Leg.Depth*2 >= in.Depth || f.Rail.Depth >= in.Height {
		return working.Refuse("frame.leg", "refuse.load.section_too_big")
	}
	in.Frame = f
	switch f.Corners {
	case CornerBearing, CornerWelded:
	case CornerFasteners:
		r.find(working.Find(working.Wait, "find.load.fasteners"))
		r.offer(r.cure("find.load.cure_bearing"))
	default:
		r.find(working.Find(working.Wait, "find.load.corners_unknown"))
		r.offer(r.cure("find.load.cure_bearing"))
	}
	r.frameTop(in)
	r.longRail(in)
	sways := !in.braced()
	r.legs(in, f.Material, f.Leg, sways)
	if f.Corners == CornerBearing {
		r.bearingOnLeg(in)
	}
	return r.solved(in)
}

// braced reports whether both directions are held by panels, diagonals or welds.
func (in StandInput) braced() bool {
	long := in.Back == Yes || in.Frame.Diagonal == Yes
	return in.Frame.Corners == CornerWelded && in.Frame.BottomRails == Yes || long && in.Frame.SideBracing == Yes
}

// frameTop checks the board between the long rails. A framed tank may stand on
// the rails alone; a rimless one needs a board under all of it.
func (r *report) frameTop(in StandInput) {
	f := in.Frame
	if f.Top == BoardUnknown && f.Thickness == 0 {
		if !in.Load.Framed {
			r.find(working.Find(working.Act, "find.load.no_board"))
			r.offer(r.cure("find.load.cure_board"))
		}
		return
	}
	r.boardKind(f.Top, in.Service)
	t := f.Thickness
	span := in.Depth - f.Rail.Width
	if t == 0 {
		t = thinnest
		r.find(working.Find(working.Wait, "find.load.size_assumed").With("Thickness", t.Value()).With("Span", span.Value()))
	}
	if in.Load.Framed {
		return // the rim's long sides stand over the rails; the board only steadies it
	}
	// The board spans front to back: turn the load a quarter.
	turned := in
	turned.Load.Length, turned.Load.Width = in.Load.Width, in.Load.Length
	r.plankChecks(turned, plank{board: f.Top, thickness: t, depth: in.Length, span: span})
}

// railVerdict judges one long rail under half the weight along the tank.
func (in StandInput) railVerdict(s Section, middle bool) (grade, verdict) {
	g, _ := in.Frame.Material.grade(s, in.Service)
	b := s.beam(float64(in.Length-in.Frame.Leg.Width), float64(g.e))
	b.middle = middle
	own := float64(g.density) * s.area() * quantity.StandardGravity
	v := judge(g, b, bearing{uniform: own, patch: float64(in.Load.Mass.Weight()) / 2, length: float64(in.Load.Length)})
	return g, v
}

// longRail checks the top rails; each carries half, on its long side.
func (r *report) longRail(in StandInput) {
	f := in.Frame
	g, v := in.railVerdict(f.Rail, f.MiddleLegs == Yes)
	r.beamChecks(v, [3]working.Key{"q.load.check_rail_bending", "q.load.check_rail_shear", "q.load.check_rail_sag"}, func(tr *working.Trail) {
		tr.Given("m", "q.load.mass", in.Load.Mass.Value()).
			Given("L", "q.load.span", quantity.Length(v.beam.span).Value()).
			Given("b", "q.load.section_width", f.Rail.Width.Value()).
			Given("d", "q.load.section_depth", f.Rail.Depth.Value()).
			Assume("assume.load.two_rails").Cites(g.source())
	})
	if v.worst() <= waitFrom {
		return
	}
	if _, half := in.railVerdict(f.Rail, true); f.MiddleLegs != Yes && half.worst() <= waitFrom {
		r.offer(r.cure("find.load.cure_middle_legs").With("Use", quantity.Ratio(half.worst()).Value()))
	}
	steps := barSteps
	if !f.Material.timber() {
		steps = tubeSteps
	}
	for _, mm := range steps {
		s := Section{f.Rail.Width, quantity.Millimetres(mm), f.Rail.Wall}
		if s.Depth <= f.Rail.Depth || 2*s.Wall >= min(s.Width, s.Depth) {
			continue
		}
		if _, deep := in.railVerdict(s, f.MiddleLegs == Yes); deep.worst() <= waitFrom {
			r.offer(r.cure("find.load.cure_rail").With("Depth", s.Depth.Value()).With("Use", quantity.Ratio(deep.worst()).Value()))
			return
		}
	}
}

// bearingOnLeg checks a timber rail that lies on the leg's end: pressure across
// the grain under half the weight.
func (r *report) bearingOnLeg(in StandInput) {
	f := in.Frame
	if !f.Material.timber() {
		return
	}
	g, _ := f.Material.grade(f.Leg, in.Service)
	area := float64(min(f.Leg.Width, f.Rail.Width) * f.Leg.Depth)
	stress := quantity.Pressure(g.factor * float64(in.Load.Mass.Weight()) / 2 / area)
	tr := working.New("ask.load.bearing").Given("m", "q.load.mass", in.Load.Mass.Value()).
		Constant("f_90", "q.load.bearing_strength", g.fc90.Value(), g.source()).
		Step("σ_90", "q.load.bearing_stress", "σ_90 = γ·m·g/(2·A)", stress.Value(), working.Algebra).
		Assume("assume.load.rocking")
	r.add("q.load.check_bearing", stress.Value(), g.fc90.Value(), tr)
}

// model makes the frame for the solver, with hinged or rigid corners.
func (in StandInput) model(pinned bool) frame.Stand {
	f := in.Frame
	g, _ := f.Material.grade(f.Leg, in.Service)
	rail := f.Rail.profile(g, false)
	s := frame.Stand{
		Length: float64(in.Length - f.Leg.Width), Depth: float64(in.Depth - f.Leg.Depth), Height: float64(in.Height - f.Rail.Depth/2),
		Leg: f.Leg.profile(g, true), LongRail: rail, ShortRail: rail, PinnedCorners: pinned,
		Weight: float64(in.Load.Mass.Weight()), LoadPath: frame.OnLongRails, Gravity: quantity.StandardGravity,
		Top: frame.Face{Panel: fixedPanel}, // the tank or its board holds the top square
	}
	if f.BottomRails == Yes {
		s.Lower = &frame.LowerRails{Height: lowerShare * s.Height, Long: rail, Short: rail}
	}
	if in.Back == Yes {
		s.Back.Panel = fixedPanel
	}
	if f.Diagonal == Yes {
		s.Back.Diagonal = &rail
	}
	if f.SideBracing == Yes {
		s.Left.Panel, s.Right.Panel = fixedPanel, fixedPanel
	}
	return s
}

// solved runs the frame with hinged and with rigid corners and takes the
// worse; welded corners are rigid. Real corners lie between.
func (r *report) solved(in StandInput) error {
	f := in.Frame
	corners := []bool{true, false}
	if f.Corners == CornerWelded {
		corners = []bool{false}
	}
	worst := frame.StandResult{BucklingFactor: 1e6}
	for _, pinned := range corners {
		s := in.model(pinned)
		got, err := s.Check()
		if err != nil {
			var bad *frame.InputError
			if errors.As(err, &bad) {
				return working.Refuse("frame", "refuse.load.frame")
			}
			return err
		}
		// A drift beyond the height is a mechanism that rounding hides.
		if got.Mechanism || !(got.Drift < s.Height) {
			r.leans(in, got)
			return nil
		}
		worst.Drift = max(worst.Drift, got.Drift)
		if got.Buckles {
			worst.BucklingFactor = min(worst.BucklingFactor, got.BucklingFactor)
		}
		worst.Legs.Compression = max(worst.Legs.Compression, got.Legs.Compression)
		worst.Legs.MomentY = max(worst.Legs.MomentY, got.Legs.MomentY)
		worst.Legs.MomentZ = max(worst.Legs.MomentZ, got.Legs.MomentZ)
		for _, foot := range got.Feet {
			worst.Feet[0].Min = min(worst.Feet[0].Min, foot.Min)
		}
	}
	r.frameChecks(in, worst)
	return nil
}

// leans says which way a frame without enough bracing falls over.
func (r *report) leans(in StandInput, got *frame.StandResult) {
	if got.Mechanism && got.Free == frame.UX {
		r.find(working.Find(working.Act, "find.load.leans_long"))
		r.offer(r.cure("find.load.cure_back"))
		return
	}
	r.find(working.Find(working.Act, "find.load.leans_deep"))
	r.offer(r.cure("find.load.cure_sides"))
	if in.Back != Yes && in.Frame.Diagonal != Yes {
		r.offer(r.cure("find.load.cure_back"))
	}
}

// frameChecks adds what the solved frame shows: drift, buckling of the whole,
// and the legs under a push.
func (r *report) frameChecks(in StandInput, w frame.StandResult) {
	f := in.Frame
	open := func(ask working.Key) *working.Trail {
		return working.New(ask).Given("m", "q.load.mass", in.Load.Mass.Value()).Given("h", "q.load.stand_height", in.Height.Value()).
			Constant("p", "q.load.push_share", quantity.Ratio(frame.PushShare).Value(), working.Ours).
			Cites(srcFrame).Assume("assume.load.corners")
	}
	limit := in.Height / driftShare
	tr := open("ask.load.racking")
	tr.Step("u_h", "q.load.drift", "K·u = F", quantity.Length(w.Drift).Value(), srcFrame)
	if c := r.add("q.load.check_racking", quantity.Length(w.Drift).Value(), limit.Value(), tr); c.State != working.Steady {
		r.offer(r.cure("find.load.cure_back"))
		r.offer(r.cure("find.load.cure_sides"))
	}
	tr = open("ask.load.frame_buckling")
	tr.Step("λ", "q.load.buckling_factor", "(K + λ·K_g)·u = 0", quantity.Ratio(w.BucklingFactor).Value(), srcFrame)
	r.addGraded("q.load.check_frame_buckling", quantity.Ratio(bucklingLeast).Value(), quantity.Ratio(w.BucklingFactor).Value(), 1, tr)

	g, _ := f.Material.grade(f.Leg, in.Service)
	c := g.column(f.Leg, float64(in.Height)) // the solved moments hold the sway already
	zAcross, zAlong := 2*f.Leg.across()/float64(f.Leg.Depth), 2*f.Leg.along()/float64(f.Leg.Width)
	use := g.factor * (w.Legs.Compression/float64(c.capacity) + (w.Legs.MomentY/zAcross+w.Legs.MomentZ/zAlong)/float64(g.fm))
	tr = open("ask.load.leg_push")
	tr.Step("N", "q.load.leg_force", "K·u = F", quantity.Force(w.Legs.Compression).Value(), srcFrame).
		Step("M", "q.load.moment", "K·u = F", quantity.Moment(max(w.Legs.MomentY, w.Legs.MomentZ)).Value(), srcFrame).
		Step("u_l", "q.load.leg_use", "u_l = γ·(N/N_b + M/(W·f))", quantity.Ratio(use).Value(), g.source())
	r.add("q.load.check_leg_push", quantity.Ratio(use).Value(), quantity.Ratio(1).Value(), tr)
	if w.Feet[0].Min < 0 {
		r.find(working.Find(working.Act, "find.load.foot_lifts"))
	}
}
