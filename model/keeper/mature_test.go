package keeper_test

import (
	"context"
	"math"
	"testing"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// A filter that was proven after four weeks is judged as mature after six: then
// 0.3 mg/L of total ammonia is more than it should leave (common practice, 0.25),
// though at pH 7 its un-ionised part is harmless.
func TestAMatureFilterIsHeldToMore(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	start := c.t
	add := func(day int, kind journal.Kind, rs ...journal.Reading) string {
		t.Helper()
		c.t = start.AddDate(0, 0, day)
		e, err := k.AddEntry(ctx, id, journal.Entry{Kind: kind, Readings: rs})
		must(t, err)
		return e
	}
	test := func(day int, tan string) string {
		return add(day, journal.Tested, r(journal.NameAmmonia, tan, "mg/l", quantity.AsN), r(journal.NameNitrite, "0.1", "mg/l", quantity.AsIon),
			r(journal.NamePH, "7.0", "ph", ""), r(journal.NameTemperature, "25", "degc", ""))
	}
	add(0, journal.Filled)
	young := test(10, "0.3")
	test(30, "0.1")
	half := test(35, "0.3")
	test(40, "0.1")
	old := test(45, "0.3")
	j, err := k.Judge(ctx, id)
	must(t, err)
	for e, want := range map[string]bool{young: false, half: false, old: true} {
		_, watch := found(j[e].Findings, "find.water.tan_watch")
		_, act := found(j[e].Findings, "find.water.tan_act")
		if (watch || act) != want {
			t.Errorf("held to a mature filter: %v, want %v; %v", watch || act, want, j[e].Findings)
		}
	}
}

// A value is told no finer than its kit tells; what was typed stays, and decides.
func TestValuesAreToldNoFinerThanTheKit(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	kit, err := k.AddKit(ctx, journal.TestKit{Name: "drops", Reading: journal.NamePH, Unit: "ph", Resolution: "0.2"})
	must(t, err)
	x := r(journal.NamePH, "7.43", "ph", "")
	x.Kit = kit
	e, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{x}})
	must(t, err)
	j, err := k.Judge(ctx, id)
	must(t, err)
	f, ok := found(j[e].Findings, "find.water.ph_ok")
	if got := f.Values["PH"].X; !ok || got < 7.3999 || got > 7.4001 {
		t.Errorf("read as %v", got)
	}
	if got, _ := k.Entry(ctx, id, e); got.Readings[0].Measure.Number != "7.43" {
		t.Errorf("kept as %v", got.Readings[0].Measure)
	}
	strip, err := k.AddKit(ctx, journal.TestKit{Name: "strip", Reading: journal.NameNitrate, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "5"})
	must(t, err)
	y := r(journal.NameNitrate, "40.4", "mg/l", quantity.AsIon) // 40 is the line
	y.Kit = strip
	e, err = k.AddEntry(ctx, id, journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{y}})
	must(t, err)
	j, err = k.Judge(ctx, id)
	must(t, err)
	if f, ok := found(j[e].Findings, "find.water.nitrate_watch"); !ok || math.Abs(f.Values["Nitrate"].In(quantity.MustUnit("mg/l"))-40) > 1e-9 {
		t.Errorf("40.4 is told as %+v of %+v", f.Values, j[e].Findings)
	}
	if kit, ok := k.KitOf(strip); !ok || kit.Name != "strip" {
		t.Errorf("the kit is %+v, %v", kit, ok)
	}
	must(t, k.DeleteKit(ctx, strip))
	if kit, ok := k.KitOf(strip); !ok || kit.Resolution != "5" {
		t.Errorf("the deleted kit is %+v, %v", kit, ok)
	}
}

// What asks for something comes first, then what to do, then what is in order.
func TestAdviceComesBeforeWhatIsInOrder(t *testing.T) {
	ctx := context.Background()
	k, id, c := exampleTank(t)
	defer k.Close()
	j, err := k.JudgeDraft(ctx, id, journal.Entry{At: journal.CivilOf(c.t.Add(-time.Hour)), Readings: []journal.Reading{
		r(journal.NameNitrite, "2", "mg/l", quantity.AsIon), r(journal.NameNitrate, "10", "mg/l", quantity.AsIon)}})
	must(t, err)
	at := map[working.Key]int{}
	for i, f := range j.Findings {
		at[f.Code] = i
	}
	order := []working.Key{"find.water.nitrite_act", "find.water.do.stop_feeding", "find.keeper.change_volume", "find.water.do.find_cause", "find.water.do.test_again", "find.water.nitrate_ok"}
	for i := 1; i < len(order); i++ {
		if a, b := at[order[i-1]], at[order[i]]; a >= b {
			t.Errorf("%s at %d, %s at %d", order[i-1], a, order[i], b)
		}
	}
}
