package main

import (
	"context"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
)

// plan shows the plan over weeks without wishes, with some of which one does not
// fit, and further down; the wishes are taken back afterwards.
func (t *tour) plan(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	show := func(name string) error {
		s.shell.Go(nav.Route{Place: nav.Today, Tank: tank})
		s.shell.Go(nav.Route{Place: nav.Plan, Tank: tank})
		return shot(name)
	}
	if err := show("plan-empty"); err != nil {
		return err
	}
	for _, w := range []keeper.Wish{{Species: "danio-rerio", Count: 6}, {Species: "corydoras-panda", Count: 6}, {Species: "hypostomus-plecostomus", Count: 1}} {
		if _, err := s.keeper.AddWish(ctx, tank, w); err != nil {
			return err
		}
	}
	nothing := func(name string, basis quantity.Basis) journal.Reading {
		return journal.Reading{Name: name, Qualifier: journal.NotDetected, Measure: quantity.Measure{Unit: "mg/l", Basis: basis}}
	}
	at := s.clock.t.Add(-26 * time.Hour)
	if _, err := s.keeper.AddEntry(ctx, tank, journal.Entry{Kind: journal.Tested, At: journal.CivilOf(at), Zone: journal.ZoneOf(at),
		Readings: []journal.Reading{nothing(journal.NameAmmonia, quantity.AsN), nothing(journal.NameNitrite, quantity.AsIon)}}); err != nil {
		return err
	}
	if err := show("plan"); err != nil {
		return err
	}
	for range 4 {
		if _, _, err := s.keeper.Undo(ctx, tank); err != nil {
			return err
		}
	}
	return nil
}
