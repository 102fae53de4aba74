package main

import (
	"bytes"
	"context"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
)

// counter shows the shop's side: its card, a profile made of the tank and one whose
// stand does not carry, what each says, its steps and its care plan, the panels in
// which it is changed, and then what a family sees of it. It writes the sheet.
func (t *tour) counter(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	w := s.speaker().W
	if err := s.keeper.SetShop(ctx, slip.Shop{Name: w.T("example.shop", nil), Address: w.T("example.shop_address", nil), Hours: w.T("example.shop_hours", nil)},
		map[string]string{w.Language(): w.T("example.shop_note", nil)}); err != nil {
		return err
	}
	name := w.T("page.counter.new_name", nil)
	heavy, err := s.keeper.StartProfile(ctx, name+" 20 kg", s.shell.Prefs().Units)
	if err != nil {
		return err
	}
	for _, e := range []keeper.Edit{{Field: "stand.kind", Option: "bought"}, {Field: "stand.rated", Text: "20 kg"}} {
		e.Reading = quantity.Reading{System: quantity.Metric, Decimal: '.'}
		if err := s.keeper.Set(ctx, heavy, e); err != nil {
			return err
		}
	}
	id, err := s.keeper.DraftFrom(ctx, tank, name)
	if err != nil {
		return err
	}
	if err := s.keeper.SetProfileNotes(ctx, id, map[string]string{w.Language(): w.T("example.notice", nil)}); err != nil {
		return err
	}
	if err := s.keeper.SetFeedingBasis(ctx, id, keeper.FeedingBasis{Share: quantity.Measure{Number: "1.2", Unit: "percent"}, Fasting: keeper.Weekdays{time.Sunday: true}}); err != nil {
		return err
	}
	file := filepath.Join(s.dir, "handed.dlprofile")
	if _, err := s.keeper.HandOutFile(ctx, heavy, file, ""); err != nil {
		return err
	}
	r, err := s.keeper.PrepareHandOut(ctx, id)
	if err != nil {
		return err
	}
	if err := s.keeper.NoteHandOuts(ctx, id, r, keeper.BySheet, "", ""); err != nil {
		return err
	}
	route := nav.Route{Place: nav.Counter, Tank: tank}
	one := nav.Route{Place: nav.Counter, Tank: tank, Profile: id}
	for _, p := range []struct {
		name string
		nav.Route
		press string
	}{{"counter", route, ""}, {"counter-shop", route, "shop"}, {"counter-new", route, "new"}, {"counter-profile", one, ""}, {"counter-notes", one, "edit-notes"},
		{"counter-feeding", one, "edit-feeding"}, {"counter-sheets", one, "sheets"}, {"counter-fails", nav.Route{Place: nav.Counter, Tank: tank, Profile: heavy}, ""},
		{"counter-step", nav.Route{Place: nav.Draft, Tank: tank, Profile: id, Step: care.TankPlace}, ""}, {"counter-kit", nav.Route{Place: nav.Draft, Tank: tank, Profile: id, Step: care.KitList}, ""},
		{"counter-fish", nav.Route{Place: nav.Draft, Tank: tank, Profile: id, Step: care.FirstFish}, ""}, {"counter-plan", nav.Route{Place: nav.DraftRounds, Tank: tank, Profile: id}, ""}} {
		s.shell.Go(p.Route)
		if p.press != "" {
			walk := &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock}
			if err := walk.press(p.press, fyne.KeyReturn); err != nil {
				return err
			}
		}
		if err := shot(p.name); err != nil {
			return err
		}
		for _, o := range s.window.Canvas().Overlays().List() {
			s.window.Canvas().Overlays().Remove(o)
		}
	}
	var b bytes.Buffer
	speaker := s.speaker()
	if err := paper.WriteProfile(ctx, s.keeper, id, r, []string{"", w.T("example.fish", nil)}, speaker, paper.SizeFor(s.shell.Prefs().Region), &b); err != nil {
		return err
	}
	if err := t.keep(filepath.Join("first-fill-"+speaker.W.Language(), paper.Profile.FileName()), b.Bytes()); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Start})
	s.shell.Take(file)
	if err := shot("profile-offered"); err != nil {
		return err
	}
	for _, o := range s.window.Canvas().Overlays().List() {
		s.window.Canvas().Overlays().Remove(o)
	}
	p, _, err := s.keeper.OpenProfile(ctx, file)
	if err != nil {
		return err
	}
	taken, err := s.keeper.TakeProfile(ctx, p)
	if err != nil {
		return err
	}
	for _, p := range []struct {
		name  string
		place nav.Place
	}{{"profile-taken", nav.FirstFill}, {"profile-today", nav.Today}} {
		s.shell.Go(nav.Route{Place: p.place, Tank: taken})
		if err := shot(p.name); err != nil {
			return err
		}
	}
	return nil
}
