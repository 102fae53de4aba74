package main

import (
	"bytes"
	"context"
	"path/filepath"
	"time"

	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
)

// rounds shows the usual rounds as they are proposed, takes them up, and shows
// them, a time away and today's page four days on, with some of them late, and
// writes the sheet for a neighbour and the care calendar. The clock goes back afterwards.
func (t *tour) rounds(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	s.shell.Go(nav.Route{Place: nav.Rounds, Tank: tank})
	if err := shot("rounds-usual"); err != nil {
		return err
	}
	offer, err := s.keeper.ProposeRounds(ctx, tank, keeper.RoundBasis{})
	if err != nil {
		return err
	}
	var take []keeper.Taking
	speaker := s.speaker()
	shown := speaker.Offers(offer)
	for i, p := range offer.Proposals {
		take = append(take, keeper.Taking{Proposal: p, Note: shown[i].Note})
	}
	if err := s.keeper.TakeRounds(ctx, tank, keeper.RoundBasis{}, take); err != nil {
		return err
	}
	begun := s.clock.t
	defer func() { s.clock.t = begun }()
	day := func(n int) string { return begun.AddDate(0, 0, n).Format("2006-01-02") }
	if _, err := s.keeper.AddAway(ctx, tank, keeper.Away{First: day(9), Last: day(15)}, false, ""); err != nil {
		return err
	}
	s.clock.t = begun.AddDate(0, 0, 4).Add(3 * time.Hour)
	for _, p := range []struct {
		name  string
		place nav.Place
	}{{"rounds", nav.Rounds}, {"today-due", nav.Today}} {
		s.shell.Go(nav.Route{Place: p.place, Tank: tank})
		if err := shot(p.name); err != nil {
			return err
		}
	}
	for _, kind := range []paper.Kind{paper.Neighbour, paper.CareCalendar} {
		var b bytes.Buffer
		if err := paper.Write(ctx, kind, s.keeper, tank, speaker, paper.SizeFor(s.shell.Prefs().Region), &b); err != nil {
			return err
		}
		if err := t.keep(filepath.Join("first-fill-"+speaker.W.Language(), kind.FileName()), b.Bytes()); err != nil {
			return err
		}
	}
	return nil
}
