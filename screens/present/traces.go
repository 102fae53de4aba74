package present

import (
	"strconv"
	"strings"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// TraceName names what a chart shows.
func (p Presenter) TraceName(name string) string {
	switch name {
	case keeper.TraceUnionised:
		return p.W.T("page.chart.unionised", nil)
	case journal.NameVolume:
		return p.W.T("page.chart.volume", nil)
	}
	return p.W.T(working.Key("reading."+name), nil)
}

var tracePurpose = map[string]i18n.Purpose{journal.NameKH: i18n.Carbonate, journal.NameVolume: i18n.Tank, journal.NameFeed: i18n.Food, journal.NameDose: i18n.Dose}

// TraceUnit is the unit that a chart is drawn in for this person.
func (p Presenter) TraceUnit(t keeper.Trace) quantity.Unit {
	return quantity.MustUnit(p.W.DefaultUnit(t.Kind, tracePurpose[t.Name]))
}

// TraceTitle is the name of what a chart shows, its unit and basis.
func (p Presenter) TraceTitle(t keeper.Trace) string {
	name := p.TraceName(t.Name)
	u := p.TraceUnit(t)
	if u.Kind == quantity.KindPH || u.Code == "piece" {
		return name
	}
	unit := p.W.Unit(u.Code)
	if t.Basis != quantity.BasisNone {
		unit += " " + p.W.T(working.Key("word.basis."+string(t.Basis)), nil)
	}
	return p.W.T("page.chart.title", i18n.Args{"Name": name, "Unit": unit})
}

// TraceValue writes a value of a trace.
func (p Presenter) TraceValue(t keeper.Trace, x keeper.TracePoint) string {
	v := p.W.QuantityIn(quantity.Value{Kind: t.Kind, X: x.Y}, p.TraceUnit(t).Code, 3)
	switch x.Qualifier {
	case journal.NotDetected:
		return p.W.T("page.chart.under", i18n.Args{"Value": v})
	case journal.OverRange:
		return p.W.T("page.chart.over", i18n.Args{"Value": v})
	}
	return v
}

// DayOf reads seconds of a clock without a zone as a day in words.
func (p Presenter) DayOf(x float64) string { return p.W.ShortDate(civil(x)) }

// MomentOf reads them as a day and a time.
func (p Presenter) MomentOf(x float64) string {
	t := civil(x)
	return p.W.T("date.time", i18n.Args{"Date": p.W.ShortDate(t), "Time": p.W.Time(t)})
}

func civil(x float64) time.Time { return time.Unix(int64(x), 0).UTC() }

// TimeTick is a place on a time axis with its words.
type TimeTick struct {
	X     float64
	Label string
}

// TimeTicks are the places of a time axis from x0 to x1: whole days, weeks,
// months or years, few enough to be read.
func (p Presenter) TimeTicks(x0, x1 float64) []TimeTick {
	from, days := civil(x0), (x1-x0)/86400
	var next func(time.Time) time.Time
	label := p.dayTick
	at := time.Date(from.Year(), from.Month(), from.Day(), 0, 0, 0, 0, time.UTC)
	switch { // judgement: up to a dozen ticks
	case days <= 3:
		at = at.Add(time.Duration(from.Hour()/6*6) * time.Hour)
		next = func(t time.Time) time.Time { return t.Add(6 * time.Hour) }
		label = func(t time.Time) string {
			if t.Hour() == 0 {
				return p.dayTick(t)
			}
			return p.W.Time(t)
		}
	case days <= 14:
		next = func(t time.Time) time.Time { return t.AddDate(0, 0, 1) }
	case days <= 100:
		at = at.AddDate(0, 0, -int(at.Weekday()-p.W.FirstWeekday()+7)%7)
		next = func(t time.Time) time.Time { return t.AddDate(0, 0, 7) }
	case days <= 1100:
		at = time.Date(from.Year(), from.Month(), 1, 0, 0, 0, 0, time.UTC)
		next = func(t time.Time) time.Time { return t.AddDate(0, 1, 0) }
		label = p.monthTick
	default:
		at = time.Date(from.Year(), 1, 1, 0, 0, 0, 0, time.UTC)
		next = func(t time.Time) time.Time { return t.AddDate(1, 0, 0) }
		label = func(t time.Time) string { return strconv.Itoa(t.Year()) }
	}
	var out []TimeTick
	for ; float64(at.Unix()) <= x1; at = next(at) {
		if x := float64(at.Unix()); x >= x0 {
			out = append(out, TimeTick{x, label(at)})
		}
	}
	return out
}

func (p Presenter) dayTick(t time.Time) string {
	return p.W.T("page.chart.tick_day", i18n.Args{"Day": strconv.Itoa(t.Day()), "Mon": p.shortMonth(t)})
}

func (p Presenter) monthTick(t time.Time) string {
	if t.Month() == time.January {
		return strconv.Itoa(t.Year())
	}
	return p.shortMonth(t)
}

func (p Presenter) shortMonth(t time.Time) string {
	return p.W.T(working.Key("month."+strings.ToLower(t.Month().String())+".short"), nil)
}
