package keeper_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// A test is judged at once, ammonia by its un-ionised share. Source: UF/IFAS
// FA16, TAN 1.0 mg/L at pH 8.0 and 24 °C is 0.050 mg/L un-ionised, where harm
// begins; at pH 7.0 the same TAN is a tenth of that. Nitrite: OATA 0.2 mg/L.
func TestWaterTestsAreJudged(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	r := func(name, number string, unit quantity.UnitCode, basis quantity.Basis) journal.Reading {
		return journal.Reading{Name: name, Measure: quantity.Measure{Number: number, Unit: unit, Basis: basis}}
	}
	judge := func(readings ...journal.Reading) keeper.Judgement {
		e, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Tested, Readings: readings})
		must(t, err)
		all, err := k.Judge(ctx, id)
		must(t, err)
		return all[e]
	}
	warm := r(journal.NameTemperature, "24", "degc", "")
	for _, x := range []struct {
		name  string
		want  working.State
		given []journal.Reading
	}{
		{"ammonia at pH 7", working.Steady, []journal.Reading{r(journal.NameAmmonia, "1.0", "mg/l", quantity.AsN), r(journal.NamePH, "7.0", "ph", ""), warm}},
		{"ammonia at pH 8.2", working.Act, []journal.Reading{r(journal.NameAmmonia, "1.0", "mg/l", quantity.AsN), r(journal.NamePH, "8.2", "ph", ""), warm}},
		{"nitrite of 1 mg/L as nitrogen", working.Act, []journal.Reading{r(journal.NameNitrite, "1.0", "mg/l", quantity.AsN), r(journal.NamePH, "7.0", "ph", ""), warm}},
		{"nitrite of 0.15 mg/L", working.Steady, []journal.Reading{r(journal.NameNitrite, "0.15", "mg/l", quantity.AsIon), r(journal.NamePH, "7.0", "ph", ""), warm}},
	} {
		if got := judge(x.given...); got.State != x.want {
			t.Errorf("%s: %s, want %s; %v", x.name, got.State, x.want, got.Findings)
		}
	}
	// A line of one's own makes an emergency of what only called to act: TAN 1.9 at
	// pH 8.0 and 25 °C holds 0.10 mg/L (TAN of 3.727 mg/L holds 0.20 there).
	given := []journal.Reading{r(journal.NameAmmonia, "1.9", "mg/l", quantity.AsN), r(journal.NamePH, "8.0", "ph", ""), r(journal.NameTemperature, "25", "degc", "")}
	emergency := func() bool {
		for _, f := range judge(given...).Findings {
			if f.Code == "find.water.nh3_emergency" {
				return true
			}
		}
		return false
	}
	if emergency() {
		t.Error("0.10 mg/L is an emergency without a line of one's own")
	}
	for _, bad := range []quantity.Measure{{Number: "5", Unit: "mg/l"}, {Number: "0.1", Unit: "cm"}, {Number: "x", Unit: "mg/l"}} {
		if k.SetEmergencyLine(ctx, bad) == nil {
			t.Errorf("%+v was taken", bad)
		}
	}
	must(t, k.SetEmergencyLine(ctx, quantity.Measure{Number: "0.10", Unit: "mg/l"}))
	if m, err := k.EmergencyLine(ctx); err != nil || m.Number != "0.10" || m.Basis != quantity.AsN || !emergency() {
		t.Errorf("the line of 0.10 mg/L: %+v, %v", m, err)
	}
	must(t, k.SetEmergencyLine(ctx, quantity.Measure{}))
	if emergency() {
		t.Error("the usual line did not come back")
	}
	nothing := r(journal.NameNitrite, "0", "mg/l", quantity.AsN)
	nothing.Qualifier = journal.NotDetected
	for _, f := range judge(nothing).Findings {
		if f.State == working.Act {
			t.Errorf("not detected asks to act: %v", f)
		}
	}
}

// A card of colours judges by the ways between them, and its working shows them: two
// colours that lie side by side are no course, and the figure is no finer than the card.
func TestCardIsJudgedByItsColours(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	id, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	card := journal.TestKit{Name: "drops", Reading: journal.NameNitrite, Unit: "mg/l", Basis: quantity.AsIon, Steps: []string{"0", "0.25", "0.5", "1", "2", "4"}}
	card.ID, err = k.AddKit(ctx, card)
	must(t, err)
	judge := func(number string, basis quantity.Basis) keeper.Judgement {
		t.Helper()
		c.t = c.t.AddDate(0, 0, 1)
		r := journal.Reading{Name: journal.NameNitrite, Measure: quantity.Measure{Number: number, Unit: "mg/l", Basis: basis}, Kit: card.ID}
		e, err := k.AddEntry(ctx, id, journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{r}})
		must(t, err)
		all, err := k.Judge(ctx, id)
		must(t, err)
		return all[e]
	}
	course := func(j keeper.Judgement) bool {
		return slices.ContainsFunc(j.Findings, func(f working.Finding) bool { return f.Code == "find.water.rising" })
	}
	judge("0.25", quantity.AsIon)
	judge("0.25", quantity.AsIon)
	if j := judge("0.5", quantity.AsIon); course(j) {
		t.Errorf("0.25 to 0.5 is a course: %v", j.Findings)
	}
	judge("1", quantity.AsIon)
	j := judge("2", quantity.AsIon)
	if !course(j) {
		t.Errorf("0.25 to 2 is none: %v", j.Findings)
	}
	if len(j.Trails) != 1 || j.Trails[0].Spread == nil || math.Abs(j.Trails[0].Spread.Low.X-1.5) > 1e-9 || math.Abs(j.Trails[0].Spread.High.X-3) > 1e-9 {
		t.Errorf("the working is %+v, want 2 between 1.5 and 3", j.Trails)
	}
	// Written down as nitrogen, the room of the card is that of the ion all the same.
	// Source: IUPAC standard atomic weights 2021, 14.007 of 46.005 g/mol.
	j = judge("0.3045", quantity.AsN)
	if s := j.Trails[0].Spread; math.Abs(s.Low.X-0.75) > 2e-3 || math.Abs(s.High.X-1.5) > 2e-3 {
		t.Errorf("1 mg/L of the ion written as nitrogen lies between %v and %v, want 0.75 and 1.5", s.Low.X, s.High.X)
	}
}
