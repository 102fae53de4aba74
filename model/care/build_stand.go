package care

import (
	"math"

	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// adult is a mass a person can picture. Judgement.
const adult = 70.0

func (f *Facts) standPage(p *Page) {
	full, err := f.Full()
	if err != nil {
		return
	}
	p.Headline = &Headline{Name: "q.care.full_weight", Value: full.Total.Value()}
	people := float64(full.Total) / adult
	if people < 1.25 {
		p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.weight_person"))
	} else {
		p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.weight_people").With("People", quantity.Count(math.Round(people*2)/2).Value()))
	}
	p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.checked_with").With("Upper", full.Upper.Value()))
	v := &Verdict{State: working.Steady}
	take := func(a load.Assessment, err error) {
		if err != nil {
			if r := refusalOf(err); r != nil {
				v.Lines = append(v.Lines, working.Finding{Code: r.Code, State: working.Act, Values: r.Values})
			}
			v.State = working.Act
			return
		}
		p.Checks = append(p.Checks, a.Checks...)
		v.State = working.Worst(v.State, a.State)
		v.Lines = append(v.Lines, a.Findings...)
		v.Lines = append(v.Lines, a.Cures...)
	}
	stand, standErr := f.Stand()
	take(stand, standErr)
	floor, floorErr := f.Floor()
	take(floor, floorErr)
	if f.choice("tank.history") != "new" {
		take(f.Glass())
	} else if a, err := f.Glass(); err == nil {
		// A new factory tank: the figure is information, the maker's data decide.
		for _, c := range a.Checks {
			p.Trails = append(p.Trails, c.Trail)
		}
	}
	p.Checks = working.Governing(p.Checks)
	confirmed := f.choice("stand.confirmed") == yes
	switch {
	case v.State == working.Act && confirmed:
		v.Title = working.Find(working.Wait, "find.care.stand_confirmed")
		v.State = working.Wait
	case v.State == working.Act:
		v.Title = working.Find(working.Act, "find.care.stand_act")
	case v.State == working.Wait:
		v.Title = working.Find(working.Wait, "find.care.stand_wait")
	default:
		v.Title = working.Find(working.Steady, "find.care.stand_steady")
	}
	if len(p.Checks) > 0 {
		v.Title = v.Title.Word("Check", p.Checks[0].Name)
	}
	v.Lines = distinct(v.Lines)
	p.Cautions = distinct(append(append([]working.Finding{working.Find(working.Steady, "find.care.defer")}, stand.Cautions...), floor.Cautions...))
	p.Verdict = v
	p.Headline.State = v.State
	trails := []*working.Trail{full.MassTrail}
	for _, c := range p.Checks {
		trails = append(trails, c.Trail)
	}
	p.Trails = someTrails(append(trails, p.Trails...))
}

// distinct drops findings that say the same again.
func distinct(fs []working.Finding) []working.Finding {
	seen := map[working.Key]bool{}
	var out []working.Finding
	for _, x := range fs {
		if seen[x.Code] && len(x.Values) == 0 {
			continue
		}
		seen[x.Code] = true
		out = append(out, x)
	}
	return out
}

// rinseBatch is how full a bucket of gravel is when it can still be stirred.
// Common practice, no source: a third.
const rinseBatch = 1.0 / 3

// rinseWater is how many buckets of water a batch takes until it runs clear.
// Common practice, no source: about four.
const rinseWater = 4

// gravelBulk is dry gravel as it is poured, kg/m³. Source: bulk density of quartz gravel, 1590.
const gravelBulk = 1590.0

func (f *Facts) rinsePage(p *Page) {
	full, err := f.Full()
	if err != nil {
		return
	}
	bucket := f.or("bucket.volume", liftable)
	batches := 0.0
	if full.Substrate > 0 && bucket > 0 {
		batches = math.Ceil(float64(full.Substrate)/gravelBulk/(bucket*rinseBatch) - 1e-9)
	}
	water := quantity.Volume(batches * rinseWater * bucket)
	p.Headline = &Headline{Name: "q.care.batches", Value: quantity.Count(batches).Value()}
	p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.rinse_means").With("Mass", full.Substrate.Value()).With("Water", water.Value()))
	if batches == 0 {
		p.Headline.Means = []working.Finding{working.Find(working.Steady, "find.care.rinse_none")}
	}
	t := working.New("ask.care.batches").As(working.RuleOfThumb).
		Given("m", "q.care.gravel", full.Substrate.Value()).
		Given("V_b", "field.bucket.volume", quantity.Volume(bucket).Value()).
		Constant("ρ", "q.care.gravel_bulk", quantity.Density(gravelBulk).Value(), working.Trade).
		Step("n", "q.care.batches", "n = ⌈(m/ρ)/(V_b/3)⌉", quantity.Count(batches).Value(), working.Trade).
		Step("V", "q.care.rinse_water", "V = 4·n·V_b", water.Value(), working.Trade).
		Assume("assume.care.rinse")
	t.Result = t.Steps[0]
	p.Trails = append(p.Trails, t)
	p.Lines = append(p.Lines, Line{Name: "q.care.rinse_water", Value: water.Value()},
		Line{Name: "q.care.batch_mass", Value: quantity.Mass(bucket * rinseBatch * gravelBulk).Value()})
	for _, id := range []FieldID{"rinse.tank", "rinse.gravel", "rinse.ornaments", "rinse.no_soap"} {
		text := tickText(id)
		if id == "rinse.gravel" {
			text = text.With("Batches", quantity.Count(batches).Value())
		}
		f.tick(p, id, text)
	}
}

func (f *Facts) dryPage(p *Page) {
	if f.broken() {
		return
	}
	full, _ := f.Full()
	l, _, h := f.Tank().Outer()
	// Level within 1 mm in 300 mm. Common practice, no source.
	off := quantity.Length(float64(l) / 300)
	p.Headline = &Headline{Name: "q.care.level", Value: off.Value()}
	p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.level_means").With("Off", off.Value()).With("Length", l.Value()))
	p.Trails = append(p.Trails, working.New("ask.care.level").As(working.RuleOfThumb).
		Given("L", "q.care.tank_length", l.Value()).
		Step("d", "q.care.level", "d = L/300", off.Value(), working.Trade).Assume("assume.care.level"))
	loop := quantity.Length(0.05)
	p.Lines = append(p.Lines,
		Line{Name: "q.care.heater_depth", Value: quantity.Length(0.05).Value()},
		Line{Name: "q.care.loop", Value: loop.Value()},
		Line{Name: "q.care.water_line", Value: full.WaterLine.Value()})
	for _, id := range []FieldID{"dry.level", "dry.mat", "dry.tank", "dry.gravel", "dry.filter", "dry.heater", "dry.thermometer", "dry.cords", "dry.plugs"} {
		text := tickText(id)
		switch id {
		case "dry.level":
			text = text.With("Off", off.Value())
		case "dry.gravel":
			text = text.With("Front", quantity.Length(f.or("gravel.front", 0)).Value()).With("Back", quantity.Length(f.or("gravel.back", 0)).Value())
		case "dry.cords":
			text = f.protectionWords(text.With("Loop", loop.Value()))
		case "dry.heater":
			text = text.With("Depth", quantity.Length(0.05).Value())
		}
		f.tick(p, id, text)
	}
	v := &Verdict{State: working.Steady, Title: working.Find(working.Steady, "find.care.dry_steady")}
	for _, id := range []FieldID{"plug.heater", "plug.filter", "plug.light"} {
		if f.choice(id) == "in" {
			v.State, v.Title = working.Act, working.Find(working.Act, "find.care.dry_plug")
		}
	}
	v.Lines = append(v.Lines, working.Find(working.Steady, "find.care.dry_order"))
	_ = h
	p.Verdict = v
}
