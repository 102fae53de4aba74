package keeper

import (
	"encoding/json"
	"sync"
	"time"

	"example.org/driploop/model/care"
)

// waits counts the timers that run by a clock that nobody sets, for as long as the
// program runs.
type waits struct {
	steady func() time.Duration

	mu   sync.Mutex
	runs map[string]running // by id
}

// running is how far a timer was when the steady clock was looked at last.
type running struct {
	elapsed time.Duration
	seen    time.Duration // of the steady clock
	apart   care.Apart
}

func (w *waits) begin(o Options) {
	w.runs = map[string]running{}
	if w.steady = o.Steady; w.steady == nil {
		from := o.Now()
		w.steady = func() time.Duration { return o.Now().Sub(from) }
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
