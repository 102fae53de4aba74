package shell

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/paper"
	"example.org/driploop/screens/parts"
)

// bells tell what has come due while the program runs.
type bells struct {
	by    map[string]*rounds.Bell // by tank
	bags  map[string]bool         // timers of bags that were told of
	asked time.Time
	busy  bool
}

// ringEvery is how often it is looked. Judgement: fish in a bag wait, nobody minds
// ten seconds.
const ringEvery = 10 * time.Second

// settingRemind is "no" where no notices are wanted.
const settingRemind, remindNot = "rounds_remind", "no"

// ring tells of the bags whose wait is over, and of the rounds of all tanks that
// have come due, in one notice each. It names them by their usual names alone: a
// notice may stand on a locked screen.
func (s *Shell) ring() {
	now := s.o.Now()
	if d := now.Sub(s.bells.asked); s.bells.busy || d >= 0 && d < ringEvery {
		return
	}
	s.bells.asked, s.bells.busy = now, true
	var names []string
	bags := 0
	s.work(func(ctx context.Context) error {
		off, _, err := s.o.Keeper.Setting(ctx, settingRemind)
		if err != nil {
			return err
		}
		over, err := s.o.Keeper.WaitsOver(ctx)
		if err != nil {
			return err
		}
		for _, x := range over { // once each, also what was over when the program began: they wait
			if s.bells.bags == nil {
				s.bells.bags = map[string]bool{}
			}
			if !s.bells.bags[x.Timer] && off != remindNot {
				bags++
			}
			s.bells.bags[x.Timer] = true
		}
		tanks, err := s.o.Keeper.Tanks(ctx)
		if err != nil {
			return err
		}
		for _, t := range tanks {
			v, err := s.o.Keeper.Rounds(ctx, t.ID)
			if err != nil {
				return err
			}
			if s.bells.by == nil {
				s.bells.by = map[string]*rounds.Bell{}
			}
			if s.bells.by[t.ID] == nil {
				s.bells.by[t.ID] = rounds.NewBell(now)
			}
			for _, x := range s.bells.by[t.ID].Ring(now, v.All) {
				if name := s.t(working.Key("round." + string(x.Code))); off != remindNot && !slices.Contains(names, name) {
					names = append(names, name)
				}
			}
		}
		return nil
	}, func(err error) {
		s.bells.busy = false
		if err == nil && bags > 0 {
			s.o.App.SendNotification(fyne.NewNotification(s.t("page.bag.notice"), s.present.W.N("page.bag.notice_ready", float64(bags), nil)))
			s.page.Refresh()
		}
		if err != nil || len(names) == 0 {
			return // the page itself says what is wrong with the daybook
		}
		s.o.App.SendNotification(fyne.NewNotification(s.t("page.rounds.notice"), s.present.W.List(names)))
		s.page.Refresh()
	})
}

// remindTick is the setting of the notices.
func (s *Shell) remindTick() fyne.CanvasObject {
	off, _, err := s.o.Keeper.Setting(context.Background(), settingRemind)
	if err != nil {
		s.fail(err)
	}
	return parts.NewTick(parts.TickSpec{ID: "remind", Text: s.t("menu.remind"), Done: off != remindNot}, func(done bool) {
		word := remindNot
		if done {
			word = ""
		}
		s.work(func(ctx context.Context) error { return s.o.Keeper.SetSetting(ctx, settingRemind, word) }, s.fail)
	})
}

// calendar writes the rounds of a tank once, beside the person's documents.
func (s *Shell) calendar(tank string) {
	s.put("driploop-"+paper.CalendarName, func(ctx context.Context, w io.Writer) error {
		return paper.WriteCalendar(ctx, s.o.Keeper, tank, s.present, s.o.Now(), w)
	})
}

// printCare writes the care calendar of the coming days in the same way.
func (s *Shell) printCare(tank string, days int) {
	s.put("driploop-"+paper.CareCalendar.FileName(), func(ctx context.Context, w io.Writer) error {
		return paper.WriteCareCalendar(ctx, s.o.Keeper, tank, days, s.present, paper.SizeFor(s.prefs.Region), w)
	})
}

// calendarPath is where a calendar file that is kept is proposed.
func (s *Shell) calendarPath(string) string {
	return filepath.Join(s.folder(), "driploop-"+paper.CalendarName)
}

// keepCalendars writes anew the calendar files that are kept, where what they say
// has changed.
func (s *Shell) keepCalendars() {
	var refused error
	var where string
	speaker := s.present
	s.work(func(ctx context.Context) error {
		tanks, err := s.o.Keeper.Tanks(ctx)
		if err != nil {
			return err
		}
		for _, t := range tanks {
			path, err := s.o.Keeper.CalendarFile(ctx, t.ID)
			if err != nil {
				return err
			}
			if path == "" {
				continue
			}
			var b bytes.Buffer
			if err := paper.WriteCalendar(ctx, s.o.Keeper, t.ID, speaker, s.o.Now(), &b); err != nil {
				return err
			}
			if old, err := os.ReadFile(path); err == nil && bytes.Equal(undated(old), undated(b.Bytes())) {
				continue
			}
			if err := durable.WriteFile(path, b.Bytes(), 0o644); err != nil {
				refused, where = err, path // the other tanks' files are still written
			}
		}
		return nil
	}, func(err error) {
		if err != nil {
			s.fail(err)
		} else if refused != nil {
			s.say(s.present.W.T("page.rounds.calendar_failed", i18n.Args{"Path": where, "Why": s.present.Error(refused)}), "", nil)
		}
	})
}

var stamped = regexp.MustCompile(`(?m)^DTSTAMP:.*\r?\n`)

// undated is a calendar without the times at which it was written.
func undated(b []byte) []byte { return stamped.ReplaceAll(b, nil) }
