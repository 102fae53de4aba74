package journal_test

import (
	"testing"
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// A wall-clock time reads the same for ever, whatever the zone, over changes of
// the clock and skipped days (Apia had no 30 December 2011; IANA time zone data).
func TestCivilTimesDoNotShift(t *testing.T) {
	for _, zone := range []string{"Pacific/Apia", "Australia/Lord_Howe", "Asia/Kathmandu", "America/New_York", "Europe/Madrid", "Pacific/Kiritimati", "UTC"} {
		loc, err := time.LoadLocation(zone)
		if err != nil {
			t.Fatal(err)
		}
		at := time.Date(2011, 12, 29, 8, 10, 0, 0, loc)
		for range 40 {
			e := journal.Entry{At: journal.CivilOf(at), Zone: journal.ZoneOf(at)}
			back, ok := e.Instant()
			if !ok || !back.Equal(at) {
				t.Fatalf("%s: %s %s is %v, want %v", zone, e.At, e.Zone, back, at)
			}
			if got := string(e.At); got != at.Format("2006-01-02T15:04") {
				t.Fatalf("%s: shown as %s", zone, got)
			}
			at = at.Add(11*time.Hour + 30*time.Minute)
		}
	}
}

func TestDaysAreCountedByTheCalendar(t *testing.T) {
	for _, c := range []struct {
		a, b journal.Civil
		want int
	}{{"2026-11-25T23:59", "2026-11-26T00:01", 1}, {"2026-03-28T12:00", "2026-03-30T12:00", 2}, {"2026-11-25T08:00", "2026-11-25T22:00", 0}, {"2026-11-25T08:00", "2026-11-20T08:00", -5}, {"2024-02-28T10:00", "2024-03-01T09:00", 2}} {
		if got, err := journal.DaysBetween(c.a, c.b); err != nil || got != c.want {
			t.Errorf("%s to %s: %d days (%v), want %d", c.a, c.b, got, err, c.want)
		}
	}
	if _, err := journal.DaysBetween("yesterday", "2026-11-25T08:00"); err == nil {
		t.Error("a word was taken for a date")
	}
}

// What cannot be is refused; what was not measured is no zero.
func TestReadingsAreBelievable(t *testing.T) {
	for _, c := range []struct {
		name, number string
		unit         quantity.UnitCode
		ok           bool
	}{
		{journal.NameTemperature, "25", "degc", true}, {journal.NameTemperature, "77", "degf", true}, {journal.NameTemperature, "77", "degc", false}, {journal.NameTemperature, "-1", "degc", false},
		{journal.NamePH, "7.4", "ph", true}, {journal.NamePH, "74", "ph", false}, {journal.NameFeed, "-0.1", "g", false}, {journal.NameFeed, "0.12", "g", true}, {journal.NameFeed, "5", "kg", false},
		{journal.NameCount, "2.5", "piece", false}, {journal.NameCount, "3", "piece", true}, {journal.NameCount, "0", "piece", false}, {journal.NameVolume, "10", "cm", false},
		{journal.NameDose, "2", "g", true}, {journal.NameDose, "2", "ml", true}, {"moonlight", "1", "l", false}, {journal.NameNitrate, "NaN", "mg/l", false}, {journal.NameNitrate, "", "mg/l", false},
	} {
		r := journal.Reading{Name: c.name, Measure: quantity.Measure{Number: c.number, Unit: c.unit}}
		if err := r.Check(); (err == nil) != c.ok {
			t.Errorf("%s %s %s: %v", c.name, c.number, c.unit, err)
		}
	}
	r := journal.Reading{Name: journal.NameNitrite, Qualifier: journal.NotDetected, Measure: quantity.Measure{Number: "0", Unit: "mg/l"}}
	if _, ok := r.Value(); ok {
		t.Error("not detected has a value")
	}
}
