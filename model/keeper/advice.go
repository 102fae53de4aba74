package keeper

import (
	"math"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// ChangeAdvice is how much water to change now, and what that takes.
type ChangeAdvice struct {
	Share  quantity.Ratio  // to change at once
	Volume quantity.Volume // the same as water; 0 where the tank's volume is not known
	Held   working.Key     // the limit that holds it below what the test asks for, if any
	Times  int             // such changes until the reading is in order, with nothing added meanwhile; 0 is not known
	For    working.Key     // the reading that asks for most
	Dose   quantity.Value  // conditioner for it by the label on record, if there is one
	Dosed  quantity.Volume // the water that the dose is for
	Trails []*working.Trail
}

// Findings says the advice in order.
func (a *ChangeAdvice) Findings() []working.Finding {
	out := []working.Finding{working.Find(working.Act, "find.keeper.change_share").With("Share", a.Share.Value())}
	if a.Volume > 0 {
		out[0] = working.Find(working.Act, "find.keeper.change_volume").With("Share", a.Share.Value()).With("Volume", a.Volume.Value())
	}
	if a.Held != "" {
		out = append(out, working.Find(working.Steady, "find.keeper.change_held").Word("Limit", a.Held))
	}
	if a.Times > 1 {
		out = append(out, working.Find(working.Steady, "find.keeper.change_times").With("Times", quantity.Count(a.Times).Value()).Word("Test", a.For))
	}
	if a.Dose.Known() {
		out = append(out, working.Find(working.Steady, "find.keeper.change_dose").With("Dose", a.Dose).With("Water", a.Dosed.Value()))
	}
	return out
}

// judgeFacts is what First fill knows of changes.
type judgeFacts struct {
	label  water.Label
	method water.Method
	bucket quantity.Volume
	has    bool // a label is on record
}

func judgeFactsOf(f *care.Facts) judgeFacts {
	var out judgeFacts
	amount, given := f.Answer("dose.amount")
	per, _ := f.Answer("dose.per")
	way, _ := f.Answer("treat.way")
	bucket, _ := f.Answer("bucket.volume")
	out.method = water.Method(way.Choice)
	if v, err := bucket.Measure.Value(); err == nil {
		out.bucket = quantity.Volume(v.X)
	}
	a, err1 := amount.Measure.Value()
	p, err2 := per.Measure.Value()
	if given && err1 == nil && err2 == nil {
		out.label, out.has = water.Label{Amount: a, Per: quantity.Volume(p.X)}, true
	}
	return out
}

// dose is the conditioner for new water, by the label and for the water that the
// label's way treats.
func (j *judge) dose(fresh quantity.Volume) (water.Treated, *working.Trail, bool) {
	if !j.facts.has || j.net <= 0 {
		return water.Treated{}, nil, false
	}
	t, tr, err := water.Treat(water.Treatment{Label: j.facts.label, Method: j.facts.method, NewWater: fresh, Tank: max(j.net, fresh), Bucket: j.facts.bucket})
	return t, tr, err == nil
}

// aims are what a reading is brought down to, in the unit it is judged in: OATA's
// line for nitrite and nitrate. Ammonia's depends on pH and temperature.
var aims = []struct {
	name string
	to   quantity.Concentration
}{{"nitrite", 0.2}, {"nitrate", 40}}

// advise works out how much to change for a test, nil where it asks for none.
func (j *judge) advise(t water.Tests) *ChangeAdvice {
	asks, emergency := false, false
	for _, f := range water.Interpret(t) {
		asks = asks || f.Code == "find.water.do.change_share"
		emergency = emergency || isEmergency(f)
	}
	if !asks {
		return nil
	}
	a := &ChangeAdvice{}
	i := len(j.entries)
	type goal struct{ now, in, to quantity.Concentration }
	var most goal
	want := quantity.Ratio(0)
	ask := func(x water.Test, g goal) {
		share := quantity.Ratio(1) // the tap holds as much itself: as much as is gentle
		if f, tr, err := water.FractionFor(g.now, min(g.in, g.now), min(max(g.to, min(g.in, g.now)), g.now)); err == nil {
			share = f
			a.Trails = append(a.Trails, tr)
		}
		if share > want {
			want, most, a.For = share, g, x.Name()
		}
	}
	for _, aim := range aims {
		now, ok := ion(t.Of(testNames[aim.name]), aim.name)
		if !ok || now <= aim.to {
			continue
		}
		tap, _ := j.tap(i, aim.name)
		in, _ := ion(tap, aim.name)
		ask(testNames[aim.name], goal{now, in, aim.to})
	}
	if now, to, ok := ammoniaGoal(t); ok && now > to {
		tap, _ := j.tap(i, "ammonia")
		in, _ := quantity.ToN(quantity.Concentration(tap.Value.X), quantity.Ammonium, tap.Basis)
		ask(water.TestAmmonia, goal{now, in, to})
	}
	if want == 0 { // it asks by its state alone, as with gasping fish
		want = 1
	}
	pair := water.WaterPair{Fraction: want, Emergency: emergency, Tank: 25, New: 25} // new water is blended to the tank
	if t.Temperature.Known() && t.Temperature.Value.X >= 0 && t.Temperature.Value.X <= 50 {
		pair.Tank = quantity.Temperature(t.Temperature.Value.X)
		pair.New = pair.Tank
	}
	j.pairOf(i, t, &pair)
	f, held, tr, err := water.GentleShare(pair)
	if err != nil {
		pair.TankPH, pair.NewPH, pair.TankTDS, pair.NewTDS = nil, nil, nil, nil
		if f, held, tr, err = water.GentleShare(pair); err != nil {
			return nil
		}
	}
	a.Share, a.Held = roundShare(f), held
	a.Trails = append(a.Trails, tr)
	if j.net > 0 {
		a.Volume = j.net * quantity.Volume(a.Share)
	}
	if want < 1 && a.Share < want {
		if _, n, tr, err := water.ChangesFor(water.Change{Now: most.now, Incoming: most.in, Fraction: a.Share}, most.to); err == nil {
			a.Times = n
			a.Trails = append(a.Trails, tr)
		}
	}
	if d, tr, ok := j.dose(a.Volume); ok {
		a.Dose, a.Dosed = d.Whole, d.Water
		a.Trails = append(a.Trails, tr)
	}
	return a
}

// roundShare gives a share in whole per cent, never more than it is.
func roundShare(f quantity.Ratio) quantity.Ratio {
	return quantity.Ratio(math.Max(1, math.Floor(float64(f)*100+1e-6)) / 100)
}

// pairOf fills in what is known of pH and dissolved solids of tank and tap.
func (j *judge) pairOf(i int, t water.Tests, p *water.WaterPair) {
	latest := func(own water.Reading, name string) water.Reading {
		if own.Known() {
			return own
		}
		if n, ok := j.last[name]; ok && n < i {
			return j.read(j.entries[n], name)
		}
		return water.Reading{}
	}
	buffered := func(ph, kh water.Reading) *water.Buffered {
		if !ph.Known() || !kh.Known() || ph.Beyond || kh.Beyond {
			return nil
		}
		return &water.Buffered{PH: quantity.PH(ph.Value.X), KH: quantity.Hardness(kh.Value.X)}
	}
	tapPH, _ := j.tap(i, "ph")
	tapKH, _ := j.tap(i, "kh")
	p.TankPH, p.NewPH = buffered(t.PH, latest(t.KH, "kh")), buffered(tapPH, tapKH)
	tds := latest(t.TDS, "tds")
	tap, _ := j.tap(i, "tds")
	if tds.Known() && tap.Known() {
		a, b := quantity.Concentration(tds.Value.X), quantity.Concentration(tap.Value.X)
		p.TankTDS, p.NewTDS = &a, &b
	}
}

// ion is a reading of nitrite or nitrate as the ion.
func ion(r water.Reading, name string) (quantity.Concentration, bool) {
	if !r.Known() {
		return 0, false
	}
	return quantity.ToIon(quantity.Concentration(r.Value.X), care.SpeciesOf[name], r.Basis)
}

// ammoniaGoal is total ammonia now and where its un-ionised share reaches the
// target, both as nitrogen.
func ammoniaGoal(t water.Tests) (now, to quantity.Concentration, ok bool) {
	if !t.Ammonia.Known() || !t.PH.Known() || !t.Temperature.Known() {
		return 0, 0, false
	}
	now, ok = quantity.ToN(quantity.Concentration(t.Ammonia.Value.X), quantity.Ammonium, t.Ammonia.Basis)
	f, _, err := water.AmmoniaFraction(quantity.Temperature(t.Temperature.Value.X), quantity.PH(t.PH.Value.X))
	perN, _ := quantity.Ammonia.IonPerN()
	if !ok || err != nil || f <= 0 {
		return 0, 0, false
	}
	return now, quantity.Concentration(float64(water.TargetNH3) / perN / float64(f)), true
}
