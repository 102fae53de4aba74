package keeper

import (
	"context"
	"sync"
	"time"

	"example.org/driploop/model/care"
)

// solved is one reading of a tank's record with what follows from it: the frame
// of the stand is solved once for each reading, not at every look. Nothing that
// is kept depends on the time, which is set anew at each look.
//
// It holds for the very record it was made of and no other. Every change, undo
// and redo makes the keeper read the record anew, so what was solved before it
// can never answer again.
type solved struct {
	of *care.Record // as the keeper holds it

	mu    sync.Mutex   // facts belong to one goroutine at a time
	own   *care.Record // what facts reads; only its time moves
	facts *care.Facts
}

// look gives use the facts of a tank as it stands, and what they read, for as
// long as use runs. It must keep neither, nor change what they hold.
func (k *Keeper) look(ctx context.Context, tank string, use func(*care.Record, *care.Facts)) error {
	s, now, err := k.solved(ctx, tank)
	if err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.own.Now = now
	k.waits.bring(s.own, now)
	use(s.own, s.facts)
	return nil
}

func (k *Keeper) solved(ctx context.Context, tank string) (*solved, time.Time, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	now := k.now()
	r, err := k.held(ctx, tank, now)
	if err != nil {
		return nil, now, err
	}
	s := k.worked[tank]
	if s == nil || s.of != r {
		own := copyOf(r, now)
		s = &solved{of: r, own: own, facts: care.NewFacts(own)}
		k.worked[tank] = s
	}
	return s, now, nil
}
