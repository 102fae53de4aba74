package shell

import (
	"context"
	"path/filepath"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// profileEnding marks a starter profile.
const profileEnding = ".dlprofile"

// openProfile asks for a starter profile.
func (s *Shell) openProfile() {
	s.choose("page.choose.profile", profileEnding, s.Take)
}

// Take shows what a starter profile holds, and takes it when the person says so.
func (s *Shell) Take(path string) {
	p, findings, err := s.o.Keeper.OpenProfile(context.Background(), path)
	if err != nil {
		words, ok := s.present.W.Problem(err)
		if !ok {
			words = s.t("page.start.profile_refused")
		}
		s.say(words, "", nil)
		return
	}
	var shut func()
	list := []fyne.CanvasObject{}
	for _, line := range s.present.Profile(p, findings) {
		list = append(list, parts.NewText(parts.TextSpec{Text: line, Role: parts.Body}))
	}
	take := func() {
		var id string
		s.work(func(ctx context.Context) (err error) { id, err = s.o.Keeper.TakeProfile(ctx, p); return err }, func(err error) {
			shut()
			if err != nil {
				s.fail(err)
				return
			}
			s.Go(nav.Route{Place: nav.FirstFill, Tank: id})
			s.say(s.present.W.T("page.start.profile_taken", i18n.Args{"Name": p.Tank}), s.t("label.undo"), s.undoList)
		})
	}
	yes := parts.NewButton(parts.ButtonSpec{ID: "take", Label: s.t("page.start.take"), Kind: parts.Primary}, take)
	shut = s.dialog(s.t("page.start.profile"), parts.NewColumn(6, list...),
		parts.NewFlow(yes, parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, func() { shut() })))
	if c := s.canvas(); c != nil {
		c.Focus(yes)
	}
}

// saveProfile writes the tank as a starter profile.
func (s *Shell) saveProfile() {
	tank := s.route.Tank
	dir := s.o.PaperDir
	if dir == "" {
		dir = documents()
	}
	path := filepath.Join(dir, "driploop"+profileEnding)
	s.work(func(ctx context.Context) error {
		b, err := s.o.Keeper.Brief(ctx, tank)
		if err != nil {
			return err
		}
		id, err := s.o.Keeper.DraftFrom(ctx, tank, b.Tank.Name)
		if err != nil {
			return err
		}
		_, err = s.o.Keeper.HandOutFile(ctx, id, path, "")
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.say(s.present.W.T("page.fill.saved", i18n.Args{"Path": path}), "", nil)
	})
}
