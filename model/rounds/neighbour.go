package rounds

import (
	"math"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// How a neighbour feeds. Too much food is what goes wrong while one is away: it
// rots, and ammonia follows.
const (
	// Healthy grown fish go so many days without food. Common practice, no source.
	fastDays = 3
	// A day with food, a day without. Common practice, no source.
	feedEvery = 2
	// A pinch of dry feed where none was weighed. Judgement: 20 to 60 mg.
	pinch = quantity.Mass(40e-6)
	// Look in on the first day, and then every so many. Judgement.
	lookEvery = 2
)

// VisitDay is one day of a time away.
type VisitDay struct {
	Date string // 2026-12-20
	Look bool   // somebody looks in
	Feed bool
}

// Visit is what whoever looks after the tank is asked to do.
type Visit struct {
	Days    []VisitDay
	Portion quantity.Mass // at each feeding: one day's feed, a pinch where that is not known
	Pinches int           // about as many, at least 1
}

// PlanVisit plans a time away: food every second day at most, beginning with the
// second, and none at all where the fish can go without. feed is the dry feed of
// a day, 0 (not known) to 100 g/d; one is what a pinch weighs, 0 where nobody weighed it.
// Refusals: a span that is none; feed outside its range.
func PlanVisit(s Span, feed quantity.MassRate, one quantity.Mass) (Visit, error) {
	first, errF := journal.Civil(s.First + "T00:00").Parse()
	last, errL := journal.Civil(s.Last + "T00:00").Parse()
	if errF != nil || errL != nil || last.Before(first) {
		return Visit{}, working.Refuse("first", "refuse.rounds.day")
	}
	if err := working.InRange("feed", "q.nitrogen.feed", feed.Value(), quantity.MassRate(0).Value(), quantity.MassRate(100).Value()); err != nil {
		return Visit{}, err
	}
	if !(one > 0) {
		one = pinch
	}
	v := Visit{Portion: quantity.Mass(float64(feed) / 1000)}
	if v.Portion == 0 {
		v.Portion = one
	}
	v.Pinches = max(1, int(math.Round(float64(v.Portion/one))))
	n := int(last.Sub(first)/(24*time.Hour)) + 1
	for i := range n {
		d := VisitDay{Date: first.AddDate(0, 0, i).Format("2006-01-02")}
		d.Feed = n > fastDays && i%feedEvery == 1
		d.Look = d.Feed || n <= fastDays && i%lookEvery == n/2%lookEvery
		v.Days = append(v.Days, d)
	}
	return v, nil
}
