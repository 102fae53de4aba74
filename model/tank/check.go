package tank

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Accepted sizes. Judgement: a tank larger than 5 m is a mistake in the unit.
const (
	minOuter quantity.Length = 0.05
	maxOuter quantity.Length = 5
	minPanel quantity.Length = 0.001
	maxPanel quantity.Length = 0.060
	maxLoose quantity.Mass   = 5000 // kg of any one thing in the tank
)

// refusals collects what is not accepted.
type refusals []*working.Refusal

func (rs *refusals) add(field string, code working.Key) {
	*rs = append(*rs, working.Refuse(field, code))
}

// within refuses a value outside low..high; zero is a missing value when low is
// above zero.
func (rs *refusals) within(field string, name working.Key, v, low, high quantity.Value) bool {
	if v.X == 0 && low.X > 0 {
		rs.add(field, "refuse.missing")
		return false
	}
	if err, ok := working.InRange(field, name, v, low, high).(*working.Refusal); ok {
		*rs = append(*rs, err)
		return false
	}
	return true
}

// Check lists what is not accepted in t; an empty list means that it is a tank.
func (t Tank) Check() []*working.Refusal {
	var rs refusals
	known := false
	for _, s := range Shapes() {
		known = known || s == t.Shape
	}
	switch {
	case t.Shape == "":
		rs.add("shape", "refuse.missing")
	case !known:
		rs.add("shape", "refuse.tank.shape")
	}
	switch {
	case t.Material == "":
		rs.add("material", "refuse.missing")
	case t.Material.Density() == 0:
		rs.add("material", "refuse.tank.material")
	}
	switch t.Rim {
	case Framed, Rimless:
	case "":
		rs.add("rim", "refuse.missing")
	default:
		rs.add("rim", "refuse.tank.rim")
	}
	ok := rs.within("length", "q.tank.length", t.Length.Value(), minOuter.Value(), maxOuter.Value())
	if t.Shape != Cube {
		ok = rs.within("height", "q.tank.height", t.Height.Value(), minOuter.Value(), maxOuter.Value()) && ok
	}
	if t.Shape == Box || t.Shape == BowFront {
		ok = rs.within("width", "q.tank.width", t.Width.Value(), minOuter.Value(), maxOuter.Value()) && ok
	}
	if t.Shape == BowFront {
		ok = rs.within("bow", "q.tank.bow", t.Bow.Value(), quantity.Length(0).Value(), maxOuter.Value()) && ok
	}
	ok = rs.within("wall", "q.tank.wall", t.Wall.Value(), minPanel.Value(), maxPanel.Value()) && ok
	ok = rs.within("bottom", "q.tank.bottom", t.Bottom.Value(), minPanel.Value(), maxPanel.Value()) && ok
	if !ok || !known {
		return rs
	}
	if t.Shape == BowFront && t.Bow > t.Length/2 {
		rs.add("bow", "refuse.tank.bow_too_deep")
		return rs
	}
	p, h := t.Plan(), float64(t.height())
	in := p.inset(t.Wall)
	if in.Length <= 0 || in.Width <= 0 || in.Bow < 0 || 2*t.Wall >= quantity.Length(p.depth()) {
		rs.add("wall", "refuse.tank.too_thick")
	}
	if float64(t.Bottom) >= h {
		rs.add("bottom", "refuse.tank.too_thick")
	}
	return rs
}

func (t Tank) height() quantity.Length {
	_, _, h := t.Outer()
	return h
}

// Check lists what is not accepted in c for the tank t, which must be accepted
// itself.
func (c Contents) Check(t Tank) []*working.Refusal {
	var rs refusals
	none := quantity.Length(0).Value()
	inside := (t.height() - t.Bottom).Value()
	ok := rs.within("air_gap", "q.tank.air_gap", c.AirGap.Value(), none, inside)
	front := rs.bed("substrate_front", c.SubstrateFront, inside)
	back := rs.bed("substrate_back", c.SubstrateBack, inside)
	deep := c.SubstrateFront > 0 || c.SubstrateBack > 0
	_, _, kind := c.Substrate.Grain()
	switch {
	case deep && c.Substrate == Bare:
		rs.add("substrate", "refuse.missing")
	case !kind && c.Substrate != Bare:
		rs.add("substrate", "refuse.tank.substrate")
	}
	if ok && front && back {
		if line := t.height() - t.Bottom - c.AirGap; c.SubstrateFront > line {
			rs.add("substrate_front", "refuse.tank.gravel_above_water")
		} else if c.SubstrateBack > line {
			rs.add("substrate_back", "refuse.tank.gravel_above_water")
		}
	}
	zero, most := quantity.Mass(0).Value(), maxLoose.Value()
	for _, r := range c.Rocks {
		if _, _, ok := r.Kind.Solid(); !ok {
			rs.add("rocks", "refuse.tank.stone")
		}
		rs.within("rocks", "q.tank.rock", r.Mass.Value(), zero, most)
	}
	rs.within("wood", "q.tank.wood", c.Wood.Value(), zero, most)
	rs.within("ornaments", "q.tank.ornaments", c.Ornaments.Value(), zero, most)
	rs.within("equipment", "q.tank.equipment", c.Equipment.Value(), zero, most)
	return rs
}

// bed refuses a bed that is deeper than the tank.
func (rs *refusals) bed(field string, d quantity.Length, inside quantity.Value) bool {
	if quantity.Finite(float64(d)) && float64(d) > inside.X {
		r := working.Refuse(field, "refuse.tank.gravel_above_rim")
		r.Values = map[string]quantity.Value{"Depth": d.Value(), "Inside": inside}
		*rs = append(*rs, r)
		return false
	}
	return rs.within(field, "q.tank.bed_depth", d.Value(), quantity.Length(0).Value(), inside)
}
