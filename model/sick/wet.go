package sick

import (
	"slices"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

const (
	// recent is for how many civil days a water change counts as just made.
	// Source: the table of signs: distress within an hour of a change; two days
	// give room for what is noticed late. // judgement
	recent = 2
	// late is how many usual gaps may pass before a change is overdue. // judgement
	late = 2
	// soonest is the shortest time after which a change can be overdue, in days;
	// a new tank that is changed daily is not late on the third. // judgement
	soonest = 7
	// mostGap is how far new water may be from the tank's. Source: the floating
	// criterion of Lim et al. 2003 that package water uses, 2 °C.
	mostGap = quantity.TemperatureDifference(2)
)

// waterChanges finds a change just made, the last one of the window with water
// much colder or warmer than the tank's, and a change that is overdue.
func waterChanges(es []journal.Entry, now journal.Civil) []Change {
	var made []journal.Entry
	var out []Change
	var tank quantity.Value // the tank's temperature as read last
	var odd *Change
	filled := false
	for _, e := range es {
		r, has := e.Get(journal.NameTemperature)
		v, ok := r.Value()
		read := has && ok && v.Kind == quantity.KindTemperature
		filled = filled || e.Kind == journal.Filled
		if e.Kind != journal.Changed {
			if read && e.Kind.OfTank() {
				tank = v
			}
			continue
		}
		made = append(made, e)
		d, ok := ago(e, now)
		if !ok || d > Window || !read || !tank.Known() {
			continue
		}
		if gap := quantity.Temperature(v.X).Minus(quantity.Temperature(tank.X)); gap > mostGap+1e-6 || gap < -mostGap-1e-6 {
			odd = &Change{Entry: e.ID, At: e.At, Days: d, seq: e.Seq, Finding: working.Find(working.Wait, "find.sick.was.odd_water").With("New", v).With("Tank", tank)}
		}
	}
	if odd != nil {
		out = append(out, *odd)
	}
	if n := len(made); n > 0 {
		last := made[n-1]
		d, ok := ago(last, now)
		if ok && d <= recent && (odd == nil || odd.Entry != last.ID) {
			out = append(out, Change{Entry: last.ID, At: last.At, Days: d, seq: last.Seq, Finding: working.Find(working.Steady, "find.sick.was.changed")})
		}
		if limit := due(made); ok && d >= limit {
			out = append(out, Change{Days: d, Finding: working.Find(working.Wait, "find.sick.was.no_change").With("Days", quantity.Time(d*86400).Value())})
		}
		return out
	}
	if len(es) > 0 && filled {
		if d, ok := ago(es[0], now); ok && d >= Window {
			out = append(out, Change{Days: d, Finding: working.Find(working.Wait, "find.sick.was.never_changed").With("Days", quantity.Time(d*86400).Value())})
		}
	}
	return out
}

// due is after how many days without a change one is overdue: Window, or late
// times the usual gap where three gaps tell it.
func due(made []journal.Entry) int {
	var gaps []int
	for i := 1; i < len(made); i++ {
		if d, err := journal.DaysBetween(made[i-1].At, made[i].At); err == nil && d > 0 {
			gaps = append(gaps, d)
		}
	}
	if len(gaps) < habit {
		return Window
	}
	slices.Sort(gaps)
	return min(Window, max(soonest, late*gaps[len(gaps)/2]))
}
