package care

import (
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

// Page builds one step of First fill as it stands.
func (f *Facts) Page(s Step) Page {
	st := f.StatusOf(s)
	p := Page{Step: s, State: st.State, Waits: st.Waits, Changed: st.Changed, Notes: NotesFor(s), Carry: working.Key("carry." + string(s))}
	impossible := f.impossible()
	for _, field := range catalogue {
		if field.Step != s || field.Group == "ticks" || field.Group == "list" || (field.When != nil && !field.When(f)) {
			continue
		}
		a, given := f.Answer(field.ID)
		v := FieldView{Field: field, Answer: a, Given: given}
		if given {
			v.Refused = refusalOf(field.Check(a))
		}
		if v.Refused == nil {
			v.Refused = impossible[field.ID]
		}
		p.Fields = append(p.Fields, v)
	}
	switch s {
	case TankPlace:
		f.tankPage(&p)
	case KitList:
		f.kitPage(&p)
	case StandFloor:
		f.standPage(&p)
	case Rinse:
		f.rinsePage(&p)
	case PlaceDry:
		f.dryPage(&p)
	case FillTreat:
		f.fillPage(&p)
	case PowerOn:
		f.powerPage(&p)
	case Settle:
		f.settlePage(&p)
	case FirstFish:
		f.fishPage(&p)
	case HomeComing:
		f.homePage(&p)
	}
	f.typeTrails(&p)
	p.Blocked = f.blocked(&p)
	return p
}

// refusedField finds the field of First fill that a refusal of a calculation is about.
var refusedField = map[string]FieldID{
	"length": "tank.length", "width": "tank.width", "height": "tank.height", "bow": "tank.bow", "wall": "tank.wall", "bottom": "tank.wall",
	"substrate_front": "gravel.front", "substrate_back": "gravel.back", "air_gap": "tank.gap", "rocks": "rock.mass", "wood": "wood.mass",
	"room": "room.low", "room_low": "room.low", "room_usual": "room.high", "set_point": "settle.target", "water_volume": "tank.length",
	"heater_power": "heater.watts", "heater_count": "heater.count", "label_flow": "filter.flow", "media_kind": mediaKind, "media_volume": mediaVolume,
	"label_amount": "dose.amount", "label_per": "dose.per", "bucket": "bucket.volume", "residual": "water.residual",
	"hot": "fill.hot", "cold": "fill.cold", "target": "fill.target",
	"bag": "bag.volume", "bag_temp": "bag.temp", "tank_temp": "home.tank_temp", "start": "bag.volume", "drops_per_second": "drip.rate", "closed": "bag.hours",
	"thickness": "top.thickness", "depth": "top.depth", "span": "top.span", "rated": "stand.rated", "rated_volume": "stand.rated_volume",
}

// impossible collects what the answers refuse taken together: glass thicker than
// the tank, gravel above the rim.
func (f *Facts) impossible() map[FieldID]*working.Refusal {
	out := map[FieldID]*working.Refusal{}
	add := func(err error) {
		r := refusalOf(err)
		if r == nil {
			return
		}
		id, ok := refusedField[r.Field]
		if !ok {
			id = FieldID(r.Field)
		}
		if _, seen := out[id]; !seen {
			out[id] = r
		}
	}
	for _, r := range f.Tank().Check() {
		add(r)
	}
	_, err := f.Full()
	add(err)
	if low, high := f.value("room.low"), f.value("room.high"); low.Known() && high.Known() && low.X > high.X {
		add(working.Refuse("room.low", "refuse.care.room_order"))
	}
	if err == nil {
		_, err := f.HeaterChosen()
		add(err)
		_, _, err = f.Treated()
		add(err)
		_, err = f.Blend()
		add(err)
		_, _, err = f.Float()
		add(err)
		_, err = f.Stand()
		add(err)
	}
	return out
}

// refused returns what the calculations refuse about a tank, for pages that have
// no number to show then.
func (f *Facts) broken() bool {
	_, err := f.Full()
	return err != nil
}

func (f *Facts) tick(p *Page, id FieldID, text working.Finding) {
	p.Ticks = append(p.Ticks, TickView{ID: id, Text: text, Set: f.Ticked(id), Ready: true})
}

func tickText(id FieldID) working.Finding {
	return working.Find(working.Steady, working.Key("tick."+string(id)))
}

// ten is the volume below which a larger tank is advised. Common practice, no
// source: 10 US gallons; 54 L as the metric trade's nearest is above it.
const ten = 10 * 3.785411784e-3

func (f *Facts) tankPage(p *Page) {
	for _, id := range []FieldID{"place.sun", "place.radiator", "place.door"} {
		f.tick(p, id, tickText(id))
	}
	full, err := f.Full()
	if err != nil {
		return
	}
	p.Headline = &Headline{Name: "q.care.net_volume", Value: full.Net.Value()}
	p.Headline.Means = append(p.Headline.Means, working.Find(working.Steady, "find.care.net_means").With("Outer", full.Outer.Value()).With("Net", full.Net.Value()))
	p.Trails = append(p.Trails, full.NetTrail)
	v := &Verdict{State: working.Steady}
	v.Title = working.Find(working.Steady, "find.care.size_good")
	// Nominal sizes round: 10 US gal of glass outside is 9.9, 54 L is 54.
	if float64(full.Outer) < ten*0.95 {
		v.State = working.Wait
		v.Title = working.Find(working.Wait, "find.care.size_small").With("Ten", tenVolume())
		v.Lines = append(v.Lines, working.Find(working.Wait, "find.care.size_small_why"))
	} else {
		v.Lines = append(v.Lines, working.Find(working.Steady, "find.care.size_good_why"))
	}
	l, w, _ := f.Tank().Outer()
	if float64(full.WaterLine) > 0 && f.or("socket.distance", 0) < splashGap {
		v.Lines = append(v.Lines, working.Find(working.Wait, "find.care.socket_close"))
	}
	if f.or("socket.height", 0) < f.or("stand.height", 0.7) {
		v.Lines = append(v.Lines, working.Find(working.Steady, "find.care.socket_low"))
	}
	if low := f.or("room.low", 18); low < 15 {
		v.Lines = append(v.Lines, working.Find(working.Wait, "find.care.room_cold"))
	}
	if high := f.or("room.high", 26); high > 29 {
		v.Lines = append(v.Lines, working.Find(working.Wait, "find.care.room_hot"))
	}
	for _, t := range p.Ticks {
		if !t.Set {
			v.Lines = append(v.Lines, working.Find(working.Wait, working.Key("find.care."+string(t.ID)[len("place."):])))
		}
	}
	if h := f.choice("household"); h != "none" && h != "" {
		v.Lines = append(v.Lines, working.Find(working.Wait, "find.care.household"))
	}
	if float64(w)/float64(l) > 1.2 && f.Tank().Shape == tank.Box {
		v.Lines = append(v.Lines, working.Find(working.Steady, "find.care.turned"))
	}
	v.State = working.Worst(v.State, working.WorstOf(v.Lines))
	p.Verdict = v
}

// splashGap is how near a socket may stand to a tank before splashes reach it.
// Judgement.
const splashGap = 0.10
