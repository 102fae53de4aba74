package keeper

import (
	"context"
	"reflect"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
)

// kept is a daybook under a moving clock, and one tank of it.
type kept struct {
	k    *Keeper
	tank string
	now  time.Time
}

func openKept(t *testing.T) *kept {
	t.Helper()
	s := &kept{now: time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600))}
	var err error
	if s.k, err = Open(context.Background(), t.TempDir(), Options{Now: func() time.Time { return s.now }, Region: care.Region{Code: "US"}}); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.k.Close() })
	s.tank, err = s.k.MakeExample(context.Background(), Words{Name: "Kitchen corner", Fish: "Zebra danio", Notice: "Cloudy.", Shown: func(n care.NoteID) (string, string, string) { return "text of " + string(n), "en", "hash" }})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// anew reads the same store with nothing kept from before.
func (s *kept) anew() *Keeper {
	k := &Keeper{st: s.k.st, now: s.k.now, newID: s.k.newID, region: s.k.region, records: map[string]*care.Record{}, worked: map[string]*solved{}}
	k.waits.begin(Options{Now: s.k.now})
	k.forget()
	return k
}

// difference tells where Today is not what a reading from nothing says, "" if nowhere.
func (s *kept) difference(tank string) string {
	ctx := context.Background()
	got, gotErr := s.k.Today(ctx, tank)
	want, wantErr := s.anew().Today(ctx, tank)
	if (gotErr == nil) != (wantErr == nil) {
		return "error " + errText(gotErr) + ", read anew " + errText(wantErr)
	}
	g, w := reflect.ValueOf(got), reflect.ValueOf(want)
	for i := range g.NumField() {
		if !reflect.DeepEqual(g.Field(i).Interface(), w.Field(i).Interface()) {
			return g.Type().Field(i).Name
		}
	}
	return ""
}

func errText(err error) string {
	if err == nil {
		return "none"
	}
	return err.Error()
}

func (s *kept) set(field care.FieldID, number string, unit quantity.UnitCode) error {
	return s.k.put(context.Background(), s.tank, field, care.Answer{Measure: quantity.Measure{Number: number, Unit: unit}, Origin: care.FromPerson}, s.now)
}

func (s *kept) test(ammonia string) error {
	_, err := s.k.AddEntry(context.Background(), s.tank, journal.Entry{Kind: journal.Tested, Readings: []journal.Reading{
		{Name: journal.NameAmmonia, Measure: quantity.Measure{Number: ammonia, Unit: "mg/l", Basis: quantity.AsN}}}})
	return err
}

// acts are the ways in which what Today says can change, in an order in which
// each of them does change it.
func acts() []struct {
	name string
	do   func(*kept) error
} {
	ctx := context.Background()
	undo := func(s *kept) error { _, _, err := s.k.Undo(ctx, s.tank); return err }
	redo := func(s *kept) error { _, _, err := s.k.Redo(ctx, s.tank); return err }
	return []struct {
		name string
		do   func(*kept) error
	}{
		{"a minute passes while the bag floats", func(s *kept) error { s.now = s.now.Add(time.Minute); return nil }},
		{"a longer tank", func(s *kept) error { return s.set("tank.length", "24", "in") }},
		{"undo", undo},
		{"redo", redo},
		{"undo again", undo},
		{"weaker legs", func(s *kept) error { return s.set("frame.leg_width", "30", "mm") }},
		{"undo of the legs", undo},
		{"a test", func(s *kept) error { return s.test("6") }},
		{"undo of the test", undo},
		{"redo of the test", redo},
		{"another line of emergency", func(s *kept) error {
			return s.k.SetEmergencyLine(ctx, quantity.Measure{Number: "0.1", Unit: "mg/l"})
		}},
		{"the timer stops", func(s *kept) error { return s.k.StopTimer(ctx, s.tank) }},
		{"the timer starts anew", func(s *kept) error { return s.k.StartTimer(ctx, s.tank) }},
		{"half a minute passes", func(s *kept) error { s.now = s.now.Add(30 * time.Second); return nil }},
		{"another name", func(s *kept) error { return s.k.RenameTank(ctx, s.tank, "Hall") }},
		{"undo of the name", undo},
		{"the wait is over", func(s *kept) error { s.now = s.now.Add(3 * time.Hour); return nil }},
		{"a day passes", func(s *kept) error { s.now = s.now.AddDate(0, 0, 1); return nil }},
		{"the tank goes", func(s *kept) error { return s.k.RemoveTank(ctx, s.tank) }},
		{"the tank comes back", func(s *kept) error { _, _, err := s.k.Undo(ctx, ""); return err }},
		{"another tank, from a profile", func(s *kept) error {
			p := slip.Profile{Version: slip.Version, Tank: "Shop", Units: quantity.Metric, Region: "US", MadeBy: maker(),
				Answers: map[care.FieldID]care.Answer{"heater.watts": {Measure: quantity.Measure{Number: "100", Unit: "w"}, Origin: care.FromProfile}}}
			id, err := s.k.TakeProfile(ctx, p)
			s.tank = id
			return err
		}},
		{"its size", func(s *kept) error { return s.set("tank.length", "60", "cm") }},
		{"undo of its size", undo},
		{"another region", func(s *kept) error { s.k.SetRegion(care.Region{Code: "DE"}); return nil }},
	}
}

// Whatever changes, Today says what a reading of the whole store from nothing says.
func TestTodayIsNeverStale(t *testing.T) {
	s := openKept(t)
	say := func() (Today, string) {
		td, err := s.k.Today(context.Background(), s.tank)
		return td, errText(err)
	}
	for _, a := range acts() {
		before, beforeErr := say()
		if err := a.do(s); err != nil {
			t.Fatalf("%s: %v", a.name, err)
		}
		if d := s.difference(s.tank); d != "" {
			t.Errorf("%s: %s is not what the store says", a.name, d)
		}
		after, afterErr := say()
		// The region is not seen on this page; every other act must be.
		if a.name != "another region" && beforeErr == afterErr && reflect.DeepEqual(before, after) {
			t.Errorf("%s: Today is as it was before; the check shows nothing", a.name)
		}
	}
}

// The same in any order, with looks at any time or none in between.
func TestTodayIsNeverStaleInAnyOrder(t *testing.T) {
	s := openKept(t)
	first := s.tank
	all := acts()
	rapid.Check(t, func(r *rapid.T) {
		for range rapid.IntRange(1, 6).Draw(r, "acts") {
			a := all[rapid.IntRange(0, len(all)-1).Draw(r, "act")]
			err := a.do(s) // there may be nothing to undo, or no such tank: then nothing has changed
			if s.tank == "" {
				s.tank = first
			}
			if rapid.Bool().Draw(r, "look") {
				if d := s.difference(s.tank); d != "" {
					r.Fatalf("%s (%v): %s is not what the store says", a.name, err, d)
				}
			}
		}
		for _, tank := range []string{first, s.tank} {
			if d := s.difference(tank); d != "" {
				r.Fatalf("%s is not what the store says", d)
			}
		}
	})
}

// Looks from several goroutines, while one changes the record, are looks at the
// record before or after a change; the last one is at the last.
func TestTodayWhileTheRecordChanges(t *testing.T) {
	s := openKept(t)
	ctx := context.Background()
	var looks sync.WaitGroup
	for range 3 {
		looks.Go(func() {
			for range 20 {
				if _, err := s.k.Today(ctx, s.tank); err != nil {
					t.Error(err)
				}
			}
		})
	}
	for i := range 10 {
		if err := s.set("tank.length", []string{"20", "24"}[i%2], "in"); err != nil {
			t.Fatal(err)
		}
	}
	looks.Wait()
	if d := s.difference(s.tank); d != "" {
		t.Errorf("%s is not what the store says", d)
	}
}
