package rounds_test

import (
	"testing"
	"time"

	"example.org/driploop/model/rounds"
)

// Once an occurrence, at its time; after a night's sleep of the machine or ten
// years by the clock each round once; a clock put back repeats nothing.
func TestBellRingsOnce(t *testing.T) {
	list := []rounds.Round{{ID: "feed", Code: rounds.Own, Rule: rounds.MustRule("FREQ=DAILY;BYHOUR=8,18;BYMINUTE=0"), Start: "2026-11-01T08:00"},
		{ID: "test", Code: rounds.Own, Rule: rounds.MustRule("FREQ=WEEKLY;BYDAY=WE"), Start: "2026-11-04T18:00"}}
	ring := func(b *rounds.Bell, now time.Time) int {
		var all []rounds.Standing
		for _, r := range list {
			all = append(all, rounds.Stand(r, rounds.History{}, now))
		}
		return len(b.Ring(now, all))
	}
	at := func(text string) time.Time {
		v, err := time.Parse("2006-01-02T15:04", text)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	b := rounds.NewBell(at("2026-11-25T12:00")) // a Wednesday; 08:00 is due already
	for _, c := range []struct {
		now  string
		want int
	}{
		{"2026-11-25T12:01", 0}, {"2026-11-25T17:59", 0}, {"2026-11-25T18:00", 2}, {"2026-11-25T18:01", 0}, // both in one
		{"2026-11-26T08:30", 1},                          // asleep over the night
		{"2026-11-25T17:00", 0}, {"2026-11-25T18:30", 0}, // put back a day: told already
		{"2026-11-26T18:00", 1}, {"2036-11-26T12:00", 2}, // ten years on, each once
		{"2026-11-27T07:00", 0}, {"2026-11-27T08:00", 1}, // put right again: it goes on
		{"1970-01-01T00:00", 0}, {"2026-11-27T09:00", 0},
	} {
		if got := ring(b, at(c.now)); got != c.want {
			t.Errorf("at %s it rang for %d, want %d", c.now, got, c.want)
		}
	}
}
