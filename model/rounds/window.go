package rounds

import (
	"time"

	"example.org/driploop/model/journal"
)

// window is the civil time in which an entry does an occurrence: from included,
// to not; an empty to is open.
type window struct{ from, to journal.Civil }

// windows cut the time into one window an occurrence.
type windows struct {
	due  []journal.Civil // that have come
	next journal.Civil   // the one after them, or empty
}

// leadShare is how early an occurrence may be done: a quarter of the way from the
// one before it, by whole days. Judgement: a weekly test done a day early counts.
const leadShare = 4

// at is the window of the i-th occurrence.
func (w windows) at(i int) window {
	after := w.next
	if i+1 < len(w.due) {
		after = w.due[i+1]
	}
	out := window{from: journal.Civil(w.due[i].Day() + "T00:00")}
	if i > 0 {
		out.from = border(w.due[i-1], w.due[i])
	} else if after != "" {
		out.from = first(w.due[i], after)
	}
	if after != "" {
		out.to = border(w.due[i], after)
	}
	return out
}

// border is where the time of one occurrence ends and that of the next begins.
func border(a, b journal.Civil) journal.Civil {
	ta, errA := a.Parse()
	tb, errB := b.Parse()
	if errA != nil || errB != nil {
		return b
	}
	if a.Day() == b.Day() {
		return journal.CivilOf(ta.Add(tb.Sub(ta) / 2))
	}
	return early(b, tb.Sub(ta))
}

// first is where the time of the first occurrence begins.
func first(a, b journal.Civil) journal.Civil {
	ta, errA := a.Parse()
	tb, errB := b.Parse()
	if errA != nil || errB != nil {
		return a
	}
	return early(a, tb.Sub(ta))
}

// early is the beginning of the day from which b may be done, a gap after the
// one before it.
func early(b journal.Civil, gap time.Duration) journal.Civil {
	t, err := b.Parse()
	if err != nil {
		return b
	}
	days := int(gap.Hours()/24+0.5) / leadShare
	return journal.Civil(t.AddDate(0, 0, -days).Format("2006-01-02") + "T00:00")
}
