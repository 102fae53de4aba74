package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
)

// visit shows the visit slip in the making, as the shop opens and answers it, its
// paper, and the reply with what can be taken of it.
func (t *tour) visit(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	cs, err := s.keeper.Cases(ctx, tank)
	if err != nil || len(cs) == 0 {
		return fmt.Errorf("tour: no case for a visit: %w", err)
	}
	words := func(k working.Key) string { return s.speaker().W.T(k, nil) }
	ask := keeper.VisitAsk{Days: keeper.VisitDays, Case: cs[0].ID, Private: []slip.Private{slip.Notes}, Language: s.shell.Prefs().Lang, Label: words("example.visit.label"), Questions: []string{words("example.visit.question")}}
	if _, err := s.keeper.AddWish(ctx, tank, keeper.Wish{Species: tourWish, Count: 8}); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Visit, Tank: tank, Case: cs[0].ID})
	if err := shot("visit"); err != nil {
		return err
	}
	slipAt, replyAt := filepath.Join(s.dir, "tour"+".dlvisit"), filepath.Join(s.dir, "tour"+".dlreply")
	v, err := s.keeper.SaveVisit(ctx, tank, ask, slipAt, nil)
	if err != nil {
		return err
	}
	w := &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock}
	s.shell.TakeFile(slipAt)
	if err := shot("visit-opened"); err != nil {
		return err
	}
	if err := w.press("answer", fyne.KeySpace); err != nil {
		return err
	}
	if err := shot("reply-compose"); err != nil {
		return err
	}
	t.clear(s)
	r, err := s.keeper.BeginReply(ctx, v.Visit)
	if err != nil {
		return err
	}
	r.Shop = slip.Shop{Name: words("example.shop.name"), Address: words("example.shop.address")}
	r.Test = &slip.ShopTest{At: r.Made, Zone: r.Zone, Readings: []journal.Reading{{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0.30", Unit: "mg/l", Basis: quantity.AsIon}},
		{Name: journal.NamePH, Measure: quantity.Measure{Number: "7.2", Unit: "ph"}}}}
	r.Advice = map[string]string{s.shell.Prefs().Lang: words("example.reply.advice")}
	daily, err := rounds.Plain{Every: 1, Unit: rounds.Days}.Rule()
	if err != nil {
		return err
	}
	r.Rounds = []slip.ProposedRound{{Code: rounds.Test, Rule: daily.String()}}
	r.Plan = []slip.ProposedAnimals{{Change: slip.PlanHold, Species: string(tourWish)}, {Change: slip.PlanHold, Species: "hypostomus-plecostomus"}}
	if err := s.keeper.WriteReply(ctx, r, replyAt); err != nil {
		return err
	}
	s.shell.TakeFile(replyAt)
	if err := shot("reply"); err != nil {
		return err
	}
	if err := w.press("reply-take", fyne.KeySpace); err != nil {
		return err
	}
	t.clear(s)
	s.shell.Go(nav.Route{Place: nav.Daybook, Tank: tank})
	if err := shot("daybook-reply"); err != nil {
		return err
	}
	s.shell.TakeFile(replyAt)
	if err := shot("reply-again"); err != nil {
		return err
	}
	t.clear(s)
	if err := t.desk(s, tank, v.Visit.ID, slipAt, r, shot); err != nil {
		return err
	}
	prefs := s.shell.Prefs()
	var b bytes.Buffer
	if err := paper.WriteVisit(ctx, s.keeper, tank, ask, s.speaker(), paper.SizeFor(prefs.Region), &b, nil); err != nil {
		return err
	}
	return t.keep(fmt.Sprintf("visit-slip-%s.pdf", prefs.Lang), b.Bytes())
}

// desk shows the slip among those on the desk of a shop, and opened beside its reply.
func (t *tour) desk(s *stage, tank, id, slipAt string, r slip.Reply, shot func(string) error) error {
	ctx := context.Background()
	s.shell.Go(nav.Route{Place: nav.Desk, Tank: tank})
	if err := shot("desk-empty"); err != nil {
		return err
	}
	if _, _, err := s.keeper.ReceiveVisit(ctx, slipAt, s.speaker().VisitSaid); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Desk, Tank: tank, Slip: id})
	if err := shot("desk-slip"); err != nil {
		return err
	}
	if err := s.keeper.AnswerVisit(ctx, r, filepath.Join(s.dir, "answer.dlreply")); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Desk, Tank: tank})
	if err := shot("desk"); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Desk, Tank: tank, Slip: id})
	return shot("desk-answered")
}

// tourWish is what is wished for in the tour, to be held back.
const tourWish = fish.Code("paracheirodon-innesi")

// clear closes the panels that are open.
func (t *tour) clear(s *stage) {
	for _, o := range s.window.Canvas().Overlays().List() {
		s.window.Canvas().Overlays().Remove(o)
	}
}
