package main

import (
	"context"

	"example.org/driploop/model/keeper"
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
	if err := show("plan"); err != nil {
		return err
	}
	for range 3 {
		if _, _, err := s.keeper.Undo(ctx, tank); err != nil {
			return err
		}
	}
	return nil
}
