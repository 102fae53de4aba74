package sick

import (
	"slices"
	"strings"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Window is how many civil days back Changes looks. Source: the quarantine and
// new-arrival signs of the table of signs speak of the first two weeks.
const Window = 14

// Change is something of the last days that may have to do with what is seen.
type Change struct {
	// Entry is the entry that tells it; empty where it is that nothing was done.
	Entry string
	// At is when, by the clock on the wall; empty without an entry.
	At   journal.Civil
	Days int // civil days ago
	// Finding says what it is: find.sick.was.KIND, Wait where it is out of the
	// ordinary, Steady where it is worth knowing.
	Finding working.Finding

	seq int64
}

// told are the kinds of entries that are a change by themselves, with the state
// of each: what is new, has failed or was put into the water stands out.
var told = map[journal.Kind]working.State{journal.FishIn: working.Wait, journal.HomeComing: working.Wait, journal.FishOut: working.Wait, journal.Kit: working.Wait,
	journal.PowerCut: working.Wait, journal.Dosed: working.Steady, journal.Cleaned: working.Steady, journal.Filled: working.Wait}

// Changes finds what has changed at a tank in the last Window days before now:
// fish that came or went, power cuts, appliances, doses, cleaning, swings of
// temperature, more food than usual or another, water changes that are recent,
// too cold or too warm, or overdue. The newest comes first. es may be in any
// order; entries after now are left out. Each entry of a kind of its own gives
// one Change; the rest at most one each.
func Changes(es []journal.Entry, now journal.Civil) []Change {
	past := upTo(es, now)
	near := since(past, now, memory)
	var out []Change
	add := func(e journal.Entry, f working.Finding) {
		if d, ok := ago(e, now); ok && d <= Window {
			out = append(out, Change{Entry: e.ID, At: e.At, Days: d, Finding: f, seq: e.Seq})
		}
	}
	for _, e := range near {
		if state, ok := told[e.Kind]; ok && !counted(e) {
			add(e, working.Find(state, working.Key("find.sick.was."+how(e))))
		}
	}
	if e, f, ok := swing(near, now); ok {
		add(e, f)
	}
	if e, f, ok := moreFood(near, now); ok {
		add(e, f)
	}
	if e, food, ok := otherFood(past, now); ok {
		add(e, working.Find(working.Wait, "find.sick.was.other_food").Say("Food", food))
	}
	out = append(out, oddWater(near, now)...)
	out = append(out, lateWater(past, now, out)...)
	slices.SortStableFunc(out, func(a, b Change) int {
		switch {
		case (a.Entry == "") != (b.Entry == ""): // what was not done leads: it can be done now
			if a.Entry == "" {
				return -1
			}
			return 1
		case a.At != b.At:
			return strings.Compare(string(b.At), string(a.At))
		}
		return int(b.seq - a.seq)
	})
	return out
}

// memory is how many days back habits of feeding and temperature are looked for:
// those before the window show what was usual. Judgement.
const memory = 4 * Window

// upTo gives the entries that are not after now, the earliest first.
func upTo(es []journal.Entry, now journal.Civil) []journal.Entry {
	inOrder := func(a, b journal.Entry) int {
		if a.At != b.At {
			return strings.Compare(string(a.At), string(b.At))
		}
		return int(a.Seq - b.Seq)
	}
	if !slices.IsSortedFunc(es, inOrder) {
		es = slices.Clone(es)
		journal.Sort(es)
	}
	n, _ := slices.BinarySearchFunc(es, now, func(e journal.Entry, at journal.Civil) int {
		if e.At <= at {
			return -1
		}
		return 1
	})
	return es[:n]
}

// since gives the last of past, from some civil days before now on.
func since(past []journal.Entry, now journal.Civil, days int) []journal.Entry {
	t, err := now.Parse()
	if err != nil {
		return nil
	}
	first := journal.CivilOf(t.AddDate(0, 0, -days)).Day()
	n, _ := slices.BinarySearchFunc(past, first, func(e journal.Entry, day string) int {
		if e.At.Day() < day {
			return -1
		}
		return 1
	})
	return past[n:]
}

// counted reports whether an entry brought nobody into the tank and took nobody out
// of it: young born here, or a number set right.
func counted(e journal.Entry) bool {
	for _, name := range []string{journal.NameCame, journal.NameReason} {
		if r, ok := e.Get(name); ok && (r.Measure.Number == "counted" || r.Measure.Number == "born") {
			return true
		}
	}
	return false
}

// how is what an entry tells: its kind, or more where it says more.
func how(e journal.Entry) string {
	said := func(name, word string) bool {
		r, ok := e.Get(name)
		w, isWord := r.Word()
		return ok && isWord && w == word
	}
	switch {
	case e.Kind == journal.FishOut && said(journal.NameReason, "died"):
		return "fish_died"
	case e.Kind == journal.Kit && said(journal.NameState, "failed"):
		return "kit_failed"
	}
	return string(e.Kind)
}

// ago counts the civil days from an entry to now; false for an entry after now
// or whose time cannot be read.
func ago(e journal.Entry, now journal.Civil) (int, bool) {
	d, err := journal.DaysBetween(e.At, now)
	return d, err == nil && d >= 0 && e.At <= now
}

// mostSwing is how much the water's temperature may move within a day. Source:
// the bands of package water: more than 2 °C a day asks to act (textbook).
const mostSwing = quantity.TemperatureDifference(2)

// swing finds the widest pair of readings of the tank's temperature within 24 h
// that is wider than mostSwing. The temperature of new water is not the tank's.
func swing(es []journal.Entry, now journal.Civil) (journal.Entry, working.Finding, bool) {
	type point struct {
		e    journal.Entry
		t    quantity.Temperature
		hour float64
	}
	var ps []point
	for _, e := range es {
		if d, ok := ago(e, now); !ok || d > Window || !e.Kind.OfTank() {
			continue
		}
		r, has := e.Get(journal.NameTemperature)
		v, ok := r.Value()
		at, okT := e.Instant()
		if has && ok && okT && v.Kind == quantity.KindTemperature {
			ps = append(ps, point{e, quantity.Temperature(v.X), float64(at.Unix()) / 3600})
		}
	}
	widest, from, to := mostSwing+1e-6, -1, -1
	for i := range ps {
		for j := i - 1; j >= 0 && ps[i].hour-ps[j].hour <= 24; j-- {
			d := ps[i].t.Minus(ps[j].t)
			if d < 0 {
				d = -d
			}
			if d > widest {
				widest, from, to = d, j, i
			}
		}
	}
	if to < 0 {
		return journal.Entry{}, working.Finding{}, false
	}
	return ps[to].e, working.Find(working.Wait, "find.sick.was.swing").With("From", ps[from].t.Value()).With("To", ps[to].t.Value()), true
}
