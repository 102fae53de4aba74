package shell_test

import (
	"context"
	"encoding/csv"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// measuredTank is a tank with two tests, one of them of a year ago, and a change.
func measuredTank(t *testing.T, s stage, name string) string {
	t.Helper()
	ctx := context.Background()
	id, err := s.k.StartTank(ctx, name, quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	of := func(name, number, unit string, b quantity.Basis) journal.Reading {
		return journal.Reading{Name: name, Measure: quantity.Measure{Number: number, Unit: quantity.UnitCode(unit), Basis: b}}
	}
	for _, e := range []journal.Entry{
		{Kind: journal.Tested, At: "2025-12-01T09:00", Readings: []journal.Reading{of(journal.NameNitrate, "20", "mg/l", quantity.AsIon)}},
		{Kind: journal.Changed, At: "2026-11-18T09:00", Readings: []journal.Reading{of(journal.NameVolume, "9", "l", "")}},
		{Kind: journal.Tested, At: "2026-11-20T09:00", Readings: []journal.Reading{of(journal.NameNitrate, "10", "mg/l", quantity.AsN), of(journal.NamePH, "7.4", "ph", ""),
			of(journal.NameAmmonia, "0.5", "mg/l", quantity.AsN), of(journal.NameTemperature, "25", "degc", ""),
			{Name: journal.NameNitrite, Qualifier: journal.NotDetected, Measure: quantity.Measure{Number: "0", Unit: "mg/l", Basis: quantity.AsIon}}}},
		{Kind: journal.TapTested, At: "2026-11-21T09:00", Readings: []journal.Reading{of(journal.NamePH, "8.1", "ph", "")}},
	} {
		if _, err := s.k.AddEntry(ctx, id, e); err != nil {
			t.Fatal(err)
		}
	}
	return id
}

// The charts in Spanish by keyboard: spans, the values at a stop, closer and back,
// the table behind them, and what is saved.
func TestChartsByKeyboard(t *testing.T) {
	s := open(t, spanish())
	id := measuredTank(t, s, "Sala")
	s.Go(nav.Route{Place: nav.Charts, Tank: id})
	for _, want := range []string{"Cambio de agua", "no detectado: por debajo de la marca abierta"} {
		if got := s.inView(); !strings.Contains(got, want) {
			t.Errorf("%q is not in %s", want, got)
		}
	}
	s.at(t, "flip")
	c := s.w.Canvas()
	for range 20 { // to the first chart
		c.FocusNext()
		if parts.IDOf(c.Focused()) == "" {
			break
		}
	}
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	if got := s.inView(); !strings.Contains(got, "20 nov 2026, 09:00") || !strings.Contains(got, "0,5") {
		t.Errorf("no values at the stop: %s", got)
	}
	c.Focused().TypedRune('+')
	if got := s.inView(); !strings.Contains(got, "Volver al periodo más largo") {
		t.Errorf("no way back: %s", got)
	}
	s.hit(t, "whole", fyne.KeyReturn)
	if got := s.inView(); strings.Contains(got, "Volver al periodo más largo") {
		t.Error("the way back stays")
	}
	s.hit(t, "flip", fyne.KeyReturn)
	if got := s.inView(); !strings.Contains(got, "nitrato 10") || strings.Contains(got, "nitrato 20") || strings.Contains(got, "8,1") {
		t.Errorf("the table of three months: %s", got)
	}
	s.hit(t, "span_page.chart.all", fyne.KeyReturn)
	if got := s.inView(); !strings.Contains(got, "nitrato 20") {
		t.Errorf("the table of all: %s", got)
	}
	s.hit(t, "save-table", fyne.KeyReturn)
	data, err := os.ReadFile(filepath.Join(s.papers, "driploop-measured.csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(data), "\ufeff"))).ReadAll()
	if err != nil || len(rows) != 9 { // a head, two of nitrate, five of the test and its un-ionised share, one of the change
		t.Errorf("%d rows of the table: %v", len(rows), err)
	}
	s.hit(t, "flip", fyne.KeyReturn)
	s.hit(t, "save-picture", fyne.KeyReturn)
	f, err := os.Open(filepath.Join(s.papers, "driploop-charts.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if img, err := png.Decode(f); err != nil || img.Bounds().Dx() != 1800 || img.Bounds().Dy() < 7*460 {
		t.Errorf("the picture: %v", err)
	}
	s.hit(t, "span_page.chart.days_30", fyne.KeyReturn)
	s.at(t, "from")
	c.Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, r := range "1/1/2024" {
		c.Focused().TypedRune(r)
	}
	s.at(t, "to")
	c.Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, r := range "1/2/2024" {
		c.Focused().TypedRune(r)
	}
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := s.inView(); !strings.Contains(got, "no se midió nada") {
		t.Errorf("an empty span: %s", got)
	}
}

// Two tanks are told apart by name and sign.
func TestChartsOfTwoTanks(t *testing.T) {
	s := open(t, spanish())
	a, b := measuredTank(t, s, "Sala"), measuredTank(t, s, "Estudio")
	s.Go(nav.Route{Place: nav.Charts, Tank: a})
	s.at(t, "beside")
	s.key(fyne.KeySpace, fyne.KeyDown, fyne.KeyReturn)
	if got := s.inView(); !strings.Contains(got, "Estudio") {
		t.Errorf("%s is not beside %s: %s", b, a, got)
	}
}

// The list of tanks on the bar leads from tank to tank at the same place; one out
// of use stays readable, is marked, and can be taken back.
func TestTanksFromTheBar(t *testing.T) {
	s := open(t, english())
	ctx := context.Background()
	a, b := measuredTank(t, s, "Hall"), measuredTank(t, s, "Study")
	if err := s.k.RetireTank(ctx, b); err != nil {
		t.Fatal(err)
	}
	s.Go(nav.Route{Place: nav.Daybook, Tank: a})
	s.hit(t, "tanks", fyne.KeyReturn)
	if got := s.texts(); !strings.Contains(got, "Study, out of use") || !strings.Contains(got, "Set up another tank") {
		t.Fatalf("the list of tanks: %s", got)
	}
	s.key(fyne.KeyDown, fyne.KeyReturn)
	if r := s.Route(); r.Tank != b || r.Place != nav.Daybook {
		t.Fatalf("the list leads to %+v", r)
	}
	if got := s.inView(); !strings.Contains(got, "nitrate 10") {
		t.Errorf("a tank out of use cannot be read: %s", got)
	}
	s.Go(nav.Route{Place: nav.Start})
	if got := s.inView(); !strings.Contains(got, "Out of use since") {
		t.Errorf("the first page: %s", got)
	}
	s.Go(nav.Route{Place: nav.Today, Tank: b})
	s.Undo()
	if ts, err := s.k.Tanks(ctx); err != nil || !ts[1].Retired.IsZero() {
		t.Errorf("not taken back: %+v, %v", ts, err)
	}
}
