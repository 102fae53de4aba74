package keeper_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

var metric = quantity.Reading{Unit: "cm", System: quantity.Metric, Decimal: '.'}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// finish ticks and confirms everything on a page and carries on.
func finish(t *testing.T, k *keeper.Keeper, tank string, step care.Step) {
	t.Helper()
	ctx := context.Background()
	v, _, err := k.FirstFill(ctx, tank, step)
	must(t, err)
	for _, x := range v.Page.Ticks {
		if x.Confirm {
			must(t, k.Acknowledge(ctx, tank, step, care.NoteID(x.ID), "en", "shown", "h"))
		} else {
			must(t, k.Set(ctx, tank, keeper.Edit{Field: x.ID, Option: care.Ticked}))
		}
	}
	for _, n := range v.Page.Notes {
		if n.ConfirmedIn(step) {
			must(t, k.Acknowledge(ctx, tank, step, n.ID, "en", "shown", "h"))
		}
	}
	must(t, k.CarryOn(ctx, tank, step))
}

// steadyStand answers the stand page so that it holds: rated, anchored, slab.
func steadyStand(t *testing.T, k *keeper.Keeper, tank string) {
	t.Helper()
	ctx := context.Background()
	for _, e := range []keeper.Edit{{Field: "stand.rated", Text: "200 kg"}, {Field: "stand.footprint", Option: "yes"}, {Field: "stand.anchored", Option: "yes"},
		{Field: "stand.depth", Text: "40 cm", Reading: metric}, {Field: "floor.kind", Option: "slab"}} {
		must(t, k.Set(ctx, tank, e))
	}
}

func states(t *testing.T, k *keeper.Keeper, tank string) map[care.Step]care.StepState {
	t.Helper()
	v, _, err := k.FirstFill(context.Background(), tank, care.TankPlace)
	must(t, err)
	m := map[care.Step]care.StepState{}
	for _, s := range v.Steps {
		m[s.Step] = s.State
	}
	return m
}

func blockedBy(t *testing.T, err error, code working.Key) {
	t.Helper()
	var b *keeper.Blocked
	if !errors.As(err, &b) {
		t.Fatalf("got %v, want a step that waits for %s", err, code)
	}
	for _, f := range b.Findings {
		if f.Code == code {
			return
		}
	}
	t.Errorf("waits for %v, not for %s", b.Findings, code)
}

// Steps open by what makes them safe. Rinsing needs no stand; water needs one.
func TestStepsOpenBySafety(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	s := states(t, k, id)
	if s[care.TankPlace] != care.Open || s[care.KitList] != care.Shut || s[care.FillTreat] != care.Shut {
		t.Fatalf("at the start: %v", s)
	}
	finish(t, k, id, care.TankPlace)
	s = states(t, k, id)
	if s[care.KitList] != care.Open || s[care.StandFloor] != care.Open || s[care.Rinse] != care.Open {
		t.Errorf("after the tank, kit, stand and rinse are open: %v", s)
	}
	blockedBy(t, k.CarryOn(ctx, id, care.FillTreat), "find.care.waits_for")
	finish(t, k, id, care.KitList)
	finish(t, k, id, care.Rinse)
	if s = states(t, k, id); s[care.PlaceDry] != care.Shut {
		t.Errorf("placing is %s before the stand was checked, want shut", s[care.PlaceDry])
	}
	steadyStand(t, k, id)
	finish(t, k, id, care.StandFloor)

	must(t, k.Set(ctx, id, keeper.Edit{Field: "plug.heater", Option: "in"}))
	v, _, _ := k.FirstFill(ctx, id, care.PlaceDry)
	for _, x := range v.Page.Ticks {
		must(t, k.Set(ctx, id, keeper.Edit{Field: x.ID, Option: care.Ticked}))
	}
	must(t, k.Acknowledge(ctx, id, care.PlaceDry, "nothing_plugged", "en", "shown", "h"))
	blockedBy(t, k.CarryOn(ctx, id, care.PlaceDry), "find.care.plug_in")
	must(t, k.Set(ctx, id, keeper.Edit{Field: "plug.heater", Option: "out"}))
	must(t, k.CarryOn(ctx, id, care.PlaceDry))
	finish(t, k, id, care.FillTreat)

	// The heater stands covered for a quarter of an hour before its plug goes in.
	// Common practice, no source: 15 to 30 minutes.
	c.t = c.t.Add(14 * time.Minute)
	blockedBy(t, k.Acknowledge(ctx, id, care.PowerOn, "power.heater", "en", "shown", "h"), "find.care.heater_wait")
	c.t = c.t.Add(2 * time.Minute)
	finish(t, k, id, care.PowerOn)
	blockedBy(t, k.CarryOn(ctx, id, care.Settle), "find.care.no_reading")
	read := func(celsius string) {
		_, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Temperature,
			Readings: []journal.Reading{{Name: journal.NameTemperature, Measure: quantity.Measure{Number: celsius, Unit: "degc"}}}})
		must(t, err)
	}
	for _, x := range []string{"22", "24.8", "25.2", "26.4", "25", "24.6"} { // out of the band twice
		c.t = c.t.Add(10 * time.Hour)
		read(x)
	}
	if v, _, _ = k.FirstFill(ctx, id, care.Settle); v.Page.Steady.Held != 10*time.Hour {
		t.Errorf("held %v, want 10 h: the reading of 26.4 °C starts it anew", v.Page.Steady.Held)
	}
	for range 2 {
		c.t = c.t.Add(8 * time.Hour)
		read("25")
	}
	finish(t, k, id, care.Settle)
	blockedBy(t, k.CarryOn(ctx, id, care.FirstFish), "find.fish.gate_untested")
	test := func(nh3, no2 string) {
		_, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{
			{Name: journal.NameAmmonia, Measure: quantity.Measure{Number: nh3, Unit: "mg/l", Basis: quantity.AsN}},
			{Name: journal.NameNitrite, Measure: quantity.Measure{Number: no2, Unit: "mg/l", Basis: quantity.AsIon}}}})
		must(t, err)
	}
	// Nothing of what is measured is let pass, one test at zero neither; the plan over
	// weeks says the same of each.
	_, err = k.AddWish(ctx, id, keeper.Wish{Species: "danio-rerio", Count: 6})
	must(t, err)
	agree := func(code working.Key, open bool) {
		t.Helper()
		p, err := k.FishPlan(ctx, id)
		must(t, err)
		if p.Gate.Says != code || p.Plan.Steps[0].Open != open {
			t.Errorf("the plan says %s, open %v; want %s, %v", p.Gate.Says, p.Plan.Steps[0].Open, code, open)
		}
	}
	test("0.5", "0.1")
	blockedBy(t, k.CarryOn(ctx, id, care.FirstFish), "find.fish.gate_not_zero")
	agree("find.fish.gate_not_zero", false)
	test("0", "0")
	blockedBy(t, k.CarryOn(ctx, id, care.FirstFish), "find.fish.gate_once")
	agree("find.fish.gate_once", false)
	c.t = c.t.Add(73 * time.Hour)
	blockedBy(t, k.CarryOn(ctx, id, care.FirstFish), "find.fish.gate_old")
	agree("find.fish.gate_old", false)
	test("0", "0")
	agree("find.fish.gate_open", true)
	finish(t, k, id, care.FirstFish)
	must(t, k.StartTimer(ctx, id))
	blockedBy(t, k.CarryOn(ctx, id, care.HomeComing), "find.care.timer_runs")
	c.t = c.t.Add(3 * time.Hour)
	finish(t, k, id, care.HomeComing)
	days, err := k.Days(ctx, id)
	must(t, err)
	kinds := map[journal.Kind]int{}
	for _, d := range days {
		for _, e := range d.Entries {
			kinds[e.Kind]++
		}
	}
	for _, want := range []journal.Kind{journal.Filled, journal.Dosed, journal.Powered, journal.HomeComing, journal.FishIn} {
		if kinds[want] != 1 {
			t.Errorf("%d entries of kind %s, want 1", kinds[want], want)
		}
	}
	if kinds[journal.StepDone] != 10 {
		t.Errorf("%d steps noted, want 10", kinds[journal.StepDone])
	}
}

// A change reopens exactly the steps that relied on it, and naming the answer.
func TestChangeReopensWhatReliedOnIt(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	finish(t, k, id, care.TankPlace)
	finish(t, k, id, care.KitList)
	steadyStand(t, k, id)
	finish(t, k, id, care.StandFloor)
	finish(t, k, id, care.Rinse)
	set := func(field care.FieldID, text string) {
		must(t, k.Set(ctx, id, keeper.Edit{Field: field, Text: text, Reading: metric}))
	}
	set("socket.height", "90")
	if s := states(t, k, id); s[care.TankPlace] != care.Reopened || s[care.KitList] != care.Finished || s[care.StandFloor] != care.Finished {
		t.Errorf("moving the socket: %v", s)
	}
	must(t, k.CarryOn(ctx, id, care.TankPlace))
	set("stand.height", "80")
	if s := states(t, k, id); s[care.StandFloor] != care.Reopened || s[care.TankPlace] != care.Finished || s[care.Rinse] != care.Finished {
		t.Errorf("another stand: %v", s)
	}
	set("tank.length", "80")
	v, _, err := k.FirstFill(ctx, id, care.StandFloor)
	must(t, err)
	named := false
	for _, f := range v.Page.Changed {
		named = named || f == "tank.length"
	}
	if !named {
		t.Errorf("the stand page names %v, want tank.length among them", v.Page.Changed)
	}
	if s := states(t, k, id); s[care.Rinse] != care.Reopened || s[care.KitList] != care.Reopened {
		t.Errorf("a longer tank: %v", s)
	}
	// Back to the old value in another unit is the old answer.
	must(t, k.Set(ctx, id, keeper.Edit{Field: "tank.length", Text: "600 mm", Reading: metric}))
	if s := states(t, k, id); s[care.Rinse] != care.Finished {
		t.Errorf("600 mm is the 60 cm that was there: rinse is %s", s[care.Rinse])
	}
}

// Every refusal leaves the record as it was.
func TestRefusedAnswersChangeNothing(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	before, _, _ := k.FirstFill(ctx, id, care.TankPlace)
	for _, text := range []string{"", "   ", "0", "-3", "1e9", "NaN", "abc", "1,234", "20 kg", "20 furlongs", "999999999999999999999999999999999999", "\u202e60", "60 60"} {
		if err := k.Set(ctx, id, keeper.Edit{Field: "tank.length", Text: text, Reading: metric}); err == nil {
			t.Errorf("%q was taken as a length", text)
		}
	}
	if err := k.Set(ctx, id, keeper.Edit{Field: "tank.shape", Option: "moebius"}); err == nil {
		t.Error("an unknown shape was taken")
	}
	if err := k.Set(ctx, id, keeper.Edit{Field: "no.such", Text: "1"}); err == nil {
		t.Error("an unknown field was taken")
	}
	after, _, _ := k.FirstFill(ctx, id, care.TankPlace)
	if before.Page.Headline.Value != after.Page.Headline.Value {
		t.Errorf("net volume went from %v to %v", before.Page.Headline.Value, after.Page.Headline.Value)
	}
	// What cannot be is refused beside the other answers, and keeps the page shut.
	must(t, k.Set(ctx, id, keeper.Edit{Field: "gravel.back", Text: "45 cm", Reading: metric}))
	v, _, _ := k.FirstFill(ctx, id, care.TankPlace)
	refused := false
	for _, f := range v.Page.Fields {
		refused = refused || f.Field.ID == "gravel.back" && f.Refused != nil
	}
	if !refused || len(v.Page.Blocked) == 0 || v.Page.Headline != nil {
		t.Errorf("gravel above the rim: refused %v, blocked %v, headline %v", refused, v.Page.Blocked, v.Page.Headline)
	}
}

// A timer counts on while the program is closed, and a wall clock set back takes
// nothing away.
func TestTimerSurvivesRestartAndClock(t *testing.T) {
	ctx, c := context.Background(), noon()
	dir := t.TempDir()
	k := open(t, dir, c)
	id, err := k.MakeExample(ctx, words())
	must(t, err)
	passed := func() time.Duration {
		v, _, err := k.FirstFill(ctx, id, care.HomeComing)
		must(t, err)
		return v.Page.Curve.Timer.Passed(c.now())
	}
	c.t = c.t.Add(time.Minute)
	k.TickTimers(ctx)
	must(t, k.Close())
	c.t = c.t.Add(2 * time.Minute)
	k = open(t, dir, c)
	if got := passed(); got != 14*time.Minute {
		t.Errorf("after a restart the timer shows %v, want 14m", got)
	}
	k.TickTimers(ctx)
	must(t, k.Close())
	c.t = c.t.Add(-26 * time.Hour) // the wall clock was wrong by a day
	k = open(t, dir, c)
	defer k.Close()
	if got := passed(); got != 14*time.Minute {
		t.Errorf("after the clock was set back the timer shows %v, want 14m", got)
	}
	c.t = c.t.Add(time.Minute)
	if got := passed(); got != 15*time.Minute {
		t.Errorf("a minute later the timer shows %v, want 15m", got)
	}
}

// Undo takes back one decision at a time and survives a restart.
func TestUndoSurvivesRestart(t *testing.T) {
	ctx, c := context.Background(), noon()
	dir := t.TempDir()
	k := open(t, dir, c)
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	net := func() quantity.Value {
		v, _, err := k.FirstFill(ctx, id, care.TankPlace)
		must(t, err)
		return v.Page.Headline.Value
	}
	first := net()
	must(t, k.Set(ctx, id, keeper.Edit{Field: "tank.length", Text: "80", Reading: metric}))
	second := net()
	finish(t, k, id, care.TankPlace)
	must(t, k.Close())
	k = open(t, dir, c)
	defer k.Close()
	for _, want := range []working.Key{"undo.step_done", "undo.answer", "undo.answer", "undo.answer", "undo.answer"} { // the step, three ticks, the length
		got, _, err := k.Undo(ctx, id)
		must(t, err)
		if got != want {
			t.Errorf("undid %s, want %s", got, want)
		}
	}
	if net() != first {
		t.Errorf("net volume %v after undoing, want %v", net(), first)
	}
	_, _, err = k.Redo(ctx, id)
	must(t, err)
	if net() != second {
		t.Errorf("net volume %v after redoing, want %v", net(), second)
	}
}

// A label's dose is taken in whatever unit it is printed: a powder in grams.
func TestDoseInAnyUnitOfALabel(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	dose := func(amount string) quantity.Value {
		must(t, k.Set(ctx, id, keeper.Edit{Field: "dose.amount", Text: amount, Reading: quantity.Reading{Unit: "ml", System: quantity.Metric, Decimal: '.'}}))
		must(t, k.Set(ctx, id, keeper.Edit{Field: "dose.per", Text: "40 l", Reading: metric}))
		v, _, err := k.FirstFill(ctx, id, care.FillTreat)
		must(t, err)
		return v.Page.Headline.Value
	}
	ml, tsp, drops, g := dose("5"), dose("1 tsp"), dose("100 drops"), dose("2 g")
	// By hand: a teaspoon is 4.9289 mL, a drop 0.05 mL.
	for _, x := range []struct {
		got  quantity.Value
		want float64
	}{{tsp, ml.X * 4.92892159375 / 5}, {drops, ml.X}, {g, ml.X / 5e-6 * 2e-3}} {
		if d := x.got.X - x.want; d > 1e-12 || d < -1e-12 {
			t.Errorf("dose %v, want %v", x.got, x.want)
		}
	}
	if g.Kind != quantity.KindMass {
		t.Errorf("a dose of powder is a %s", g.Kind)
	}
	if err := k.Set(ctx, id, keeper.Edit{Field: "dose.amount", Text: "5 cm", Reading: metric}); err == nil {
		t.Error("a length was taken as a dose")
	}
}
