package rounds_test

import (
	"testing"
	"time"
	_ "time/tzdata" // the zones below, whatever the machine has

	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
)

// Zones with the changes that hurt. Source: IANA time zone data, which the
// standard library carries.
var zones = []string{"Pacific/Apia", "Australia/Lord_Howe", "Africa/Casablanca", "America/New_York", "Europe/Madrid", "Europe/London", "Asia/Kathmandu", "Asia/Kolkata",
	"America/St_Johns", "Australia/Adelaide", "Pacific/Chatham", "Pacific/Kiritimati", "Pacific/Pago_Pago", "America/Sao_Paulo", "America/Santiago", "Asia/Tehran",
	"America/Havana", "Africa/Cairo", "Asia/Gaza", "Antarctica/Troll", "Atlantic/Azores", "America/Scoresbysund", "Asia/Pyongyang", "UTC"}

// A weekly task keeps its weekday and its time on the wall over every change of
// the clock, at 02:30 too, which some days lack and some have twice.
func TestWeeklyKeepsItsWeekdayInEveryZone(t *testing.T) {
	if len(zones) != 24 {
		t.Fatalf("%d zones, want 24", len(zones))
	}
	rule := rounds.MustRule("FREQ=WEEKLY;BYDAY=SU")
	for _, name := range zones {
		loc, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, clock := range []string{"02:30", "00:00", "23:45"} {
			r := rounds.Round{ID: "r", Code: rounds.Own, Rule: rule, Start: journal.Civil("2011-01-02T" + clock)}
			last := time.Time{}
			for _, c := range rule.Between(r.Start, time.Time{}, time.Date(2012, 12, 31, 0, 0, 0, 0, time.UTC)) {
				wall, _ := c.Parse()
				if wall.Weekday() != time.Sunday || string(c[11:]) != clock {
					t.Fatalf("%s: %s is no Sunday at %s", name, c, clock)
				}
				at, ok := rounds.Instant(c, loc)
				if !ok || !at.After(last) {
					t.Fatalf("%s: %s comes at %v, after %v", name, c, at, last)
				}
				last = at
				// Shown as typed, or, where the clock leaves it out, later by the gap.
				if d := rounds.Wall(at).Sub(wall); d < 0 || d > 25*time.Hour {
					t.Fatalf("%s: %s is shown as %v", name, c, at)
				}
				_, before := at.AddDate(0, 0, -8).Zone()
				_, after := at.AddDate(0, 0, 8).Zone()
				if before == after { // no change of the clock is near: as the other weeks
					continue
				}
				if s := rounds.Stand(r, rounds.History{}, at); s.State != rounds.Due || s.Newest.Due != c {
					t.Fatalf("%s: at %v the round stands %+v", name, at, s)
				}
				if s := rounds.Stand(r, rounds.History{}, at.Add(-time.Minute)); s.Newest.Due == c {
					t.Fatalf("%s: %s has come a minute early", name, c)
				}
			}
		}
	}
}

// The changes themselves: what is left out comes after the gap, with the offset
// before it; what comes twice is the first. RFC 5545 section 3.3.5, form 3, gives
// New York's of 2007 as its example.
func TestInstantsAtChangesOfTheClock(t *testing.T) {
	for _, c := range []struct{ zone, civil, utc string }{
		{"America/New_York", "2007-11-04T01:30", "2007-11-04T05:30:00Z"}, // twice: the first, UTC-4
		{"America/New_York", "2007-03-11T02:30", "2007-03-11T07:30:00Z"}, // left out: UTC-5 still, 03:30 by the clock
		{"Europe/Madrid", "2027-03-28T02:30", "2027-03-28T01:30:00Z"},
		{"Europe/Madrid", "2026-10-25T02:30", "2026-10-25T00:30:00Z"},
		{"Australia/Lord_Howe", "2026-10-04T02:15", "2026-10-03T15:45:00Z"}, // a gap of half an hour
		{"Australia/Lord_Howe", "2027-04-04T01:45", "2027-04-03T14:45:00Z"},
		{"Pacific/Apia", "2011-12-30T08:00", "2011-12-30T18:00:00Z"}, // a day that there was not
		{"Pacific/Apia", "2011-12-29T08:00", "2011-12-29T18:00:00Z"},
		{"Pacific/Apia", "2011-12-31T08:00", "2011-12-30T18:00:00Z"},
		{"Asia/Kathmandu", "2026-11-25T08:00", "2026-11-25T02:15:00Z"},
		{"Africa/Casablanca", "2026-02-15T02:30", "2026-02-15T01:30:00Z"}, // twice, as Ramadan begins
	} {
		loc, err := time.LoadLocation(c.zone)
		if err != nil {
			t.Fatal(err)
		}
		at, ok := rounds.Instant(journal.Civil(c.civil), loc)
		if got := at.UTC().Format(time.RFC3339); !ok || got != c.utc {
			t.Errorf("%s in %s is %s, want %s", c.civil, c.zone, got, c.utc)
		}
	}
	if _, ok := rounds.Instant("noon", time.UTC); ok {
		t.Error("a word was taken for a time")
	}
}

// A day that the zone left out is neither due nor missed.
func TestSkippedDay(t *testing.T) {
	loc, err := time.LoadLocation("Pacific/Apia")
	if err != nil {
		t.Fatal(err)
	}
	r := rounds.Round{ID: "r", Code: rounds.Own, Rule: rounds.MustRule("FREQ=DAILY"), Start: "2011-12-28T08:00"}
	h := rounds.History{Handled: []rounds.Handled{{Due: "2011-12-29T08:00", State: rounds.Done}}}
	s := rounds.Stand(r, h, time.Date(2011, 12, 31, 9, 0, 0, 0, loc))
	if s.Newest.Due != "2011-12-31T08:00" || s.Missed != 1 || s.State != rounds.Due {
		t.Errorf("%+v", s)
	}
	s = rounds.Stand(r, h, time.Date(2011, 12, 29, 23, 0, 0, 0, loc))
	if s.State != rounds.Coming || s.Next != "2011-12-31T08:00" {
		t.Errorf("the evening before: %+v", s)
	}
}

// A traveller who flies from +13 to -11 goes back a day on the wall: what was
// done stays done and nothing is due twice.
func TestTravelBackOverADay(t *testing.T) {
	tonga, midway := time.FixedZone("", 13*3600), time.FixedZone("", -11*3600)
	r := rounds.Round{ID: "r", Code: rounds.Feed, Rule: rounds.MustRule("FREQ=DAILY"), Start: "2026-11-01T18:00"}
	at := time.Date(2026, 11, 25, 18, 30, 0, 0, tonga)
	h := rounds.History{}
	for d := rounds.Wall(at).AddDate(0, 0, -24); !d.After(rounds.Wall(at)); d = d.AddDate(0, 0, 1) {
		h.Handled = append(h.Handled, rounds.Handled{Due: journal.Civil(d.Format("2006-01-02") + "T18:00"), State: rounds.Done})
	}
	if s := rounds.Stand(r, h, at); s.State != rounds.Coming || s.Next != "2026-11-26T18:00" {
		t.Fatalf("before the flight: %+v", s)
	}
	for _, hours := range []int{1, 10, 20, 24, 40} {
		now := at.Add(time.Duration(hours) * time.Hour).In(midway)
		if s := rounds.Stand(r, h, now); s.State != rounds.Coming || s.Next != "2026-11-26T18:00" {
			t.Errorf("%d h later, %v: %+v", hours, now, s)
		}
	}
	if s := rounds.Stand(r, h, time.Date(2026, 11, 26, 18, 0, 0, 0, midway)); s.State != rounds.Due {
		t.Errorf("the next evening: %+v", s)
	}
}
