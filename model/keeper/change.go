package keeper

import (
	"context"
	"errors"
	"slices"

	"example.org/driploop/model/care"
	"example.org/driploop/model/heat"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// ChangeWay is how the water of a change is measured.
type ChangeWay string

// The ways.
const (
	ByBuckets ChangeWay = "buckets" // so many buckets filled to a mark
	ByDrop    ChangeWay = "drop"    // how far the level falls, by a ruler
	ByShare   ChangeWay = "share"   // a part of the tank
)

// ChangeWays lists the ways in the order in which they are offered.
func ChangeWays() []ChangeWay { return []ChangeWay{ByBuckets, ByDrop, ByShare} }

// ChangeAsk is a water change as a person plans it. Only what the way needs is
// read; Cold, Hot and Target are for blending and may be missing.
type ChangeAsk struct {
	Way     ChangeWay
	Buckets quantity.Measure // how many
	Bucket  quantity.Measure // water in one
	Drop    quantity.Measure // of the level
	Share   quantity.Measure // of the tank
	Cold    quantity.Measure // water of the cold tap
	Hot     quantity.Measure // and of the hot one
	Target  quantity.Measure // of the new water; missing is the tank's own temperature
	TopUp   bool             // it replaces what evaporated: salts stay
}

// ChangePlan is what a change comes to.
type ChangePlan struct {
	Volume    quantity.Volume
	Low, High quantity.Volume // how far the measuring may be off
	Share     quantity.Ratio
	Target    quantity.Temperature // of the new water
	Hot, Cold quantity.Volume      // of one bucket, or of all where there is none; zero where it is not known
	PerBucket bool                 // Hot, Cold and Treated are told bucket by bucket
	Treated   *water.Treated       // conditioner by the label on record; nil where there is none
	Checks    []working.Check      // against what fish take in their stride
	Predicted []PredictedReading   // empty where the tap water was never tested
	TapKnown  bool                 // the tap water was tested once
	Findings  []working.Finding    // lifting, scalding
	Trails    []*working.Trail
}

// ChangeDefaults is a change as it is mostly made here: the usual quarter, in
// buckets as First fill knows them, blended to the tank's temperature.
func (k *Keeper) ChangeDefaults(ctx context.Context, tank string) (ChangeAsk, error) {
	a := ChangeAsk{Way: ByBuckets}
	err := k.look(ctx, tank, func(r *care.Record, f *care.Facts) {
		take := func(id care.FieldID) quantity.Measure { x, _ := f.Answer(id); return x.Measure }
		a.Bucket, a.Cold, a.Hot = take("bucket.volume"), take("fill.cold"), take("fill.hot")
		a.Share = quantity.Of(float64(usualChange)*100, "percent", 3)
		a.Target = take("settle.target")
		if _, m, ok := newest(r.Entries, journal.NameTemperature); ok && m.Qualifier == journal.Plain {
			a.Target = m.Measure
		}
		full, err := f.Full()
		b, err2 := a.Bucket.Value()
		if err == nil && err2 == nil && b.X > 0 {
			n := max(1, float64(int(float64(usualChange)*float64(full.Net)/b.X+0.5)))
			a.Buckets = quantity.Of(n, "piece", 3)
		}
	})
	return a, err
}

// PlanChange works out a water change. Nothing is kept. Errors: *working.Refusal
// that names the field of ChangeAsk (buckets, bucket, drop, share, cold, hot,
// target) and what is accepted, or the tank's sizes where they cannot be.
func (k *Keeper) PlanChange(ctx context.Context, tank string, a ChangeAsk) (ChangePlan, error) {
	j, err := k.judge(ctx, tank)
	if err != nil {
		return ChangePlan{}, err
	}
	j.noteAll()
	var p ChangePlan
	var err2 error
	if err := k.look(ctx, tank, func(_ *care.Record, f *care.Facts) { p, err2 = j.plan(a, f) }); err != nil {
		return ChangePlan{}, err
	}
	return p, err2
}

// noteAll takes every entry into what is known, and whether the latest water test calls
// for an emergency that no change has been made for since.
func (j *judge) noteAll() {
	last := -1
	for i, e := range j.entries {
		switch e.Kind {
		case journal.Tested:
			last = i
		case journal.Changed:
			last = -1
		}
	}
	for i := range j.entries {
		if i == last {
			j.emergency = slices.ContainsFunc(water.Interpret(j.testsOf(i)), isEmergency)
		}
		j.note(i)
	}
}

func isEmergency(f working.Finding) bool { return f.Code == "find.water.nh3_emergency" }

func (j *judge) plan(a ChangeAsk, f *care.Facts) (ChangePlan, error) {
	full, err := f.Full()
	if err != nil {
		return ChangePlan{}, err
	}
	p := ChangePlan{}
	if err := j.measure(a, full.Surface, full.WaterLine-max(full.GravelFront, full.GravelBack), full.Net, &p); err != nil {
		return ChangePlan{}, err
	}
	share, tr, err := water.ShareChanged(p.Volume, full.Net)
	if err != nil {
		return ChangePlan{}, renamed(err, "changed", string(wayField[a.Way]))
	}
	p.Share = share
	p.Trails = append(p.Trails, tr)
	tankT := j.tankTemperature()
	p.Target = tankT
	if v, ok, err := valueOf(a.Target, "target", quantity.KindTemperature); err != nil {
		return ChangePlan{}, err
	} else if ok {
		p.Target = quantity.Temperature(v)
	}
	if err := j.blend(a, f, &p); err != nil {
		return ChangePlan{}, err
	}
	if d, tr, ok := j.dose(p.Volume); ok {
		p.Treated = &d
		p.Trails = append(p.Trails, tr)
	}
	_, p.TapKnown = j.tapAny()
	if a.TopUp {
		p.Predicted = j.predictTopUp(p.Share)
		return p, nil
	}
	pair := water.WaterPair{Fraction: p.Share, Emergency: j.emergency, Tank: tankT, New: p.Target}
	j.pairOf(len(j.entries), j.latest(), &pair)
	if p.Checks, err = water.GentleChange(pair); err != nil {
		pair.TankPH, pair.NewPH, pair.TankTDS, pair.NewTDS = nil, nil, nil, nil
		if p.Checks, err = water.GentleChange(pair); err != nil {
			return ChangePlan{}, renamed(err, "new_temp", "target")
		}
	}
	off := shareOff * p.Share
	if p.Volume > 0 {
		off = max(quantity.Ratio((p.High-p.Volume)/full.Net), 0)
	}
	p.Predicted = j.predictAll(len(j.entries), p.Share, off)
	return p, nil
}

// wayField is the field of ChangeAsk that says how much.
var wayField = map[ChangeWay]working.Key{ByBuckets: "buckets", ByDrop: "drop", ByShare: "share"}

// measure fills in the water of the change.
func (j *judge) measure(a ChangeAsk, surface quantity.Area, depth quantity.Length, net quantity.Volume, p *ChangePlan) error {
	need := func(m quantity.Measure, field string, kind quantity.Kind) (float64, error) {
		x, ok, err := valueOf(m, field, kind)
		if err == nil && !ok {
			err = working.Refuse(field, "refuse.missing")
		}
		return x, err
	}
	take := func(v quantity.Volume, tr *working.Trail) {
		p.Volume, p.Low, p.High = v, quantity.Volume(tr.Spread.Low.X), quantity.Volume(tr.Spread.High.X)
		p.Trails = append(p.Trails, tr)
	}
	switch a.Way {
	case ByBuckets:
		n, err1 := need(a.Buckets, "buckets", quantity.KindCount)
		each, err2 := need(a.Bucket, "bucket", quantity.KindVolume)
		if err := errors.Join(err1, err2); err != nil {
			return err
		}
		v, tr, err := water.VolumeByBuckets(quantity.Count(n), quantity.Volume(each))
		if err != nil {
			return err
		}
		take(v, tr)
	case ByDrop:
		h, err := need(a.Drop, "drop", quantity.KindLength)
		if err != nil {
			return err
		}
		v, tr, err := water.VolumeByDrop(surface, depth, quantity.Length(h))
		if err != nil {
			return err
		}
		take(v, tr)
	case ByShare:
		f, err := need(a.Share, "share", quantity.KindRatio)
		if err != nil {
			return err
		}
		if err := working.InRange("share", "q.water.fraction", quantity.Ratio(f).Value(), quantity.Ratio(0.01).Value(), quantity.Ratio(1).Value()); err != nil {
			return err
		}
		p.Volume = net * quantity.Volume(f)
		p.Low, p.High = p.Volume*(1-shareOff), min(net, p.Volume*(1+shareOff))
	default:
		return working.Refuse("way", "refuse.missing")
	}
	return nil
}

// blend fills in the parts of hot and cold water and what is heavy or hot.
func (j *judge) blend(a ChangeAsk, f *care.Facts, p *ChangePlan) error {
	batch := p.Volume
	bucket, ok, err := valueOf(a.Bucket, "bucket", quantity.KindVolume)
	if err != nil {
		return err
	}
	if a.Way == ByBuckets || ok && bucket > 0 && quantity.Volume(bucket) < p.Volume {
		batch, p.PerBucket = min(quantity.Volume(bucket), p.Volume), true
	}
	if p.PerBucket {
		_, _, h := f.Tank().Outer()
		stand, _ := f.Answer("stand.height")
		if s, err := stand.Measure.Value(); err == nil {
			if l, err := load.LiftAdvice(load.LiftInput{RimHeight: quantity.Length(s.X) + h, Volume: batch}); err == nil {
				p.Findings = append(p.Findings, l.Findings...)
				p.Trails = append(p.Trails, l.Trail)
			}
		}
	}
	cold, ok1, err1 := valueOf(a.Cold, "cold", quantity.KindTemperature)
	hot, ok2, err2 := valueOf(a.Hot, "hot", quantity.KindTemperature)
	if err := errors.Join(err1, err2); err != nil {
		return err
	}
	if !ok1 || !ok2 {
		return nil
	}
	if float64(p.Target) <= cold { // the tap is warm enough by itself
		p.Cold = batch
		return nil
	}
	x, tr, err := water.HotShare(quantity.Temperature(cold), quantity.Temperature(hot), p.Target)
	if err != nil {
		return err
	}
	p.Hot = batch * quantity.Volume(x)
	p.Cold = batch - p.Hot
	p.Trails = append(p.Trails, tr)
	if hot > float64(heat.Scalds) {
		p.Findings = append(p.Findings, working.Find(working.Wait, "find.heat.scald").With("Hot", quantity.Temperature(hot).Value()).With("Limit", heat.Scalds.Value()))
	}
	return nil
}

// valueOf reads a measure of a kind; false where it is missing.
func valueOf(m quantity.Measure, field string, kind quantity.Kind) (float64, bool, error) {
	if m.IsZero() {
		return 0, false, nil
	}
	v, err := m.Value()
	if err != nil {
		return 0, false, working.Refuse(field, "refuse.not_a_number")
	}
	if v.Kind != kind {
		return 0, false, working.Refuse(field, "refuse.journal.reading")
	}
	return v.X, true, nil
}

// renamed gives a refusal of one field the name under which the person gave it.
func renamed(err error, from, to string) error {
	var r *working.Refusal
	if errors.As(err, &r) && r.Field == from {
		c := *r
		c.Field = to
		return &c
	}
	return err
}

// latest are the latest readings of the tank that a change is planned on.
func (j *judge) latest() water.Tests {
	get := func(name string) water.Reading {
		if n, ok := j.last[name]; ok {
			return j.read(j.entries[n], name)
		}
		return water.Reading{}
	}
	return water.Tests{PH: get(journal.NamePH), KH: get(journal.NameKH), TDS: get(journal.NameTDS), Temperature: get(journal.NameTemperature)}
}

// tankTemperature is the latest measured, or 25 °C as First fill proposes.
func (j *judge) tankTemperature() quantity.Temperature {
	if t := j.latest().Temperature; t.Known() && t.Value.X >= 0 && t.Value.X <= 50 {
		return quantity.Temperature(t.Value.X)
	}
	return 25
}

// tapAny reports whether anything was measured of the tap water.
func (j *judge) tapAny() (journal.Entry, bool) {
	if n := len(j.taps); n > 0 {
		return j.entries[j.taps[n-1]], true
	}
	return journal.Entry{}, false
}

// predictTopUp says what is dissolved after topping up, of what does not change by
// itself: hardness and dissolved solids.
func (j *judge) predictTopUp(share quantity.Ratio) []PredictedReading {
	var out []PredictedReading
	for _, name := range []string{journal.NameKH, journal.NameGH, journal.NameTDS} {
		n, ok := j.last[name]
		tap, known := j.tap(len(j.entries), name)
		if !ok || !known {
			continue
		}
		now := j.read(j.entries[n], name)
		if !now.Known() || now.Beyond || tap.Beyond || now.Value.Kind != tap.Value.Kind {
			continue
		}
		c, tr, err := water.TopUp(quantity.Concentration(now.Value.X), quantity.Concentration(tap.Value.X), share)
		if err != nil {
			continue
		}
		v := quantity.Value{Kind: now.Value.Kind, X: float64(c)}
		off := float64(spreadOf(now))
		out = append(out, PredictedReading{Name: name, Now: now.Value, Tap: tap.Value, After: v,
			Low: quantity.Value{Kind: v.Kind, X: max(0, v.X-off)}, High: quantity.Value{Kind: v.Kind, X: v.X + off}, Trail: tr})
	}
	return out
}
