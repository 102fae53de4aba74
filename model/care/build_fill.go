package care

import (
	"time"

	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/region"
	"example.org/driploop/model/working"
)

func (f *Facts) fillPage(p *Page) {
	full, err := f.Full()
	if err != nil {
		return
	}
	v := &Verdict{State: working.Steady, Title: working.Find(working.Steady, "find.care.fill_steady")}
	t, trail, err := f.Treated()
	var perBucket quantity.Value
	if err == nil {
		p.Headline = &Headline{Name: "q.care.dose_whole", Value: t.Whole}
		p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.dose_means").With("Net", full.Net.Value()))
		p.Trails = append(p.Trails, trail)
		perBucket = t.PerBucket
		if t.Buckets > 0 {
			bucket := quantity.Volume(f.or("bucket.volume", liftable))
			p.Lines = append(p.Lines,
				Line{Name: "q.care.dose_bucket", Value: t.PerBucket},
				Line{Name: "q.care.buckets", Value: quantity.Count(t.Buckets).Value()},
				Line{Name: "q.care.bucket_mass", Value: (quantity.Mass(float64(bucket)*997) + emptyBucket).Value()})
		}
	}
	f.liftLines(p, v)
	f.blendLines(p, v)
	f.residualLines(p, v)
	if c, ok := f.Strength(); ok {
		p.Checks = append(p.Checks, c)
		if c.Finding != nil {
			v.Lines = append(v.Lines, *c.Finding)
		}
	} else if f.choice("water.source") != SourceWell && f.choice("water.source") != SourceOsmosis {
		v.Lines = append(v.Lines, working.Find(working.Steady, "find.care.strength_unknown"))
	}
	if d, tr, err := f.Bacteria(); err == nil {
		p.Lines = append(p.Lines, Line{Name: "q.care.bacteria_dose", Value: d})
		p.Trails = append(p.Trails, tr)
	}
	for _, id := range []FieldID{"fill.half", "fill.dose", "fill.line", "fill.level", "fill.leak", "fill.bacteria"} {
		text := tickText(id)
		if id == "fill.dose" {
			if perBucket.Known() && f.choice("treat.way") == "bucket" {
				text = working.Find(working.Steady, "tick.fill.dose_bucket").With("Dose", perBucket).With("Target", quantity.Temperature(f.or("fill.target", 25)).Value())
			} else if err == nil {
				text = working.Find(working.Steady, "tick.fill.dose_tank").With("Dose", t.Whole)
			}
		}
		f.tick(p, id, text)
	}
	v.State = working.Worst(v.State, working.WorstOf(v.Lines), worstCheck(p.Checks))
	switch v.State {
	case working.Act:
		v.Title = working.Find(working.Act, "find.care.fill_act")
	case working.Wait:
		v.Title = working.Find(working.Wait, "find.care.fill_wait")
	}
	v.Lines = distinct(v.Lines)
	p.Verdict = v
	p.Trails = someTrails(p.Trails)
}

// emptyBucket is a 10 L household bucket. Common practice, no source.
const emptyBucket = quantity.Mass(0.6)

func (f *Facts) liftLines(p *Page, v *Verdict) {
	bucket := quantity.Volume(f.or("bucket.volume", liftable))
	_, _, h := f.Tank().Outer()
	rim := quantity.Length(f.or("stand.height", 0.7)) + h
	lift, err := load.LiftAdvice(load.LiftInput{RimHeight: rim, Grip: load.FairGrip, Bucket: emptyBucket, Volume: bucket})
	if err != nil {
		return
	}
	p.Lines = append(p.Lines, Line{Name: "q.care.lift_water", Value: lift.Water.Value()})
	v.Lines = append(v.Lines, lift.Findings...)
	p.Trails = append(p.Trails, lift.Trail)
}

func (f *Facts) blendLines(p *Page, v *Verdict) {
	b, err := f.Blend()
	if err != nil {
		return
	}
	bucket := quantity.Volume(f.or("bucket.volume", liftable))
	p.Lines = append(p.Lines, Line{Name: "q.care.hot_part", Value: b.Hot(bucket).Value()}, Line{Name: "q.care.cold_part", Value: b.Cold(bucket).Value()})
	v.Lines = append(v.Lines, b.Findings...)
	p.Trails = append(p.Trails, b.Trail)
}

var supply = map[region.Water]working.Key{region.Chlorine: "find.care.supply_chlorine", region.Both: "find.care.supply_both", region.Little: "find.care.supply_little"}

// Supply says what suppliers of a region usually treat tap water with, for those who
// do not know yet what is in theirs: ask the supplier. False for a region that is not
// in the table.
func Supply(r region.Region) (working.Finding, bool) {
	key, ok := supply[r.Water()]
	return working.Find(working.Steady, key), ok && r.Known()
}

func (f *Facts) residualLines(p *Page, v *Verdict) {
	c, kind, assumed, any := f.Residual()
	if !any {
		v.Lines = append(v.Lines, working.Find(working.Steady, working.Key("find.care.source_"+f.choice("water.source"))))
		return
	}
	if assumed {
		v.Lines = append(v.Lines, working.Find(working.Steady, "find.care.residual_assumed").With("Residual", c.Value()))
		if usual, ok := Supply(f.r.Region); ok {
			v.Lines = append(v.Lines, usual)
		}
	}
	d, trail, err := f.Dechlorination()
	if err != nil {
		return
	}
	p.Trails = append(p.Trails, trail)
	if kind == "chloramine" {
		p.Lines = append(p.Lines, Line{Name: "q.care.ammonia_left", Value: d.TankHigh.Value()})
		v.Lines = append(v.Lines, working.Find(working.Steady, "find.care.chloramine").With("Ammonia", d.TankHigh.Value()))
	}
	p.Lines = append(p.Lines, Line{Name: "q.care.thiosulfate_need", Value: d.Pentahydrate.Value()})
}

func (f *Facts) powerPage(p *Page) {
	if f.broken() {
		return
	}
	var waited time.Duration
	filled, ok := f.filledAt()
	if ok {
		waited = max(0, f.r.Now.Sub(filled)-f.r.Ran.Set)
	}
	left := max(0, heaterWait-waited)
	p.Headline = &Headline{Name: "q.care.heater_wait", Value: quantity.Time(left.Seconds()).Value()}
	if left > 0 {
		p.Headline.State = working.Wait
		p.Headline.Means = append(p.Headline.Means, working.Find(working.Wait, "find.care.heater_wait").With("Left", quantity.Time(left.Seconds()).Value()))
	} else {
		p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.heater_waited"))
		if ran := f.r.Ran.For; ran > 0 && ran < heaterWait && waited > ran && p.State == Open {
			p.Headline.Means = append(p.Headline.Means, working.Find(working.Wait, "find.care.heater_by_clock").With("Wait", quantity.Time(heaterWait.Seconds()).Value()))
		}
	}
	if plugs, err := f.Plugs(); err == nil {
		p.Lines = append(p.Lines, Line{Name: "q.care.power_all", Value: plugs.AllOn.Value()})
		p.Checks = append(p.Checks, plugs.Check)
		p.Trails = append(p.Trails, plugs.Trail)
	}
	for _, id := range PowerChecks() {
		text := f.protectionWords(tickText(id))
		_, set := f.r.Acknowledged(PowerOn, NoteID(id))
		t := TickView{ID: id, Text: text, Set: set, Confirm: true, Ready: true}
		if id == "power.heater" && left > 0 {
			t.Ready = false
			u := working.Find(working.Wait, "find.care.heater_wait").With("Left", quantity.Time(left.Seconds()).Value())
			t.Until = &u
		}
		p.Ticks = append(p.Ticks, t)
	}
	p.Verdict = &Verdict{State: working.Steady, Title: working.Find(working.Steady, "find.care.power_order"),
		Lines: []working.Finding{f.protectionWords(working.Find(working.Steady, "find.care.protection_test")), working.Find(working.Steady, "find.care.electrician")}}
	p.Trails = someTrails(p.Trails)
}

// PowerChecks lists the electrical checks in the order in which they are made.
func PowerChecks() []FieldID {
	return []FieldID{"power.hands", "power.loop", "power.socket", "power.protection", "power.heater", "power.lid"}
}
