package keeper

import (
	"encoding/json"
	"sync"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/store"
)

// waits counts the timers that run by a clock that nobody sets, for as long as the
// program runs.
type waits struct {
	steady func() time.Duration
	given  bool          // steady is a clock of its own
	wall   time.Time     // when the program began
	from   time.Duration // the same of the steady clock

	mu    sync.Mutex
	runs  map[string]running       // by id
	fills map[string]time.Duration // by the entry of a filling: how far the wall clock was set before it, in this run
}

// running is how far a timer was when the steady clock was looked at last.
type running struct {
	elapsed time.Duration
	seen    time.Duration // of the steady clock
	apart   care.Apart
}

func (w *waits) begin(o Options) {
	w.runs, w.fills = map[string]running{}, map[string]time.Duration{}
	from := o.Now()
	w.steady, w.given, w.wall = o.Steady, o.Steady != nil, from.Round(0)
	if !w.given {
		w.steady = func() time.Duration { return o.Now().Sub(from) }
	}
	w.from = w.steady()
}

// bring brings a record up to now: the timers that run, and what the steady clock
// tells of the filling.
func (w *waits) bring(r *care.Record, now time.Time) {
	w.follow(r.Timers, now)
	if !w.given {
		return
	}
	at := w.steady()
	r.Ran = care.Ran{For: at - w.from}
	i := len(r.Entries) - 1
	for i >= 0 && r.Entries[i].Kind != journal.Filled {
		i--
	}
	if i < 0 {
		return
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	r.Ran.Set = w.set(now, at) - w.fills[r.Entries[i].ID]
}

// set is how far the clock on the wall was set forward since the program began.
func (w *waits) set(now time.Time, steady time.Duration) time.Duration {
	return now.Round(0).Sub(w.wall) - (steady - w.from)
}

// filled notes fillings that were written down just now, by the clock as it stands.
func (w *waits) filled(ops []store.Op, now time.Time) {
	for _, o := range ops {
		if o.Table == "entry" && o.Before == nil && text(o.After["kind"]) == string(journal.Filled) && w.given {
			w.mu.Lock()
			w.fills[text(o.After["id"])] = w.set(now, w.steady())
			w.mu.Unlock()
		}
	}
}

// started says that a timer began a while ago, which is mostly no while at all.
func (w *waits) started(id string, ago time.Duration) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.runs[id] = running{elapsed: max(0, ago), seen: w.steady()}
}

// follow brings the timers that run up to now. One that it has not seen before was
// counted by the wall clock since it was last noted. Ended ones stay as they are.
func (w *waits) follow(ts []care.Timer, now time.Time) {
	w.mu.Lock()
	defer w.mu.Unlock()
	at := w.steady()
	for i := range ts {
		t := &ts[i]
		if t.Ended {
			continue
		}
		r, ok := w.runs[t.ID]
		if !ok {
			*t = t.Resumed(now)
			r = running{t.Elapsed, at, t.Apart}
		}
		r.elapsed += max(0, at-r.seen)
		r.seen = at
		w.runs[t.ID] = r
		t.Elapsed, t.Seen, t.Apart = r.elapsed, now, r.apart
	}
}

// Follow brings a timer that a page holds up to the present.
func (k *Keeper) Follow(t *care.Timer) {
	if t == nil {
		return
	}
	one := []care.Timer{*t}
	k.waits.follow(one, k.now())
	*t = one[0]
}

// apartText is what is kept of a timer beside how far it is; nil where there is
// nothing to be said.
func apartText(a care.Apart) (any, error) {
	if !a.Unsure() {
		return nil, nil
	}
	b, err := json.Marshal(a)
	return string(b), err
}
