package shell

import (
	"context"
	"errors"
	"math"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/store"
	"example.org/driploop/screens/parts"
)

// lookEvery is how often it is tried whether what cannot be written can be written
// again. // judgement
const lookEvery = 5 * time.Second

// isFull reports whether an error is that of a full disk.
func isFull(err error) bool {
	var op *store.OpError
	return errors.As(err, &op) && op.Code == store.CodeNoSpace || durable.IsNoSpace(err)
}

// warn shows above the page why nothing can be changed, or that the disk is full,
// for as long as that is so.
func (s *Shell) warn() {
	why := s.o.Keeper.ReadOnly()
	w := s.present.W
	title, lines := "", []string(nil)
	switch {
	case why == nil && !s.full && s.gone == nil:
		if s.banner.Visible() {
			s.banner.Hide()
			s.root.Refresh()
		}
		return
	case s.over():
		title, lines = w.T("page.gone.over_banner", nil), []string{s.present.Error(s.gone)}
	case s.gone != nil:
		title, lines = w.T("page.gone.banner", nil), []string{s.present.Error(s.gone)}
	case why == nil || why.Code == store.CodeNoSpace:
		title = w.T("menu.disk_full", nil)
		if free, need, err := s.o.Keeper.Room(); err == nil {
			mb := func(n uint64) string { return w.Number(math.Ceil(float64(n)/1e5)/10, 3) }
			lines = []string{w.T("menu.disk_room", i18n.Args{"Free": mb(free), "Need": mb(need)})}
		}
	case why.Code == store.CodeNotWritable:
		title, lines = w.T("menu.read_only_folder", nil), []string{w.T("menu.read_only_why", i18n.Args{"Path": s.o.Keeper.Dir()})}
	default:
		title = w.T("menu.read_only", nil)
	}
	s.banner.Set(parts.VerdictSpec{State: parts.Wait, Title: title, Lines: lines})
	if !s.banner.Visible() {
		s.banner.Show()
	}
	if s.root != nil {
		s.root.Refresh()
	}
}

// tryAgain tries now and then whether there is room again, and goes on without a
// restart when there is.
func (s *Shell) tryAgain(now time.Time) {
	why := s.o.Keeper.ReadOnly()
	waits := why != nil && (why.Code == store.CodeNoSpace || why.Code == store.CodeNotWritable)
	if !waits && !s.full || now.Sub(s.looked).Abs() < lookEvery {
		return
	}
	s.looked = now
	again := false
	s.work(func(ctx context.Context) (err error) {
		if again, err = s.o.Keeper.Resume(ctx); err != nil || !again {
			return err
		}
		free, need, err := s.o.Keeper.Room()
		again = err == nil && free >= need
		return nil
	}, func(err error) {
		if err == nil && again {
			s.full = false
			s.say(s.t("menu.writing_again"), "", nil)
			s.changed()
		}
		s.warn()
	})
}
