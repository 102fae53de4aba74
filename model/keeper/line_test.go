package keeper_test

import (
	"context"
	"math"
	"testing"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
)

// Conductivity counts as dissolved solids by the factor of the person's meter; the
// working names it, and says where it is the usual one.
func TestSolidsByTheFactorOfTheMeter(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	judged := func() keeper.Judgement {
		t.Helper()
		j, err := k.JudgeDraft(ctx, id, journal.Entry{At: "2026-11-25T12:00", Readings: []journal.Reading{r(journal.NameTDS, "500", "us/cm", "")}})
		must(t, err)
		if len(j.Trails) != 1 {
			t.Fatalf("%d workings", len(j.Trails))
		}
		return j
	}
	solids := func() float64 { return judged().Trails[0].Result.Value.X }
	usual := solids()
	if want := 500 * float64(water.SolidsFactor); math.Abs(usual-want) > 1e-9 {
		t.Errorf("500 µS/cm are %v mg/L, want %v", usual, want)
	}
	assumed := func() bool {
		for _, a := range judged().Trails[0].Assumes {
			if a == "assume.water.usual_factor" {
				return true
			}
		}
		return false
	}
	if !assumed() {
		t.Error("the usual factor is not told to be usual")
	}
	for _, bad := range []quantity.Ratio{-1, 0.49, 1.01, quantity.Ratio(math.NaN())} {
		if k.SetSolidsFactor(ctx, bad) == nil {
			t.Errorf("%v was taken", bad)
		}
	}
	must(t, k.SetSolidsFactor(ctx, 0.7))
	if f, own, err := k.SolidsFactor(ctx); err != nil || !own || f != 0.7 || math.Abs(solids()-350) > 1e-9 || assumed() {
		t.Errorf("%v %v %v: %v", f, own, err, solids())
	}
	tr, err := k.Traces(ctx, id, []string{journal.NameTDS}, "", "")
	must(t, err)
	if len(tr.Traces) != 0 {
		t.Errorf("a draft is drawn: %+v", tr)
	}
	must(t, k.SetSolidsFactor(ctx, 0))
	if f, own, err := k.SolidsFactor(ctx); err != nil || own || f != water.SolidsFactor || solids() != usual {
		t.Errorf("%v %v %v", f, own, err)
	}
	must(t, k.SetSetting(ctx, "solids_factor", "much"))
	if f, own, err := k.SolidsFactor(ctx); err != nil || own || f != water.SolidsFactor {
		t.Errorf("%v %v %v", f, own, err)
	}
}

// The form of a test begins with what was measured last.
func TestFormBeginsWithWhatWasMeasuredLast(t *testing.T) {
	ctx := context.Background()
	k := open(t, t.TempDir(), noon())
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	for at, rs := range map[journal.Civil][]journal.Reading{
		"2026-11-20T09:00": {r(journal.NameNitrite, "0", "mg/l", quantity.AsIon), r(journal.NamePH, "7.2", "ph", "")},
		"2026-11-24T09:00": {r(journal.NamePH, "7.2", "ph", ""), r(journal.NameKH, "5", "dkh", "")},
		"2026-11-22T09:00": {r(journal.NameGH, "8", "dgh", "")},
	} {
		_, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Tested, At: at, Readings: rs})
		must(t, err)
	}
	list, err := k.TestForm(ctx, id)
	must(t, err)
	want := []string{journal.NamePH, journal.NameKH, journal.NameGH, journal.NameNitrite, journal.NameAmmonia}
	for i, name := range want {
		if list[i].Name != name || list[i].Used != (i < 4) {
			t.Errorf("at %d stands %s, used %v, want %s", i, list[i].Name, list[i].Used, name)
		}
	}
}
