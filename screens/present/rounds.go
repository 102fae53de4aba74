package present

import (
	"slices"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
)

// Rounds is the page of what recurs as text.
type Rounds struct {
	Now   []Duty // late and due
	Later []Duty // to come today
	All   []Duty // every round, by when it is due
	Days  []RoundDay
	Daily string // what is due every day, which the days leave out
	Away  []AwayLine
}

// Duty is one round as text.
type Duty struct {
	ID    string
	Due   journal.Civil // the occurrence that can be done; empty when there is none
	Code  rounds.Code
	Name  string
	When  string // how late, or when
	Short string // the same in little room
	Text  string // the sentence of its repetition
	Note  string
	State rounds.State
	Late  bool
	Many  bool // more than one was missed
	Shop  bool // the shop proposed it
}

// RoundDay is one of the coming days.
type RoundDay struct {
	Weekday string
	Day     string
	Lines   []string
	Note    string
	Away    bool
}

// AwayLine is a time away.
type AwayLine struct {
	ID   string
	Days string
	Who  string
	Note string
}

// RoundName names a round: the usual name, or the person's own title.
func (p Presenter) RoundName(r rounds.Round) string {
	if r.Title != "" {
		return r.Title
	}
	return p.W.T(working.Key("round."+string(r.Code)), nil)
}

// Rounds presents what recurs, as of now.
func (p Presenter) Rounds(v keeper.Rounds, now time.Time) Rounds {
	var out Rounds
	today := rounds.Wall(now)
	for _, s := range v.All {
		d := p.duty(s, today)
		out.All = append(out.All, d)
		if s.State == rounds.Late || s.State == rounds.Due {
			out.Now = append(out.Now, d)
		}
	}
	for _, o := range v.LaterToday() {
		out.Later = append(out.Later, Duty{ID: o.Round.ID, Due: o.Due, Code: o.Round.Code, Name: p.RoundName(o.Round), When: p.clock(o.Due), State: rounds.Coming})
	}
	var daily []string
	for _, d := range v.Days {
		t, err := journal.Civil(d.Date + "T00:00").Parse()
		if err != nil {
			continue
		}
		day := RoundDay{Weekday: p.W.ShortWeekday(t.Weekday()), Day: p.W.Number(float64(t.Day()), 2), Away: d.Away}
		if d.Away {
			day.Note = p.W.T("page.rounds.away_mark", nil)
		}
		for _, o := range d.Due {
			name := p.RoundName(o.Round)
			if everyDay(o.Round.Rule) {
				if !slices.Contains(daily, name) {
					daily = append(daily, name)
				}
				continue
			}
			switch o.State {
			case rounds.Done:
				name = p.W.T("page.rounds.line_done", i18n.Args{"Name": name})
			case rounds.Skipped:
				name = p.W.T("page.rounds.line_skipped", i18n.Args{"Name": name})
			}
			if !slices.Contains(day.Lines, name) {
				day.Lines = append(day.Lines, name)
			}
		}
		out.Days = append(out.Days, day)
	}
	if len(daily) > 0 {
		out.Daily = p.W.T("page.rounds.daily", i18n.Args{"Names": p.W.List(daily)})
	}
	for _, a := range v.Away {
		out.Away = append(out.Away, AwayLine{ID: a.ID, Days: p.Span(a.First, a.Last), Who: a.Who, Note: a.Note})
	}
	return out
}

func everyDay(r rounds.Rule) bool {
	p, ok := r.Plain()
	return ok && p.Unit == rounds.Days && p.Every == 1 && !p.Once
}

func (p Presenter) duty(s rounds.Standing, today time.Time) Duty {
	d := Duty{ID: s.ID, Code: s.Code, Name: p.RoundName(s.Round), Text: p.Repeats(s.Rule, s.Start), Note: s.Note, State: s.State, Late: s.State == rounds.Late, Many: s.Missed > 1, Shop: s.FromShop}
	switch s.State {
	case rounds.Late:
		d.Due = s.Newest.Due
		d.When = p.W.N("n.rounds_late", float64(s.DaysLate), nil)
		d.Short = d.When
	case rounds.Due:
		d.Due = s.Newest.Due
		d.When = p.W.T("page.rounds.since", i18n.Args{"Time": p.clock(s.Newest.Due)})
		d.Short = p.W.T("label.today", nil)
	case rounds.Paused:
		d.When = p.W.T("page.rounds.paused", i18n.Args{"Day": p.CivilDay(s.Paused)})
		d.Short = p.W.T("page.rounds.resting", nil)
	case rounds.Over:
		d.When = p.W.T("page.rounds.over", nil)
		d.Short = d.When
	default:
		d.Due, d.When = s.Next, p.comes(s.Next, today)
		d.Short = d.When
	}
	if d.Many {
		d.When = p.W.Comma(d.When, p.W.N("n.rounds_missed", float64(s.Missed), nil))
	}
	return d
}

// comes says when an occurrence comes: today, tomorrow, or its day.
func (p Presenter) comes(c journal.Civil, today time.Time) string {
	t, err := c.Parse()
	if err != nil {
		return string(c)
	}
	day := p.W.ShortDate(t)
	switch c.Day() {
	case today.Format("2006-01-02"):
		day = p.W.T("label.today", nil)
	case today.AddDate(0, 0, 1).Format("2006-01-02"):
		day = p.W.T("label.tomorrow", nil)
	}
	return day
}

func (p Presenter) clock(c journal.Civil) string {
	t, err := c.Parse()
	if err != nil {
		return string(c)
	}
	return p.W.Time(t)
}

// Span writes the first and last day of a time away.
func (p Presenter) Span(first, last string) string {
	return p.W.T("page.rounds.span", i18n.Args{"First": p.CivilDay(journal.Civil(first + "T00:00")), "Last": p.CivilDay(journal.Civil(last + "T00:00"))})
}

// each are the words of a rule that comes in every unit. They are messages of their own, as a
// plural of 1 holds 21 too in some languages, and others have no such plural.
var each = map[rounds.Unit]working.Key{rounds.Days: "page.rounds.every_day", rounds.Weeks: "page.rounds.every_week", rounds.Months: "page.rounds.every_month", rounds.Years: "page.rounds.every_year"}

// every are the words of a rule that leaves some out, by its unit.
var every = map[rounds.Unit]working.Key{rounds.Days: "n.every_days", rounds.Weeks: "n.every_weeks", rounds.Months: "n.every_months", rounds.Years: "n.every_years"}

// Repeats says a rule in a sentence: every 2 weeks on Saturday at 10:00.
func (p Presenter) Repeats(r rounds.Rule, start journal.Civil) string {
	w := p.W
	at := p.clock(start)
	t, err := start.Parse()
	plain, ok := r.Plain()
	switch {
	case err != nil || r.IsZero():
		return w.T("page.rounds.no_rule", nil)
	case !ok:
		return w.T("page.rounds.by_rule", i18n.Args{"Rule": r.String(), "Time": at})
	case plain.Once:
		return w.T("page.rounds.once", i18n.Args{"Day": w.ShortDate(t), "Time": at})
	}
	n := w.T(each[plain.Unit], nil)
	if plain.Every != 1 {
		n = w.N(every[plain.Unit], float64(plain.Every), nil)
	}
	switch plain.Unit {
	case rounds.Weeks:
		days := plain.Weekdays
		if len(days) == 0 {
			days = []time.Weekday{t.Weekday()}
		}
		var names []string
		for i := range 7 {
			if d := (w.FirstWeekday() + time.Weekday(i)) % 7; slices.Contains(days, d) {
				names = append(names, w.T(onDays[d], nil))
			}
		}
		return w.T("page.rounds.on_days", i18n.Args{"Every": n, "Days": w.List(names), "Time": at})
	case rounds.Months:
		if plain.MonthDay == -1 {
			return w.T("page.rounds.on_last", i18n.Args{"Every": n, "Time": at})
		}
		day := plain.MonthDay
		if day == 0 {
			day = t.Day()
		}
		return w.T("page.rounds.on_date", i18n.Args{"Every": n, "Day": w.Number(float64(day), 2), "Time": at})
	case rounds.Years:
		return w.T("page.rounds.on_year", i18n.Args{"Every": n, "Day": w.Number(float64(t.Day()), 2), "Month": w.Month(t.Month()), "Time": at})
	}
	return w.T("page.rounds.at", i18n.Args{"Every": n, "Time": at})
}

// onDays are the days of the week as they stand after "on".
var onDays = [...]working.Key{"page.rounds.on_sunday", "page.rounds.on_monday", "page.rounds.on_tuesday", "page.rounds.on_wednesday", "page.rounds.on_thursday", "page.rounds.on_friday",
	"page.rounds.on_saturday"}

// Offer is one of the usual rounds as it is proposed.
type Offer struct {
	Key   string // its code; of an own round, which has a title, with that
	Code  rounds.Code
	Name  string
	Text  string // its repetition
	Why   []string
	Trail *i18n.TrailText
	Note  string // kept with the round
}

// Offers presents the usual rounds of a tank.
func (p Presenter) Offers(o keeper.RoundOffer) []Offer {
	var out []Offer
	for _, x := range o.Proposals {
		f := Offer{Key: string(x.Code) + x.Title, Code: x.Code, Name: p.RoundName(rounds.Round{Code: x.Code, Title: x.Title}), Text: p.Repeats(x.Rule, x.Start), Note: x.Note}
		for _, why := range x.Why {
			f.Why = append(f.Why, p.Say(why))
		}
		if x.Note != "" {
			f.Why = append(f.Why, x.Note)
		}
		if x.Trail != nil {
			t := p.W.Trail(x.Trail)
			f.Trail = &t
		}
		if x.Plan != nil && f.Note == "" {
			f.Note = p.W.T("page.rounds.change_note", i18n.Args{"Share": x.Plan.Share.Value(), "Volume": p.W.For(x.Plan.Volume.Value(), i18n.Tank)})
		}
		out = append(out, f)
	}
	return out
}

// RoundNote is what doing a round leaves in the daybook where its kind does not
// say it: which part was cleaned, what was looked at.
func (p Presenter) RoundNote(r rounds.Round) string {
	switch r.Code {
	case rounds.Filter, rounds.Glass, rounds.Gravel, rounds.Protection, rounds.Timer, rounds.Thermometer, rounds.TestKit:
		return p.W.T(working.Key("page.rounds.noted_"+string(r.Code)), nil)
	case rounds.Own:
		return r.Title
	}
	return ""
}

// HandledLine says of an occurrence whether it was done or skipped, and why.
func (p Presenter) HandledLine(h rounds.Handled) string {
	key := working.Key("page.rounds.past_done")
	if h.State == rounds.Skipped {
		key = "page.rounds.past_skipped"
		if h.Reason != "" {
			key = "page.rounds.past_because"
		}
	}
	return p.W.T(key, i18n.Args{"Day": p.CivilDay(h.Due), "Why": h.Reason})
}
