package keeper

import (
	"context"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// StartTimer starts waiting for what the Home-coming page says: the float time
// or the drip time as it stands there. A timer of First fill that runs already is
// ended; those of bags have their own. Refusals: no time could be computed.
func (k *Keeper) StartTimer(ctx context.Context, tank string) error {
	r, err := k.record(ctx, tank)
	if err != nil {
		return err
	}
	return k.startTimer(ctx, tank, r, k.now())
}

func (k *Keeper) startTimer(ctx context.Context, tank string, r *care.Record, now time.Time) error {
	r.Now = now
	page := care.NewFacts(r).Page(care.HomeComing)
	if page.State == care.Shut {
		return &Blocked{care.HomeComing, page.Waits}
	}
	if page.Headline == nil || page.Headline.Value.X <= 0 {
		return working.Refuse("timer", "refuse.keeper.no_time")
	}
	kind := care.TimerFloat
	if a, _ := care.NewFacts(r).Answer("bag.way"); a.Choice == care.WayDrip {
		kind = care.TimerDrip
	}
	wait := time.Duration(page.Headline.Value.X * float64(time.Second)).Round(time.Second)
	c := store.Change{Tank: tank, Label: "undo.timer_start", At: stamp(now), Silent: true}
	for _, t := range r.Timers {
		if !t.Ended && t.Bag == "" {
			c.Ops = append(c.Ops, endTimer(t, now))
		}
	}
	c.Ops = append(c.Ops, k.timerOp(tank, "", kind, wait, now))
	return k.apply(ctx, c)
}

// StopTimer ends First fill's running timer, if there is one.
func (k *Keeper) StopTimer(ctx context.Context, tank string) error {
	r, err := k.record(ctx, tank)
	if err != nil {
		return err
	}
	for _, t := range r.Timers {
		if !t.Ended && t.Bag == "" {
			return k.apply(ctx, store.Change{Tank: tank, Label: "undo.timer_stop", At: stamp(k.now()), Silent: true, Ops: []store.Op{endTimer(t, k.now())}})
		}
	}
	return nil
}

// timerOp starts a timer, of a bag or ("") of First fill.
func (k *Keeper) timerOp(tank, bag string, kind care.TimerKind, wait time.Duration, now time.Time) store.Op {
	id := k.newID()
	k.waits.started(id, k.now().Sub(now))
	return store.Op{Table: "timer", After: store.Row{"id": id, "tank": tank, "kind": string(kind), "started": stamp(now),
		"due": stamp(now.Add(wait)), "elapsed_ms": int64(0), "last_seen": stamp(now), "bag": orNil(bag)}}
}

func endTimer(t care.Timer, now time.Time) store.Op {
	return store.Op{Table: "timer", Before: store.Row{"id": t.ID, "ended": nil}, After: store.Row{"id": t.ID, "ended": stamp(now)}}
}

// TickTimers notes how far the running timers of all tanks are, so that a crash,
// a restart or a wall clock set back loses little. It is not undoable. Failures
// are left for the next tick: the timers run on in memory.
func (k *Keeper) TickTimers(ctx context.Context) {
	if k.ReadOnly() != nil {
		return
	}
	now := k.now()
	rows, err := k.st.Load(ctx, "timer", map[string]any{"ended": nil}, "id")
	if err != nil {
		return
	}
	for _, row := range rows {
		r, err := k.record(ctx, text(row["tank"]))
		if err != nil {
			continue
		}
		for _, t := range r.Timers {
			if t.ID != text(row["id"]) {
				continue
			}
			detail, err := apartText(t.Apart)
			if err != nil {
				continue
			}
			err = k.st.Apply(ctx, store.Change{Tank: text(row["tank"]), Label: "undo.timer_tick", At: stamp(now), Silent: true,
				Ops: []store.Op{{Table: "timer",
					Before: store.Row{"id": t.ID, "elapsed_ms": row["elapsed_ms"], "last_seen": row["last_seen"], "detail": row["detail"]},
					After:  store.Row{"id": t.ID, "elapsed_ms": t.Passed(now).Milliseconds(), "last_seen": stamp(now), "detail": detail}}}})
			if err != nil {
				continue
			}
		}
	}
}
