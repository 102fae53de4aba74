package keeper_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

func m(number string, unit quantity.UnitCode) quantity.Measure {
	return quantity.Measure{Number: number, Unit: unit}
}

// danios is a short trip of six fish in a litre, four kelvin below the tank.
func danios() keeper.BagAsk {
	return keeper.BagAsk{Name: "Zebra danio", Species: "danio-rerio", Count: m("6", "piece"), Way: care.WayFloat,
		BagGiven: keeper.BagGiven{Volume: m("1", "l"), Temp: m("21", "degc"), TankTemp: m("25", "degc"), Hours: m("1", "h")}}
}

// tank57 is a tank of First fill with its sizes.
func tank57(t *testing.T, k *keeper.Keeper) string {
	t.Helper()
	id, err := k.StartTank(context.Background(), "Hall", quantity.Metric)
	must(t, err)
	return id
}

func bags(t *testing.T, k *keeper.Keeper, tank string) []keeper.BagView {
	t.Helper()
	v, err := k.Bags(context.Background(), tank)
	must(t, err)
	return v
}

// A litre with a gap of 4 K floats about 27 min to within 1 K, 14 to 43 at the
// ends of the range. Source: bag_float.csv, tank taken as endless; a tank that
// warms with the bag is a little quicker.
func TestBagFloatsAsTheTableSays(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	p, err := k.PlanBag(ctx, tank, danios())
	must(t, err)
	minutes := func(v quantity.Value) float64 { return v.X / 60 }
	if got := minutes(p.Wait.Value()); got < 25.5 || got > 26.8 {
		t.Errorf("floats %.1f min, want a little under 26.8", got)
	}
	if lo, hi := minutes(p.Spread.Low), minutes(p.Spread.High); lo < 13.5 || lo > 14.3 || hi < 41 || hi > 42.8 {
		t.Errorf("range %.1f to %.1f min, want about 14 to 43", lo, hi)
	}
	if p.Way != care.BagFloats || p.Steps[1] != care.BagFloat || len(p.Trails) < 2 {
		t.Errorf("way %s, steps %v, %d workings", p.Way, p.Steps, len(p.Trails))
	}
}

// Two drops a second double half a litre in 83.3 min. Source: drip.csv.
func TestBagDripsAsTheTableSays(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	a := danios()
	a.Way, a.Volume, a.Drops, a.Doublings = care.WayDrip, m("0.5", "l"), m("2", "piece"), m("2", "piece")
	p, err := k.PlanBag(ctx, tank, a)
	must(t, err)
	if p.Way != care.BagDrips || p.Drip == nil || len(p.Drip.Stages) != 2 {
		t.Fatalf("%+v", p)
	}
	if got := float64(p.Drip.Stages[0].At) / 60; got < 83.3 || got > 83.4 {
		t.Errorf("doubles in %.2f min", got)
	}
	if p.Drip.Original != 0.25 || p.Drip.Stages[0].PourOff.Litres() != 0.5 || p.Drip.Holds.Litres() != 1 || p.Drip.Stages[1].PourOff != 0 {
		t.Errorf("%+v", p.Drip)
	}
}

// A bag of a long trip, or of water that turns harmful once CO2 leaves, is not
// dripped: the animals are moved at once. Source: bag_degassing.csv, first row.
func TestLongShippedBag(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	a := danios()
	a.Way, a.Drops, a.Doublings, a.Hours = care.WayDrip, m("2", "piece"), m("1", "piece"), m("20", "h")
	p, err := k.PlanBag(ctx, tank, a)
	must(t, err)
	if p.Way != care.BagSoon || p.Drip != nil || p.Findings[0].Code != "find.care.home_soon" {
		t.Errorf("20 h: %s, %v", p.Way, p.Findings)
	}
	a = danios()
	a.Temp, a.PH, a.KH = m("25", "degc"), m("6.5", "ph"), m("4", "dkh")
	a.Ammonia = quantity.Measure{Number: "5", Unit: "mg/l", Basis: quantity.AsN}
	p, err = k.PlanBag(ctx, tank, a)
	must(t, err)
	if p.Way != care.BagSoon || p.Findings[0].Code != "find.care.home_water" || p.Opened == nil {
		t.Fatalf("pH 6.5: %s, %v", p.Way, p.Findings)
	}
	if ph, n := float64(p.Opened.PHAfter), float64(p.Opened.After.AsN); ph < 7.84 || ph > 7.852 || n < 0.1905 || n > 0.1917 {
		t.Errorf("after opening pH %.3f, %.4f mg/L NH3-N; want 7.846 and 0.191", ph, n)
	}
	for _, f := range p.Findings {
		if f.Code == "find.care.bag_assumed" {
			t.Error("ammonia that was measured is called assumed")
		}
	}
}

func TestBagWhatCannotBeIsRefused(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	for field, change := range map[string]func(*keeper.BagAsk){
		"name": func(a *keeper.BagAsk) { a.Name = "  " }, "species": func(a *keeper.BagAsk) { a.Species = "no-such" },
		"count": func(a *keeper.BagAsk) { a.Count = m("2.5", "piece") }, "males": func(a *keeper.BagAsk) { a.Males = m("7", "piece") },
		"volume": func(a *keeper.BagAsk) { a.Volume = m("200", "l") }, "temp": func(a *keeper.BagAsk) { a.Temp = quantity.Measure{} },
		"tank_temp": func(a *keeper.BagAsk) { a.TankTemp = m("70", "degc") }, "hours": func(a *keeper.BagAsk) { a.Hours = m("9", "d") },
		"ph": func(a *keeper.BagAsk) { a.PH, a.KH = m("12", "ph"), m("4", "dkh") }, "kh": func(a *keeper.BagAsk) { a.PH, a.KH = m("7", "ph"), m("90", "dkh") },
		"ammonia": func(a *keeper.BagAsk) { a.Ammonia = m("5", "mg/l") }, "length": func(a *keeper.BagAsk) { a.Length = m("9", "m") },
		"way":       func(a *keeper.BagAsk) { a.Way = "throw" },
		"drops":     func(a *keeper.BagAsk) { a.Way, a.Drops, a.Doublings = care.WayDrip, m("900", "piece"), m("1", "piece") },
		"doublings": func(a *keeper.BagAsk) { a.Way, a.Drops, a.Doublings = care.WayDrip, m("2", "piece"), m("0", "piece") },
	} {
		a := danios()
		change(&a)
		_, err := k.OpenBag(ctx, tank, a)
		var r *working.Refusal
		if !errors.As(err, &r) || r.Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
	if n := len(bags(t, k, tank)); n != 0 {
		t.Errorf("%d bags after refusals", n)
	}
}

// Three bags with a timer each: they go on after a crash, a restart and a clock
// set back or forth, each by itself.
func TestBagsSurvive(t *testing.T) {
	ctx, c := context.Background(), noon()
	dir := t.TempDir()
	k := open(t, dir, c)
	tank := tank57(t, k)
	var ids []string
	for range 3 {
		id, err := k.OpenBag(ctx, tank, danios())
		must(t, err)
		must(t, k.TickBag(ctx, tank, id, care.BagFloat, true))
		ids = append(ids, id)
		c.t = c.t.Add(time.Minute)
	}
	passed := func(want ...time.Duration) {
		t.Helper()
		for i, v := range bags(t, k, tank) {
			if v.ID != ids[i] || v.Timer == nil || v.Timer.Passed(c.now()) != want[i] {
				t.Errorf("bag %d: %+v, want %v passed", i, v.Timer, want[i])
			}
		}
	}
	min := time.Minute
	passed(3*min, 2*min, min)
	k.TickTimers(ctx)
	must(t, k.Close())
	c.t = c.t.Add(2 * min)
	k = open(t, dir, c)
	passed(5*min, 4*min, 3*min)
	must(t, k.TickBag(ctx, tank, ids[1], care.BagLights, true)) // a change reads all anew
	passed(5*min, 4*min, 3*min)
	must(t, k.Close())
	c.t = c.t.Add(-30 * time.Hour)
	k = open(t, dir, c)
	defer k.Close()
	passed(5*min, 4*min, 3*min)
	c.t = c.t.Add(40 * min)
	if v := bags(t, k, tank)[0]; !v.Ready(c.now()) || v.Waiting(c.now()) {
		t.Error("a bag that floated 45 min is not ready")
	}
	if err := k.StopTimer(ctx, tank); err != nil || bags(t, k, tank)[2].Timer == nil {
		t.Errorf("the timer of First fill stopped that of a bag: %v", err)
	}
}

// A program that is killed has kept every bag and how far its timer was: the files as
// they lie on the disk while the daybook is open are opened elsewhere.
func TestBagsSurviveAKill(t *testing.T) {
	ctx, c := context.Background(), noon()
	dir, after := t.TempDir(), t.TempDir()
	k := open(t, dir, c)
	tank := tank57(t, k)
	id, err := k.OpenBag(ctx, tank, danios())
	must(t, err)
	must(t, k.TickBag(ctx, tank, id, care.BagFloat, true))
	c.t = c.t.Add(4 * time.Minute) // no tick has noted it
	for _, name := range []string{store.FileName, store.FileName + "-wal"} {
		b, err := os.ReadFile(filepath.Join(dir, name))
		must(t, err)
		must(t, os.WriteFile(filepath.Join(after, name), b, 0o600))
	}
	killed := open(t, after, c)
	defer killed.Close()
	v := bags(t, killed, tank)
	if len(v) != 1 || v[0].Timer == nil || v[0].Timer.Passed(c.now()) != 4*time.Minute {
		t.Errorf("%+v", v)
	}
	if len(v[0].Done) != 1 {
		t.Errorf("%d steps are ticked", len(v[0].Done))
	}
	must(t, k.Close())
}

// Closing is one step: the entry, the stock, the bag; undone and redone as one.
func TestBagCloses(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	id, err := k.OpenBag(ctx, tank, danios())
	must(t, err)
	must(t, k.TickBag(ctx, tank, id, care.BagFloat, true))
	var r *working.Refusal
	if err := k.CloseBag(ctx, tank, id, false); !errors.As(err, &r) || r.Field != "early" {
		t.Errorf("closed while it waits: %v", err)
	}
	c.t = c.t.Add(31 * time.Minute)
	must(t, k.CloseBag(ctx, tank, id, false))
	count := func() (entries, stock int) {
		days, err := k.Days(ctx, tank)
		must(t, err)
		for _, d := range days {
			for _, e := range d.Entries {
				if e.Kind == journal.HomeComing && e.Note == "Zebra danio" {
					entries++
					if d, ok := e.Get(journal.NameDuration); !ok || d.Measure.Number != "31" {
						t.Errorf("it took %v", d.Measure)
					}
				}
			}
		}
		fs, err := k.FishOf(ctx, tank)
		must(t, err)
		for _, f := range fs {
			stock += f.Count
		}
		return
	}
	if e, s := count(); e != 1 || s != 6 || len(bags(t, k, tank)) != 0 {
		t.Errorf("%d entries, %d in the stock", e, s)
	}
	label, _, err := k.Undo(ctx, tank)
	must(t, err)
	if e, s := count(); label != "undo.bag_close" || e != 0 || s != 0 || len(bags(t, k, tank)) != 1 || bags(t, k, tank)[0].Timer == nil {
		t.Errorf("after %s: %d entries, %d in the stock", label, e, s)
	}
	for range 2 { // the step, the bag
		_, _, err = k.Undo(ctx, tank)
		must(t, err)
	}
	if len(bags(t, k, tank)) != 0 {
		t.Error("the bag is there after undoing all")
	}
	for range 3 {
		_, _, err = k.Redo(ctx, tank)
		must(t, err)
	}
	if e, s := count(); e != 1 || s != 6 {
		t.Errorf("after redoing: %d entries, %d in the stock", e, s)
	}
	if err := k.TickBag(ctx, tank, id, care.BagLights, true); err == nil {
		t.Error("a closed bag takes a step")
	}
}

// What was measured anew moves the running timer; another way ends it; undo
// brings both back.
func TestBagIsChanged(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	id, err := k.OpenBag(ctx, tank, danios())
	must(t, err)
	must(t, k.TickBag(ctx, tank, id, care.BagFloat, true))
	was := bags(t, k, tank)[0].Timer.Wait
	a := danios()
	a.Temp = m("23", "degc")
	must(t, k.ChangeBag(ctx, tank, id, a))
	if v := bags(t, k, tank)[0]; v.Timer.Wait >= was || v.Timer.Wait != time.Duration(float64(v.Plan.Wait)*float64(time.Second)).Round(time.Second) {
		t.Errorf("waits %v, before %v, planned %v", v.Timer.Wait, was, v.Plan.Wait)
	}
	a.Way, a.Drops, a.Doublings = care.WayDrip, m("2", "piece"), m("1", "piece")
	must(t, k.ChangeBag(ctx, tank, id, a))
	if v := bags(t, k, tank)[0]; v.Timer != nil || v.Plan.Way != care.BagDrips {
		t.Errorf("%+v", v)
	}
	for range 2 {
		_, _, err = k.Undo(ctx, tank)
		must(t, err)
	}
	if v := bags(t, k, tank)[0]; v.Timer == nil || v.Timer.Wait != was {
		t.Errorf("after undoing %+v", v.Timer)
	}
	must(t, k.DropBag(ctx, tank, id))
	if len(bags(t, k, tank)) != 0 {
		t.Error("a dropped bag is there")
	}
}

// The less water, and the smaller the gap, the shorter a bag floats.
func TestBagFloatTimeFalls(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank := tank57(t, k)
	rapid.Check(t, func(t *rapid.T) {
		wait := func(litres, celsius float64) float64 {
			a := danios()
			a.Volume, a.Temp = quantity.Of(litres, "l", 6), quantity.Of(celsius, "degc", 6)
			p, err := k.PlanBag(ctx, tank, a)
			if err != nil {
				t.Fatal(err)
			}
			return float64(p.Wait)
		}
		v, gap := rapid.Float64Range(0.2, 5).Draw(t, "litres"), rapid.Float64Range(1.2, 9).Draw(t, "gap")
		if wait(v*0.8, 25-gap) > wait(v, 25-gap) || wait(v, 25-gap*0.8) > wait(v, 25-gap) {
			t.Fatalf("%g L, %g K", v, gap)
		}
	})
}

// First fill's step waits for the bags of the page of several, and what came home
// there is not written twice.
func TestBagsFinishFirstFill(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank, err := k.MakeExample(ctx, words())
	must(t, err)
	arrived := func() (n int) {
		days, err := k.Days(ctx, tank)
		must(t, err)
		for _, d := range days {
			for _, e := range d.Entries {
				if e.Kind == journal.HomeComing || e.Kind == journal.FishIn {
					n++
				}
			}
		}
		return n
	}
	before := arrived()
	id, err := k.OpenBag(ctx, tank, danios())
	must(t, err)
	v, _, err := k.FirstFill(ctx, tank, care.HomeComing)
	must(t, err)
	open := false
	for _, f := range v.Page.Blocked {
		open = open || f.Code == "find.care.bags_open"
	}
	if !open {
		t.Errorf("First fill does not wait for the bag: %v", v.Page.Blocked)
	}
	must(t, k.CloseBag(ctx, tank, id, true))
	finish(t, k, tank, care.HomeComing)
	if n := arrived() - before; n != 1 {
		t.Errorf("%d entries of one home-coming", n)
	}
}
