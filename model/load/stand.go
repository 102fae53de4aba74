package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// CheckStand screens a stand for a tank. It returns a *working.Refusal when an
// input is impossible. An input that is not known is no refusal: a size counts
// as the worst that is usual, and the verdict is then never steady.
func CheckStand(in StandInput) (Assessment, error) {
	if err := in.check(); err != nil {
		return Assessment{}, err
	}
	in = in.settled()
	r := &report{}
	r.overhang(in)
	switch in.Kind {
	case Bought:
		r.bought(in)
	case Furniture:
		r.furniture(in)
	case SelfBuilt:
		if err := r.selfBuilt(in); err != nil {
			return Assessment{}, err
		}
	}
	r.wetted(in)
	r.tipping(in)
	r.feet(in)
	r.caution("find.load.caution_screening", "find.load.caution_level", "find.load.caution_stop", "find.load.caution_move", "find.load.caution_quake")
	return r.done(), nil
}

// Bounds of the inputs. Judgement: beyond them the unit is mistaken.
const (
	maxMass   quantity.Mass   = 10000
	maxHeight quantity.Length = 2
	maxSide   quantity.Length = 6
)

// bound is a field with the range that is accepted.
type bound struct {
	field     string
	name      working.Key
	v         quantity.Value
	low, high quantity.Value
}

// firstRefusal returns the first value outside its range.
func firstRefusal(bs ...bound) error {
	for _, b := range bs {
		if b.v.X == 0 && b.low.X > 0 {
			return working.Refuse(b.field, "refuse.missing")
		}
		if err := working.InRange(b.field, b.name, b.v, b.low, b.high); err != nil {
			return err
		}
	}
	return nil
}

// known makes bounds of values for which zero means "not known": a zero passes.
func known(bs ...bound) []bound {
	var list []bound
	for _, b := range bs {
		if b.v.X != 0 {
			list = append(list, b)
		}
	}
	return list
}

func mass(field string, name working.Key, m, low quantity.Mass) bound {
	return bound{field, name, m.Value(), low.Value(), maxMass.Value()}
}

func side(field string, name working.Key, l, low, high quantity.Length) bound {
	return bound{field, name, l.Value(), low.Value(), high.Value()}
}

// check refuses what is impossible in a load.
func (l Load) check() error {
	if err := firstRefusal(known(mass("load.usual", "q.load.usual_mass", l.Usual, 0.1))...); err != nil {
		return err
	}
	return firstRefusal(mass("load.mass", "q.load.mass", l.Mass, 0.1), mass("load.empty", "q.load.empty_mass", l.Empty, 0),
		side("load.length", "q.load.tank_length", l.Length, 0.05, 5), side("load.width", "q.load.tank_width", l.Width, 0.05, 8),
		side("load.height", "q.load.tank_height", l.Height, 0.05, 5), side("load.centre", "q.load.centre", l.Centre, 0, 5))
}

// check refuses what is impossible in a stand.
func (in StandInput) check() error {
	if err := in.Load.check(); err != nil {
		return err
	}
	if in.Service > Class2 {
		return working.Refuse("service", "refuse.load.service")
	}
	if err := firstRefusal(append(known(side("length", "q.load.stand_length", in.Length, 0.05, maxSide),
		side("depth", "q.load.stand_depth", in.Depth, 0.05, maxSide)),
		side("height", "q.load.stand_height", in.Height, 0, maxHeight), mass("mass", "q.load.stand_mass", in.Mass, 0))...); err != nil {
		return err
	}
	thick, thin := quantity.Millimetres(100), quantity.Millimetres(3)
	switch in.Kind {
	case Bought:
		b := in.Bought
		one, most := quantity.Litres(1).Value(), quantity.Litres(10000).Value()
		return firstRefusal(known(mass("bought.rated", "q.load.rated", b.Rated, 1),
			bound{"bought.rated_volume", "q.load.rated_volume", b.RatedVolume.Value(), one, most},
			bound{"bought.tank_volume", "q.load.tank_volume", b.TankVolume.Value(), one, most})...)
	case Furniture:
		f := in.Furniture
		if _, ok := f.Top.Strength(0.018); !ok {
			return working.Refuse("furniture.top", "refuse.load.board")
		}
		if _, ok := f.LegMaterial.grade(Section{}, Class2); !ok {
			return working.Refuse("furniture.leg_material", "refuse.load.material")
		}
		if err := firstRefusal(known(side("furniture.thickness", "q.load.thickness", f.Thickness, thin, thick),
			side("furniture.depth", "q.load.board_depth", f.Depth, 0.05, maxSide), side("furniture.span", "q.load.span", f.Span, 0.05, maxSide),
			mass("furniture.rated", "q.load.rated", f.Rated, 1))...); err != nil {
			return err
		}
		return f.LegSection.check("furniture.leg_section")
	case SelfBuilt:
		f := in.Frame
		if _, ok := f.Material.grade(Section{}, Class2); !ok {
			return working.Refuse("frame.material", "refuse.load.material")
		}
		if _, ok := f.Top.Strength(0.018); !ok {
			return working.Refuse("frame.top", "refuse.load.board")
		}
		if err := firstRefusal(append(known(side("frame.thickness", "q.load.thickness", f.Thickness, thin, thick)),
			side("height", "q.load.stand_height", in.Height, 0.1, maxHeight))...); err != nil {
			return err
		}
		if err := f.Leg.check("frame.leg"); err != nil {
			return err
		}
		return f.Rail.check("frame.rail")
	case "":
		return working.Refuse("kind", "refuse.missing")
	}
	return working.Refuse("kind", "refuse.load.stand_kind")
}

// settled fills in what a zero stands for.
func (in StandInput) settled() StandInput {
	if in.Service == 0 {
		in.Service = Class2
	}
	if in.Length == 0 {
		in.Length = max(in.Load.Length, in.Furniture.Span)
	}
	if in.Depth == 0 {
		in.Depth = in.Load.Width
		if in.Kind == Furniture && in.Furniture.Depth > 0 {
			in.Depth = in.Furniture.Depth
		}
	}
	return in
}

// overhang finds a tank that stands out over its support. Five millimetres are
// the rim's play. Judgement.
func (r *report) overhang(in StandInput) {
	depth := in.Depth
	if in.Kind == Furniture && in.Furniture.Depth > 0 {
		depth = min(depth, in.Furniture.Depth)
	}
	if over := max(in.Load.Length-in.Length, in.Load.Width-depth); over > quantity.Millimetres(5) {
		r.find(working.Find(working.Act, "find.load.overhang").With("Over", over.Value()))
	}
}

// wetted finds boards that have swollen.
func (r *report) wetted(in StandInput) {
	if in.Wetted == Yes {
		r.find(working.Find(working.Act, "find.load.wetted"))
	}
}

// bought compares with the maker's rating. A rating by tank size counts only
// with the tank's own footprint.
func (r *report) bought(in StandInput) {
	b := in.Bought
	switch {
	case b.Rated > 0:
		tr := working.New("ask.load.rating").Given("R", "q.load.rated", b.Rated.Value()).
			Step("m", "q.load.mass", "m = m_max", in.Load.Mass.Value(), working.Ours)
		c := r.addGraded("q.load.check_rating", in.Load.Mass.Value(), b.Rated.Value(), waitFromRating, tr)
		if c.State != working.Steady {
			need := in.Load.Mass / waitFromRating
			r.offer(r.cure("find.load.cure_rating").With("Mass", need.Value()))
		}
	case b.RatedVolume > 0 && b.TankVolume > 0 && b.Footprint == Yes:
		tr := working.New("ask.load.rating").Given("V_R", "q.load.rated_volume", b.RatedVolume.Value()).
			Step("V", "q.load.tank_volume", "V = V_n", b.TankVolume.Value(), working.Ours)
		if c := r.addGraded("q.load.check_rating", b.TankVolume.Value(), b.RatedVolume.Value(), 1, tr); c.State != working.Steady {
			r.offer(r.cure("find.load.cure_rating").With("Mass", (in.Load.Mass / waitFromRating).Value()))
		}
	case b.RatedVolume > 0:
		r.find(working.Find(working.Wait, "find.load.rating_footprint"))
		r.offer(r.cure("find.load.cure_rating").With("Mass", (in.Load.Mass / waitFromRating).Value()))
	default:
		r.find(working.Find(working.Wait, "find.load.no_rating"))
		r.offer(r.cure("find.load.cure_rating").With("Mass", (in.Load.Mass / waitFromRating).Value()))
	}
	switch b.Damaged {
	case Yes:
		r.find(working.Find(working.Act, "find.load.damaged"))
	case No:
	default:
		r.find(working.Find(working.Wait, "find.load.damage_unknown"))
	}
	if in.Back == No {
		r.find(working.Find(working.Wait, "find.load.bought_back"))
	}
}
