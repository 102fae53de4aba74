package main

import (
	"bytes"
	"context"
	"path/filepath"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
)

// home shows bags on their way, one afloat, one long shipped and one dripping, and
// the page of the ration with the animals of the first in the tank and a week of
// meals; it writes the card of the home-coming. The clock goes back afterwards.
func (t *tour) home(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	begun := s.clock.t
	defer func() { s.clock.t = begun }()
	number := func(n string) quantity.Measure { return quantity.Measure{Number: n, Unit: "piece"} }
	speaker := s.speaker()
	var first string
	for _, b := range []struct {
		species, count, way, hours string
		step                       care.BagStep
	}{{"danio-rerio", "6", care.WayFloat, "1", care.BagFloat}, {"corydoras-panda", "6", care.WayFloat, "20", care.BagLights}, {"caridina-multidentata", "5", care.WayDrip, "1", care.BagDrip}} {
		a, err := s.keeper.BagDefaults(ctx, tank)
		if err != nil {
			return err
		}
		a.Name, a.Species, a.Count, a.Way, a.Hours = speaker.KindName(fish.Code(b.species)), b.species, number(b.count), b.way, quantity.Measure{Number: b.hours, Unit: "h"}
		id, err := s.keeper.OpenBag(ctx, tank, a)
		if err != nil {
			return err
		}
		if first == "" {
			first = id
		}
		if err := s.keeper.TickBag(ctx, tank, id, b.step, true); err != nil {
			return err
		}
	}
	s.clock.t = begun.Add(11 * time.Minute)
	s.shell.Go(nav.Route{Place: nav.HomeComing, Tank: tank})
	if err := shot("home-coming"); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Today, Tank: tank})
	if err := shot("today-bags"); err != nil {
		return err
	}
	var b bytes.Buffer
	if err := paper.Write(ctx, paper.Home, s.keeper, tank, speaker, paper.SizeFor(s.shell.Prefs().Region), &b); err != nil {
		return err
	}
	if err := t.keep(filepath.Join("first-fill-"+speaker.W.Language(), paper.Home.FileName()), b.Bytes()); err != nil {
		return err
	}
	if err := s.keeper.CloseBag(ctx, tank, first, true); err != nil {
		return err
	}
	if _, err := s.keeper.WeighPinch(ctx, tank, speaker.W.T("page.feed.food_eg", nil), quantity.Measure{Number: "0.8", Unit: "g"}); err != nil {
		return err
	}
	for i, left := range []string{"none", "some", "none", "none", "some"} {
		s.clock.t = begun.Add(time.Duration(i+1) * 12 * time.Hour)
		rs, err := s.keeper.Prefill(ctx, tank, journal.Fed)
		if err != nil {
			return err
		}
		if _, err := s.keeper.AddEntry(ctx, tank, journal.Entry{Kind: journal.Fed, Readings: append(rs, journal.Said(journal.NameLeft, left))}); err != nil {
			return err
		}
	}
	s.shell.Go(nav.Route{Place: nav.Feeding, Tank: tank})
	return shot("feeding")
}
