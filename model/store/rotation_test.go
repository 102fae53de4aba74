package store

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestRotationOfTwoYears: a copy every day for two years leaves the last week day
// by day, then weeks, then months.
func TestRotationOfTwoYears(t *testing.T) {
	zone := time.FixedZone("", 3600)
	end := time.Date(2026, 11, 25, 9, 0, 0, 0, zone) // a Wednesday
	var at []time.Time
	for n := range 730 {
		at = append(at, end.AddDate(0, 0, -n))
	}
	want := map[string]bool{}
	for _, d := range []string{
		"2026-11-25", "2026-11-24", "2026-11-23", "2026-11-22", "2026-11-21", "2026-11-20", "2026-11-19", // days
		"2026-11-15", "2026-11-08", // Sundays: the last of their weeks; 25 and 22 November stand for theirs
		"2026-10-31", "2026-09-30", "2026-08-31", "2026-07-31", "2026-06-30", "2026-05-31", "2026-04-30", "2026-03-31", "2026-02-28", "2026-01-31", "2025-12-31",
	} {
		want[d] = true
	}
	for i, keep := range Rotation(at) {
		if day := at[i].Format(time.DateOnly); keep != want[day] {
			t.Errorf("%s kept: %v, want %v", day, keep, want[day])
		}
	}
}

// TestRotationKeepsWhatIsFew: nothing goes because the program was not started.
func TestRotationKeepsWhatIsFew(t *testing.T) {
	base := time.Date(2020, 2, 29, 23, 30, 0, 0, time.UTC)
	for i, keep := range Rotation([]time.Time{base, base.AddDate(3, 0, 0), base.AddDate(6, 0, 0), base.AddDate(1, 0, 0)}) {
		if !keep {
			t.Errorf("copy %d of four in six years goes", i)
		}
	}
	if got := Rotation(nil); len(got) != 0 {
		t.Errorf("%v of nothing", got)
	}
	twice := Rotation([]time.Time{base, base.Add(-time.Hour)})
	if !twice[0] || twice[1] {
		t.Errorf("of two on one day: %v", twice)
	}
}

// TestRotationAlways: the newest stays; never more than the sum are kept; the order
// given does not matter; what was kept once is enough to keep the same again.
func TestRotationAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
		hours := rapid.SliceOfNDistinct(rapid.IntRange(0, 24*900), 0, 60, rapid.ID).Draw(t, "hours")
		var at []time.Time
		for _, h := range hours {
			at = append(at, base.Add(time.Duration(h)*time.Hour))
		}
		keep := Rotation(at)
		var kept []time.Time
		newest := -1
		for i, k := range keep {
			if k {
				kept = append(kept, at[i])
			}
			if newest < 0 || at[i].After(at[newest]) {
				newest = i
			}
		}
		if newest >= 0 && !keep[newest] {
			t.Fatalf("the newest goes")
		}
		if len(kept) > KeepDays+KeepWeeks+KeepMonths || len(kept) < min(len(at), 1) {
			t.Fatalf("%d of %d kept", len(kept), len(at))
		}
		for i, k := range Rotation(kept) {
			if !k {
				t.Fatalf("%v was kept and then goes", kept[i])
			}
		}
		back := make([]time.Time, len(at))
		for i := range at {
			back[len(at)-1-i] = at[i]
		}
		for i, k := range Rotation(back) {
			if k != keep[len(at)-1-i] {
				t.Fatalf("in another order %v is kept: %v", back[i], k)
			}
		}
	})
}
