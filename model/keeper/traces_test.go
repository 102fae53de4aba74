package keeper_test

import (
	"bytes"
	"context"
	"math"
	"strings"
	"testing"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
)

func TestTraces(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank, err := k.StartTank(ctx, "Hall", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	of := func(name, number, unit string, b quantity.Basis) journal.Reading {
		return journal.Reading{Name: name, Measure: quantity.Measure{Number: number, Unit: quantity.UnitCode(unit), Basis: b}}
	}
	none := journal.Reading{Name: journal.NameNitrite, Qualifier: journal.NotDetected, Measure: quantity.Measure{Number: "0", Unit: "mg/l", Basis: quantity.AsN}}
	over := journal.Reading{Name: journal.NameNitrate, Qualifier: journal.OverRange, Measure: quantity.Measure{Number: "160", Unit: "mg/l", Basis: quantity.AsIon}}
	for _, e := range []journal.Entry{
		{Kind: journal.Tested, At: "2026-11-01T09:00", Readings: []journal.Reading{of(journal.NameAmmonia, "1", "mg/l", quantity.AsN), of(journal.NamePH, "8", "ph", ""), of(journal.NameTemperature, "25", "degc", ""), none}},
		{Kind: journal.Tested, At: "2026-11-04T09:00", Readings: []journal.Reading{of(journal.NameAmmonia, "1", "mg/l", quantity.AsN), of(journal.NameNitrate, "10", "mg/l", quantity.AsN)}}, // pH and temperature are three days old
		{Kind: journal.TapTested, At: "2026-11-05T09:00", Readings: []journal.Reading{of(journal.NameNitrate, "25", "mg/l", quantity.AsIon)}},
		{Kind: journal.Changed, At: "2026-11-05T10:00", Readings: []journal.Reading{of(journal.NameVolume, "12", "l", ""), of(journal.NameTemperature, "22", "degc", "")}},
		{Kind: journal.Tested, At: "2026-11-06T09:00", Readings: []journal.Reading{over}},
	} {
		if _, err := k.AddEntry(ctx, tank, e); err != nil {
			t.Fatal(err)
		}
	}
	tr, err := k.Traces(ctx, tank, keeper.TraceNames(), "", "")
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]keeper.Trace{}
	for _, x := range tr.Traces {
		got[x.Name] = x
	}
	// Source: 5.38 % of ammonia un-ionised at pH 8 and 25 °C, Emerson et al. 1975.
	if u := got[keeper.TraceUnionised].Points; len(u) != 1 || math.Abs(u[0].Y-0.0538) > 0.0002 {
		t.Errorf("un-ionised: %+v", u)
	}
	if n := got[journal.NameNitrite].Points; len(n) != 1 || n[0].Qualifier != journal.NotDetected || n[0].Y <= 0 {
		t.Errorf("not detected is drawn at what the kit can see: %+v", n)
	}
	// 10 mg/L as nitrogen is 44.3 mg/L as nitrate. Source: molar masses 62.005 and 14.007.
	if n := got[journal.NameNitrate].Points; len(n) != 2 || math.Abs(n[0].Y-44.27) > 0.01 || n[1].Qualifier != journal.OverRange || n[1].Y != 160 {
		t.Errorf("nitrate: %+v", n)
	}
	if v := got[journal.NameVolume]; !v.Sums || len(v.Points) != 1 {
		t.Errorf("water changed: %+v", v)
	}
	if x := got[journal.NameTemperature].Points; len(x) != 1 { // new water is not the tank's
		t.Errorf("temperature: %+v", x)
	}
	if len(tr.Events) != 1 || tr.First != "2026-11-01" || tr.Last != "2026-11-06" {
		t.Errorf("events %+v from %s to %s", tr.Events, tr.First, tr.Last)
	}
	tr, err = k.Traces(ctx, tank, []string{journal.NameNitrate}, "2026-11-05", "2026-11-06")
	if err != nil || len(tr.Traces) != 1 || len(tr.Traces[0].Points) != 1 {
		t.Errorf("two days of nitrate: %+v, %v", tr.Traces, err)
	}
	var b bytes.Buffer
	if err := k.WriteTraces(ctx, tank, []string{journal.NameNitrate}, "2026-11-02", "", &b); err != nil || strings.Count(b.String(), "nitrate") != 2 || strings.Contains(b.String(), "ammonia") {
		t.Errorf("the table: %v\n%s", err, b.String())
	}
	tr, err = k.Traces(ctx, tank, []string{keeper.TraceUnionised}, "", "")
	if err != nil || len(tr.Traces) != 1 {
		t.Fatalf("un-ionised: %+v, %v", tr.Traces, err)
	}
	b.Reset()
	if err := k.WriteTraces(ctx, tank, []string{keeper.TraceUnionised}, "", "", &b); err != nil || strings.Count(b.String(), ",unionised,") != len(tr.Traces[0].Points) || !strings.Contains(b.String(), ",ammonia,") {
		t.Errorf("the table of what is un-ionised: %v\n%s", err, b.String())
	}
}

// Doses that were weighed and doses that were measured out are two courses, and none is
// left out.
func TestDosesOfTwoKinds(t *testing.T) {
	ctx, c := context.Background(), noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	tank, err := k.StartTank(ctx, "Hall", quantity.Metric)
	must(t, err)
	for i, m := range []quantity.Measure{{Number: "5", Unit: "ml"}, {Number: "3", Unit: "g"}, {Number: "6", Unit: "ml"}, {Number: "4", Unit: "g"}, {Number: "7", Unit: "ml"}} {
		_, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Dosed, At: journal.Civil("2026-11-0" + string(rune('1'+i)) + "T09:00"), Readings: []journal.Reading{{Name: journal.NameDose, Measure: m}}})
		must(t, err)
	}
	tr, err := k.Traces(ctx, tank, keeper.TraceNames(), "", "")
	must(t, err)
	if len(tr.Traces) != 2 || tr.Traces[0].Kind != quantity.KindVolume || len(tr.Traces[0].Points) != 3 || tr.Traces[1].Kind != quantity.KindMass || len(tr.Traces[1].Points) != 2 {
		t.Errorf("%+v", tr.Traces)
	}
}
