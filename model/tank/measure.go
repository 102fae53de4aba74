package tank

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Margins on the mass for structural checks, and the spread that is shown.
// Judgement, after the scatter between worked and published full masses.
const (
	marginMeasured = 0.10
	marginNominal  = 0.20
)

// Measure fills t with c at water temperature water and returns what it holds
// and weighs. The first refusal of Tank.Check, Contents.Check or WaterDensity is
// returned as a *working.Refusal, and so is a fill that displaces more than the
// tank holds below the water line.
func Measure(t Tank, c Contents, water quantity.Temperature) (Full, error) {
	if rs := t.Check(); len(rs) > 0 {
		return Full{}, rs[0]
	}
	if rs := c.Check(t); len(rs) > 0 {
		return Full{}, rs[0]
	}
	rho, err := WaterDensity(water)
	if err != nil {
		return Full{}, err
	}
	f := fill(t, c, rho)
	if f.Net < 0 {
		r := working.Refuse("rocks", "refuse.tank.overfull")
		r.Values = map[string]quantity.Value{"Solids": f.Solids.Value(), "Space": (f.Interior - f.Gap).Value()}
		return Full{}, r
	}
	brim := c
	brim.AirGap = 0
	f.Upper = fill(t, brim, rho).Total * quantity.Mass(1+t.margin())
	f.NetTrail = netTrail(t, c, f)
	f.MassTrail = massTrail(t, f, rho)
	return f, nil
}

// margin is the fraction by which the mass may be off.
func (t Tank) margin() float64 {
	if t.Sizes == Measured {
		return marginMeasured
	}
	return marginNominal
}

// fill computes volumes and masses of accepted inputs.
func fill(t Tank, c Contents, rho quantity.Density) Full {
	outer := t.Plan()
	inner := outer.inset(t.Wall)
	ao, ai := float64(outer.Area()), float64(inner.Area())
	h, inside := float64(t.height()), float64(t.height()-t.Bottom)
	line := inside - float64(c.AirGap)
	mean := meanDepth(inner, c)

	f := Full{
		Outer:       quantity.Volume(ao * h),
		Interior:    quantity.Volume(ai * inside),
		Gap:         quantity.Volume(ai * float64(c.AirGap)),
		Surface:     quantity.Area(ai),
		GravelFront: t.Bottom + c.SubstrateFront,
		GravelBack:  t.Bottom + c.SubstrateBack,
		WaterLine:   t.Bottom + quantity.Length(line),
	}
	m := moments{}
	walls := (ao - ai) * h * float64(t.Material.Density())
	floor := ai * float64(t.Bottom) * float64(t.Material.Density())
	m.add(walls, h/2)
	m.add(floor, float64(t.Bottom)/2)
	f.Empty = quantity.Mass(walls + floor)

	low := float64(t.Bottom)
	column := ai * line
	waterMoment := column * (low + line/2)
	displace := func(v, at float64) {
		column -= v
		waterMoment -= v * at
		f.Solids += quantity.Volume(v)
	}
	if grain, pores, ok := c.Substrate.Grain(); ok && mean > 0 {
		v := ai * mean * (1 - float64(pores))
		at := low + mean/2
		f.Substrate = quantity.Mass(v * float64(grain))
		m.add(float64(f.Substrate), at)
		displace(v, at)
	}
	middle := low + (mean+line)/2 // of the water above the bed, where loose things are taken to be
	rock := 0.0
	for _, r := range c.Rocks {
		solid, _, _ := r.Kind.Solid()
		rock += float64(r.Mass)
		displace(float64(r.Mass)/float64(solid), middle)
	}
	// Wood that floats displaces its own mass of water and no more.
	displace(float64(c.Wood)/max(float64(woodDensity), float64(rho)), middle)
	displace(float64(c.Ornaments)/float64(resinDensity), middle)
	m.add(rock+float64(c.Wood)+float64(c.Ornaments), middle)
	m.add(float64(c.Equipment), h)

	f.Net = quantity.Volume(column)
	f.Water = quantity.Mass(column * float64(rho))
	m.mass += float64(f.Water)
	m.moment += waterMoment * float64(rho)
	f.Total = quantity.Mass(m.mass)
	f.Centre = quantity.Length(m.moment / m.mass)
	vessel := working.Key("q.tank.mass_glass")
	if t.Material == Acrylic {
		vessel = "q.tank.mass_acrylic"
	}
	for _, p := range []Part{{vessel, f.Empty}, {"q.tank.mass_water", f.Water}, {"q.tank.mass_substrate", f.Substrate},
		{"q.tank.mass_rock", quantity.Mass(rock)}, {"q.tank.mass_wood", c.Wood}, {"q.tank.mass_ornaments", c.Ornaments},
		{"q.tank.mass_equipment", c.Equipment}} {
		if p.Mass != 0 {
			f.Parts = append(f.Parts, p)
		}
	}
	return f
}

// moments sums masses and their moments about the tank's underside.
type moments struct{ mass, moment float64 }

func (m *moments) add(mass, at float64) {
	m.mass += mass
	m.moment += mass * at
}

// meanDepth is the depth of the bed over the whole area: an even slope has its
// mean at the centroid of the plan.
func meanDepth(in Plan, c Contents) float64 {
	if c.Substrate == Bare {
		return 0
	}
	forward := in.centroid() / in.depth()
	return float64(c.SubstrateBack) + (float64(c.SubstrateFront)-float64(c.SubstrateBack))*forward
}
