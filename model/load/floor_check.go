package load

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Live loads that dwellings are designed for.
const (
	LiveUS       quantity.Pressure = 40 * 47.88025898033584 // 40 psf. Source: ASCE 7-22 table 4.3-1, IRC table R301.5
	LiveEurope   quantity.Pressure = 1500                   // Source: EN 1991-1-1 table 6.2 category A, national values from 1.5 kN/m², from memory
	deadOfTables quantity.Pressure = 10 * 47.88025898033584 // Source: IRC table R502.3.1(2)
)

const (
	floorDuration                 = 0.9 // C_D permanent against ten years. Source: NDS 2018 table 2.3.2
	floorOthers                   = 0.3 // what else stands in the room: ψ2 of category A. Source: EN 1990 table A1.1
	defaultGap    quantity.Length = 0.05
	heavy         quantity.Mass   = 250  // on any suspended timber floor; judgement
	heavyUnknown  quantity.Mass   = 150  // with joists not known; judgement
	footLimit     quantity.Force  = 2000 // Source: EN 1991-1-1 table 6.2, Q_k from 2.0 kN, from memory
)

// Spans and spacings tried when they are not known. Common practice: 12, 16,
// 19.2 and 24 in apart, 2.4 to 4.8 m long.
var (
	usualSpans    = []quantity.Length{2.4, 3.0, 3.6, 4.2, 4.8}
	usualSpacings = []quantity.Length{0.3048, 0.4064, 0.48768, 0.6096}
)

// CheckFloor screens a floor. The best it says is that the screening found
// nothing: it is never an approval. Refusals: an impossible size or mass.
func CheckFloor(in FloorInput) (Assessment, error) {
	if err := in.check(); err != nil {
		return Assessment{}, err
	}
	if in.Live == 0 {
		in.Live = LiveEurope
	}
	if in.WallGap == 0 {
		in.WallGap = defaultGap
	}
	r := &report{}
	r.Total = in.Mass.Weight()
	switch in.Kind {
	case GroundSlab:
		r.find(working.Find(working.Steady, "find.load.slab"))
	case ConcreteFloor:
		r.concrete(in)
	case Joists:
		r.joists(in)
	default:
		r.find(working.Find(working.Wait, "find.load.floor_unknown"))
		r.joists(in)
	}
	if in.FootForce > footLimit && in.Kind != GroundSlab {
		r.find(working.Find(working.Wait, "find.load.foot_force").With("Force", in.FootForce.Value()))
		r.offer(r.cure("find.load.cure_spread"))
	}
	r.building(in)
	r.caution("find.load.caution_floor", "find.load.caution_signs")
	return r.done(), nil
}

func (in FloorInput) check() error {
	if err := firstRefusal(mass("mass", "q.load.mass", in.Mass, 0.1),
		side("length", "q.load.stand_length", in.Length, 0.05, maxSide), side("width", "q.load.stand_depth", in.Width, 0.05, maxSide),
		side("wall_gap", "q.load.wall_gap", in.WallGap, 0, 5),
		bound{"foot_force", "q.load.foot_force", in.FootForce.Value(), quantity.Force(0).Value(), quantity.Force(1e5).Value()}); err != nil {
		return err
	}
	if err := firstRefusal(known(side("span", "q.load.joist_span", in.Span, 1, 8), side("spacing", "q.load.joist_spacing", in.Spacing, 0.2, 1),
		bound{"live", "q.load.live", in.Live.Value(), quantity.Pressure(100).Value(), quantity.Pressure(10000).Value()})...); err != nil {
		return err
	}
	switch in.Kind {
	case FloorUnknown, Joists, GroundSlab, ConcreteFloor:
	default:
		return working.Refuse("kind", "refuse.load.floor_kind")
	}
	if in.Wood != MaterialUnknown {
		if _, ok := ndsTable[in.Wood]; !ok {
			return working.Refuse("wood", "refuse.load.joist_wood")
		}
	}
	return in.Joist.check("joist")
}

// layout is one way in which the tank may lie on the joists.
type layout struct {
	span, spacing quantity.Length
	along         bool
	wall          bool
}

// layouts lists the ways that the input leaves open.
func (in FloorInput) layouts() []layout {
	spans, spacings := []quantity.Length{in.Span}, []quantity.Length{in.Spacing}
	if in.Span == 0 {
		spans = usualSpans
	}
	if in.Spacing == 0 {
		spacings = usualSpacings
	}
	ways, places := []bool{false, true}, []bool{false, true}
	switch in.Direction {
	case Across:
		ways = []bool{false}
	case Along:
		ways = []bool{true}
	}
	switch in.Place {
	case MidRoom:
		places = []bool{false}
	case AtWall:
		places = []bool{true}
	}
	var list []layout
	for _, l := range spans {
		for _, s := range spacings {
			for _, way := range ways {
				for _, at := range places {
					list = append(list, layout{l, s, way, at})
				}
			}
		}
	}
	return list
}

// joistLoad is what a tank does to one joist.
type joistLoad struct {
	layout
	joists  int
	force   quantity.Force // on each
	effect  effect
	allowed effect // under the design live load
}

// moment and shear ratios, bare.
func (j joistLoad) ratios() (m, v float64) {
	return j.effect.moment / j.allowed.moment, j.effect.shear / j.allowed.shear
}

// ratio is the greater ratio with the allowances for duration and for what
// else stands in the room.
func (j joistLoad) ratio() float64 {
	m, v := j.ratios()
	return max(m, v)/floorDuration + floorOthers
}

// onJoists shares the tank equally among the joists below it. It is optimistic
// without a stiff stand, which an assumption says.
func (in FloorInput) onJoists(l layout) joistLoad {
	across, patch := in.Length, in.Width // the long side crosses the joists
	if l.along {
		across, patch = in.Width, in.Length
	}
	n := int(math.Floor(float64(across/l.spacing)+1e-9)) + 1
	w := in.Mass.Weight() / quantity.Force(n)
	span := float64(l.span)
	c := math.Min(float64(patch), span)
	j := joistLoad{layout: l, joists: n, force: w}
	if l.wall {
		gap := math.Min(float64(in.WallGap), span-c)
		j.effect = nearSupport(float64(w), span, gap, c)
	} else {
		b := beam{span: span, e: 1, inertia: 1, modulus: 1, area: 1}
		j.effect = b.under(bearing{patch: float64(w), length: c})
	}
	q := float64(in.Live) * float64(l.spacing)
	j.allowed = effect{moment: q * span * span / 8, shear: q * span / 2}
	return j
}

// joists checks a suspended timber floor at the worst layout left open.
func (r *report) joists(in FloorInput) {
	var worst joistLoad
	for i, l := range in.layouts() {
		if j := in.onJoists(l); i == 0 || j.ratio() > worst.ratio() {
			worst = j
		}
	}
	m, v := worst.ratios()
	tr := working.New("ask.load.floor").Given("m", "q.load.mass", in.Mass.Value()).
		Given("l", "q.load.joist_span", worst.span.Value()).Given("s", "q.load.joist_spacing", worst.spacing.Value()).
		Constant("q", "q.load.live", in.Live.Value(), srcFloor).
		Step("n", "q.load.joists", "n = ⌊e/s⌋ + 1", quantity.Count(worst.joists).Value(), working.Ours).
		Step("w", "q.load.per_joist", "w = m·g/n", worst.force.Value(), working.Algebra).
		Step("M", "q.load.moment", "M = max|M(x)|", quantity.Moment(worst.effect.moment).Value(), srcBeam).
		Step("M_d", "q.load.design_moment", "M_d = q·s·l²/8", quantity.Moment(worst.allowed.moment).Value(), srcBeam).
		Step("r_M", "q.load.moment_ratio", "r_M = M/M_d", quantity.Ratio(m).Value(), working.Algebra).
		Step("r_V", "q.load.shear_ratio", "r_V = V/V_d", quantity.Ratio(v).Value(), working.Algebra).
		Step("r", "q.load.floor_ratio", "r = max(r_M, r_V)/0.9 + 0.3", quantity.Ratio(worst.ratio()).Value(), working.Ours).
		Assume("assume.load.equal_share", "assume.load.sound_joists").As(working.RuleOfThumb)
	if in.Joist.known() {
		tr.Cites(srcIRC)
	}
	c := r.add("q.load.check_floor", quantity.Ratio(worst.ratio()).Value(), quantity.Ratio(1).Value(), tr)
	if c.Use > 1 {
		r.find(working.Find(working.Act, "find.load.floor_over"))
	}
	if in.Mass >= heavy {
		r.find(working.Find(working.Wait, "find.load.floor_heavy").With("Mass", in.Mass.Value()))
	}
	unknown := in.Direction != Across && in.Direction != Along || in.Span == 0 || in.Spacing == 0
	if unknown {
		r.find(working.Find(working.Wait, "find.load.joists_unknown"))
		if in.Mass > heavyUnknown {
			r.find(working.Find(working.Wait, "find.load.joists_unknown_heavy").With("Mass", in.Mass.Value()))
		}
	}
	if in.Place != MidRoom && in.Place != AtWall {
		r.find(working.Find(working.Wait, "find.load.place_unknown"))
	}
	if in.Direction == Along && worst.joists <= 2 {
		r.find(working.Find(working.Wait, "find.load.few_joists").With("Joists", quantity.Count(worst.joists).Value()))
	}
	r.joistSpan(in)
	if c.State != working.Steady {
		r.floorCures(in, worst)
	}
}

// joistSpan says when the joists reach further than the usual tables let them.
func (r *report) joistSpan(in FloorInput) {
	if !in.Joist.known() || in.Wood == MaterialUnknown || in.Span == 0 || in.Spacing == 0 {
		return
	}
	if s := JoistSpan(in.Wood, in.Joist, in.Spacing, max(in.Live, LiveUS), deadOfTables); in.Span > s.Allowed() {
		r.find(working.Find(working.Act, "find.load.joists_long").With("Span", in.Span.Value()).With("Limit", s.Allowed().Value()))
	}
}

// floorCures offers another place or direction where it is computed to help.
func (r *report) floorCures(in FloorInput, worst joistLoad) {
	try := func(code working.Key, change func(*layout)) {
		l := worst.layout
		change(&l)
		if u := in.onJoists(l).ratio(); u < worst.ratio() && u <= 1 {
			r.offer(r.cure(code).With("Use", quantity.Ratio(u).Value()))
		}
	}
	if worst.along {
		try("find.load.cure_across", func(l *layout) { l.along = false })
		try("find.load.cure_across_wall", func(l *layout) { l.along, l.wall = false, true })
	}
	if !worst.wall {
		try("find.load.cure_wall", func(l *layout) { l.wall = true })
	}
	r.offer(r.cure("find.load.cure_lighter"))
}

// concrete screens a concrete floor over a room: the footprint against the live
// load over the room is the owner's call.
func (r *report) concrete(in FloorInput) {
	area := float64(in.Length * in.Width)
	// A tank shares the room with 1 m of free floor before it. Judgement.
	spread := quantity.Pressure(float64(in.Mass.Weight()) / (area + float64(in.Length)))
	tr := working.New("ask.load.concrete").Given("m", "q.load.mass", in.Mass.Value()).
		Constant("q", "q.load.live", in.Live.Value(), srcFloor).
		Step("p", "q.load.spread", "p = m·g/(L·W + L·1 m)", spread.Value(), working.Ours).As(working.RuleOfThumb)
	r.add("q.load.check_concrete", spread.Value(), in.Live.Value(), tr)
	if in.Mass >= heavy {
		r.find(working.Find(working.Wait, "find.load.concrete_owner").With("Mass", in.Mass.Value()))
	}
}

// conditionFindings are what calls for an engineer or the owner, whatever the figures say.
var conditionFindings = map[FloorCondition]working.Finding{
	UpperOldFloor: working.Find(working.Wait, "find.load.upper_old"),
	FloorSags:     working.Find(working.Act, "find.load.floor_sags"),
	FloorBounces:  working.Find(working.Act, "find.load.floor_bounces"),
	FloorRot:      working.Find(working.Act, "find.load.floor_rot"),
	JoistsCut:     working.Find(working.Act, "find.load.joists_cut"),
	Balcony:       working.Find(working.Act, "find.load.balcony"),
	RaisedFloor:   working.Find(working.Act, "find.load.raised_floor"),
	MobileHome:    working.Find(working.Act, "find.load.mobile_home"),
	Rented:        working.Find(working.Wait, "find.load.rented"),
	SeveralTanks:  working.Find(working.Wait, "find.load.several_tanks"),
	Earthquakes:   working.Find(working.Wait, "find.load.earthquakes"),
}

// building adds a finding for each condition that was ticked. One that is not
// ours counts as one that needs a look.
func (r *report) building(in FloorInput) {
	for _, c := range in.Conditions {
		if f, ok := conditionFindings[c]; ok {
			r.find(f)
		} else {
			r.find(working.Find(working.Wait, "find.load.other_condition"))
		}
	}
}

// Spans are what joists may span by each limit.
type Spans struct {
	Bending quantity.Length `json:"bending"`
	Sag     quantity.Length `json:"sag"`
}

// Allowed is the lesser span.
func (s Spans) Allowed() quantity.Length { return min(s.Bending, s.Sag) }

// repetitive is C_r of joists that share load. Source: NDS 2018 4.3.9.
const repetitive = 1.15

// JoistSpan returns what simply supported joists of an NDS species may span
// under a live and a dead load: bending at C_D 1.0 with the size and repetitive
// factors, and sag of a 360th under live load. It is zero for other woods.
// Source: NDS 2018, as in IRC table R502.3.1(2).
func JoistSpan(wood LegMaterial, joist Section, spacing quantity.Length, live, dead quantity.Pressure) Spans {
	n, ok := ndsTable[wood]
	if !ok || !joist.known() || !(spacing > 0) || !(live > 0) {
		return Spans{}
	}
	size, _ := ndsSize(joist.Depth)
	z := 2 * joist.across() / float64(joist.Depth)
	q := float64(live+dead) * float64(spacing)
	ql := float64(live) * float64(spacing)
	return Spans{
		Bending: quantity.Length(math.Sqrt(8 * n.fb * psi * size * repetitive * z / q)),
		Sag:     quantity.Length(math.Cbrt(384 * n.e * psi * joist.across() / (5 * 360 * ql))),
	}
}
