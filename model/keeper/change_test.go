package keeper_test

import (
	"context"
	"math"
	"testing"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func found(fs []working.Finding, code working.Key) (working.Finding, bool) {
	for _, f := range fs {
		if f.Code == code {
			return f, true
		}
	}
	return working.Finding{}, false
}

// exampleTank is the example of 57 L of the shop, filled.
func exampleTank(t *testing.T) (*keeper.Keeper, string, *clock) {
	t.Helper()
	c := noon()
	k := open(t, t.TempDir(), c)
	id, err := k.MakeExample(context.Background(), words())
	must(t, err)
	return k, id, c
}

// hourly writes entries into the daybook of a tank, each an hour after the one before.
func hourly(t *testing.T, k *keeper.Keeper, id string, c *clock) func(kind journal.Kind, rs ...journal.Reading) string {
	return func(kind journal.Kind, rs ...journal.Reading) string {
		t.Helper()
		c.t = c.t.Add(time.Hour)
		e, err := k.AddEntry(context.Background(), id, journal.Entry{Kind: kind, Readings: rs})
		must(t, err)
		return e
	}
}

// In an emergency the helper takes the half that the test asks for: it does not call it
// too much. Once a change is written down, the usual size is gentle again until the
// next test.
func TestTheHelperKnowsAnEmergency(t *testing.T) {
	ctx := context.Background()
	k, id, c := exampleTank(t)
	defer k.Close()
	large := func(share string) bool {
		t.Helper()
		p, err := k.PlanChange(ctx, id, keeper.ChangeAsk{Way: keeper.ByShare, Share: quantity.Measure{Number: share, Unit: "percent"}})
		must(t, err)
		for _, x := range p.Checks {
			if x.Finding != nil && x.Finding.Code == "find.water.change_large" {
				return true
			}
		}
		return false
	}
	add := hourly(t, k, id, c)
	if !large("50") {
		t.Error("a half is gentle with nothing wrong")
	}
	e := add(journal.Tested, r(journal.NameAmmonia, "4", "mg/l", quantity.AsN), r(journal.NamePH, "8.2", "ph", ""), r(journal.NameTemperature, "25", "degc", ""))
	j, err := k.Judge(ctx, id)
	must(t, err)
	if j[e].Advice == nil || j[e].Advice.Share != 0.5 {
		t.Fatalf("the test asks for %+v", j[e].Advice)
	}
	if large("50") || !large("60") {
		t.Errorf("in an emergency: a half too large %v, six tenths %v", large("50"), large("60"))
	}
	add(journal.Temperature, r(journal.NameTemperature, "25", "degc", ""))
	if large("50") {
		t.Error("a thermometer ends no emergency")
	}
	add(journal.Changed, r(journal.NameVolume, "25", "l", ""))
	if !large("50") {
		t.Error("a half right after a change is called gentle")
	}
}

// By hand: nitrate of 80 mg/L with 10 in the tap, a quarter changed, is 62.5; a
// test that shows it confirms the change, one that shows 20 does not.
func TestTheNextTestConfirmsTheChange(t *testing.T) {
	ctx := context.Background()
	k, id, c := exampleTank(t)
	defer k.Close()
	add := hourly(t, k, id, c)
	plan, err := k.PlanChange(ctx, id, keeper.ChangeAsk{Way: keeper.ByShare, Share: quantity.Measure{Number: "25", Unit: "percent"}})
	must(t, err)
	if len(plan.Predicted) != 0 || plan.TapKnown {
		t.Errorf("predicted of an unknown tap: %+v", plan.Predicted)
	}
	add(journal.TapTested, r(journal.NameNitrate, "10", "mg/l", quantity.AsIon))
	add(journal.Tested, r(journal.NameNitrate, "80", "mg/l", quantity.AsIon))
	plan, err = k.PlanChange(ctx, id, keeper.ChangeAsk{Way: keeper.ByShare, Share: quantity.Measure{Number: "25", Unit: "percent"}})
	must(t, err)
	if len(plan.Predicted) != 1 || math.Abs(plan.Predicted[0].After.X-62.5) > 1e-9 || plan.Predicted[0].Low.X >= 62.5 || plan.Predicted[0].High.X <= 62.5 {
		t.Fatalf("predicted: %+v", plan.Predicted)
	}
	litres := quantity.Of(plan.Volume.Litres(), "l", 12)
	add(journal.Changed, journal.Reading{Name: journal.NameVolume, Measure: litres})
	e := add(journal.Tested, r(journal.NameNitrate, "60", "mg/l", quantity.AsIon))
	j, err := k.Judge(ctx, id)
	must(t, err)
	f, ok := found(j[e].Findings, "find.keeper.predicted")
	if !ok || math.Abs(f.Values["Expected"].X-62.5) > 1e-6 {
		t.Errorf("%v", j[e].Findings)
	}
	draft, err := k.JudgeDraft(ctx, id, journal.Entry{ID: e, At: journal.CivilOf(c.t), Readings: []journal.Reading{r(journal.NameNitrate, "20", "mg/l", quantity.AsIon)}})
	must(t, err)
	if _, ok := found(draft.Findings, "find.keeper.predicted_off"); !ok {
		t.Errorf("20 mg/L: %v", draft.Findings)
	}
	if x, _ := k.Entry(ctx, id, e); x.Readings[0].Measure.Number != "60" {
		t.Error("a draft was kept")
	}
	// A day later the tank itself has had its say.
	c.t = c.t.Add(30 * time.Hour)
	e = add(journal.Tested, r(journal.NameNitrate, "60", "mg/l", quantity.AsIon))
	j, err = k.Judge(ctx, id)
	must(t, err)
	if _, ok := found(j[e].Findings, "find.keeper.predicted"); ok {
		t.Error("a test of the next day confirms the change")
	}
}

// Nitrite of 4 mg/L with none in the tap needs 95 % changed to come to 0.2 (OATA),
// which no fish would stand: at once it is the usual 30 %, nine times over.
// By hand: 0.7^8 = 0.0576, 0.7^9 = 0.0404.
func TestHowMuchToChange(t *testing.T) {
	ctx := context.Background()
	k, id, _ := exampleTank(t)
	defer k.Close()
	at := journal.Civil("2026-11-25T11:00")
	j, err := k.JudgeDraft(ctx, id, journal.Entry{At: at, Readings: []journal.Reading{r(journal.NameNitrite, "4", "mg/l", quantity.AsIon), r(journal.NamePH, "7", "ph", "")}})
	must(t, err)
	a := j.Advice
	if a == nil || math.Abs(float64(a.Share)-0.30) > 1e-9 || a.Held != "q.water.change_size" || a.Times != 9 || a.For != "q.water.nitrite" {
		t.Fatalf("advice %+v of %v", a, j.Findings)
	}
	if !a.Dose.Known() || a.Volume <= 0 || a.Dosed <= 0 {
		t.Errorf("no conditioner: %+v", a)
	}
	for _, code := range []working.Key{"find.keeper.change_volume", "find.keeper.change_held", "find.keeper.change_times", "find.keeper.change_dose"} {
		if _, ok := found(j.Findings, code); !ok {
			t.Errorf("%s is not said", code)
		}
	}
	if _, ok := found(j.Findings, "find.water.do.change_share"); ok {
		t.Error("the bare share is said as well")
	}
	// Hard tap water against a soft tank holds the change back: 1000 of dissolved
	// solids against 100 move by a fifth at 2.2 %.
	add := func(kind journal.Kind, rs ...journal.Reading) {
		_, err := k.AddEntry(ctx, id, journal.Entry{Kind: kind, At: "2026-11-25T10:00", Readings: rs})
		must(t, err)
	}
	add(journal.TapTested, r(journal.NameTDS, "1000", "mg/l", ""))
	j, err = k.JudgeDraft(ctx, id, journal.Entry{At: at, Readings: []journal.Reading{r(journal.NameNitrite, "4", "mg/l", quantity.AsIon), r(journal.NameTDS, "100", "mg/l", "")}})
	must(t, err)
	if a := j.Advice; a == nil || a.Held != "q.water.tds_step" || math.Abs(float64(a.Share)-0.02) > 1e-9 {
		t.Errorf("advice %+v", j.Advice)
	}
	// In order, nothing is to be changed.
	j, err = k.JudgeDraft(ctx, id, journal.Entry{At: at, Readings: []journal.Reading{r(journal.NameNitrite, "0.1", "mg/l", quantity.AsIon)}})
	must(t, err)
	if j.Advice != nil {
		t.Errorf("advice without need: %+v", j.Advice)
	}
}

// Three ways to measure one change agree; what cannot be is refused by its field.
func TestChangesMeasuredThreeWays(t *testing.T) {
	ctx := context.Background()
	k, id, _ := exampleTank(t)
	defer k.Close()
	a, err := k.ChangeDefaults(ctx, id)
	must(t, err)
	p, err := k.PlanChange(ctx, id, a)
	must(t, err)
	if p.Volume <= 0 || p.Treated == nil || p.Hot <= 0 || p.Cold <= 0 || !p.PerBucket || len(p.Trails) < 3 {
		t.Errorf("%+v of %+v", p, a)
	}
	if got := p.Hot + p.Cold; math.Abs(float64(got)-float64(p.Volume)) > float64(p.Volume) {
		t.Errorf("hot and cold are %v", got)
	}
	share := keeper.ChangeAsk{Way: keeper.ByShare, Share: quantity.Of(float64(p.Share)*100, "percent", 12)}
	q, err := k.PlanChange(ctx, id, share)
	must(t, err)
	if math.Abs(float64(q.Volume-p.Volume)) > 1e-9 {
		t.Errorf("by share %v, by buckets %v", q.Volume, p.Volume)
	}
	d, err := k.PlanChange(ctx, id, keeper.ChangeAsk{Way: keeper.ByDrop, Drop: quantity.Measure{Number: "2", Unit: "in"}})
	must(t, err)
	e, err := k.PlanChange(ctx, id, keeper.ChangeAsk{Way: keeper.ByDrop, Drop: quantity.Measure{Number: "50.8", Unit: "mm"}})
	must(t, err)
	if math.Abs(float64(d.Volume-e.Volume)) > 1e-9 || d.Low >= d.Volume || d.High <= d.Volume {
		t.Errorf("2 in %v, 50.8 mm %v", d.Volume, e.Volume)
	}
	for want, ask := range map[string]keeper.ChangeAsk{
		"way":     {},
		"drop":    {Way: keeper.ByDrop, Drop: quantity.Measure{Number: "3", Unit: "m"}},
		"share":   {Way: keeper.ByShare, Share: quantity.Measure{Number: "250", Unit: "percent"}},
		"bucket":  {Way: keeper.ByBuckets, Buckets: quantity.Measure{Number: "2", Unit: "piece"}},
		"buckets": {Way: keeper.ByBuckets, Buckets: quantity.Measure{Number: "9999999", Unit: "piece"}, Bucket: a.Bucket},
		"cold":    {Way: keeper.ByShare, Share: a.Share, Cold: quantity.Measure{Number: "1", Unit: "kg"}, Hot: a.Hot},
	} {
		if _, err := k.PlanChange(ctx, id, ask); field(err) != want {
			t.Errorf("%+v: %v, want a refusal of %s", ask, err, want)
		}
	}
}

// Topping up is no change: salts come on top, and nitrate is not made less.
func TestTopUpsAreNoChanges(t *testing.T) {
	ctx := context.Background()
	k, id, c := exampleTank(t)
	defer k.Close()
	for _, e := range []journal.Entry{{Kind: journal.TapTested, Readings: []journal.Reading{r(journal.NameGH, "100", "mg/l_caco3", "")}},
		{Kind: journal.Tested, Readings: []journal.Reading{r(journal.NameGH, "200", "mg/l_caco3", ""), r(journal.NameNitrate, "40", "mg/l", quantity.AsIon)}}} {
		c.t = c.t.Add(time.Minute)
		_, err := k.AddEntry(ctx, id, e)
		must(t, err)
	}
	p, err := k.PlanChange(ctx, id, keeper.ChangeAsk{Way: keeper.ByShare, Share: quantity.Measure{Number: "10", Unit: "percent"}, TopUp: true})
	must(t, err)
	if len(p.Predicted) != 1 || math.Abs(p.Predicted[0].After.X-210) > 1e-9 {
		t.Errorf("predicted %+v", p.Predicted)
	}
	c.t = c.t.Add(time.Hour)
	_, err = k.AddEntry(ctx, id, journal.Entry{Kind: journal.ToppedUp, Readings: []journal.Reading{r(journal.NameVolume, "20", "l", "")}})
	must(t, err)
	j, err := k.JudgeDraft(ctx, id, journal.Entry{At: journal.CivilOf(c.t.Add(24 * time.Hour)), Readings: []journal.Reading{r(journal.NameNitrate, "10", "mg/l", quantity.AsIon)}})
	must(t, err)
	if _, ok := found(j.Findings, "find.water.nitrate_halved"); !ok {
		t.Errorf("topping up explains a fall of nitrate: %v", j.Findings)
	}
}

// The form of a test remembers what is measured and with which kit.
func TestTheFormOfATestRemembers(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	used := func() (names []string, kit string) {
		t.Helper()
		list, err := k.TestForm(ctx, id)
		must(t, err)
		if len(list) != len(journal.Tests()) {
			t.Fatalf("%d are offered", len(list))
		}
		for _, a := range list {
			if a.Used {
				names = append(names, a.Name)
			}
			if a.Name == journal.NameNitrite && a.Kit != nil {
				kit = a.Kit.ID
			}
		}
		return names, kit
	}
	if names, _ := used(); len(names) != 5 {
		t.Errorf("at first %v", names)
	}
	c := card()
	c.Reading = journal.NameNitrite
	old, err := k.AddKit(ctx, c)
	must(t, err)
	fresh, err := k.AddKit(ctx, c)
	must(t, err)
	x := r(journal.NameNitrite, "0.25", "mg/l", quantity.AsIon)
	x.Kit = fresh
	_, err = k.AddEntry(ctx, id, journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{x}})
	must(t, err)
	if names, kit := used(); len(names) != 1 || names[0] != journal.NameNitrite || kit != fresh || old == fresh {
		t.Errorf("%v with kit %q, want nitrite with %q", names, kit, fresh)
	}
	// The kit's step of 0.25 leaves the reading on either side of 0.2 mg/L.
	j, err := k.Judge(ctx, id)
	must(t, err)
	for _, v := range j {
		if _, ok := found(v.Findings, "find.water.either_side"); !ok {
			t.Errorf("%v", v.Findings)
		}
	}
}
