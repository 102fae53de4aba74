package present

import (
	"slices"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/rounds"
)

// CareCalendar is what recurs over the coming weeks as text.
type CareCalendar struct {
	Span   string // first and last day
	Heads  []string
	Daily  []string     // what is due every day, in the order of CareDay.Daily
	Weeks  [][]CareDay  // of seven days, beginning as weeks do where the person lives
	Rounds []CareLine   // what each round is
	Places []care.Place // of the safety notes that belong to them
}

// CareDay is a day of it.
type CareDay struct {
	Date  string // the day of the month; in full where a month begins, and on the first day
	Off   bool   // lies before the first day, so nothing stands on it
	Away  bool
	Daily []CareTick // one for each of CareCalendar.Daily; without a Name where it is not due
	Ticks []CareTick
}

// CareTick is a round to be ticked on a day.
type CareTick struct {
	Name string
	Done bool
}

// CareLine says what a round is.
type CareLine struct {
	Name  string
	Text  string   // the sentence of its repetition
	About []string // why it is done, and its note
	Last  string   // the day when it was last done; empty where it never was
	Next  string
	Late  bool
}

// CareSpan names a span of a care calendar, in days that are whole weeks.
func (p Presenter) CareSpan(days int) string { return p.W.N("n.weeks", float64(days/7), nil) }

// CareWhole is the number of days from today on that days come to when the last week
// is filled up.
func (p Presenter) CareWhole(today time.Time, days int) int {
	before := p.weekPlace(today)
	return (before+days+6)/7*7 - before
}

// weekPlace is how many days of its week lie before a day.
func (p Presenter) weekPlace(t time.Time) int { return int(t.Weekday()-p.W.FirstWeekday()+7) % 7 }

// CareCalendar presents what recurs over the coming weeks, as of now.
func (p Presenter) CareCalendar(v keeper.CareCalendar, now time.Time) CareCalendar {
	var out CareCalendar
	for i := range 7 {
		out.Heads = append(out.Heads, p.W.Weekday((p.W.FirstWeekday()+time.Weekday(i))%7))
	}
	var daily []string // ids
	var codes []rounds.Code
	for _, r := range v.Rounds {
		codes = append(codes, r.Code)
		out.Rounds = append(out.Rounds, p.careLine(v, r, now))
		if everyDay(r.Rule) {
			daily = append(daily, r.ID)
			out.Daily = append(out.Daily, p.RoundName(r.Round))
		}
	}
	out.Places = RoundPlaces(codes...)
	if len(v.Days) == 0 {
		return out
	}
	out.Span = p.Span(v.Days[0].Date, v.Days[len(v.Days)-1].Date)
	first, err := journal.Civil(v.Days[0].Date + "T00:00").Parse()
	if err != nil {
		return out
	}
	var days []CareDay
	for i := p.weekPlace(first); i > 0; i-- {
		days = append(days, CareDay{Date: p.W.Number(float64(first.AddDate(0, 0, -i).Day()), 2), Off: true})
	}
	for i, d := range v.Days {
		t := first.AddDate(0, 0, i)
		c := CareDay{Date: p.W.Number(float64(t.Day()), 2), Away: d.Away, Daily: make([]CareTick, len(daily))}
		if i == 0 || t.Day() == 1 {
			c.Date = p.W.ShortDate(t)
		}
		if i == 0 { // what was left undone is due today
			for _, r := range v.Rounds {
				if r.State == rounds.Late && !slices.Contains(daily, r.ID) {
					c.Ticks = append(c.Ticks, CareTick{Name: p.RoundName(r.Round)})
				}
			}
		}
		for _, o := range d.Due {
			if o.State == rounds.Skipped || o.State == rounds.Handed {
				continue
			}
			tick := CareTick{p.RoundName(o.Round), o.State == rounds.Done}
			if at := slices.Index(daily, o.Round.ID); at >= 0 {
				c.Daily[at] = tick
			} else {
				c.Ticks = append(c.Ticks, tick)
			}
		}
		days = append(days, c)
	}
	for week := range slices.Chunk(days, 7) {
		out.Weeks = append(out.Weeks, week)
	}
	return out
}

// careLine says what a round is. A reason that rests on how often it is proposed
// is left out where it is done otherwise.
func (p Presenter) careLine(v keeper.CareCalendar, r keeper.CareRound, now time.Time) CareLine {
	d := p.duty(r.Standing, rounds.Wall(now))
	out := CareLine{Name: d.Name, Text: d.Text, Next: d.Short, Late: d.Late}
	known := false // the note is the one that it was proposed with, which the reasons say
	for i, o := range p.Offers(v.Offer) {
		x := v.Offer.Proposals[i]
		often := r.Code == rounds.Change || r.Code == rounds.Test
		if x.Code == r.Code && x.Title == r.Title && (!often || x.Rule.String() == r.Rule.String()) {
			out.About = append(out.About, o.Why...)
			known = known || len(o.Why) > 0 && o.Note == d.Note
		}
	}
	if d.Note != "" && !known && !slices.Contains(out.About, d.Note) {
		out.About = append(out.About, d.Note)
	}
	if r.Last != "" {
		out.Last = p.CivilDay(r.Last)
	}
	return out
}

// roundPlaces are the places of safety notes that a round leads to.
var roundPlaces = map[rounds.Code]care.Place{rounds.Change: care.AtChange, rounds.Filter: care.AtClean, rounds.Glass: care.AtClean, rounds.Gravel: care.AtClean,
	rounds.Protection: care.AtSwitch, rounds.Test: care.AtTest, rounds.TestKit: care.AtTest, rounds.Feed: care.AtFeeding}

// RoundPlaces are the places of safety notes that rounds lead to, in their order.
func RoundPlaces(codes ...rounds.Code) []care.Place {
	var out []care.Place
	for _, c := range codes {
		if p, ok := roundPlaces[c]; ok {
			out = append(out, p)
		}
	}
	return out
}
