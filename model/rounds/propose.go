package rounds

import (
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Tank is what the proposals rest on.
type Tank struct {
	Basis
	Known    bool // Basis holds figures; the water change is left out otherwise
	Powered  bool // filter and heater run
	Stocked  bool // fish live in it
	Young    bool // the filter is not known to keep up: see Young
	Light    bool
	Heater   bool
	Gravel   bool
	Internal bool        // filter inside the tank or on its rim, whose sponge clogs sooner than a canister's
	Switch   working.Key // the region's word for the protective switch
}

// Proposal is one of the usual rounds with its reasons.
type Proposal struct {
	Code  Code
	Rule  Rule
	Start journal.Civil
	Why   []working.Finding
	Trail *working.Trail // of the water change
	Plan  *ChangePlan    // of the water change
	// Of what a shop proposed: the title of an own round, its note, and that it did.
	Title    string
	Note     string
	FromShop bool
}

// Times of day at which the usual rounds are proposed. Judgement: before and
// after work; all of it can be changed.
const (
	morning = "08:00"
	evening = "18:00"
	weekend = "10:00" // Saturday, for what takes a while
)

// Propose lists the usual rounds for a tank as it is today: those that fit, each
// with its reason. Intervals are common practice of the trade but for the water
// change; a water change that cannot be computed is left out and its refusal
// comes back beside the rest.
func Propose(t Tank, now time.Time) ([]Proposal, error) {
	var out []Proposal
	var refused error
	add := func(c Code, rule string, at string, why ...working.Finding) *Proposal {
		r := MustRule(rule)
		out = append(out, Proposal{Code: c, Rule: r, Start: begin(r, at, now), Why: why})
		return &out[len(out)-1]
	}
	why := func(c Code) working.Finding {
		return working.Find(working.Steady, working.Key("why.rounds."+string(c)))
	}
	if t.Powered || t.Stocked {
		add(Look, "FREQ=DAILY", morning, why(Look))
	}
	if t.Stocked {
		add(Feed, "FREQ=DAILY", evening, why(Feed))
	}
	if t.Young {
		add(Test, "FREQ=DAILY", evening, working.Find(working.Wait, "why.rounds.test_young"))
	} else {
		add(Test, "FREQ=WEEKLY;BYDAY=SA", weekend, why(Test))
	}
	if t.Known {
		plan, trail, err := PlanChange(t.Basis)
		if refused = err; err == nil {
			f := working.Find(working.Steady, "why.rounds.change").With("Peak", plan.Peak.Value()).With("Most", plan.Most.Value()).
				With("Share", plan.Share.Value()).With("Volume", plan.Volume.Value())
			if !plan.Enough {
				f = working.Find(working.Act, "why.rounds.change_short").With("Peak", plan.Peak.Value()).With("Most", plan.Most.Value()).
					With("Share", plan.Share.Value()).With("Volume", plan.Volume.Value())
			}
			p := add(Change, map[int]string{28: "FREQ=WEEKLY;INTERVAL=4;BYDAY=SA", 21: "FREQ=WEEKLY;INTERVAL=3;BYDAY=SA", 14: "FREQ=WEEKLY;INTERVAL=2;BYDAY=SA", 7: "FREQ=WEEKLY;BYDAY=SA"}[plan.Every], weekend, f)
			if t.Young {
				p.Why = append(p.Why, working.Find(working.Wait, "why.rounds.change_young"))
			}
			p.Trail, p.Plan = trail, &plan
		}
	}
	add(Glass, "FREQ=WEEKLY;BYDAY=SA", weekend, why(Glass))
	if t.Gravel {
		add(Gravel, "FREQ=MONTHLY", weekend, why(Gravel))
	}
	if t.Internal {
		add(Filter, "FREQ=WEEKLY;INTERVAL=4;BYDAY=SU", weekend, working.Find(working.Steady, "why.rounds.filter_inside"))
	} else {
		add(Filter, "FREQ=MONTHLY;INTERVAL=3", weekend, why(Filter))
	}
	add(Protection, "FREQ=MONTHLY;BYMONTHDAY=1", weekend, why(Protection).Word("Switch", t.Switch))
	if t.Light {
		add(Timer, "FREQ=MONTHLY;BYMONTHDAY=1", evening, why(Timer))
	}
	if t.Heater {
		add(Thermometer, "FREQ=MONTHLY;INTERVAL=3", weekend, why(Thermometer))
	}
	add(TestKit, "FREQ=MONTHLY;INTERVAL=6;BYMONTHDAY=1", weekend, why(TestKit))
	return out, refused
}

// begin is the first occurrence of a rule: of a daily one today, of the others
// about one interval on, since nothing is overdue in a tank just taken up.
func begin(r Rule, at string, now time.Time) journal.Civil {
	p, _ := r.Plain()
	wall := Wall(now)
	switch {
	case p.Unit == Months && p.MonthDay == 0:
		return journal.CivilOf(addMonths(wall, p.Every, at))
	case p.Unit == Weeks:
		wall = wall.AddDate(0, 0, 7*(p.Every-1)+1)
	case p.Unit == Months:
		wall = wall.AddDate(0, 0, 1)
	}
	return Align(r, journal.Civil(wall.Format("2006-01-02")+"T"+at), wall)
}

// addMonths is the same day so many months on, the 28th at the latest so that
// every month has it.
func addMonths(t time.Time, n int, at string) time.Time {
	clock, err := time.Parse("15:04", at)
	if err != nil {
		clock = time.Time{}
	}
	return time.Date(t.Year(), t.Month()+time.Month(n), min(t.Day(), 28), clock.Hour(), clock.Minute(), 0, 0, time.UTC)
}

// Align returns the first day from that of from on which a rule may begin, at
// the time of day of at: the next of its weekdays or its day of the month,
// whatever its interval.
func Align(r Rule, at journal.Civil, from time.Time) journal.Civil {
	day := time.Date(from.Year(), from.Month(), from.Day(), 0, 0, 0, 0, time.UTC)
	start := journal.Civil(day.Format("2006-01-02") + "T" + clock(at))
	every := r
	if p, ok := r.Plain(); ok && !p.Once {
		p.Every = 1
		if once, err := p.Rule(); err == nil {
			every = once
		}
	}
	if c, ok := every.After(start, day); ok {
		return c
	}
	return start
}

// FeedOf is the dry feed a day that the record shows: the sum of what was
// weighed over the last four weeks by the days on which any was; false when
// nothing was weighed.
func FeedOf(entries []journal.Entry, today journal.Civil) (quantity.MassRate, bool) {
	sum, days := 0.0, map[string]bool{}
	for _, e := range entries {
		n, err := journal.DaysBetween(e.At, today)
		if e.Kind != journal.Fed || err != nil || n < 0 || n > 28 {
			continue
		}
		r, ok := e.Get(journal.NameFeed)
		if !ok {
			continue
		}
		if v, ok := r.Value(); ok && v.Kind == quantity.KindMass {
			sum += v.X
			days[e.At.Day()] = true
		}
	}
	if len(days) == 0 {
		return 0, false
	}
	return quantity.MassRate(sum * 1000 / float64(len(days))), true
}
