package care

import (
	"math"

	"example.org/driploop/model/heat"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func tenVolume() quantity.Value { return quantity.Volume(ten).Value() }

// Kit figures. Common practice, no source, where no comment says otherwise.
const (
	gravelBag     = 5.0  // kg in a bag
	changeShare   = 0.25 // of the net volume, every week for the bottle's reckoning
	halfYearWeeks = 26
	liftable      = 8e-3 // m³: what a bucket is best filled with. Source: NIOSH 94-110 at the rim, about 7.7 kg
)

// Kit is the complete list that a first tank needs, each sized to this tank.
func (f *Facts) Kit() []KitItem {
	full, err := f.Full()
	if err != nil {
		return nil
	}
	l, w, h := f.Tank().Outer()
	heater, heatErr := f.HeaterChosen()
	filter, filterErr := f.FilterChosen()
	flow, _ := f.FlowAdvice()
	items := make([]KitItem, 0, len(kitItems))
	for _, id := range kitItems {
		it := KitItem{ID: id, Name: working.Key("kit." + id), HaveID: FieldID("kit." + id + ".have"), Cost: FieldID("kit." + id + ".price"),
			Why: working.Find(working.Steady, working.Key("kit."+id+".why")), Size: working.Find(working.Steady, working.Key("kit."+id+".size"))}
		it.Have = f.Ticked(it.HaveID)
		it.Price = f.value(it.Cost)
		switch id {
		case "tank":
			it.Size = it.Size.With("Volume", full.Outer.Value()).With("Length", l.Value()).With("Width", w.Value()).With("Height", h.Value())
			if float64(full.Outer) < ten*0.95 {
				it.State = working.Wait
			}
		case "lid":
			it.Size = it.Size.With("Power", quantity.Power(f.or("light.watts", 0)).Value()).With("Length", l.Value())
			if f.choice("lid.kind") == "open" {
				it.State, it.Why = working.Wait, working.Find(working.Wait, "kit.lid.open")
			}
		case "filter":
			if filterErr == nil {
				it.Size = it.Size.With("Label", quantity.Flow(f.or("filter.flow", 0)).Value()).With("Low", flow.Low.Value()).With("High", flow.High.Value())
				it.State = working.Worst(filter.Check.State, working.WorstOf(filter.Findings))
			} else {
				it.Size, it.State = working.Find(working.Act, "kit.unknown"), working.Act
			}
		case "heater":
			if heatErr == nil {
				it.Size = it.Size.With("Power", quantity.Power(f.or("heater.watts", 0)).Value()).With("Count", quantity.Count(f.or("heater.count", 1)).Value())
				it.Why = it.Why.With("Need", heater.Need.Value()).With("Low", heater.Rule.Low.Value()).With("High", heater.Rule.High.Value()).
					With("Room", quantity.Temperature(f.or("room.low", 18)).Value())
				it.State = worstCheck(heater.Checks)
			} else {
				it.Size, it.Why, it.State = working.Find(working.Act, "kit.unknown"), working.Find(working.Act, "kit.unknown"), working.Act
			}
		case "gravel":
			if full.Substrate == 0 {
				it.Size = working.Find(working.Steady, "kit.gravel.none")
				break
			}
			bags := math.Ceil(float64(full.Substrate)/gravelBag - 1e-9)
			it.Size = it.Size.With("Mass", full.Substrate.Value()).With("Bags", quantity.Count(bags).Value()).With("Bag", quantity.Mass(gravelBag).Value())
		case "conditioner":
			if v, ok := f.halfYear("dose.amount", "dose.per"); ok {
				it.Size = it.Size.With("Volume", v)
			} else {
				it.Size = working.Find(working.Wait, "kit.unknown")
			}
		case "bacteria":
			if d, _, err := f.Bacteria(); err == nil {
				it.Size = it.Size.With("Volume", d)
			} else {
				it.Size = working.Find(working.Steady, "kit.bacteria.label")
			}
		case "bucket":
			it.Size = it.Size.With("Volume", quantity.Volume(f.or("bucket.volume", liftable)).Value())
		case "siphon":
			it.Size = it.Size.With("Length", (h + quantity.Length(0.15)).Value())
		case "protection":
			it.Name = f.r.Region.Protection()
			it.Size = it.Size.Word("Protection", f.r.Region.Protection()).With("Volts", f.r.Region.Mains())
			it.Why = it.Why.Word("Protection", f.r.Region.Protection())
		}
		items = append(items, it)
	}
	return items
}

func worstCheck(cs []working.Check) working.State {
	w := working.Steady
	for _, c := range cs {
		w = working.Worst(w, c.State)
	}
	return w
}

// halfYear is what a bottle needs to hold for the fill and half a year of
// changes by its own label.
func (f *Facts) halfYear(amount, per FieldID) (quantity.Value, bool) {
	t, _, err := f.treat(amount, per)
	if err != nil {
		return quantity.Value{}, false
	}
	v := t.Whole
	v.X *= 1 + changeShare*halfYearWeeks
	return v, true
}

// Plugs adds up everything that is plugged in.
func (f *Facts) Plugs() (heat.PlugsResult, error) {
	hours := f.or("light.hours", 8*3600)
	watts, n := f.or("heater.watts", 0), f.or("heater.count", 1)
	share := 0.0
	if in, err := f.heaterInput(); err == nil && watts > 0 { // the heater runs as much of the day as the tank loses heat
		if loss, err := heat.Loss(in.Enclosure, in.SetPoint, in.RoomUsual, in.Humidity); err == nil {
			share = math.Max(0, math.Min(1, float64(loss.Total)/(watts*n)))
		}
	}
	outlet := heat.Outlet230V
	if f.r.Region.Mains().X < 200 {
		outlet = heat.Outlet120V
	}
	plugs := []heat.Plug{{Power: quantity.Power(f.or("filter.watts", 0)), Daily: 86400, Share: 1},
		{Power: quantity.Power(f.or("light.watts", 0)), Daily: quantity.Time(hours), Share: 1}}
	for range int(n) {
		plugs = append(plugs, heat.Plug{Power: quantity.Power(watts), Daily: 86400, Share: quantity.Ratio(share)})
	}
	return heat.Plugs(plugs, outlet, f.value("kit.tariff"))
}

func (f *Facts) kitPage(p *Page) {
	if f.broken() {
		return
	}
	p.Kit = f.Kit()
	v := &Verdict{State: working.Steady}
	if h, err := f.HeaterChosen(); err == nil {
		p.Headline = &Headline{Name: "q.care.heater", Value: quantity.Power(f.or("heater.watts", 0) * f.or("heater.count", 1)).Value(),
			Spread: &working.Spread{Low: h.Rule.Low.Value(), High: h.Rule.High.Value(), Why: "assume.care.watts_rule"}}
		p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.heater_means").With("Need", h.Need.Value()).
			With("Room", quantity.Temperature(f.or("room.low", 18)).Value()).With("Target", f.settled().Value()))
		p.Checks = append(p.Checks, h.Checks...)
		v.Lines = append(v.Lines, h.Findings...)
		p.Trails = append(p.Trails, h.Trail, h.Loss.Trail, h.Runaway.Trail, h.Rule.Trail)
	}
	if t, err := f.FilterChosen(); err == nil {
		p.Checks = append(p.Checks, t.Check)
		v.Lines = append(v.Lines, t.Findings...)
		p.Trails = append(p.Trails, t.Trail)
	}
	if a, t, err := f.Media(); err == nil {
		p.Lines = append(p.Lines, Line{Name: "q.heat.media_surface", Value: a.Value()})
		p.Trails = append(p.Trails, t)
	}
	p.Checks = working.Governing(p.Checks)
	if plugs, err := f.Plugs(); err == nil {
		p.Lines = append(p.Lines, Line{Name: "q.care.power_all", Value: plugs.AllOn.Value()},
			Line{Name: "q.care.energy_year", Value: plugs.Cost.Energy.Value()})
		if plugs.Cost.Cost.Known() {
			p.Lines = append(p.Lines, Line{Name: "q.care.cost_year", Value: plugs.Cost.Cost})
		}
		p.Trails = append(p.Trails, plugs.Trail)
	}
	toBuy, total, priced := 0, 0.0, 0
	for _, it := range p.Kit {
		if it.Have {
			continue
		}
		toBuy++
		if it.Price.Known() {
			total += it.Price.X
			priced++
		}
	}
	p.Lines = append(p.Lines, Line{Name: "q.care.to_buy", Value: quantity.Count(toBuy).Value()})
	if priced > 0 {
		p.Lines = append(p.Lines, Line{Name: "q.care.total_price", Value: quantity.Value{Kind: quantity.KindMoney, X: total}})
	}
	v.Title = working.Find(working.Steady, "find.care.kit_fits")
	v.State = working.Worst(worstCheck(p.Checks), working.WorstOf(v.Lines))
	if v.State != working.Steady {
		v.Title = working.Find(v.State, "find.care.kit_look")
	}
	p.Verdict = v
	p.Trails = someTrails(p.Trails)
}

func someTrails(ts []*working.Trail) []*working.Trail {
	out := ts[:0]
	for _, t := range ts {
		if t != nil && (len(t.Steps) > 0 || len(t.Givens) > 0) {
			out = append(out, t)
		}
	}
	return out
}

// protectionWords fills the regional words of a message about electricity.
func (f *Facts) protectionWords(w working.Finding) working.Finding {
	return w.Word("Protection", f.r.Region.Protection()).Word("Socket", f.r.Region.Socket()).With("Volts", f.r.Region.Mains())
}
