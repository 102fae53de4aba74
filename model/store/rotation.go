package store

import (
	"slices"
	"time"
)

// How many daily copies are kept: the latest of each of so many days, of so many
// weeks and of so many months. // judgement
const (
	KeepDays   = 7
	KeepWeeks  = 4
	KeepMonths = 12
)

// Rotation says which copies, made at the given times in the zone of the wall
// clock, are kept: the latest of each of the last KeepDays days that have one, of
// the last KeepWeeks weeks, and of the last KeepMonths months. Days, weeks and
// months without a copy are not counted, so that nothing goes because a program
// was not started for a while; the latest copy is always kept. Weeks are those of
// ISO 8601. The order of at does not matter.
func Rotation(at []time.Time) []bool {
	keep := make([]bool, len(at))
	order := make([]int, len(at))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return at[b].Compare(at[a]) })
	for _, r := range []struct {
		span func(time.Time) [2]int
		most int
	}{{dayOf, KeepDays}, {weekOf, KeepWeeks}, {monthOf, KeepMonths}} {
		seen := map[[2]int]bool{}
		for _, i := range order {
			s := r.span(at[i])
			if len(seen) == r.most || seen[s] {
				continue
			}
			seen[s], keep[i] = true, true
		}
	}
	return keep
}

func dayOf(t time.Time) [2]int { return [2]int{t.Year(), t.YearDay()} }

func weekOf(t time.Time) [2]int {
	year, week := t.ISOWeek()
	return [2]int{year, week}
}

func monthOf(t time.Time) [2]int { return [2]int{t.Year(), int(t.Month())} }
