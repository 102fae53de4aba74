package rounds_test

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
)

var somewhere = []string{"FREQ=DAILY", "FREQ=DAILY;INTERVAL=3", "FREQ=WEEKLY;BYDAY=MO,TH", "FREQ=WEEKLY;INTERVAL=2;BYDAY=SA", "FREQ=MONTHLY;BYMONTHDAY=31", "FREQ=MONTHLY;BYMONTHDAY=-1",
	"FREQ=YEARLY", "FREQ=DAILY;COUNT=1", "FREQ=DAILY;BYHOUR=8,18;BYMINUTE=0", "FREQ=MONTHLY;BYDAY=1FR"}

// A round was last done when its newest entry says, written for it or by hand; where
// it writes none, on the day of its occurrence; a skipped one was not done.
func TestLastDone(t *testing.T) {
	entries := []journal.Entry{{ID: "a", Kind: journal.Changed, At: "2026-11-20T10:00"}, {ID: "b", Kind: journal.Note, At: "2026-11-22T10:00"}}
	for _, c := range []struct {
		code    rounds.Code
		handled []rounds.Handled
		want    journal.Civil
	}{
		{rounds.Change, nil, "2026-11-20T10:00"},
		{rounds.Glass, nil, ""},
		{rounds.Glass, []rounds.Handled{{Due: "2026-11-21T09:00", State: rounds.Done}, {Due: "2026-11-23T09:00", State: rounds.Skipped}}, "2026-11-21T09:00"},
		{rounds.Own, []rounds.Handled{{Due: "2026-11-21T09:00", State: rounds.Done, Entry: "b"}}, "2026-11-22T10:00"},
		{rounds.Change, []rounds.Handled{{Due: "2026-11-19T09:00", State: rounds.Done, Entry: "a"}}, "2026-11-20T10:00"},
	} {
		if got := rounds.LastDone(rounds.Round{Code: c.code}, rounds.History{Handled: c.handled, Entries: entries}); got != c.want {
			t.Errorf("%s, %v: %q, want %q", c.code, c.handled, got, c.want)
		}
	}
}

// Whatever the clock does, an occurrence that was done never comes back; without
// it, it is there again; and no more than the newest is ever shown.
func TestDoneNeverReturns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := time.Date(2026, 1, 1, rapid.IntRange(0, 23).Draw(t, "hour"), rapid.SampledFrom([]int{0, 30, 59}).Draw(t, "minute"), 0, 0, time.UTC).AddDate(0, 0, rapid.IntRange(0, 365).Draw(t, "day"))
		r := rounds.Round{ID: "r", Code: rounds.Glass, Rule: rounds.MustRule(rapid.SampledFrom(somewhere).Draw(t, "rule")), Start: journal.CivilOf(start)}
		h := rounds.History{}
		done := map[journal.Civil]bool{}
		for range rapid.IntRange(1, 12).Draw(t, "visits") {
			zone := time.FixedZone("", rapid.IntRange(-11, 14).Draw(t, "zone")*3600)
			now := start.AddDate(0, 0, rapid.IntRange(-30, 800).Draw(t, "days")).Add(time.Duration(rapid.IntRange(0, 1439).Draw(t, "minutes")) * time.Minute).In(zone)
			s := rounds.Stand(r, h, now)
			if s.DaysLate < 0 || s.Missed < 0 {
				t.Fatalf("%+v", s)
			}
			open := s.State == rounds.Due || s.State == rounds.Late
			if open && done[s.Newest.Due] {
				t.Fatalf("%s came back at %v", s.Newest.Due, now)
			}
			if done[s.Next] {
				t.Fatalf("%s is announced though it is done", s.Next)
			}
			if s.Next != "" && s.Newest.Due >= s.Next && !done[s.Newest.Due] {
				t.Fatalf("next %s is not after newest %s", s.Next, s.Newest.Due)
			}
			for _, o := range rounds.Ahead(r, h, now, 14) {
				if done[o.Due] != (o.State == rounds.Done) {
					t.Fatalf("%s is %s in the coming days, done: %v", o.Due, o.State, done[o.Due])
				}
			}
			if !open {
				continue
			}
			due := s.Newest.Due
			before := h
			h.Handled = append(append([]rounds.Handled(nil), h.Handled...), rounds.Handled{Due: due, State: rounds.Done})
			done[due] = true
			if s := rounds.Stand(r, h, now); s.State == rounds.Due || s.State == rounds.Late {
				t.Fatalf("%s was done and %s is open", due, s.Newest.Due)
			}
			if rapid.Bool().Draw(t, "undo") {
				h = before
				delete(done, due)
				if s := rounds.Stand(r, h, now); s.Newest.Due != due || s.State != rounds.Due && s.State != rounds.Late {
					t.Fatalf("undone, %s is %+v", due, s)
				}
			}
		}
	})
}

// When an entry by hand does a round: a weekly one from the day before it until
// the day before the next; a daily one on its day; twice a day at its half.
func TestEntriesCountForTheNearestOccurrence(t *testing.T) {
	for _, c := range []struct {
		rule, start, now, entry string
		want                    rounds.State
	}{
		{"FREQ=WEEKLY", "2026-11-01T10:00", "2026-11-22T11:00", "2026-11-21T09:00", rounds.Coming}, // a day early
		{"FREQ=WEEKLY", "2026-11-01T10:00", "2026-11-22T11:00", "2026-11-20T23:59", rounds.Due},    // two days early was last week's
		{"FREQ=WEEKLY", "2026-11-01T10:00", "2026-11-27T11:00", "2026-11-26T11:00", rounds.Coming}, // late
		{"FREQ=DAILY", "2026-11-01T18:00", "2026-11-22T18:00", "2026-11-22T07:00", rounds.Coming},
		{"FREQ=DAILY", "2026-11-01T18:00", "2026-11-22T18:00", "2026-11-21T23:59", rounds.Due},
		{"FREQ=DAILY;BYHOUR=8,18;BYMINUTE=0", "2026-11-01T08:00", "2026-11-22T18:30", "2026-11-22T12:59", rounds.Due},
		{"FREQ=DAILY;BYHOUR=8,18;BYMINUTE=0", "2026-11-01T08:00", "2026-11-22T18:30", "2026-11-22T13:00", rounds.Coming},
		{"FREQ=MONTHLY;BYMONTHDAY=28", "2026-10-28T10:00", "2026-11-28T11:00", "2026-11-21T09:00", rounds.Coming}, // a week early
		{"FREQ=DAILY;COUNT=1", "2026-11-22T10:00", "2026-11-22T11:00", "2026-11-22T09:00", rounds.Over},           // the first and only
	} {
		now, err := time.Parse("2006-01-02T15:04", c.now)
		if err != nil {
			t.Fatal(err)
		}
		r := rounds.Round{ID: "r", Code: rounds.Test, Rule: rounds.MustRule(c.rule), Start: journal.Civil(c.start)}
		h := rounds.History{Entries: []journal.Entry{{ID: "e", Kind: journal.Tested, At: journal.Civil(c.entry)}}}
		if s := rounds.Stand(r, h, now); s.State != c.want {
			t.Errorf("%s, entry %s at %s: %s, want %s (%+v)", c.rule, c.entry, c.now, s.State, c.want, s)
		}
		r.Code = rounds.Glass // a kind that no entry does
		if s := rounds.Stand(r, h, now); s.State != rounds.Due && s.State != rounds.Late {
			t.Errorf("%s: a test cleaned the glass", c.rule)
		}
	}
}

// A water change settles nitrate below the limit, whatever the feed; where it
// cannot, it says so. The cycle's own figure is that of the water package.
func TestPlanChange(t *testing.T) {
	// 12 neons in 54 L at 64 mg/d: 0.0638·0.45·0.092/54·4.427 = 0.2165 mg/L/d; 28 d over 30 mg/L is 0.202, so a quarter.
	p, trail, err := rounds.PlanChange(rounds.Basis{Net: quantity.Litres(54), Feed: 0.0638, Protein: 0.45, Tap: 10})
	if err != nil || p.Every != 28 || fmt.Sprintf("%.2f %.1f", p.Share, p.Volume.Litres()) != "0.25 13.5" || !p.Enough {
		t.Errorf("%+v %v", p, err)
	}
	if got := fmt.Sprintf("%.1f", float64(p.Peak)); got != "34.3" {
		t.Errorf("peak %s mg/L, want 34.3", got)
	}
	if trail == nil || !trail.Finite() || len(trail.Steps) != 5 {
		t.Error("the working lacks steps")
	}
	rapid.Check(t, func(t *rapid.T) {
		b := rounds.Basis{Net: quantity.Litres(rapid.Float64Range(20, 500).Draw(t, "net")), Feed: quantity.MassRate(rapid.Float64Range(0, 3).Draw(t, "feed")),
			Protein: 0.45, Tap: quantity.Concentration(rapid.Float64Range(0, 39).Draw(t, "tap"))}
		p, _, err := rounds.PlanChange(b)
		if err != nil {
			t.Fatal(err)
		}
		if p.Share < 0.2-1e-9 || p.Share > 0.3+1e-9 || p.Enough && p.Peak > p.Most+1e-6 || !p.Enough && p.Peak < p.Most {
			t.Fatalf("%+v of %+v", p, b)
		}
	})
	if _, _, err := rounds.PlanChange(rounds.Basis{Net: quantity.Litres(54), Feed: 0.06, Protein: 0.45, Tap: 45}); err == nil {
		t.Error("a tap over the limit was taken")
	}
}

// A filter is young until its tests say otherwise.
func TestYoung(t *testing.T) {
	test := func(at, ammonia, nitrite string) journal.Entry {
		read := func(name, s string) journal.Reading {
			r := journal.Reading{Name: name, Measure: quantity.Measure{Number: s, Unit: "mg/l", Basis: quantity.AsN}}
			if s == "" {
				r.Measure.Number, r.Qualifier = "0", journal.NotDetected
			}
			return r
		}
		return journal.Entry{Kind: journal.Tested, At: journal.Civil(at), Readings: []journal.Reading{read(journal.NameAmmonia, ammonia), read(journal.NameNitrite, nitrite)}}
	}
	on := journal.Entry{Kind: journal.Powered, At: "2026-10-01T10:00"}
	for _, c := range []struct {
		say     string
		entries []journal.Entry
		today   journal.Civil
		want    bool
	}{
		{"never tested", []journal.Entry{on}, "2026-12-01T10:00", true},
		{"two clean tests before anything began", []journal.Entry{on, test("2026-10-02T10:00", "", ""), test("2026-10-03T10:00", "", "")}, "2026-10-04T10:00", true},
		{"two clean tests after a peak", []journal.Entry{on, test("2026-10-08T10:00", "2", "1"), test("2026-10-12T10:00", "", "0.01"), test("2026-10-13T10:00", "0.1", "")}, "2026-10-13T12:00", false},
		{"both on one day", []journal.Entry{on, test("2026-10-08T10:00", "2", "1"), test("2026-10-12T10:00", "", ""), test("2026-10-12T20:00", "", "")}, "2026-10-13T12:00", true},
		{"nitrite came back", []journal.Entry{on, test("2026-11-08T10:00", "", ""), test("2026-11-09T10:00", "", ""), test("2026-11-10T10:00", "", "0.5")}, "2026-11-13T12:00", true},
		{"clean after three weeks", []journal.Entry{on, test("2026-10-28T10:00", "", ""), test("2026-10-30T10:00", "", "")}, "2026-10-30T12:00", false},
		{"set up anew", []journal.Entry{on, test("2026-10-28T10:00", "", ""), test("2026-10-30T10:00", "", ""), {Kind: journal.Powered, At: "2026-11-01T10:00"}}, "2026-12-30T12:00", true},
	} {
		if got := rounds.Young(c.entries, c.today); got != c.want {
			t.Errorf("%s: young %v, want %v", c.say, got, c.want)
		}
	}
}

// Counting from today moves the day and keeps the interval.
func TestFromToday(t *testing.T) {
	now := time.Date(2026, 11, 25, 21, 0, 0, 0, time.UTC) // a Wednesday
	for _, c := range []struct{ rule, want string }{
		{"FREQ=WEEKLY;INTERVAL=2;BYDAY=SA", "FREQ=WEEKLY;INTERVAL=2;BYDAY=WE"}, {"FREQ=MONTHLY;BYMONTHDAY=1", "FREQ=MONTHLY;BYMONTHDAY=25"}, {"FREQ=DAILY;INTERVAL=3", "FREQ=DAILY;INTERVAL=3"},
		{"FREQ=WEEKLY;BYDAY=MO,TH", "FREQ=WEEKLY;BYDAY=MO,TH"}, {"FREQ=MONTHLY;BYDAY=1FR", "FREQ=MONTHLY;BYDAY=1FR"},
	} {
		r, start := rounds.FromToday(rounds.MustRule(c.rule), "2026-11-21T10:00", now)
		if r.String() != c.want || start != "2026-11-25T10:00" {
			t.Errorf("%s: %s from %s, want %s", c.rule, r, start, c.want)
		}
	}
}
