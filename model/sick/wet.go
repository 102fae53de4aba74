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

// oddWater finds the last change of the window with water much colder or warmer
// than the tank's, as it was read last before it.
func oddWater(es []journal.Entry, now journal.Civil) []Change {
	var out []Change
	var tank quantity.Value
	for _, e := range es {
		r, has := e.Get(journal.NameTemperature)
		v, ok := r.Value()
		switch {
		case !has || !ok || v.Kind != quantity.KindTemperature:
		case e.Kind.OfTank():
			tank = v
		case e.Kind == journal.Changed && tank.Known():
			gap := quantity.Temperature(v.X).Minus(quantity.Temperature(tank.X))
			if d, ok := ago(e, now); ok && d <= Window && (gap > mostGap+1e-6 || gap < -mostGap-1e-6) {
				out = []Change{{Entry: e.ID, At: e.At, Days: d, seq: e.Seq, Finding: working.Find(working.Wait, "find.sick.was.odd_water").With("New", v).With("Tank", tank)}}
			}
		}
	}
	return out
}

// lateWater finds a change just made that is not told of yet, or that one is
// overdue; for a tank that was filled and not changed since, that it was not. Its days
// count from the fill: a picture of years ago may stand before it.
func lateWater(es []journal.Entry, now journal.Civil, told []Change) []Change {
	var made []journal.Entry  // the latest first, as many as tell the habit
	var filled *journal.Entry // last, with no change since
	for i, e := range slices.Backward(es) {
		if e.Kind == journal.Filled && filled == nil && len(made) == 0 {
			filled = &es[i]
			break
		}
		if e.Kind == journal.Changed {
			if made = append(made, e); len(made) > usualOf {
				break
			}
		}
	}
	if filled != nil {
		if d, ok := ago(*filled, now); ok && d >= Window {
			return []Change{{Days: d, Finding: working.Find(working.Wait, "find.sick.was.never_changed").With("Days", quantity.Time(d*86400).Value())}}
		}
	}
	if len(made) == 0 {
		return nil
	}
	last := made[0]
	d, ok := ago(last, now)
	switch {
	case !ok:
		return nil
	case d >= due(made):
		return []Change{{Days: d, Finding: working.Find(working.Wait, "find.sick.was.no_change").With("Days", quantity.Time(d*86400).Value())}}
	case d <= recent && !slices.ContainsFunc(told, func(c Change) bool { return c.Entry == last.ID }):
		return []Change{{Entry: last.ID, At: last.At, Days: d, seq: last.Seq, Finding: working.Find(working.Steady, "find.sick.was.changed")}}
	}
	return nil
}

// due is after how many days without a change one is overdue: Window, or late
// times the usual gap where three gaps tell it. made has the latest first.
func due(made []journal.Entry) int {
	var gaps []int
	for i := 1; i < len(made); i++ {
		if d, err := journal.DaysBetween(made[i].At, made[i-1].At); err == nil && d > 0 {
			gaps = append(gaps, d)
		}
	}
	if len(gaps) < habit {
		return Window
	}
	slices.Sort(gaps)
	return min(Window, max(soonest, late*gaps[len(gaps)/2]))
}
