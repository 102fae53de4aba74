package keeper

import (
	"context"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// Words gives the example its words, which the domain does not know.
type Words struct {
	Name   string          // of the tank: a kitchen corner
	Fish   string          // the kind of fish
	Notice string          // a note of the first week
	Snail  string          // what the snails that come with the plants are called
	System quantity.System // the units in which the example's keeper types and reads
	// Shown is the text of a note or check as it stands on the screen, its language
	// and the hash of its source.
	Shown func(note care.NoteID) (text, lang, hash string)
}

// MakeExample adds the example tank: 10 US gallons in a kitchen corner, set up
// over the last days as a careful beginner would, with the first fish on their
// way home. It is marked as an example and can be removed. Where one is there
// already, that one is returned.
func (k *Keeper) MakeExample(ctx context.Context, w Words) (string, error) {
	tanks, err := k.Tanks(ctx)
	if err != nil {
		return "", err
	}
	for _, t := range tanks {
		if t.Origin == Example {
			return t.ID, nil
		}
	}
	now := k.now()
	start := now.AddDate(0, 0, -38)
	id, err := k.startTank(ctx, w.Name, quantity.US, Example, start)
	if err != nil {
		return "", err
	}
	s := &scene{k: k, ctx: ctx, tank: id, words: w, at: start}
	s.play(now)
	return id, s.err
}

// scene plays a scenario through the keeper's own methods; the first error stops it.
type scene struct {
	k     *Keeper
	ctx   context.Context
	tank  string
	words Words
	at    time.Time
	err   error
}

func (s *scene) do(f func() error) {
	if s.err == nil {
		s.err = f()
	}
}

func (s *scene) measure(id care.FieldID, number string, unit quantity.UnitCode) {
	s.do(func() error {
		return s.k.put(s.ctx, s.tank, id, care.Answer{Measure: quantity.Measure{Number: number, Unit: unit}, Origin: care.FromPerson}, s.at)
	})
}

// either is a measure in US customary units, or its metric neighbour for a person
// who measures so: what is typed is never converted.
func (s *scene) either(us, metric quantity.Measure) quantity.Measure {
	if s.words.System == quantity.Metric {
		return metric
	}
	return us
}

func (s *scene) measureEither(id care.FieldID, us, metric quantity.Measure) {
	m := s.either(us, metric)
	s.measure(id, m.Number, m.Unit)
}

// reads writes down what the thermometer shows.
func (s *scene) reads(fahrenheit, celsius string) {
	m := s.either(quantity.Measure{Number: fahrenheit, Unit: "degf"}, quantity.Measure{Number: celsius, Unit: "degc"})
	s.entry(journal.Temperature, "", reading(journal.NameTemperature, m.Number, m.Unit, ""))
}

func (s *scene) choose(ids []care.FieldID, option string) {
	for _, id := range ids {
		s.do(func() error {
			return s.k.put(s.ctx, s.tank, id, care.Answer{Choice: option, Origin: care.FromPerson}, s.at)
		})
	}
}

// finish ticks a step's ticks, acknowledges its notes and carries on.
func (s *scene) finish(step care.Step) {
	s.do(func() error {
		r, err := s.k.record(s.ctx, s.tank)
		if err != nil {
			return err
		}
		r.Now = s.at
		page := care.NewFacts(r).Page(step)
		for _, t := range page.Ticks {
			if t.Confirm {
				s.acknowledge(step, care.NoteID(t.ID))
			} else {
				s.choose([]care.FieldID{t.ID}, care.Ticked)
			}
		}
		for _, n := range page.Notes {
			if n.ConfirmedIn(step) {
				s.acknowledge(step, n.ID)
			}
		}
		return s.err
	})
	s.do(func() error { return s.k.carryOn(s.ctx, s.tank, step, s.at) })
}

func (s *scene) acknowledge(step care.Step, note care.NoteID) {
	s.do(func() error {
		text, lang, hash := s.words.Shown(note)
		return s.k.acknowledgeAt(s.ctx, s.tank, step, note, lang, text, hash, s.at)
	})
}

func (s *scene) entry(kind journal.Kind, note string, readings ...journal.Reading) {
	s.do(func() error {
		_, err := s.k.addEntry(s.ctx, s.tank, journal.Entry{Kind: kind, Note: note, At: journal.CivilOf(s.at), Zone: journal.ZoneOf(s.at), Readings: readings}, s.at)
		return err
	})
}

func reading(name, number string, unit quantity.UnitCode, basis quantity.Basis) journal.Reading {
	return journal.Reading{Name: name, Measure: quantity.Measure{Number: number, Unit: unit, Basis: basis}}
}

// play is the scenario: a framed 10-gallon tank on a self-built stand with a
// back panel, matured without fish. The tests follow the reference run for a
// fishless start: ammonia gone by the second week, nitrite in the fifth.
func (s *scene) play(now time.Time) {
	s.choose([]care.FieldID{"household"}, "pets")
	s.choose([]care.FieldID{"place.sun", "place.radiator", "place.door"}, care.Ticked)
	s.measureEither("socket.height", quantity.Measure{Number: "42", Unit: "in"}, quantity.Measure{Number: "107", Unit: "cm"})
	s.finish(care.TankPlace)
	s.at = s.at.Add(20 * time.Minute)
	s.choose([]care.FieldID{"kit.tank.have", "kit.lid.have", "kit.filter.have", "kit.heater.have", "kit.thermometer.have", "kit.gravel.have",
		"kit.bucket.have", "kit.net.have", "kit.test_kit.have", "kit.conditioner.have"}, care.Ticked)
	s.choose([]care.FieldID{"filter.media_kind"}, "medium_foam")
	s.measure("filter.media_volume", "0.25", "l")
	s.measure("bacteria.amount", "10", "ml")
	s.measureEither("bacteria.per", quantity.Measure{Number: "10", Unit: "gal_us"}, quantity.Measure{Number: "38", Unit: "l"})
	s.finish(care.KitList)
	s.choose([]care.FieldID{"stand.kind"}, "frame")
	s.choose([]care.FieldID{"frame.material"}, "c24")
	s.measure("frame.leg_width", "45", "mm")
	s.measure("frame.leg_depth", "45", "mm")
	s.measure("frame.rail_height", "95", "mm")
	s.measureEither("stand.depth", quantity.Measure{Number: "14", Unit: "in"}, quantity.Measure{Number: "36", Unit: "cm"})
	s.choose([]care.FieldID{"stand.anchored"}, "yes")
	s.choose([]care.FieldID{"floor.kind"}, "slab")
	s.finish(care.StandFloor)
	s.at = s.at.Add(26 * time.Hour)
	s.finish(care.Rinse)
	s.at = s.at.Add(70 * time.Minute)
	s.finish(care.PlaceDry)
	s.at = s.at.Add(45 * time.Minute)
	s.choose([]care.FieldID{"water.source"}, care.SourceChloramine)
	s.finish(care.FillTreat)
	s.at = s.at.Add(35 * time.Minute)
	s.finish(care.PowerOn)
	s.choose([]care.FieldID{"mature.way"}, care.MatureFishless)
	for _, t := range []struct {
		after time.Duration
		f, c  string
	}{{3 * time.Hour, "71.6", "22"}, {9 * time.Hour, "75.9", "24.4"}, {10 * time.Hour, "76.8", "24.9"}, {12 * time.Hour, "77", "25"}, {11 * time.Hour, "77.2", "25.1"}} {
		s.at = s.at.Add(t.after)
		s.reads(t.f, t.c)
	}
	powered := s.at
	for week, t := range []struct{ nh3, no2, no3 string }{{"2.0", "", "5"}, {"0.25", "2.0", "5"}, {"", "5.0", "10"}, {"", "2.0", "40"}, {"", "", "30"}, {"", "", "20"}} {
		s.at = powered.AddDate(0, 0, 7*week+6)
		switch week { // the two that open the gate
		case 4:
			s.at = now.Add(-45 * time.Hour)
		case 5:
			s.at = now.Add(-20 * time.Hour)
		}
		test := []journal.Reading{}
		for _, v := range []struct{ name, number string }{{journal.NameAmmonia, t.nh3}, {journal.NameNitrite, t.no2}} {
			r := reading(v.name, v.number, "mg/l", quantity.AsN)
			if v.number == "" {
				r.Measure.Number, r.Qualifier = "0", journal.NotDetected
			}
			test = append(test, r)
		}
		s.entry(journal.Tested, "", append(test, reading(journal.NameNitrate, t.no3, "mg/l", quantity.AsIon), reading(journal.NamePH, "7.4", "ph", ""))...)
		if week == 1 {
			s.entry(journal.Note, s.words.Notice)
		}
		s.snails(week)
	}
	s.do(func() error {
		return s.k.put(s.ctx, s.tank, "fish.kind", care.Answer{Words: s.words.Fish, Origin: care.FromPerson}, s.at)
	})
	s.reads("77.1", "25.1")
	s.settled(now)
	s.at = now.Add(-90 * time.Minute)
	s.finish(care.FirstFish)
	s.choose([]care.FieldID{"home.lights", "home.float"}, care.Ticked)
	s.do(func() error {
		r, err := s.k.record(s.ctx, s.tank)
		if err != nil {
			return err
		}
		return s.k.startTimer(s.ctx, s.tank, r, now.Add(-11*time.Minute))
	})
}

// snails are those that plants bring along: nobody bought them, and there are more
// every few weeks.
func (s *scene) snails(week int) {
	found := map[int]int{1: 2, 3: 3}[week]
	if found == 0 {
		return
	}
	s.do(func() error {
		all, err := s.k.Stock(s.ctx, s.tank)
		if err != nil {
			return err
		}
		a := Newcomers{Species: "planorbella-duryi", Count: found, Born: true, What: s.words.Snail, At: journal.CivilOf(s.at)}
		if len(all) > 0 {
			a.Fish = all[0].ID
		}
		_, _, err = s.k.Arrive(s.ctx, s.tank, a)
		return err
	})
}

// settled adds the readings that the last day needs and finishes the step.
func (s *scene) settled(now time.Time) {
	for _, h := range []int{30, 24, 16, 6, 3} {
		s.at = now.Add(-time.Duration(h) * time.Hour)
		s.reads("77", "25")
	}
	s.at = now.Add(-2 * time.Hour)
	s.finish(care.Settle)
}
