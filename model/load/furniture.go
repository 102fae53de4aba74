package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// pinCapacity is the force that one shelf pin is trusted with. Judgement: pins
// are usually the weak link and carry no rating.
const pinCapacity quantity.Force = 200

// furniture screens what was not made for a tank. The verdict is never better
// than wait.
func (r *report) furniture(in StandInput) {
	f := in.Furniture
	r.find(working.Find(working.Wait, "find.load.furniture"))
	r.offer(r.cure("find.load.cure_bought").With("Mass", (in.Load.Mass / waitFromRating).Value()))
	p := plank{board: f.Top, thickness: f.Thickness, depth: f.Depth, span: f.Span, middle: f.Middle == Yes}
	assumed := false
	if p.thickness == 0 {
		p.thickness, assumed = thinnest, true
	}
	if p.depth == 0 {
		p.depth, assumed = in.Load.Width, true
	}
	if p.span == 0 {
		p.span, assumed = max(in.Length, in.Load.Length), true
	}
	if assumed {
		r.find(working.Find(working.Wait, "find.load.size_assumed").With("Thickness", p.thickness.Value()).With("Span", p.span.Value()))
	}
	r.boardKind(f.Top, in.Service)
	r.plankChecks(in, p)
	if f.Rated > 0 {
		tr := working.New("ask.load.rating").Given("R", "q.load.rated", f.Rated.Value()).
			Step("m", "q.load.mass", "m = m_max", in.Load.Mass.Value(), working.Ours)
		r.addGraded("q.load.check_rating", in.Load.Mass.Value(), f.Rated.Value(), waitFromRating, tr)
	}
	r.supports(in)
	r.furnitureBack(in)
}

// boardKind says what the kind of board alone decides.
func (r *report) boardKind(b Board, class ServiceClass) {
	structural, allowed := b.LoadBearing(class)
	switch {
	case b == BoardGlass:
		r.find(working.Find(working.Act, "find.load.glass_shelf"))
	case b == BoardUnknown:
		r.find(working.Find(working.Wait, "find.load.board_unknown"))
	case !structural:
		r.find(working.Find(working.Wait, "find.load.board_not_bearing"))
	case !allowed:
		r.find(working.Find(working.Wait, "find.load.board_damp"))
	}
}

// supports checks what holds the board.
func (r *report) supports(in StandInput) {
	w := in.Load.Mass.Weight()
	switch in.Furniture.Support {
	case OnSides:
	case OnPins:
		tr := working.New("ask.load.pins").Given("m", "q.load.mass", in.Load.Mass.Value()).
			Constant("F_p", "q.load.pin_capacity", pinCapacity.Value(), working.Ours).
			Step("F", "q.load.pin_force", "F = m·g/2", (w / 2).Value(), working.Algebra).
			Assume("assume.load.rocking")
		if c := r.add("q.load.check_pins", (w / 2).Value(), pinCapacity.Value(), tr); c.State != working.Steady {
			r.offer(r.cure("find.load.cure_pins"))
		}
	case OnLegs:
		f := in.Furniture
		if !f.LegSection.known() {
			r.find(working.Find(working.Wait, "find.load.leg_unknown"))
			break
		}
		if f.LegMaterial == MaterialUnknown {
			r.find(working.Find(working.Wait, "find.load.material_unknown"))
		}
		r.legs(in, f.LegMaterial, f.LegSection, in.Back != Yes)
	default:
		r.find(working.Find(working.Wait, "find.load.support_unknown"))
	}
}

// furnitureBack judges the resistance to leaning over sideways. Boxes of boards
// rely on their back; legs rely on their joints, which are not calculated.
func (r *report) furnitureBack(in StandInput) {
	if in.Back == Yes {
		return
	}
	r.offer(r.cure("find.load.cure_back"))
	switch {
	case in.Furniture.Support == OnLegs:
		r.find(working.Find(working.Wait, "find.load.leg_joints"))
	case in.Back == No:
		r.find(working.Find(working.Act, "find.load.open_back"))
	default:
		r.find(working.Find(working.Wait, "find.load.back_unknown"))
	}
}

// legs checks crushing and buckling of a leg under half the weight: a stand
// that rocks stands on two of its feet.
func (r *report) legs(in StandInput, m LegMaterial, s Section, sways bool) {
	g, _ := m.grade(s, in.Service)
	k := 1.0
	if sways {
		k = 2
	}
	w := in.Load.Mass.Weight()
	half := quantity.Force(g.factor * float64(w) / 2)
	crush := quantity.Force(s.area() * float64(g.fc))
	open := func(ask working.Key) *working.Trail {
		return working.New(ask).Given("m", "q.load.mass", in.Load.Mass.Value()).
			Given("b", "q.load.section_width", s.Width.Value()).Given("d", "q.load.section_depth", s.Depth.Value()).
			Constant("γ", "q.load.partial_factor", quantity.Ratio(g.factor).Value(), working.Ours).
			Step("N", "q.load.leg_force", "N = γ·m·g/2", half.Value(), working.Algebra).
			Assume("assume.load.rocking").Cites(g.source())
	}
	tr := open("ask.load.crushing")
	tr.Step("N_c", "q.load.crushing", "N_c = A·f_c", crush.Value(), g.source())
	r.add("q.load.check_leg_crushing", half.Value(), crush.Value(), tr)

	le := k * float64(in.Height)
	if le <= 0 {
		return
	}
	c := g.column(s, le)
	if g.slenderLimit > 0 && c.slenderness > g.slenderLimit {
		r.find(working.Find(working.Act, "find.load.leg_slender"))
	}
	tr = open("ask.load.buckling")
	tr.Given("h", "q.load.stand_height", in.Height.Value()).
		Constant("K", "q.load.effective_length", quantity.Ratio(k).Value(), working.Ours).
		Step("k_c", "q.load.buckling_reduction", g.columnFormula(), quantity.Ratio(c.reduction).Value(), g.source()).
		Step("N_b", "q.load.buckling", "N_b = k_c·A·f_c", c.capacity.Value(), g.source())
	if sways {
		tr.Assume("assume.load.sways")
	}
	if u := r.add("q.load.check_leg_buckling", half.Value(), c.capacity.Value(), tr); u.State != working.Steady {
		r.legCure(half, m, s, in, le)
	}
}

// source is the rule a grade follows.
func (g grade) source() working.SourceID {
	switch g.method {
	case byNDS:
		return srcNDS
	case byEC3:
		return srcEC3
	case byAISC:
		return srcAISC
	}
	return srcEC5
}

// columnFormula writes the reduction for slenderness in symbols.
func (g grade) columnFormula() string {
	switch g.method {
	case byNDS:
		return "C_p = (1 + a)/2c − √([(1 + a)/2c]² − a/c)"
	case byEC3:
		return "χ = 1/(Φ + √(Φ² − λ²))"
	case byAISC:
		return "F_cr/F_y = 0.658^(F_y/F_e)"
	}
	return "k_c = 1/(k + √(k² − λ_rel²))"
}

// Square bars and tubes that a shop sells, in millimetres. Common practice.
var (
	barSteps  = []float64{35, 45, 63, 70, 89, 95, 120, 145, 170, 195}
	tubeSteps = []float64{20, 25, 30, 40, 50, 60}
)

// legCure finds the least square leg of the same material that holds.
func (r *report) legCure(force quantity.Force, m LegMaterial, s Section, in StandInput, le float64) {
	steps := barSteps
	if !m.timber() {
		steps = tubeSteps
	}
	for _, mm := range steps {
		a := quantity.Millimetres(mm)
		try := Section{a, a, s.Wall}
		if 2*try.Wall >= a {
			continue
		}
		g, _ := m.grade(try, in.Service)
		if c := g.column(try, le); force/c.capacity <= waitFrom && (g.slenderLimit == 0 || c.slenderness <= g.slenderLimit) {
			r.offer(r.cure("find.load.cure_leg").With("Side", a.Value()).With("Use", quantity.Ratio(force/c.capacity).Value()))
			return
		}
	}
}
