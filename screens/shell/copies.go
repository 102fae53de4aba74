package shell

import (
	"context"
	"path/filepath"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// ShowCopies lists the copies of the daybook, what each holds, and the way back to
// it.
func (s *Shell) ShowCopies() {
	var list []keeper.Copy
	s.long(s.t("page.copies.reading"), func(ctx context.Context, _ func(done, total int64)) (err error) {
		list, err = s.o.Keeper.Copies(ctx)
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.listCopies(list)
	})
}

func (s *Shell) listCopies(list []keeper.Copy) {
	var shut func()
	writable := s.o.Keeper.ReadOnly() == nil
	make := parts.NewButton(parts.ButtonSpec{ID: "copy", Label: s.t("page.copies.make"), Kind: parts.Primary, Off: !writable}, func() {
		shut()
		s.makeCopy()
	})
	rows := []fyne.CanvasObject{s.bodyText(s.t("page.copies.what")), s.bodyText(s.present.W.T("page.copies.where", i18n.Args{"Path": filepath.Join(s.o.Keeper.Dir(), "snapshots")}))}
	if len(list) == 0 {
		rows = append(rows, s.bodyText(s.t("page.copies.none")))
	}
	for _, c := range list {
		title, lines := s.present.Copy(c)
		row := []fyne.CanvasObject{}
		for _, l := range lines {
			row = append(row, s.bodyText(l))
		}
		if c.Sound && writable {
			row = append(row, parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "back-" + keeper.CopyName(c), Label: s.t("page.copies.back")}, func() {
				shut()
				s.offerBack(c.Path)
			})))
		}
		rows = append(rows, parts.NewPanel(title, row...))
	}
	shut = s.dialog(s.title("menu.copies"), parts.NewColumn(8, rows...),
		parts.NewFlow(make, parts.NewButton(parts.ButtonSpec{ID: "close", Label: s.t("label.close")}, func() { shut() })))
	if c := s.canvas(); c != nil {
		c.Focus(make)
	}
}

func (s *Shell) makeCopy() {
	var path string
	s.long(s.t("page.copies.making"), func(ctx context.Context, _ func(done, total int64)) (err error) {
		path, err = s.o.Keeper.Snapshot(ctx)
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.say(s.present.W.T("page.copies.made", i18n.Args{"Path": path}), s.t("menu.copies"), s.ShowCopies)
	})
}

// offerBack shows what going back to a copy would lose and gain.
func (s *Shell) offerBack(path string) {
	var p keeper.BackPreview
	s.long(s.t("page.copies.reading"), func(ctx context.Context, _ func(done, total int64)) (err error) {
		p, err = s.o.Keeper.PreviewBack(ctx, path)
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		var shut func()
		list := []fyne.CanvasObject{}
		for _, line := range s.present.Back(p) {
			list = append(list, s.bodyText(line))
		}
		row, focus := s.buttons("back", "page.copies.back", func() {
			shut()
			s.goBack(path)
		}, func() { shut() })
		shut = s.dialog(s.t("page.copies.back"), parts.NewColumn(8, list...), row)
		focus()
	})
}

// goBack goes back to a copy, with the way forth at hand.
func (s *Shell) goBack(path string) {
	var aside string
	s.long(s.t("page.copies.going"), func(ctx context.Context, _ func(done, total int64)) (err error) {
		aside, err = s.o.Keeper.GoBack(ctx, path)
		return err
	}, func(err error) {
		if s.over() && err == nil {
			s.standsAgain()
		} else {
			s.Go(nav.Route{Place: nav.Start})
			s.changed()
		}
		if err != nil {
			s.fail(err)
			return
		}
		s.say(s.present.W.T("page.copies.gone", i18n.Args{"Path": aside}), s.t("page.copies.forth"), func() { s.goBack(aside) })
	})
}

// Daily makes today's copy in the background. Where the daybook was taken away and
// copies of it are left, it says so and shows them instead.
func (s *Shell) Daily() {
	if s.o.Inline {
		return
	}
	gone := false
	s.work(func(ctx context.Context) (err error) {
		if gone = s.o.Keeper.Fresh(ctx); gone {
			return nil
		}
		_, err = s.o.Keeper.DailyCopy(ctx)
		return err
	}, func(err error) {
		if gone {
			s.ShowCopies()
			s.say(s.t("page.copies.taken_away"), "", nil)
		}
		s.fail(err)
	})
}
