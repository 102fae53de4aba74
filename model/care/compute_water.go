package care

import (
	"math"

	"example.org/driploop/model/heat"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// liveUS is the residential floor load of 40 psf. Source: ASCE 7-22 Table 4.3-1.
const liveUS = quantity.Pressure(40 * 47.88025898)

// Label is the conditioner's dose as printed on the bottle.
func (f *Facts) label(amount, per FieldID) (water.Label, error) {
	a, p := f.value(amount), f.x(per)
	if !a.Known() || math.IsNaN(p) {
		return water.Label{}, ErrNotKnown
	}
	return water.Label{Amount: a, Per: quantity.Volume(p)}, nil
}

// Treated is the conditioner for the whole fill, by the bottle's own label.
func (f *Facts) Treated() (water.Treated, *working.Trail, error) {
	return f.treat("dose.amount", "dose.per")
}

// Bacteria is the starter bacteria for the whole fill, by that bottle's label.
func (f *Facts) Bacteria() (quantity.Value, *working.Trail, error) {
	l, err := f.label("bacteria.amount", "bacteria.per")
	if err != nil {
		return quantity.Value{}, nil, err
	}
	full, err := f.Full()
	if err != nil {
		return quantity.Value{}, nil, err
	}
	return water.Dose(l, full.Net)
}

func (f *Facts) treat(amount, per FieldID) (water.Treated, *working.Trail, error) {
	l, err := f.label(amount, per)
	if err != nil {
		return water.Treated{}, nil, err
	}
	full, err := f.Full()
	if err != nil {
		return water.Treated{}, nil, err
	}
	return water.Treat(water.Treatment{Label: l, Method: water.Method(f.choice("treat.way")), NewWater: full.Net, Tank: full.Net,
		Bucket: quantity.Volume(f.or("bucket.volume", 0.008))})
}

// assumedResidual is what is planned for where the tap was not measured: the US
// limit, which is the most that a supply may carry on average.
const assumedResidual = quantity.Concentration(4) // mg/L as Cl2. Source: US EPA MRDL

// Residual is the chlorine in the tap water: measured, or assumed where the
// supply is not known. It reports false where there is none to expect.
func (f *Facts) Residual() (c quantity.Concentration, kind water.Residual, assumed, any bool) {
	switch f.choice("water.source") {
	case SourceWell, SourceOsmosis:
		return 0, "", false, false
	case SourceChlorine:
		kind = water.Chlorine
	default: // chloramine, or not known: the case that asks for more
		kind = water.Chloramine
	}
	v := f.value("water.residual")
	if !v.Known() {
		return assumedResidual, kind, true, true
	}
	return quantity.Concentration(v.X), kind, false, true
}

// Dechlorination is the chemistry behind the dose.
func (f *Facts) Dechlorination() (water.Dechlorination, *working.Trail, error) {
	c, kind, _, any := f.Residual()
	if !any {
		return water.Dechlorination{}, nil, ErrNotKnown
	}
	full, err := f.Full()
	if err != nil {
		return water.Dechlorination{}, nil, err
	}
	return water.Dechlorinate(c, kind, full.Net, full.Net)
}

// Strength says whether the dose holds enough thiosulfate for the residual,
// where the label states its strength.
func (f *Facts) Strength() (working.Check, bool) {
	share := f.value("dose.strength")
	t, _, err := f.Treated()
	if err != nil || !share.Known() {
		return working.Check{}, false
	}
	d, trail, err := f.Dechlorination()
	if err != nil {
		return working.Check{}, false
	}
	// A solution is taken at the density of water, 1 kg/L: it is denser, so this errs
	// on the safe side.
	has := quantity.Mass(t.Whole.X * share.X)
	if t.Whole.Kind == quantity.KindVolume {
		has *= 1000
	}
	c := working.Check{Name: "q.care.thiosulfate_enough", Use: float64(d.Pentahydrate) / float64(has), Demand: d.Pentahydrate.Value(),
		Capacity: has.Value(), Trail: trail}
	c = working.Graded(c, 1)
	if c.State == working.Act {
		find := working.Find(working.Act, "find.care.too_weak").With("Need", d.Pentahydrate.Value()).With("Has", has.Value())
		c.Finding = &find
	}
	return c, true
}

// Blend is the share of hot water in a bucket.
func (f *Facts) Blend() (heat.BlendResult, error) {
	hot, cold, target := f.x("fill.hot"), f.x("fill.cold"), f.x("fill.target")
	if math.IsNaN(hot) || math.IsNaN(cold) || math.IsNaN(target) {
		return heat.BlendResult{}, ErrNotKnown
	}
	return heat.Blend(quantity.Temperature(hot), quantity.Temperature(cold), quantity.Temperature(target))
}

// bag is the bag of the Home-coming step; NaN where a figure is not known.
func (f *Facts) bag() Bag {
	b := Bag{Way: f.choice("bag.way"), Water: quantity.Volume(f.x("bag.volume")), From: quantity.Temperature(f.x("bag.temp")), To: quantity.Temperature(f.x("home.tank_temp")),
		Tank: quantity.Volume(math.NaN()), Drops: f.x("drip.rate"), Closed: quantity.Time(f.x("bag.hours"))}
	if full, err := f.Full(); err == nil {
		b.Tank = full.Net
	}
	if v := f.value("bag.ph"); v.Known() {
		x := quantity.PH(v.X)
		b.PH = &x
	}
	if v := f.value("bag.kh"); v.Known() {
		x := quantity.Hardness(v.X)
		b.KH = &x
	}
	return b
}

// Float is the float time of the bag.
func (f *Facts) Float() (water.FloatPlan, *working.Trail, error) {
	if _, err := f.Full(); err != nil {
		return water.FloatPlan{}, nil, err
	}
	b := f.bag()
	if !quantity.Finite(float64(b.Water)) || !quantity.Finite(float64(b.From)) || !quantity.Finite(float64(b.To)) {
		return water.FloatPlan{}, nil, ErrNotKnown
	}
	return b.Float()
}

// Drip is the drip schedule of the bag.
func (f *Facts) Drip() (water.DripSchedule, *working.Trail, error) {
	b := f.bag()
	if !quantity.Finite(float64(b.Water)) || !quantity.Finite(b.Drops) {
		return water.DripSchedule{}, nil, ErrNotKnown
	}
	return b.Drip()
}

// WayHome is which way suits this bag: gradual, or out of it at once.
func (f *Facts) WayHome() (water.Homecoming, []working.Finding, *working.Trail, error) {
	b := f.bag()
	if !quantity.Finite(float64(b.Closed)) {
		return "", nil, nil, ErrNotKnown
	}
	if !quantity.Finite(float64(b.From)) {
		b.PH = nil
	}
	return b.WayHome()
}
