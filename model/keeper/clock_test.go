package keeper_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zones below, whatever the machine has

	"example.org/driploop/model/drill"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
)

// jumps are what a clock does that it should not, and what a sleep looks like.
var jumps = map[string]func(time.Time) time.Time{
	"a day back":           func(t time.Time) time.Time { return t.AddDate(0, 0, -1) },
	"a second back":        func(t time.Time) time.Time { return t.Add(-time.Second) },
	"an hour back":         func(t time.Time) time.Time { return t.Add(-time.Hour) },
	"ten years forward":    func(t time.Time) time.Time { return t.AddDate(10, 0, 0) },
	"ten years back":       func(t time.Time) time.Time { return t.AddDate(-10, 0, 0) },
	"the beginning":        func(t time.Time) time.Time { return time.Date(1970, 1, 1, 0, 0, 0, 0, t.Location()) },
	"the year 2100":        func(t time.Time) time.Time { return time.Date(2100, 2, 28, 23, 59, 59, 0, t.Location()) },
	"a leap day":           func(t time.Time) time.Time { return time.Date(2028, 2, 29, 12, 0, 0, 0, t.Location()) },
	"a sleep of 8 hours":   func(t time.Time) time.Time { return t.Add(8 * time.Hour) },
	"another zone east":    func(t time.Time) time.Time { return t.In(time.FixedZone("", 13*3600)) },
	"another zone west":    func(t time.Time) time.Time { return t.In(time.FixedZone("", -11*3600)) },
	"the right time again": func(t time.Time) time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, t.Location()) },
}

// TestWrongClock (D2-40): whatever the clock says between two changes, entries keep
// the order in which they were written, nothing is counted below zero, a timer never
// runs backwards, copies and archives are made, and all of it is there again.
func TestWrongClock(t *testing.T) {
	ctx := context.Background()
	var names []string
	for name := range jumps {
		names = append(names, name)
	}
	for i := range names { // in a fixed order
		for j := range i {
			if names[i] < names[j] {
				names[i], names[j] = names[j], names[i]
			}
		}
	}
	sessions, steps := drill.Count(3, 100), 0
	for n := range sessions {
		random, c, dir := rand.New(rand.NewPCG(uint64(n), 40)), noon(), t.TempDir()
		k := open(t, dir, c)
		tank, err := k.MakeExample(ctx, words())
		if err != nil {
			t.Fatal(err)
		}
		r, err := k.Record(ctx, tank)
		if err != nil {
			t.Fatal(err)
		}
		before := len(r.Entries)
		var written []string
		path := ""
		for _, i := range random.Perm(len(names)) {
			steps++
			path += names[i] + ", "
			c.t = jumps[names[i]](c.t)
			fail := func(what string, err error) {
				t.Helper()
				if err != nil {
					t.Fatalf("session %d: %sthen %s: %v", n, path, what, err)
				}
			}
			id, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Note, Note: "after " + names[i]})
			fail("an entry", err)
			written = append(written, id)
			today, err := k.Today(ctx, tank)
			fail("today", err)
			rounds, err := k.Rounds(ctx, tank)
			fail("rounds", err)
			for _, s := range rounds.All {
				if s.DaysLate < 0 || s.Missed < 0 || s.Missed > 401 {
					t.Errorf("session %d: %s%s is %d days late, %d missed", n, path, s.Code, s.DaysLate, s.Missed)
				}
			}
			if today.Day < 0 {
				t.Errorf("session %d: %sit is day %d", n, path, today.Day)
			}
			passed := timers(t, k, tank, c.t)
			k.TickTimers(ctx)
			for id, d := range timers(t, k, tank, c.t) {
				if d < 0 || d < passed[id] {
					t.Errorf("session %d: %sa timer went from %v to %v", n, path, passed[id], d)
				}
			}
			_, err = k.Ledger(ctx, tank, keeper.LedgerFilter{})
			fail("the ledger", err)
			_, err = k.DailyCopy(ctx)
			fail("the daily copy", err)
			if random.IntN(3) == 0 {
				fail("closing", k.Close())
				k = open(t, dir, c)
			}
			if random.IntN(3) == 0 {
				_, _, err := k.Undo(ctx, tank)
				fail("undo", err)
				_, _, err = k.Redo(ctx, tank)
				fail("redo", err)
			}
		}
		r, err = k.Record(ctx, tank)
		if err != nil || len(r.Entries) != before+len(written) {
			t.Fatalf("session %d: %d entries, want %d, %v", n, len(r.Entries), before+len(written), err)
		}
		seq := map[string]int64{}
		for _, e := range r.Entries {
			seq[e.ID] = e.Seq
		}
		for i := 1; i < len(written); i++ {
			if seq[written[i]] <= seq[written[i-1]] {
				t.Errorf("session %d: the entry %d is before the one before it", n, i)
			}
		}
		var out bytes.Buffer
		if _, err := k.WriteArchive(ctx, &out, keeper.ArchiveOptions{Language: "en", Page: func(io.Writer, keeper.Contents) error { return nil }}, nil); err != nil {
			t.Fatal(err)
		}
		if v, err := k.Verify(ctx); err != nil || !v.OK() {
			t.Errorf("session %d: %+v, %v", n, v, err)
		}
		if err := k.Close(); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "a.dlarchive")
		if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		to := open(t, t.TempDir(), noon())
		if took, err := to.TakeArchive(ctx, file, nil); err != nil || len(took.Tanks) != 1 {
			t.Errorf("session %d: the archive: %+v, %v", n, took, err)
		}
		if err := to.Close(); err != nil {
			t.Fatal(err)
		}
	}
	drill.Tally(t, "D2-40", fmt.Sprintf("jumps of the clock in %d sessions", sessions), steps, 0)
}

// timers are how long the running timers of a tank have run.
func timers(t *testing.T, k *keeper.Keeper, tank string, now time.Time) map[string]time.Duration {
	t.Helper()
	r, err := k.Record(context.Background(), tank)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]time.Duration{}
	for _, x := range r.Timers {
		if !x.Ended {
			out[x.ID] = x.Passed(now)
		}
	}
	return out
}

// TestWallTimesStay (D2-41): what was typed in a zone, at a time that it has twice,
// once, or never, is the same for ever, wherever the daybook is opened: in its list, in
// its table, after an edit and through an archive.
func TestWallTimesStay(t *testing.T) {
	ctx := context.Background()
	zones := []string{"Pacific/Apia", "Australia/Lord_Howe", "Africa/Casablanca", "America/New_York", "Europe/Madrid", "Europe/London", "Asia/Kathmandu", "Asia/Kolkata",
		"America/St_Johns", "Australia/Adelaide", "Pacific/Chatham", "Pacific/Kiritimati", "Pacific/Pago_Pago", "America/Sao_Paulo", "America/Santiago", "Asia/Tehran",
		"America/Havana", "Africa/Cairo", "Asia/Gaza", "Antarctica/Troll", "Atlantic/Azores", "America/Scoresbysund", "Asia/Pyongyang", "UTC"}
	// In the north, in the south, and where there was no such day. Source: IANA time
	// zone data.
	typed := []journal.Civil{"2026-03-29T02:30", "2026-10-25T02:30", "2026-03-08T02:30", "2026-11-01T01:30", "2026-10-04T02:15", "2026-04-05T01:45", "2011-12-30T08:00"}
	c := noon()
	k := open(t, t.TempDir(), c)
	defer k.Close()
	want := map[string]map[string]int{} // by tank: time and zone, and how often
	for _, name := range zones {
		loc, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		c.t = noon().t.In(loc)
		tank, err := k.StartTank(ctx, name, quantity.Metric)
		if err != nil {
			t.Fatal(err)
		}
		want[tank] = map[string]int{}
		for _, at := range typed {
			for _, zone := range []string{"", "+01:00", "+02:00"} { // as the clock has it, and both of an hour that comes twice
				e := journal.Entry{Kind: journal.Note, At: at, Zone: zone, Note: "typed at " + string(at)}
				id, err := k.AddEntry(ctx, tank, e)
				if err != nil {
					t.Fatalf("%s: %s %s: %v", name, at, zone, err)
				}
				if e, err = k.Entry(ctx, tank, id); err != nil {
					t.Fatal(err)
				}
				c.t = c.t.In(time.FixedZone("", 13*3600)) // travelled since
				e.Note += ", edited"
				if err := k.EditEntry(ctx, tank, e); err != nil {
					t.Fatal(err)
				}
				c.t = c.t.In(loc)
				want[tank][string(at)+" "+e.Zone]++
			}
		}
	}
	c.t = c.t.In(time.FixedZone("", -11*3600))
	path, n := filepath.Join(t.TempDir(), "a.dlarchive"), 0
	if _, err := k.SaveArchive(ctx, path, keeper.ArchiveOptions{Language: "en", Page: func(io.Writer, keeper.Contents) error { return nil }}, nil); err != nil {
		t.Fatal(err)
	}
	to := open(t, t.TempDir(), c)
	defer to.Close()
	if _, err := to.TakeArchive(ctx, path, nil); err != nil {
		t.Fatal(err)
	}
	for tank, times := range want {
		for _, k := range []*keeper.Keeper{k, to} {
			r, err := k.Record(ctx, tank)
			if err != nil {
				t.Fatal(err)
			}
			got := map[string]int{}
			for _, e := range r.Entries {
				got[string(e.At)+" "+e.Zone]++
				n++
			}
			for at, count := range times {
				if got[at] != count {
					t.Errorf("%s: %s is there %d times, want %d", r.Name, at, got[at], count)
				}
			}
			var table bytes.Buffer
			if err := k.WriteCSV(ctx, tank, &table); err != nil {
				t.Fatal(err)
			}
			for _, at := range typed {
				day, clock, _ := strings.Cut(string(at), "T")
				if !strings.Contains(table.String(), day) || !strings.Contains(table.String(), clock) {
					t.Errorf("%s: %s is not in the table", r.Name, at)
				}
			}
		}
	}
	drill.Tally(t, "D2-41", fmt.Sprintf("entries at odd hours in %d zones, here and through an archive", len(zones)), n, 0)
}
