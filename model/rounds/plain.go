package rounds

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/teambition/rrule-go"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Unit is what a plain rule counts.
type Unit string

// The units.
const (
	Days   Unit = "days"
	Weeks  Unit = "weeks"
	Months Unit = "months"
	Years  Unit = "years"
)

// Units lists the units, the shortest first.
func Units() []Unit { return []Unit{Days, Weeks, Months, Years} }

// Plain is a rule as a person sets it: every so many units, on some days of the
// week where it goes by weeks.
type Plain struct {
	Every    int
	Unit     Unit
	Weekdays []time.Weekday // by weeks only; empty is that of the start
	MonthDay int            // by months only: 1 to 31, or -1 for the last day; 0 is that of the start
	Once     bool           // does not recur
}

var frequencies = map[Unit]string{Days: "DAILY", Weeks: "WEEKLY", Months: "MONTHLY", Years: "YEARLY"}

var weekdays = []string{time.Sunday: "SU", time.Monday: "MO", time.Tuesday: "TU", time.Wednesday: "WE", time.Thursday: "TH", time.Friday: "FR", time.Saturday: "SA"}

// Rule writes p as a rule. Refusals: "every" outside 1 to 365 days, 104 weeks,
// 60 months or 10 years; "month_day" that no month has.
func (p Plain) Rule() (Rule, error) {
	if p.Once {
		return Once(), nil
	}
	most := map[Unit]int{Days: 365, Weeks: 104, Months: 60, Years: 10}[p.Unit] // judgement
	if p.Every < 1 || p.Every > most {
		return Rule{}, working.Outside("every", "q.rounds.every", quantity.Count(p.Every).Value(), quantity.Count(1).Value(), quantity.Count(most).Value())
	}
	text := "FREQ=" + frequencies[p.Unit]
	if p.Every > 1 {
		text += fmt.Sprintf(";INTERVAL=%d", p.Every)
	}
	if p.Unit == Weeks && len(p.Weekdays) > 0 {
		var on []string
		for i := range weekdays { // Monday first, as the week of the rule does
			if d := time.Weekday((i + 1) % 7); slices.Contains(p.Weekdays, d) {
				on = append(on, weekdays[d])
			}
		}
		text += ";BYDAY=" + strings.Join(on, ",")
	}
	if p.Unit == Months && p.MonthDay != 0 {
		if p.MonthDay < -1 || p.MonthDay > 31 {
			return Rule{}, working.Refuse("month_day", "refuse.rounds.month_day")
		}
		text += fmt.Sprintf(";BYMONTHDAY=%d", p.MonthDay)
	}
	return ParseRule(text)
}

// Plain returns r as a person sets it; false for a rule that says more.
func (r Rule) Plain() (Plain, bool) {
	o := r.option
	if r.IsZero() {
		return Plain{}, false
	}
	if r.Single() {
		return Plain{Every: 1, Unit: Days, Once: true}, true
	}
	if o.Count > 0 || !o.Until.IsZero() || len(o.Bysetpos)+len(o.Bymonth)+len(o.Byyearday)+len(o.Byweekno)+len(o.Byhour)+len(o.Byminute) > 0 {
		return Plain{}, false
	}
	p := Plain{Every: max(1, o.Interval), Unit: map[rrule.Frequency]Unit{rrule.DAILY: Days, rrule.WEEKLY: Weeks, rrule.MONTHLY: Months, rrule.YEARLY: Years}[o.Freq]}
	for _, d := range o.Byweekday {
		if d.N() != 0 || p.Unit != Weeks {
			return Plain{}, false
		}
		p.Weekdays = append(p.Weekdays, time.Weekday((d.Day()+1)%7))
	}
	if o.Wkst != rrule.MO && p.Unit == Weeks && p.Every > 1 {
		return Plain{}, false
	}
	if n := len(o.Bymonthday); n > 1 || n == 1 && (p.Unit != Months || o.Bymonthday[0] < -1) {
		return Plain{}, false
	} else if n == 1 {
		p.MonthDay = o.Bymonthday[0]
	}
	return p, true
}

// FromToday returns the rule and start of a round that counts anew from today:
// the interval stays, the day of the week or month becomes today's. The start is
// today at the time of day of the old one. A rule with several days keeps them.
func FromToday(r Rule, start journal.Civil, now time.Time) (Rule, journal.Civil) {
	today := journal.Civil(now.Format("2006-01-02") + "T" + clock(start))
	p, ok := r.Plain()
	if !ok {
		return r, today
	}
	if len(p.Weekdays) == 1 {
		p.Weekdays[0] = now.Weekday()
	}
	if p.MonthDay != 0 {
		p.MonthDay = now.Day()
	}
	if moved, err := p.Rule(); err == nil {
		r = moved
	}
	return r, today
}

// clock is the time of day of a civil time.
func clock(c journal.Civil) string {
	if t, err := c.Parse(); err == nil {
		return t.Format("15:04")
	}
	return "08:00" // judgement: a morning
}
