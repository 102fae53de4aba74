package shell

import (
	"bytes"
	"context"
	"errors"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/slips"
)

// The endings of visit slips and replies.
const (
	visitEnding = slip.EndingVisit
	replyEnding = slip.EndingReply
)

// taking are the endings of files that are offered for taking when they are dropped or
// opened; a visit slip is for looking at alone.
func taking(path string) bool {
	switch strings.ToLower(filepath.Ext(path)) {
	case profileEnding, archiveEnding, visitEnding, replyEnding:
		return true
	}
	return false
}

// saveVisit writes a visit slip beside the person's documents and says where.
func (s *Shell) saveVisit(tank string, a keeper.VisitAsk) {
	path := unused(filepath.Join(s.folder(), "driploop-"+s.o.Now().Format(time.DateOnly)+visitEnding))
	var lost int
	s.making("page.visit.making", func(ctx context.Context, progress func(done, total int)) error {
		v, err := s.o.Keeper.SaveVisit(ctx, tank, a, path, progress)
		lost = v.Lost
		return err
	}, func(err error) {
		if err == nil && lost > 0 {
			s.changed()
			s.say(s.present.W.N("page.visit.saved_without", float64(lost), i18n.Args{"Path": path}), "", nil)
			return
		}
		s.saved(path, err)
		s.changed()
	})
}

// lookVisit shows a visit slip as the shop will see it; nothing is written.
func (s *Shell) lookVisit(tank string, a keeper.VisitAsk) {
	var v keeper.VisitPreview
	s.making("page.visit.making", func(ctx context.Context, progress func(done, total int)) (err error) {
		v, err = s.o.Keeper.ShownVisit(ctx, tank, a, progress)
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		var shut func()
		done := parts.NewButton(parts.ButtonSpec{ID: "close", Label: s.t("label.close"), Kind: parts.Primary}, func() { shut() })
		shut = s.dialog(s.t("page.visit.slip"), parts.NewColumn(12, slips.Visit(s.deps(), v.Visit, nil)...), parts.NewFlow(done))
		if c := s.canvas(); c != nil {
			c.Focus(done)
		}
	})
}

// printVisit writes the same as a paper.
func (s *Shell) printVisit(tank string, a keeper.VisitAsk) {
	var path string
	speaker, size := s.present, paper.SizeFor(s.prefs.Region)
	s.making("page.visit.printing", func(ctx context.Context, progress func(done, total int)) (err error) {
		path, err = s.keepFile(ctx, "driploop-"+paper.VisitSlip.FileName(), func(ctx context.Context, out io.Writer) error {
			return paper.WriteVisit(ctx, s.o.Keeper, tank, a, speaker, size, out, progress)
		})
		return err
	}, func(err error) {
		s.saved(path, err)
		s.changed()
	})
}

// making runs what makes pictures one by one beside the window: it shows how far that
// is, and can be ended.
func (s *Shell) making(title working.Key, job func(ctx context.Context, progress func(done, total int)) error, then func(error)) {
	w := s.present.W
	bar := parts.NewBar(parts.BarSpec{Name: s.t("page.sick.print_pictures")})
	ctx, stop := context.WithCancel(s.aside.ctx)
	cancel := parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, stop)
	shut := s.dialogBack(s.t(title), bar, stop, parts.NewFlow(cancel))
	if c := s.canvas(); c != nil {
		c.Focus(cancel)
	}
	var err error
	s.aside.do(func(context.Context) {
		defer stop()
		err = job(ctx, func(done, total int) {
			s.aside.post(func() {
				bar.Set(parts.BarSpec{Name: s.t("page.sick.print_pictures"), Share: float64(done) / float64(max(total, 1)),
					Text: w.T("page.photo.progress", i18n.Args{"Done": done, "Total": total})})
			})
		})
	}, func() {
		shut()
		if !errors.Is(err, context.Canceled) {
			then(err)
		}
	})
}

// answerVisit writes a reply slip beside the person's documents and keeps it with its
// visit slip on the desk.
func (s *Shell) answerVisit(r slip.Reply, then func()) {
	path := unused(filepath.Join(s.folder(), "driploop-"+s.o.Now().Format(time.DateOnly)+replyEnding))
	var err error
	s.aside.do(func(ctx context.Context) { err = s.o.Keeper.AnswerVisit(ctx, r, path) }, func() {
		if err != nil {
			s.fail(err)
			return
		}
		s.replies.Forget(r.Visit)
		s.say(s.present.W.T("page.desk.reply_saved", i18n.Args{"Path": path}), "", nil)
		if then != nil {
			then()
		}
	})
}

// printReply makes the paper of a reply beside the person's documents and keeps the
// reply with its visit slip on the desk.
func (s *Shell) printReply(r slip.Reply, then func()) {
	s.paperOf(func(ctx context.Context) ([]byte, error) { return s.o.Keeper.ReplyFile(ctx, r) },
		func(ctx context.Context, file []byte) error { return s.o.Keeper.KeepReply(ctx, r, file) }, func() {
			s.replies.Forget(r.Visit)
			if then != nil {
				then()
			}
		})
}

// printAgain makes the paper of a reply that lies on the desk.
func (s *Shell) printAgain(reply string) {
	s.paperOf(func(ctx context.Context) ([]byte, error) { return s.o.Keeper.DeskReplyFile(ctx, reply) }, nil, nil)
}

// paperOf makes the paper of a reply of which it is given the file, keeps the reply and
// says where the paper is. Where codes cannot carry the file it lies beside the paper.
func (s *Shell) paperOf(file func(context.Context) ([]byte, error), keep func(context.Context, []byte) error, then func()) {
	day := filepath.Join(s.folder(), "driploop-"+s.o.Now().Format(time.DateOnly))
	path, beside := unused(day+"-"+paper.ReplySlip.FileName()), unused(day+replyEnding)
	speaker, size := s.present, paper.SizeFor(s.prefs.Region)
	long := false
	s.work(func(ctx context.Context) error {
		data, err := file(ctx)
		if err != nil {
			return err
		}
		var b bytes.Buffer
		if err := paper.WriteReply(ctx, s.o.Keeper, data, speaker, size, &b); err != nil {
			return err
		}
		if err := durable.WriteFile(path, b.Bytes(), 0o644); err != nil {
			return err
		}
		if _, err := slip.Codes(data); err != nil {
			long = true
			if err := durable.WriteFile(beside, data, 0o644); err != nil {
				return err
			}
		}
		if keep == nil {
			return nil
		}
		return keep(ctx, data)
	}, func(err error) {
		if err == nil && then != nil {
			then()
		}
		if err == nil && long {
			s.say(i18n.Sentences(s.present.W.T("page.fill.saved", i18n.Args{"Path": path}), s.present.W.T("page.desk.reply_saved", i18n.Args{"Path": beside})), "", nil)
			return
		}
		s.saved(path, err)
	})
}

// receiveVisits takes visit slips onto the desk and says what became of them; one that
// was chosen on pictures of its paper is shown first.
func (s *Shell) receiveVisits(paths []string, then func()) {
	if len(paths) == 0 {
		s.chooseFiles("page.desk.receive", s.slipKinds("page.choose.visit_kinds", visitEnding), true, func(chosen []string) {
			files := slices.DeleteFunc(slices.Clone(chosen), isPicture)
			if len(files) == 0 {
				s.takeSheet(&slip.Sheet{}, chosen)
				return
			}
			s.receiveVisits(files, then)
		})
		return
	}
	var list []arrival
	for _, path := range paths {
		list = append(list, arrival{name: filepath.Base(path), path: path})
	}
	s.receive(list, then)
}

// arrival is a visit slip that comes to the desk: at a path, or the file that a paper
// carried.
type arrival struct {
	name, path string
	file       []byte
}

func (s *Shell) receive(list []arrival, then func()) {
	var told []string
	taken := 0
	say := s.present.VisitSaid
	s.aside.do(func(ctx context.Context) {
		for _, x := range list {
			var new bool
			var err error
			if x.file != nil {
				_, new, err = s.o.Keeper.ReceiveFile(ctx, x.file, say)
			} else {
				_, new, err = s.o.Keeper.ReceiveVisit(ctx, x.path, say)
			}
			switch {
			case err != nil:
				told = append(told, s.present.W.T("verb.desk.file", i18n.Args{"File": x.name, "What": s.present.Error(err)}))
			case new:
				taken++
			default:
				told = append(told, s.present.W.T("page.desk.there", i18n.Args{"File": x.name}))
			}
		}
	}, func() {
		if taken > 0 {
			told = append([]string{s.present.W.N("page.desk.taken", float64(taken), nil)}, told...)
		}
		s.say(strings.Join(told, " · "), "", nil)
		if then != nil {
			then()
		}
	})
}

// openReply asks for a reply slip: its file, or pictures of its paper.
func (s *Shell) openReply() {
	s.chooseFiles("page.choose.reply", s.slipKinds("page.choose.reply_kinds", replyEnding), true, s.takeSlips)
}

// openVisit asks for a visit slip to look at, in the same way.
func (s *Shell) openVisit() {
	s.chooseFiles("page.choose.visit", s.slipKinds("page.choose.visit_kinds", visitEnding), true, s.takeSlips)
}

// refused says why a slip was not taken.
func (s *Shell) refused(err error) {
	words, ok := s.present.W.Problem(err)
	if !ok {
		words = s.t("page.visit.refused")
	}
	s.say(words, "", nil)
}

// takeReply shows what a reply slip proposes, to be taken or left.
func (s *Shell) takeReply(path string) {
	v, found, err := s.o.Keeper.OpenReply(context.Background(), path)
	if err != nil {
		s.refused(err)
		return
	}
	s.offerReply(v, found)
}

func (s *Shell) offerReply(v keeper.ReplyView, found []working.Finding) {
	view := slips.NewTake(s.deps(), v, found)
	var shut func()
	leave := parts.NewButton(parts.ButtonSpec{ID: "leave", Label: s.t("page.reply.leave")}, func() { shut() })
	onlyRead := func() { leave.Set(parts.ButtonSpec{ID: "leave", Label: s.t("label.close"), Kind: parts.Primary}) }
	focus := func(f fyne.Focusable) {
		if c := s.canvas(); c != nil {
			c.Focus(f)
		}
	}
	view.OnTaken = func(tank string) {
		s.say(s.t("page.reply.taken"), s.t("label.undo"), func() {
			if s.route.Tank != tank { // the way back is that tank's own
				s.Go(nav.Route{Place: nav.Daybook, Tank: tank})
			}
			s.Undo()
		})
		if view.Done() {
			shut()
			s.Go(nav.Route{Place: nav.Daybook, Tank: tank})
			return
		}
		s.page.Refresh()
		onlyRead()
		focus(leave)
	}
	foot, first := []fyne.CanvasObject{view.Button(), leave}, view.Button()
	if view.Done() {
		onlyRead()
		foot, first = []fyne.CanvasObject{leave}, leave
	}
	shut = s.dialog(s.t("page.reply.heading"), view.Object(), parts.NewFlow(foot...))
	focus(first)
}

// showVisit shows the visit slip at a path.
func (s *Shell) showVisit(path string) {
	v, found, err := s.o.Keeper.OpenVisit(context.Background(), path)
	if err != nil {
		s.refused(err)
		return
	}
	s.lookAt(v, found, arrival{name: filepath.Base(path), path: path})
}

// lookAt shows a visit slip that was opened here; nothing of it is kept unless it is put
// on the desk.
func (s *Shell) lookAt(v slip.Visit, found []working.Finding, from arrival) {
	var shut func()
	done := parts.NewButton(parts.ButtonSpec{ID: "close", Label: s.t("label.close"), Kind: parts.Primary}, func() { shut() })
	answer := parts.NewButton(parts.ButtonSpec{ID: "answer", Label: s.t("page.visit.answer")}, func() {
		shut()
		s.answer(v)
	})
	keep := parts.NewButton(parts.ButtonSpec{ID: "keep", Label: s.t("page.desk.kept")}, func() {
		s.receive([]arrival{from}, func() {
			shut()
			s.Go(nav.Route{Place: nav.Desk, Tank: s.route.Tank, Slip: v.ID})
		})
	})
	shut = s.dialog(s.t("page.visit.slip"), parts.NewColumn(12, slips.Visit(s.deps(), v, found)...), parts.NewFlow(done, answer, keep))
	if c := s.canvas(); c != nil {
		c.Focus(done)
	}
}

// answer composes a reply to a visit slip, with the slip beside it.
func (s *Shell) answer(v slip.Visit) {
	c, err := slips.NewCompose(s.deps(), v, &s.replies)
	if err != nil {
		s.fail(err)
		return
	}
	var shut func()
	c.OnReady = func(r slip.Reply) {
		shut()
		s.answerVisit(r, nil)
	}
	c.OnPaper = func(r slip.Reply) {
		shut()
		s.printReply(r, nil)
	}
	beside := parts.NewRowOf(2, parts.NewColumn(12, slips.Visit(s.deps(), v, nil)...), c.Object())
	shut = s.dialogOf(besideWidth, s.t("page.reply.compose"), beside, nil, parts.NewFlow(c.Button(), c.Paper(), parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, func() { shut() })))
	if cv := s.canvas(); cv != nil {
		cv.Focus(c.First())
	}
}
