package keeper

import (
	"context"
	"slices"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
)

// CareDays is how many days a care calendar holds where nothing else is asked for,
// and the most and the least that it can. Judgement: four weeks hang on a stand
// until they are worn; after a year the rounds have changed.
const (
	CareDays      = 28
	CareDaysLeast = 7
	CareDaysMost  = 366
)

// CareSpans lists the spans that are offered, in days.
func CareSpans() []int { return []int{14, CareDays, 56, 91} }

// CareCalendar is what recurs at a tank over the coming days, for a paper.
type CareCalendar struct {
	Rounds []CareRound // that come again, the most frequent of the usual ones first
	Days   []RoundDay  // today first
	Away   []Away      // times away that are not over
	// Offer holds the reasons of the usual rounds; it is empty where they cannot be
	// reckoned for this tank.
	Offer RoundOffer
}

// CareRound is a round with when it was last done.
type CareRound struct {
	rounds.Standing
	Last journal.Civil // empty where it never was
}

// CareCalendar looks days ahead, today being the first. Refusals: a number of days
// below CareDaysLeast or over CareDaysMost ("days"); no round that comes again
// ("round").
func (k *Keeper) CareCalendar(ctx context.Context, tank string, days int) (CareCalendar, error) {
	if days < CareDaysLeast || days > CareDaysMost {
		return CareCalendar{}, working.Refuse("days", "refuse.rounds.care_days")
	}
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return CareCalendar{}, err
	}
	now := k.now()
	out := CareCalendar{Days: all.days(now, days)}
	for _, r := range all.list {
		h := all.history(r.ID)
		s := rounds.Stand(r, h, now)
		if s.State != rounds.Paused && s.State != rounds.Over {
			out.Rounds = append(out.Rounds, CareRound{s, rounds.LastDone(r, h)})
		}
	}
	if len(out.Rounds) == 0 {
		return CareCalendar{}, working.Refuse("round", "refuse.rounds.no_rounds")
	}
	usual := rounds.Usual()
	place := func(c rounds.Code) int {
		if i := slices.Index(usual, c); i >= 0 {
			return i
		}
		return len(usual)
	}
	slices.SortStableFunc(out.Rounds, func(a, b CareRound) int { return place(a.Code) - place(b.Code) })
	for _, a := range all.away {
		if a.Last >= out.Days[0].Date {
			out.Away = append(out.Away, a)
		}
	}
	b, err := k.RoundBasisOf(ctx, tank)
	if err != nil {
		return CareCalendar{}, err
	}
	out.Offer, err = k.ProposeRounds(ctx, tank, b)
	return out, err
}
