package main

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
)

// fish shows the stock, one group of it that grows, and the forms that are opened
// there; the groups are taken back afterwards.
func (t *tour) fish(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	s.shell.Go(nav.Route{Place: nav.Fish, Tank: tank})
	if err := shot("fish"); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Fish, Tank: tank, Write: journal.FishIn})
	if err := shot("form-fish-in"); err != nil {
		return err
	}
	s.shut()
	one := ""
	weeks := func(n int) journal.Civil { return journal.CivilOf(s.clock.t.AddDate(0, 0, -7*n)) }
	danio := s.speaker().KindName("danio-rerio")
	for i, a := range []keeper.Newcomers{{Species: "danio-rerio", Count: 6, Length: quantity.Measure{Number: "20", Unit: "mm"}, What: danio, At: weeks(4)},
		{Species: "danio-rerio", Count: 2, What: danio, At: weeks(1)}} {
		id, _, err := s.keeper.Arrive(ctx, tank, a)
		if err != nil {
			return err
		}
		if i == 0 {
			one = id
		}
	}
	if err := s.keeper.MeasureFish(ctx, tank, one, quantity.Measure{Number: "24", Unit: "mm"}, weeks(2), danio); err != nil {
		return err
	}
	w := &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock}
	s.shell.Go(nav.Route{Place: nav.Fish, Tank: tank, Fish: one})
	if err := shot("fish-one"); err != nil {
		return err
	}
	for _, form := range []string{"measure", "recount", "split", "merge", "set", "left"} {
		s.shell.Go(nav.Route{Place: nav.Fish, Tank: tank, Fish: one})
		if err := w.press(form, fyne.KeyReturn); err != nil {
			return err
		}
		if err := shot("form-fish-" + form); err != nil {
			return err
		}
		s.shut()
	}
	for range 3 {
		if _, _, err := s.keeper.Undo(ctx, tank); err != nil {
			return err
		}
	}
	return nil
}

// shut takes away what lies over the page.
func (s *stage) shut() {
	for _, o := range s.window.Canvas().Overlays().List() {
		s.window.Canvas().Overlays().Remove(o)
	}
}
