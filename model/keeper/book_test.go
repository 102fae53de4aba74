package keeper

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
)

// Whatever is written, changed, deleted, taken back and made again, the journal
// that is kept up to date is the one that would be read from the disk.
func TestTheJournalFollowsEveryChange(t *testing.T) {
	ctx := context.Background()
	night := time.Date(2026, 10, 25, 1, 30, 0, 0, time.FixedZone("", 2*3600)) // when clocks go back
	clock := night
	k, err := Open(ctx, t.TempDir(), Options{Now: func() time.Time { return clock }})
	if err != nil {
		t.Fatal(err)
	}
	defer k.Close()
	rapid.Check(t, func(t *rapid.T) {
		clock = night
		var tanks []string
		for _, name := range []string{"Hall", "Study"} {
			id, err := k.StartTank(ctx, name, quantity.Metric)
			if err != nil {
				t.Fatal(err)
			}
			tanks = append(tanks, id)
		}
		entry := func() journal.Entry {
			e := journal.Entry{Kind: rapid.SampledFrom([]journal.Kind{journal.Fed, journal.Tested, journal.Changed, journal.Temperature}).Draw(t, "kind"),
				Note: rapid.SampledFrom([]string{"", "clear", "Ángel sleeps"}).Draw(t, "note")}
			if rapid.Bool().Draw(t, "dated") {
				e.At = journal.CivilOf(clock.Add(-time.Duration(rapid.IntRange(0, 4000).Draw(t, "minutes")) * time.Minute))
			}
			e.Readings = []journal.Reading{{Name: journal.NameTemperature, Measure: quantity.Measure{Number: fmt.Sprint(rapid.IntRange(18, 30).Draw(t, "t")), Unit: "degc"}}}
			if rapid.Bool().Draw(t, "two") {
				e.Readings = append(e.Readings, journal.Reading{Name: journal.NameNitrite, Qualifier: journal.NotDetected, Measure: quantity.Measure{Number: "0.05", Unit: "mg/l", Basis: quantity.AsIon}})
			}
			return e
		}
		some := func(tank string) (journal.Entry, bool) {
			l, err := k.Ledger(ctx, tank, LedgerFilter{})
			if err != nil {
				t.Fatal(err)
			}
			if l.Len() == 0 {
				return journal.Entry{}, false
			}
			return l.Entry(rapid.IntRange(0, l.Len()-1).Draw(t, "which")), true
		}
		held := map[string]*Ledger{} // what somebody looked at earlier stays as it was
		was := map[string][]journal.Entry{}
		for range rapid.IntRange(1, 25).Draw(t, "steps") {
			tank := rapid.SampledFrom(tanks).Draw(t, "tank")
			var err error
			switch rapid.IntRange(0, 6).Draw(t, "do") {
			case 0, 1, 2:
				clock = clock.Add(time.Duration(rapid.IntRange(0, 90).Draw(t, "later")) * time.Minute)
				_, err = k.AddEntry(ctx, tank, entry())
			case 3:
				if e, ok := some(tank); ok {
					n := entry()
					n.ID, n.Kind = e.ID, e.Kind
					if n.At == "" {
						n.At = e.At
					}
					err = k.EditEntry(ctx, tank, n)
				}
			case 4:
				if e, ok := some(tank); ok {
					err = k.DeleteEntry(ctx, tank, e.ID)
				}
			case 5:
				_, _, err = k.Undo(ctx, tank)
			case 6:
				_, _, err = k.Redo(ctx, tank)
			}
			if err != nil && !errors.Is(err, store.ErrNothing) {
				t.Fatal(err)
			}
			for _, id := range tanks {
				l, err := k.Ledger(ctx, id, LedgerFilter{})
				if err != nil {
					t.Fatal(err)
				}
				plain, err := plainEntries(ctx, k, id)
				if err != nil {
					t.Fatal(err)
				}
				if got := all(l); !reflect.DeepEqual(got, plain) {
					t.Fatalf("held\n%v\nread\n%v", got, plain)
				}
				if old := held[id]; old != nil && !reflect.DeepEqual(all(old), was[id]) {
					t.Fatal("what was handed out has changed")
				}
				held[id], was[id] = l, plain
			}
		}
	})
}

// all gives the entries of a ledger, the newest first.
func all(l *Ledger) []journal.Entry {
	out := []journal.Entry{}
	for i := range l.Len() {
		out = append(out, l.Entry(i))
	}
	return out
}

// plainEntries reads row by row, as a program without any memory would.
func plainEntries(ctx context.Context, k *Keeper, tank string) ([]journal.Entry, error) {
	rows, err := k.st.Load(ctx, "entry", map[string]any{"tank": tank, "deleted": nil}, "at desc, seq desc")
	if err != nil {
		return nil, err
	}
	out := []journal.Entry{}
	for _, row := range rows {
		e := entryOf(row)
		values, err := k.st.Load(ctx, "entry_value", map[string]any{"entry": e.ID}, "name")
		if err != nil {
			return nil, err
		}
		for _, v := range values {
			e.Readings = append(e.Readings, readingOf(v))
		}
		out = append(out, e)
	}
	return out, nil
}

// A filter chooses what going through all entries by hand would.
func TestLedgerFilters(t *testing.T) {
	ctx := context.Background()
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	k, err := Open(ctx, t.TempDir(), Options{Now: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	defer k.Close()
	tank, err := k.StartTank(ctx, "Hall", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	ids := map[string]string{}
	for i, e := range []struct {
		name string
		kind journal.Kind
		note string
		what string
	}{{"angel", journal.Noticed, "El pez ángel nada de lado", ""}, {"plural", journal.Note, "Tres peces ángeles", ""}, {"inside", journal.Note, "triangle of stones", ""},
		{"han", journal.Note, "今天换水三分之一", ""}, {"food", journal.Fed, "", "Frozen dáphnia"}, {"operator", journal.Note, `NEAR the filter OR "pump"`, ""}} {
		x := journal.Entry{Kind: e.kind, Note: e.note, At: journal.CivilOf(now.AddDate(0, 0, -i))}
		if e.what != "" {
			x.Readings = []journal.Reading{journal.Said(journal.NameWhat, e.what)}
		}
		if ids[e.name], err = k.AddEntry(ctx, tank, x); err != nil {
			t.Fatal(err)
		}
	}
	fish, err := k.AddFish(ctx, tank, Fish{Name: "Ángel", Count: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		f    LedgerFilter
		want []string
	}{
		{LedgerFilter{Text: "angel"}, []string{"angel", "plural"}},
		{LedgerFilter{Text: "ÁNGEL lado"}, []string{"angel"}},
		{LedgerFilter{Text: "lado pez"}, []string{"angel"}},
		{LedgerFilter{Text: "ngel"}, nil},
		{LedgerFilter{Text: "换水"}, []string{"han"}},
		{LedgerFilter{Text: "水换"}, nil},
		{LedgerFilter{Text: "daph"}, []string{"food"}},
		{LedgerFilter{Text: "near or"}, []string{"operator"}},
		{LedgerFilter{Text: `"`}, nil},
		{LedgerFilter{Text: `pump" OR note:*`}, nil},
		{LedgerFilter{Kind: journal.Noticed}, []string{"angel"}},
		{LedgerFilter{Kind: journal.Noticed, Text: "triangle"}, nil},
		{LedgerFilter{Fish: fish}, []string{"angel"}},
		{LedgerFilter{}, []string{"angel", "plural", "inside", "han", "food", "operator"}},
	} {
		l, err := k.Ledger(ctx, tank, c.f)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for i := range l.Len() {
			for name, id := range ids {
				if l.Entry(i).ID == id {
					got = append(got, name)
				}
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%+v: expected %v, got %v", c.f, c.want, got)
		}
	}
}

// A typed time stays as typed, whatever the zone: the hour that comes twice and
// the one that there never was, and one who has flown home.
func TestTheLedgerKeepsTypedTimes(t *testing.T) {
	ctx := context.Background()
	now := time.Date(2026, 10, 26, 12, 0, 0, 0, time.FixedZone("", 3600))
	k, err := Open(ctx, t.TempDir(), Options{Now: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	defer k.Close()
	tank, err := k.StartTank(ctx, "Hall", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	typed := []journal.Entry{{At: "2026-03-29T02:30", Zone: "+01:00"}, {At: "2026-10-25T02:30", Zone: "+02:00"}, {At: "2026-10-25T02:30", Zone: "+01:00"}, {At: "2026-10-25T23:59", Zone: "-10:00"}, {At: "2026-10-26T00:00", Zone: "+14:00"}}
	for _, e := range typed {
		e.Kind = journal.Fed
		if _, err := k.AddEntry(ctx, tank, e); err != nil {
			t.Fatal(err)
		}
	}
	l, err := k.Ledger(ctx, tank, LedgerFilter{})
	if err != nil {
		t.Fatal(err)
	}
	for i := range l.Len() {
		want, got := typed[len(typed)-1-i], l.Entry(i)
		if got.At != want.At || got.Zone != want.Zone {
			t.Errorf("%s %s became %s %s", want.At, want.Zone, got.At, got.Zone)
		}
	}
	days := l.Days("2026-10-25", "2026-10-26")
	if want := []DayCount{{Date: "2026-10-25", Entries: 3}, {Date: "2026-10-26", Entries: 1}}; !slices.Equal(days, want) {
		t.Errorf("expected %v, got %v", want, days)
	}
	if i := l.PlaceOfDay("2026-10-24"); i != 4 || l.PlaceOfDay("2026-10-25") != 1 || l.PlaceOfDay("2026-01-01") != 5 || l.PlaceOfDay("2027-01-01") != 0 {
		t.Errorf("a day without entries leads to %d", i)
	}
}
