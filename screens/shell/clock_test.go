package shell_test

import (
	"context"
	"testing"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/shell"
)

// A clock on the wall that is set is spoken of, once and with how far; a sleep of the
// machine and a small correction are not. The wait on the page goes on as before, and
// after a restart says what of it the clock on the wall counted.
func TestClockIsSet(t *testing.T) {
	now, steady := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC), time.Hour
	ctx, dir := context.Background(), t.TempDir()
	o := shell.Options{Prefs: english(), Now: func() time.Time { return now }, Steady: func() time.Duration { return steady }}
	s := openIn(t, dir, o)
	tank := s.tankOf(t)
	ask, err := s.k.BagDefaults(ctx, tank)
	if err != nil {
		t.Fatal(err)
	}
	ask.Name, ask.Count = "Neons", quantity.Measure{Number: "6", Unit: "piece"}
	id, err := s.k.OpenBag(ctx, tank, ask)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.k.TickBag(ctx, tank, id, care.BagFloat, true); err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.HomeComing, Tank: tank})
	words := i18n.Speak("en", "US", quantity.US)
	left := func() time.Duration {
		v, err := s.k.Bags(ctx, tank)
		if err != nil || len(v) != 1 {
			t.Fatal(v, err)
		}
		return v[0].Timer.Left(now)
	}
	whole := left()
	pass := func(wall, real time.Duration) {
		now, steady = now.Add(wall), steady+real
		s.Tick(now)
	}
	said := func(key string, far time.Duration) bool {
		return s.shows(words.T(working.Key(key), i18n.Args{"Time": words.Duration(quantity.Time(far.Seconds()))}))
	}
	pass(0, 0)
	pass(time.Second, time.Second)
	pass(4*time.Minute, 4*time.Minute) // a sleep
	pass(20*time.Second, time.Second)  // a correction
	if s.shows("The clock of this computer") {
		t.Error("it is spoken of though nobody set it")
	}
	passed := 4*time.Minute + 2*time.Second
	pass(2*time.Hour+time.Second, time.Second)
	passed += time.Second
	if !said("page.clock.forward", 2*time.Hour) {
		t.Error("nothing is said of a clock set forward")
	}
	if until := words.Time(now.Add(left())); !s.shows(words.T("page.bag.waiting", i18n.Args{"Time": until})) {
		t.Errorf("the page does not say to wait until %s", until)
	}
	s.shoot(t, "clock-forward")
	pass(-26*time.Hour+time.Second, time.Second)
	passed += time.Second
	if !said("page.clock.back", 26*time.Hour) {
		t.Error("nothing is said of a clock set back")
	}
	if got := left(); got != whole-passed {
		t.Errorf("%v to go, want %v", got, whole-passed)
	}
	s.end()
	now = now.Add(3 * time.Minute)
	s = openIn(t, dir, o)
	s.Go(nav.Route{Place: nav.HomeComing, Tank: tank})
	if !s.shows(words.T("page.bag.by_wall", i18n.Args{"Time": words.Duration(180)})) {
		t.Error("nothing is said of what the clock on the wall counted")
	}
	s.shoot(t, "clock-between-runs")
}
