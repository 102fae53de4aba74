package care

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

func (f *Facts) settlePage(p *Page) {
	if f.broken() {
		return
	}
	s := f.Steadiness()
	p.Steady = &s
	p.Headline = &Headline{Name: "q.care.held", Value: quantity.Time(s.Held.Seconds()).Value()}
	v := &Verdict{State: working.Steady, Title: working.Find(working.Steady, "find.care.settled").With("Target", s.Target.Value())}
	if !s.Ready {
		w := f.settleWait(s)
		p.Headline.State = working.Wait
		v.State, v.Title = working.Wait, w
	}
	p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.settle_means").With("Target", s.Target.Value()).
		With("Band", s.Band.Value()).With("Need", quantity.Time(s.Need.Seconds()).Value()))
	for _, m := range f.Maturing() {
		line := Line{Name: working.Key("q.care.mature_" + m.Way), Value: m.Likely.Value(),
			Spread: &working.Spread{Low: m.Low.Value(), High: m.High.Value(), Why: "assume.care.trust_tests"}}
		if m.Way == f.choice("mature.way") {
			note := working.Find(working.Steady, working.Key("find.care.mature_"+m.Way))
			line.Note = &note
			if m.Trail != nil {
				p.Trails = append(p.Trails, m.Trail)
			}
			if m.Way == MatureWithFish {
				v.Lines = append(v.Lines, working.Find(working.Wait, "find.care.fish_in_daily"))
			}
		}
		p.Lines = append(p.Lines, line)
	}
	if h, err := f.HeaterChosen(); err == nil && h.WarmUp.Reached && h.WarmUp.Time.Known() {
		p.Lines = append(p.Lines, Line{Name: "q.care.warm_up", Value: h.WarmUp.Time})
		p.Trails = append(p.Trails, h.WarmUp.Trail)
	}
	v.Lines = append(v.Lines, working.Find(working.Steady, "find.care.trust_tests"))
	p.Verdict = v
	p.Trails = someTrails(p.Trails)
}

func (f *Facts) fishPage(p *Page) {
	if f.broken() {
		return
	}
	v := &Verdict{State: working.Steady, Title: working.Find(working.Steady, "find.care.fish_open")}
	buy, err := f.FirstPurchase()
	if first := f.r.First; err == nil && first != nil { // the plan over weeks says how many
		n := quantity.Count(first.Count).Value()
		p.Headline = &Headline{Name: "q.care.first_count", Value: n}
		means := working.Find(working.Steady, "find.care.first_planned").Say("Kind", first.Kind)
		if first.Splits {
			means = working.Find(working.Steady, "find.care.first_part").Say("Kind", first.Kind)
		}
		p.Headline.Means = append(p.Headline.Means, means)
		p.Trails = append(p.Trails, first.Trail)
		if f.or("fish.count", 0) > float64(first.Count) {
			v.Lines = append(v.Lines, working.Find(working.Wait, "find.care.fish_many").With("High", n))
		}
	} else if err == nil {
		p.Headline = &Headline{Name: "q.care.first_count", Value: quantity.Count(buy.Low).Value(),
			Spread: &working.Spread{Low: quantity.Count(buy.Low).Value(), High: quantity.Count(buy.High).Value()}}
		p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.first_means").With("Capacity", buy.Capacity.Value()))
		p.Trails = append(p.Trails, buy.Trail)
		if n := f.or("fish.count", 0); n > float64(buy.High) {
			v.Lines = append(v.Lines, working.Find(working.Wait, "find.care.fish_many").With("High", quantity.Count(buy.High).Value()))
		}
	} else if r := refusalOf(err); r != nil {
		v.Lines = append(v.Lines, working.Finding{Code: r.Code, State: working.Act, Values: map[string]quantity.Value{"High": r.Accept.High, "Value": r.Values["Value"]}})
		for i := range p.Fields {
			if p.Fields[i].Field.ID == "fish.adult" {
				p.Fields[i].Refused = r
			}
		}
	}
	for _, id := range []FieldID{"fish.ask_age", "fish.ask_eating", "fish.ask_water", "fish.ask_return"} {
		f.tick(p, id, tickText(id))
	}
	v.Lines = append(v.Lines, f.fishBlocks()...)
	if g, _ := f.Gate(); g.Open {
		v.Lines = append(v.Lines, g.Finding)
	}
	for _, t := range []struct {
		name    string
		species quantity.Species
		line    working.Key
	}{{"ammonia", quantity.Ammonia, "q.care.ammonia_n"}, {"nitrite", quantity.Nitrite, "q.care.nitrite_n"}} {
		n, nothing, found, at := f.lastTest(t.name, t.species)
		if !found || !quantity.Finite(float64(n)) {
			continue
		}
		line := Line{Name: t.line, Value: n.Value()}
		note := working.Find(working.Steady, "find.care.tested_ago").With("Ago", quantity.Time(max(0, f.r.Now.Sub(at)).Seconds()).Value())
		if nothing {
			note = working.Find(working.Steady, "find.care.tested_nothing").With("Ago", quantity.Time(max(0, f.r.Now.Sub(at)).Seconds()).Value())
			line.Value = quantity.Value{}
		}
		line.Note = &note
		p.Lines = append(p.Lines, line)
	}
	v.State = working.WorstOf(v.Lines)
	switch v.State {
	case working.Wait:
		v.Title = working.Find(working.Wait, "find.care.fish_wait")
	case working.Act:
		v.Title = working.Find(working.Act, "find.care.fish_act")
	}
	p.Verdict = v
	p.Trails = someTrails(p.Trails)
}

func (f *Facts) homePage(p *Page) {
	if f.broken() {
		return
	}
	v := &Verdict{State: working.Steady, Title: working.Find(working.Steady, "find.care.home_steady")}
	if f.choice("bag.way") == WayDrip {
		f.dripPart(p)
	} else {
		f.floatPart(p)
	}
	if way, steps, trail, err := f.WayHome(); err == nil {
		if way == water.MoveSoon {
			v.Title = working.Find(working.Act, "find.care.home_soon")
			v.Lines = append(v.Lines, steps...)
		}
		if f.value("bag.ph").Known() && f.value("bag.kh").Known() {
			v.Lines = append(v.Lines, working.Find(working.Steady, "find.care.bag_assumed").With("Ammonia", bagAmmonia.Value()))
		}
		p.Trails = append(p.Trails, trail)
	}
	if a, b := f.value("bag.ph"), f.value("home.tank_ph"); a.Known() && b.Known() {
		d := b.X - a.X
		if d > phApart || d < -phApart {
			v.Lines = append(v.Lines, working.Find(working.Wait, "find.care.ph_apart").With("Bag", a).With("Tank", b))
		}
	}
	for _, id := range []FieldID{"home.lights", "home.float", "home.net", "home.pour"} {
		text := tickText(id)
		if id == "home.float" && f.choice("bag.way") == WayDrip {
			text = working.Find(working.Steady, "tick.home.drip")
		}
		f.tick(p, id, text)
	}
	v.State = working.WorstOf(append(v.Lines, v.Title))
	p.Verdict = v
	p.Trails = someTrails(p.Trails)
}

func (f *Facts) floatPart(p *Page) {
	plan, trail, err := f.Float()
	if err != nil {
		return
	}
	one := plan.Times[1]
	p.Headline = &Headline{Name: "q.care.float", Value: one.Likely.Value(), Spread: &working.Spread{Low: one.Low.Value(), High: one.High.Value(), Why: "assume.water.bag_u"}}
	p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.float_means").
		With("Low", quantity.Time(usualFloat[0].Seconds()).Value()).With("High", quantity.Time(usualFloat[1].Seconds()).Value()))
	p.Trails = append(p.Trails, trail)
	c := f.bag().floatCurve(one)
	if c == nil {
		return
	}
	f.addTimer(c, TimerFloat)
	p.Curve = c
}

func (f *Facts) dripPart(p *Page) {
	plan, trail, err := f.Drip()
	if err != nil {
		return
	}
	p.Headline = &Headline{Name: "q.care.drip", Value: plan.Time.Value()}
	p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.drip_means").With("Volume", plan.Holds.Value()).With("Original", plan.Original.Value()))
	p.Lines = append(p.Lines, Line{Name: "q.care.drip_flow", Value: plan.Flow.Value()})
	p.Trails = append(p.Trails, trail)
	c := f.bag().dripCurve(plan)
	f.addTimer(c, TimerDrip)
	p.Curve = c
}

func (f *Facts) addTimer(c *Curve, k TimerKind) {
	if t, ok := f.Timer(k); ok && !t.Ended {
		c.Timer = &t
	}
}
