package keeper_test

import (
	"context"
	"maps"
	"slices"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// openSteady opens a daybook beside a clock that nobody sets.
func openSteady(t *testing.T, dir string, c *clock, steady *time.Duration) *keeper.Keeper {
	t.Helper()
	k, err := keeper.Open(context.Background(), dir, keeper.Options{Now: c.now, Steady: func() time.Duration { return *steady }, Region: care.Region{Code: "US"}})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// floated opens a bag and lets it float.
func floated(t *testing.T, k *keeper.Keeper) (tank, bag string) {
	t.Helper()
	ctx := context.Background()
	tank = tank57(t, k)
	bag, err := k.OpenBag(ctx, tank, danios())
	must(t, err)
	must(t, k.TickBag(ctx, tank, bag, care.BagFloat, true))
	return tank, bag
}

// A wait (D2-40) counts what passes and nothing else while the program runs, whatever
// is done to the clock on the wall, and counts a sleep of the machine.
func TestWaitsIgnoreTheWallClock(t *testing.T) {
	ctx, c, steady := context.Background(), noon(), 17*time.Hour
	k := openSteady(t, t.TempDir(), c, &steady)
	defer k.Close()
	tank, id := floated(t, k)
	held := bags(t, k, tank)[0] // as a page holds it
	want := time.Duration(0)
	for _, name := range slices.Sorted(maps.Keys(jumps)) {
		if name == "a sleep of 8 hours" {
			continue
		}
		c.t = jumps[name](c.t)
		steady += time.Second
		want += time.Second
		v := bags(t, k, tank)[0]
		k.Follow(held.Timer)
		for what, timer := range map[string]*care.Timer{"read": v.Timer, "held by a page": held.Timer} {
			if got := timer.Passed(c.now()); got != want || timer.Unsure() {
				t.Errorf("%s, %s: %v passed, want %v; %+v", name, what, got, want, timer.Apart)
			}
		}
		k.TickTimers(ctx)
		must(t, k.TickBag(ctx, tank, id, care.BagLights, want%2 == 0)) // a change reads all anew
	}
	if over, err := k.WaitsOver(ctx); err != nil || len(over) != 0 {
		t.Errorf("%v is over after %v, %v", over, want, err)
	}
	c.t, steady = c.t.Add(8*time.Hour), steady+8*time.Hour // the machine slept
	if got := bags(t, k, tank)[0].Timer.Passed(c.now()); got != want+8*time.Hour {
		t.Errorf("after a sleep %v passed, want %v", got, want+8*time.Hour)
	}
	if over, err := k.WaitsOver(ctx); err != nil || len(over) != 1 {
		t.Errorf("%v is over after a sleep, %v", over, err)
	}
}

// Between two runs only the clock on the wall tells: what it counts is bounded, never
// negative, and told to be unsure, also after the next start.
func TestWaitsBetweenRuns(t *testing.T) {
	for _, x := range []struct {
		name         string
		gap, counted time.Duration
		byWall       time.Duration
		back         bool
	}{
		{"at once", 30 * time.Second, 30 * time.Second, 0, false},
		{"a while later", 5 * time.Minute, 5 * time.Minute, 5 * time.Minute, false},
		{"ten years later", 87_660 * time.Hour, 24 * time.Hour, 24 * time.Hour, false},
		{"a little back", -20 * time.Second, 0, 0, false},
		{"a day back", -24 * time.Hour, 0, 0, true},
	} {
		t.Run(x.name, func(t *testing.T) {
			ctx, c, steady, dir := context.Background(), noon(), time.Hour, t.TempDir()
			k := openSteady(t, dir, c, &steady)
			tank, _ := floated(t, k)
			c.t, steady = c.t.Add(2*time.Minute), steady+2*time.Minute
			must(t, k.Close())
			check := func(passed, byWall time.Duration) {
				t.Helper()
				timer := bags(t, k, tank)[0].Timer
				if got := timer.Passed(c.now()); got != passed || timer.ByWall != byWall || timer.SetBack != x.back {
					t.Errorf("%v passed, want %v; %+v, want %v %v", got, passed, timer.Apart, byWall, x.back)
				}
			}
			c.t, steady = c.t.Add(x.gap), time.Minute // another start of the machine
			k = openSteady(t, dir, c, &steady)
			check(2*time.Minute+x.counted, x.byWall)
			c.t, steady = c.t.AddDate(1, 0, 0), steady+time.Minute
			check(3*time.Minute+x.counted, x.byWall)
			k.TickTimers(ctx)
			must(t, k.Close())
			c.t = c.t.Add(3 * time.Minute)
			k = openSteady(t, dir, c, &steady)
			defer k.Close()
			check(6*time.Minute+x.counted, x.byWall+3*time.Minute)
		})
	}
}

// filledNow goes through First fill up to the filling.
func filledNow(t *testing.T, k *keeper.Keeper) string {
	t.Helper()
	ctx := context.Background()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	for _, step := range []care.Step{care.TankPlace, care.KitList, care.Rinse} {
		finish(t, k, id, step)
	}
	steadyStand(t, k, id)
	finish(t, k, id, care.StandFloor)
	finish(t, k, id, care.PlaceDry)
	finish(t, k, id, care.FillTreat)
	return id
}

// The heater stands under water for its quarter of an hour whatever is done to the
// clock on the wall; after a restart what rests on that clock alone is told.
func TestHeaterWaitIgnoresTheWallClock(t *testing.T) {
	for _, name := range slices.Sorted(maps.Keys(jumps)) {
		if name == "a sleep of 8 hours" {
			continue
		}
		t.Run(name, func(t *testing.T) {
			ctx, c, steady, dir := context.Background(), noon(), 5*time.Hour, t.TempDir()
			k := openSteady(t, dir, c, &steady)
			pass := func(d time.Duration) { c.t, steady = c.t.Add(d), steady+d }
			c.t = jumps[name](c.t) // before the filling it changes nothing
			id := filledNow(t, k)
			page := func() care.Page {
				t.Helper()
				v, _, err := k.FirstFill(ctx, id, care.PowerOn)
				must(t, err)
				return v.Page
			}
			left := func() time.Duration {
				return time.Duration(page().Headline.Value.X * float64(time.Second))
			}
			pass(5 * time.Minute)
			c.t = jumps[name](c.t)
			pass(time.Minute)
			// The entry of the filling has the minute, and no seconds.
			if got := left(); (got - 9*time.Minute).Abs() > time.Minute {
				t.Errorf("%v left of a quarter of an hour after six minutes", got)
			}
			blockedBy(t, k.Acknowledge(ctx, id, care.PowerOn, "power.heater", "en", "shown", "h"), "find.care.heater_wait")
			pass(10 * time.Minute)
			if got := left(); got != 0 {
				t.Errorf("%v left after sixteen minutes", got)
			}
			told := func() bool {
				return slices.ContainsFunc(page().Headline.Means, func(f working.Finding) bool { return f.Code == "find.care.heater_by_clock" })
			}
			if told() {
				t.Error("it is told to rest on the clock on the wall, and does not")
			}
			must(t, k.Close())
			pass(20 * time.Minute)
			k = openSteady(t, dir, c, &steady)
			defer k.Close()
			pass(time.Second)
			if left() == 0 && !told() {
				t.Error("nothing tells that it rests on the clock on the wall")
			}
			pass(16 * time.Minute)
			if left() == 0 && told() {
				t.Error("it is still told after as long a wait before our eyes")
			}
		})
	}
}
