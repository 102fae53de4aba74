package sick

import (
	"slices"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// A day's food is more than usual from half as much again, compared with the
// middle of the fed days before it, three of them at least. Judgement: pinches
// differ by less, and fewer days are no habit.
const (
	muchMore = 1.5
	habit    = 3
	usualOf  = 14 // fed days that make the habit
)

// fedDay is the food of one civil day.
type fedDay struct {
	last journal.Entry
	mass float64 // kg
}

// fedDays adds up the amounts noted with feedings, by day, the earliest first.
// A feeding without an amount says nothing about it.
func fedDays(es []journal.Entry) []fedDay {
	var out []fedDay
	for _, e := range es {
		if e.Kind != journal.Fed {
			continue
		}
		r, has := e.Get(journal.NameFeed)
		v, ok := r.Value()
		if !has || !ok || v.Kind != quantity.KindMass {
			continue
		}
		if n := len(out); n > 0 && out[n-1].last.At.Day() == e.At.Day() {
			out[n-1].mass += v.X
			out[n-1].last = e
			continue
		}
		out = append(out, fedDay{e, v.X})
	}
	return out
}

// moreFood finds the day of the window on which the food rose most over what
// was usual before it, if it rose by much.
func moreFood(es []journal.Entry, now journal.Civil) (journal.Entry, working.Finding, bool) {
	days := fedDays(es)
	most, at, was := 0.0, -1, 0.0
	for i, d := range days {
		if a, ok := ago(d.last, now); !ok || a > Window || i < habit {
			continue
		}
		usual := middle(days[max(0, i-usualOf):i])
		if usual > 0 && d.mass/usual >= muchMore-1e-9 && d.mass/usual > most {
			most, at, was = d.mass/usual, i, usual
		}
	}
	if at < 0 {
		return journal.Entry{}, working.Finding{}, false
	}
	return days[at].last, working.Find(working.Wait, "find.sick.was.more_food").With("Amount", quantity.Mass(days[at].mass).Value()).
		With("Usual", quantity.Mass(was).Value()), true
}

func middle(ds []fedDay) float64 {
	var xs []float64
	for _, d := range ds {
		xs = append(xs, d.mass)
	}
	slices.Sort(xs)
	if n := len(xs); n%2 == 0 {
		return (xs[n/2-1] + xs[n/2]) / 2
	}
	return xs[len(xs)/2]
}

// otherFood finds the latest feeding of the window with a food that stands with
// no feeding before it, and that food. The first food of all is not new here.
// Where a food is not named, the note tells: a feeding unlike the others.
func otherFood(es []journal.Entry, now journal.Civil) (journal.Entry, string, bool) {
	known := map[string]bool{}
	var found journal.Entry
	var food string
	for _, e := range es {
		if e.Kind != journal.Fed {
			continue
		}
		words := e.Note
		if r, ok := e.Get(journal.NameWhat); ok {
			words, _ = r.Word()
		}
		name := strings.ToLower(strings.Join(strings.Fields(words), " "))
		if name == "" {
			continue
		}
		if len(known) == 0 || known[name] {
			known[name] = true
			continue
		}
		if d, ok := ago(e, now); ok && d <= Window {
			found, food = e, strings.TrimSpace(words)
		}
		known[name] = true
	}
	return found, food, food != ""
}
