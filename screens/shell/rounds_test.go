package shell_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/model/keeper"
	model "example.org/driploop/model/rounds"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/rounds"
	"example.org/driploop/screens/shell"
)

func (s stage) rounds(t *testing.T, tank string) keeper.Rounds {
	t.Helper()
	v, err := s.k.Rounds(context.Background(), tank)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The whole page by keyboard alone: the usual rounds taken up but one, an own one
// added, changed, done, skipped, paused; time away noted; everything taken back.
func TestRoundsByKeyboard(t *testing.T) {
	ctx := context.Background()
	s := open(t, english())
	tank := s.sample(t)
	s.Go(nav.Route{Place: nav.Rounds, Tank: tank})
	s.hit(t, "take-glass", fyne.KeySpace)
	s.fillIn(t, "tap", "45")
	s.hit(t, "tap", fyne.KeyReturn)
	s.fillIn(t, "tap", "5")
	s.hit(t, "tap", fyne.KeyReturn)
	s.hit(t, "take", fyne.KeyReturn)
	v := s.rounds(t, tank)
	if len(v.All) < 8 {
		t.Fatalf("%d rounds were taken up", len(v.All))
	}
	for _, r := range v.All {
		if r.Code == model.Glass {
			t.Error("an unticked round was taken up")
		}
	}
	many := len(v.All)

	s.hit(t, "add", fyne.KeyReturn)
	s.fillIn(t, "title", "Prune the plants")
	s.fillIn(t, "every", "0")
	s.fillIn(t, "clock", "late")
	s.hit(t, "keep", fyne.KeyReturn) // refused: the panel stays
	if v = s.rounds(t, tank); len(v.All) != many {
		t.Fatal("a round every 0 weeks was taken")
	}
	s.fillIn(t, "every", "2")
	s.hit(t, "day-5", fyne.KeySpace)
	s.fillIn(t, "clock", "19:30")
	s.hit(t, "keep", fyne.KeyReturn)
	own := func() model.Standing {
		for _, r := range s.rounds(t, tank).All {
			if r.Code == model.Own {
				return r
			}
		}
		return model.Standing{}
	}
	if r := own(); r.Title != "Prune the plants" || r.Rule.String() != "FREQ=WEEKLY;INTERVAL=2;BYDAY=FR" || !strings.HasSuffix(string(r.Next), "T19:30") {
		t.Fatalf("%+v %s", r, s.texts())
	}
	row := "round-" + own().ID
	s.hit(t, row, fyne.KeyReturn)
	s.hit(t, "pause", fyne.KeyReturn)
	if r := own(); r.State != model.Paused {
		t.Errorf("%+v", r)
	}
	s.hit(t, row, fyne.KeyReturn)
	s.hit(t, "resume", fyne.KeyReturn)
	next := own().Next
	s.hit(t, row, fyne.KeyReturn)
	s.hit(t, "skip-early", fyne.KeyReturn)
	s.fillIn(t, "reason", "no time")
	s.hit(t, "keep", fyne.KeyReturn)
	if r := own(); r.Next == next || r.State != model.Coming {
		t.Errorf("skipped: %+v", r)
	}
	s.hit(t, row, fyne.KeyReturn)
	s.hit(t, "do-early", fyne.KeyReturn)
	es, err := s.k.Days(ctx, tank)
	if err != nil || es[0].Entries[0].Note != "Prune the plants" {
		t.Errorf("doing it wrote %+v, %v", es[0].Entries[0], err)
	}

	s.hit(t, "away", fyne.KeyReturn)
	s.fillIn(t, "first", "2026-12-20")
	s.fillIn(t, "last", "2026-12-19")
	s.hit(t, "keep", fyne.KeyReturn) // refused
	s.fillIn(t, "last", "2026-12-27")
	s.fillIn(t, "who", "Ana")
	s.hit(t, "keep", fyne.KeyReturn)
	if v = s.rounds(t, tank); len(v.Away) != 1 || v.Away[0].Who != "Ana" {
		t.Fatalf("%+v", v.Away)
	}
	shown := s.Page().(*rounds.Page).Shown()
	if len(shown.Days) != keeper.RoundDays || len(shown.Away) != 1 {
		t.Errorf("%+v", shown)
	}
	for range 8 {
		s.Undo()
	}
	if v = s.rounds(t, tank); len(v.All) != 0 || len(v.Away) != 0 {
		t.Errorf("after undoing all: %d rounds, %d away", len(v.All), len(v.Away))
	}
}

// A calendar file that is kept follows every change, in the person's language; a
// path that cannot be is refused.
func TestCalendarFileIsKept(t *testing.T) {
	ctx := context.Background()
	p := english()
	p.Lang = "es"
	s := open(t, p)
	tank := s.sample(t)
	s.Go(nav.Route{Place: nav.Rounds, Tank: tank})
	s.hit(t, "take", fyne.KeyReturn)
	path := filepath.Join(t.TempDir(), "rutinas.ics")
	s.hit(t, "calendar", fyne.KeyReturn)
	s.fillIn(t, "calendar-file", "rutinas.txt")
	s.hit(t, "calendar-keep", fyne.KeyReturn)
	if got, err := s.k.CalendarFile(ctx, tank); err != nil || got != "" {
		t.Fatalf("%q was taken, %v", got, err)
	}
	s.fillIn(t, "calendar-file", path)
	s.hit(t, "calendar-keep", fyne.KeyReturn)
	read := func() string {
		b, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	first := read()
	if !strings.Contains(first, "LANGUAGE=es:Cambio de agua") || strings.Contains(first, "Water change") {
		t.Errorf("%s", first)
	}
	many := strings.Count(first, "BEGIN:VEVENT")
	s.Undo()
	if got := strings.Count(read(), "BEGIN:VEVENT"); got != 0 || many < 8 {
		t.Errorf("%d events, then %d", many, got)
	}
	s.Redo()
	if got := strings.Count(read(), "BEGIN:VEVENT"); got != many {
		t.Errorf("%d events after the redo, want %d", got, many)
	}
}

// The care calendar is made for the span that was chosen, beside the person's papers.
func TestCareCalendarIsMade(t *testing.T) {
	s := open(t, english())
	tank := s.sample(t)
	s.Go(nav.Route{Place: nav.Rounds, Tank: tank})
	s.hit(t, "take", fyne.KeyReturn)
	sizes := map[int]bool{}
	for _, paper := range []struct{ typed, name string }{ // as it is proposed, and 13 weeks beside it
		{"", "driploop-care-calendar.pdf"}, {"1", "driploop-care-calendar-2.pdf"},
	} {
		s.hit(t, "calendar", fyne.KeyReturn)
		for _, r := range paper.typed {
			s.at(t, "calendar-span").TypedRune(r)
		}
		s.hit(t, "calendar-paper", fyne.KeyReturn)
		b, err := os.ReadFile(filepath.Join(s.papers, paper.name))
		if err != nil || !strings.HasPrefix(string(b), "%PDF-") {
			t.Fatalf("%v, %d bytes", err, len(b))
		}
		sizes[strings.Count(string(b), "/Type /Page\n")] = true
	}
	if len(sizes) != 2 {
		t.Errorf("three months take as many pages as four weeks: %v", sizes)
	}
}

// One notice for what comes due, at its time, none twice, none when switched off;
// it holds usual names only.
func TestNotices(t *testing.T) {
	ctx := context.Background()
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	s := openIn(t, t.TempDir(), shell.Options{Prefs: english(), Now: func() time.Time { return now }})
	tank := s.sample(t)
	for _, r := range []model.Round{{Code: model.Feed, Rule: model.MustRule("FREQ=DAILY"), Start: "2026-11-25T18:00"}, {Code: model.Own, Title: "Ring Dr Secret", Rule: model.MustRule("FREQ=DAILY"), Start: "2026-11-25T18:00"}} {
		if _, err := s.k.AddRound(ctx, tank, r); err != nil {
			t.Fatal(err)
		}
	}
	tick := func(d time.Duration) func() {
		return func() {
			now = now.Add(d)
			s.Tick(now)
		}
	}
	s.Tick(now)
	test.AssertNotificationSent(t, nil, tick(5*time.Hour))
	test.AssertNotificationSent(t, fyne.NewNotification("Due at the tank", "Feeding and Own round"), tick(time.Hour))
	test.AssertNotificationSent(t, nil, tick(time.Minute))
	test.AssertNotificationSent(t, fyne.NewNotification("Due at the tank", "Feeding and Own round"), tick(300*24*time.Hour)) // asleep: one, not 300
	s.Go(nav.Route{Place: nav.Today, Tank: tank})
	if err := s.k.SetSetting(ctx, "rounds_remind", "no"); err != nil {
		t.Fatal(err)
	}
	test.AssertNotificationSent(t, nil, tick(24*time.Hour))
}
