package shell

import (
	"context"
	"errors"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/store"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// isGone gives the error of a daybook that was taken away while it is open.
func isGone(err error) *store.OpError {
	var op *store.OpError
	if errors.As(err, &op) && op.Code == store.CodeGone {
		return op
	}
	return nil
}

// seeGone looks now and then whether the daybook's file still stands where it was,
// so that nobody writes on for an hour before a change is refused.
func (s *Shell) seeGone(now time.Time) {
	if now.Sub(s.seen).Abs() < lookEvery {
		return
	}
	s.seen = now
	var gone *store.OpError
	s.work(func(context.Context) error { gone = s.o.Keeper.TakenAway(); return nil }, func(error) { s.setGone(gone) })
}

// setGone shows that the daybook was taken away, or that it is back.
func (s *Shell) setGone(gone *store.OpError) {
	was := s.gone
	s.gone = gone
	switch {
	case gone != nil && was == nil:
		s.offerPutBack()
	case gone == nil && was != nil:
		s.say(s.t("page.gone.back"), "", nil)
		s.changed()
	case gone == nil:
		return
	}
	s.warn()
}

// offerPutBack says what happened and offers what can be done.
func (s *Shell) offerPutBack() {
	if s.gone == nil {
		return
	}
	if s.over() {
		s.offerAfterOver()
		return
	}
	var shut func()
	put := parts.NewButton(parts.ButtonSpec{ID: "put-back", Label: s.t("page.gone.put"), Kind: parts.Primary}, func() {
		shut()
		s.putBack()
	})
	archive := parts.NewButton(parts.ButtonSpec{ID: "archive", Label: s.t("menu.archive")}, func() {
		shut()
		s.ShowArchive()
	})
	leave := parts.NewButton(parts.ButtonSpec{ID: "close", Label: s.t("label.close")}, func() { shut() })
	shut = s.dialog(s.t("page.gone.heading"), parts.NewColumn(10, s.bodyText(s.present.Error(s.gone)), s.bodyText(s.present.W.T("page.gone.what", i18n.Args{"Path": s.o.Keeper.Dir()})),
		parts.NewFlow(put, archive, leave)))
	if c := s.canvas(); c != nil {
		c.Focus(put)
	}
}

func (s *Shell) putBack() {
	var did keeper.Returned
	s.long(s.t("page.gone.putting"), func(ctx context.Context, _ func(done, total int64)) (err error) {
		did, err = s.o.Keeper.PutBack(ctx)
		return err
	}, func(err error) {
		s.gone = nil
		s.warn()
		if err != nil {
			s.fail(err)
			return
		}
		s.changed()
		said := s.t("page.gone.done")
		if did.Missing > 0 {
			said = i18n.Sentences(said, s.present.W.N("page.gone.missing", float64(did.Missing), nil))
		}
		s.say(said, "", nil)
	})
}

// over reports whether another program wrote over the daybook's file.
func (s *Shell) over() bool { return s.gone != nil && s.gone.Reason == store.ReasonOverwritten }

// offerAfterOver says that another program wrote over the daybook, and offers its
// copies and the file that stands there. What is being typed stays where it is.
func (s *Shell) offerAfterOver() {
	var shut func()
	copies := parts.NewButton(parts.ButtonSpec{ID: "copies", Label: s.t("menu.copies"), Kind: parts.Primary}, func() {
		shut()
		s.ShowCopies()
	})
	there := parts.NewButton(parts.ButtonSpec{ID: "take-there", Label: s.t("page.gone.over_take")}, func() {
		shut()
		s.takeThere()
	})
	leave := parts.NewButton(parts.ButtonSpec{ID: "close", Label: s.t("label.close")}, func() { shut() })
	shut = s.dialog(s.t("page.gone.over_heading"), parts.NewColumn(10, s.bodyText(s.present.Error(s.gone)), s.bodyText(s.t("page.gone.over_what"))), parts.NewFlow(copies, there, leave))
	if c := s.canvas(); c != nil {
		c.Focus(copies)
	}
}

func (s *Shell) takeThere() {
	var aside string
	s.long(s.t("page.copies.reading"), func(ctx context.Context, _ func(done, total int64)) (err error) {
		aside, err = s.o.Keeper.TakeThere(ctx)
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.standsAgain()
		s.say(s.present.W.T("page.gone.over_taken", i18n.Args{"Path": aside}), "", nil)
	})
}

// standsAgain shows the daybook that stands now in the place of the one that was
// written over: the same tank where it has it.
func (s *Shell) standsAgain() {
	s.gone = nil
	s.warn()
	if _, err := s.o.Keeper.Brief(context.Background(), s.route.Tank); err != nil {
		s.Go(nav.Route{Place: nav.Start})
	}
	s.page.Refresh()
	s.changed()
}
