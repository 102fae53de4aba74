package nitrogen

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Way is a way to mature a filter.
type Way string

// The ways.
const (
	Fishless Way = "fishless"  // ammonia from a bottle, fish later
	WithFish Way = "with_fish" // a few fish from the start, water changes by test
	Seeded   Way = "seeded"    // fish, and filter material from a mature tank
)

// Ways lists the ways in the order in which they are offered.
func Ways() []Way { return []Way{Fishless, WithFish, Seeded} }

// Bacteria that a good share of a mature filter brings, mg COD/L. // judgement:
// what the model holds for a few small fish in the long run
const (
	seedA = 0.045
	seedN = 0.015
)

// Plan is a maturing about to start.
type Plan struct {
	Way         Way                  `json:"way"`
	Temperature quantity.Temperature `json:"temperature"` // 15 to 30 °C
	Load        quantity.Rate        `json:"load"`        // of the first fish, above 0 to 2 mg N/(L·d), see LoadOf
	Tap         Tap                  `json:"tap"`
}

func (p Plan) accept() error {
	set := Setting{Temperature: &p.Temperature}
	err := first(set.accept(), p.Tap.accept(),
		working.InRange("load", "q.nitrogen.production", p.Load.Value(), quantity.Rate(0.005).Value(), quantity.Rate(2).Value()))
	if err == nil && p.Way != Fishless && p.Way != WithFish && p.Way != Seeded {
		err = working.Refuse("way", "refuse.nitrogen.way")
	}
	return err
}

// The usual rounds of each way. // common practice, no source; the fishless
// schedule is that of the reference run.
const (
	firstDose    = quantity.Concentration(2)
	furtherDose  = quantity.Concentration(1)
	doseFrom     = 14 // d
	doseEvery    = 3  // d
	doseUntil    = 38 // d
	closingDay   = 42 // d
	closingShare = quantity.Ratio(0.75)
	weekly       = 7 // d
	weeklyShare  = quantity.Ratio(0.25)
)

// Schedule returns the start of a plan and the events of its usual rounds until
// a time: doses and a closing change without fish, a quarter changed each week
// with them. It is where a what-if begins, not advice: with fish, tests call for
// more changes than these.
func (p Plan) Schedule(figures Params, until quantity.Time) (Start, []Event, error) {
	if err := first(p.accept(), figures.Accept()); err != nil {
		return Start{}, nil, err
	}
	s := p.start(figures)
	var evs []Event
	within := func(d int, do Action) {
		if at := quantity.Time(d) * secondsADay; at <= until {
			evs = append(evs, Event{at, do})
		}
	}
	if p.Way == Fishless {
		for d := doseFrom; d <= doseUntil; d += doseEvery {
			within(d, Dose{furtherDose, FromChloride})
		}
		within(closingDay, Change{closingShare, p.Tap})
		return s, evs, nil
	}
	for d := weekly; quantity.Time(d)*secondsADay <= until; d += weekly {
		within(d, Change{weeklyShare, p.Tap})
	}
	return s, evs, nil
}

// start is the tank on the first day.
func (p Plan) start(figures Params) Start {
	s := Start{State: NewTank(figures, p.Tap), Temperature: p.Temperature, Production: Production{p.Load, FromFish}}
	switch p.Way {
	case Fishless:
		s.State.Ammonia += firstDose
		s.Production = Production{}
	case Seeded:
		s.State.EatersA, s.State.EatersN = seedA, seedN
	}
	return s
}
