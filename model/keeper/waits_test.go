package keeper_test

import (
	"context"
	"maps"
	"slices"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
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
