package present

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Feeding is how a tank is fed, as text.
type Feeding struct {
	Refused  string  // why there is no ration
	Number   *Number // of one meal
	Habits   []string
	Verdict  *Verdict
	Water    []Line // what the food means for the water
	Kinds    []FedKind
	Unknown  string
	Meals    []FedMeal
	Pinches  []PinchRow
	Trails   []i18n.TrailText
	Weighing string // how a pinch is weighed
}

// FedKind is a kind with what it eats, as text.
type FedKind struct {
	ID    string
	Name  string
	Food  string // its share of a day
	Stage string // where it is not grown
	Foods []string
}

// FedMeal is a meal as a row.
type FedMeal struct {
	ID, When, Food, Left string
	State                working.State
}

// PinchRow is a weighed pinch as a row.
type PinchRow struct{ ID, Food, Twenty, One string }

// Feeding presents how a tank is fed.
func (p Presenter) Feeding(f keeper.Feeding) Feeding {
	out := Feeding{Weighing: p.W.T("page.feed.weigh_how", nil)}
	if f.Refused != nil {
		out.Refused, _ = p.W.Problem(f.Refused)
	} else {
		p.ration(f, &out)
	}
	for _, k := range f.Kinds {
		row := FedKind{ID: k.Living.ID, Name: p.W.T("page.bag.name", i18n.Args{"Count": p.W.Number(float64(k.Living.Count), 5), "Name": p.FishName(k.Living.Fish)})}
		if k.Day > 0 {
			row.Food = p.W.T("page.feed.a_day", i18n.Args{"Mass": p.Food(quantity.Mass(k.Day / 1000))})
		}
		if k.Growth != fish.Adult && k.Growth != "" {
			row.Stage = p.W.T(working.Key("page.feed.stage_"+string(k.Growth)), nil)
		}
		for _, x := range k.Foods {
			row.Foods = append(row.Foods, p.Say(x))
		}
		out.Kinds = append(out.Kinds, row)
	}
	if len(f.Unknown) > 0 {
		out.Unknown = p.W.T("page.feed.unknown", i18n.Args{"Names": p.W.List(f.Unknown)})
	}
	for _, m := range f.Meals {
		row := FedMeal{ID: m.Entry, When: p.When(m.At), Food: m.Food}
		if !m.Feed.IsZero() {
			row.Food = p.W.Typed(m.Feed) + " " + m.Food
		}
		if m.Left != "" {
			row.Left = p.Said(journal.NameLeft, m.Left)
			if m.Left != "none" {
				row.State = working.Wait
			}
		}
		out.Meals = append(out.Meals, row)
	}
	for _, x := range f.Pinches {
		out.Pinches = append(out.Pinches, PinchRow{x.ID, x.Food, p.W.Typed(x.Twenty), p.Food(x.One)})
	}
	return out
}

// Food writes a mass of food, in milligrams below a tenth of a gram.
func (p Presenter) Food(m quantity.Mass) string {
	unit := quantity.UnitCode("g")
	if m < 0.1e-3 {
		unit = "mg"
	}
	return p.W.QuantityIn(m.Value(), unit, 2)
}

func (p Presenter) ration(f keeper.Feeding, out *Feeding) {
	r := f.Ration
	out.Number = &Number{Name: p.W.T("page.feed.meal", nil), Value: p.Food(r.Meal)}
	if r.Pinches != nil && r.Day > 0 {
		out.Number.Value = p.W.N("page.feed.pinches", roundPinches(float64(*r.Pinches)), nil)
		out.Number.Beside = p.W.T("page.feed.weighs", i18n.Args{"Mass": p.Food(r.Meal), "Food": f.Pinch.Food})
	}
	if f.Trail != nil && f.Trail.Spread != nil && r.Meals > 0 {
		each := func(v quantity.Value) string { return p.Food(quantity.Mass(v.X / 1000 / float64(r.Meals))) }
		out.Number.Beside = i18n.Sentences(out.Number.Beside, p.W.T("page.feed.between", i18n.Args{"Low": each(f.Trail.Spread.Low), "High": each(f.Trail.Spread.High)}))
	}
	out.Habits = append(out.Habits, p.W.N("page.feed.meals", float64(r.Meals), i18n.Args{"Day": p.Food(quantity.Mass(r.Day / 1000)), "Week": p.Food(r.Week)}),
		p.W.T("page.feed.minutes", nil))
	switch {
	case len(f.Basis.Fasting.List()) > 0 && r.Fasting > 0:
		said := p.W.T("page.feed.fasts_on", i18n.Args{"Days": p.Weekdays(f.Basis.Fasting.List())})
		if f.Basis.Fasting[f.Today] {
			said = p.W.T("page.feed.fasts_today", i18n.Args{"Days": p.Weekdays(f.Basis.Fasting.List())})
		}
		out.Habits = append(out.Habits, said)
	case r.Fasting == 0:
		out.Habits = append(out.Habits, p.W.T("page.feed.no_fasting", nil))
	case f.Fasted != "":
		out.Habits = append(out.Habits, i18n.Sentences(p.W.T("page.feed.fasting", nil), p.W.T("page.feed.fasted", i18n.Args{"Day": p.day(f.Fasted)})))
	default:
		out.Habits = append(out.Habits, p.W.T("page.feed.fasting", nil))
	}
	if r.Meals > 2 {
		out.Habits = append(out.Habits, p.W.T("page.feed.fry", nil))
	}
	if r.Pinches == nil {
		out.Habits = append(out.Habits, p.W.T("page.feed.unweighed", nil))
	}
	p.feedVerdict(f, out)
	line := func(key working.Key, v quantity.Value, note string) {
		out.Water = append(out.Water, Line{Name: p.W.T(key, nil), Value: p.W.Quantity(v), Note: note})
	}
	out.Water = append(out.Water, Line{Name: p.W.T("page.feed.ammonia", nil), Value: p.W.T("page.feed.a_day", i18n.Args{"Mass": p.Food(quantity.Mass(r.Load.TAN / 1000))}), Note: p.W.T("page.feed.ammonia_note", nil)})
	line("page.feed.nitrate", r.Load.NitrateWeek.Value(), p.W.T("page.feed.nitrate_note", nil))
	if f.Filter != nil {
		note := p.W.T("page.feed.filter_note", i18n.Args{"Low": f.Filter.Low.Value(), "High": f.Filter.High.Value()})
		if m := f.Home.Media; m != nil {
			note = i18n.Sentences(note, p.W.T("page.feed.filter_has", i18n.Args{"Area": m.Value()}))
		}
		line("page.feed.filter", f.Filter.Area.Value(), note)
	}
	if f.Trail != nil {
		out.Trails = append(out.Trails, p.W.Trail(f.Trail))
	}
	if f.Pinch != nil && f.Pinch.Trail != nil {
		out.Trails = append(out.Trails, p.W.Trail(f.Pinch.Trail))
	}
	if f.Filter != nil && f.Filter.Trail != nil {
		out.Trails = append(out.Trails, p.W.Trail(f.Filter.Trail))
	}
}

// feedVerdict says what the last meals made of the ration, and that a young filter
// cannot take much.
func (p Presenter) feedVerdict(f keeper.Feeding, out *Feeding) {
	v := Verdict{Title: p.W.T("page.feed.usual", nil)}
	factor := i18n.Args{"Share": p.W.Percent(float64(f.Ration.Factor))}
	switch {
	case f.Ration.Factor < 0.999:
		v.State, v.Title = working.Wait, p.W.T("page.feed.lowered", factor)
	case f.Ration.Factor > 1.001:
		v.Title = p.W.T("page.feed.raised", factor)
	}
	if f.Young {
		v.State = working.Wait
		v.Lines = append(v.Lines, p.W.T("page.feed.young", nil))
	}
	if f.Home.Water.Temperature != nil && f.Home.TemperatureAt == "" {
		v.Lines = append(v.Lines, p.W.T("page.feed.warmth", i18n.Args{"Temperature": f.Home.Water.Temperature.Value()}))
	}
	v.Word = p.W.State(v.State)
	out.Verdict = &v
}

// roundPinches is what fingers can tell apart: halves, and quarters below one.
func roundPinches(x float64) float64 {
	step := 0.5
	if x < 1 {
		step = 0.25
	}
	return max(step, float64(int(x/step+0.5))*step)
}
