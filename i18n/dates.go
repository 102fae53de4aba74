package i18n

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/region"
	"example.org/driploop/model/working"
)

// Dates and times are read off the wall clock of the time.Time they are given,
// in its own location: the program stores civil time, and nothing is shifted.

// Date writes a day: 25 November 2026, 25 de noviembre de 2026. It names the
// month, so no order of numbers can be mistaken.
func (w *Words) Date(t time.Time) string {
	return w.T("date.long", w.dateArgs(t))
}

// ShortDate writes a day in little room: 25 Nov 2026.
func (w *Words) ShortDate(t time.Time) string {
	return w.T("date.short", w.dateArgs(t))
}

// DayHeading writes a day with its weekday and without its year: Wednesday 25
// November.
func (w *Words) DayHeading(t time.Time) string {
	return w.T("date.heading", w.dateArgs(t))
}

// MonthHeading writes a month and its year: November 2026. There the month stands
// alone, in the form that languages with cases have for that (listopad, not
// listopada).
func (w *Words) MonthHeading(t time.Time) string {
	args := w.dateArgs(t)
	args["Month"] = w.T(months[t.Month()-1]+".alone", nil)
	return w.T("date.month", args)
}

// Time writes the time of day, by the twelve-hour clock where the language and
// region use it.
func (w *Words) Time(t time.Time) string {
	if !w.twelveHours() {
		return fmt.Sprintf("%02d:%02d", t.Hour(), t.Minute())
	}
	h := t.Hour() % 12
	if h == 0 {
		h = 12
	}
	key := working.Key("time.am")
	if t.Hour() >= 12 {
		key = "time.pm"
	}
	return w.T(key, Args{"Clock": fmt.Sprintf("%d:%02d", h, t.Minute())})
}

// hours24 are the languages that keep twenty-four hours in a region that prefers
// twelve. Source: CLDR 48.2, timeData.
var hours24 = []string{"fr-CA"}

// twelveHours goes by what the region prefers.
func (w *Words) twelveHours() bool {
	return w.place().TwelveHours() && !slices.Contains(hours24, w.lang+"-"+w.region)
}

func (w *Words) place() region.Region { return region.Region{Code: w.region} }

// DateTime writes a day and the time of day.
func (w *Words) DateTime(t time.Time) string {
	return w.T("date.time", Args{"Date": w.Date(t), "Time": w.Time(t)})
}

// Weekday names a day of the week.
func (w *Words) Weekday(d time.Weekday) string { return w.T(weekdays[d%7], nil) }

// ShortWeekday names a day of the week in little room.
func (w *Words) ShortWeekday(d time.Weekday) string { return w.T(weekdays[d%7]+".short", nil) }

// Month names a month.
func (w *Words) Month(m time.Month) string { return w.T(months[(m+11)%12], nil) }

// FirstWeekday is the day with which a week starts in the calendar.
func (w *Words) FirstWeekday() time.Weekday { return w.place().FirstWeekday() }

func (w *Words) dateArgs(t time.Time) Args {
	return Args{
		"Weekday": w.Weekday(t.Weekday()),
		"Day":     w.day(t.Day()),
		"Month":   w.Month(t.Month()),
		"Mon":     w.T(months[t.Month()-1]+".short", nil),
		"Year":    fmt.Sprint(t.Year()),
	}
}

// day writes a day of the month; the first has a form of its own in some languages.
func (w *Words) day(n int) string {
	if n == 1 {
		return w.T(firstDay, nil)
	}
	return fmt.Sprint(n)
}

// firstDay is the message of the first of a month: 1er in French.
const firstDay working.Key = "date.first"

// Duration writes a length of time in at most two units: 1 h 30 min, 3 days 4 h.
// A time that is missing, negative or no number shows as a dash.
func (w *Words) Duration(d quantity.Time) string {
	s := float64(d)
	if !quantity.Finite(s) || s < 0 {
		return unknownNumber
	}
	for _, p := range []struct {
		big, small float64
		bigUnit    quantity.UnitCode
		smallUnit  quantity.UnitCode
	}{
		{3600, 60, "h", "min"},
		{86400, 3600, "d", "h"},
	} {
		if s < p.big || (p.bigUnit == "h" && s >= 48*3600) || s >= 90*86400 {
			continue
		}
		small := math.Round(s / p.small)
		per := p.big / p.small
		whole, rest := math.Floor(small/per), math.Mod(small, per)
		first := w.in(quantity.Time(whole*p.big).Value(), p.bigUnit, 3)
		if rest == 0 {
			return first
		}
		return first + " " + w.in(quantity.Time(rest*p.small).Value(), p.smallUnit, 3)
	}
	return w.Quantity(d.Value())
}

var weekdays = [...]working.Key{
	"weekday.sunday", "weekday.monday", "weekday.tuesday", "weekday.wednesday", "weekday.thursday", "weekday.friday", "weekday.saturday",
}

var months = [...]working.Key{
	"month.january", "month.february", "month.march", "month.april", "month.may", "month.june",
	"month.july", "month.august", "month.september", "month.october", "month.november", "month.december",
}
