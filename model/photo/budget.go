package photo

import (
	"context"
	"sync"
)

// budget is a number of pixels that those under way share, first come first
// served, so that a large picture is not passed by small ones for ever.
type budget struct {
	mu    sync.Mutex
	most  int64
	used  int64
	queue []*waiter
}

type waiter struct {
	n     int64
	ready chan struct{}
}

func newBudget(most int64) *budget { return &budget{most: most} }

// take waits until n pixels are free. More than there are at all count as all.
func (b *budget) take(ctx context.Context, n int64) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	n = min(n, b.most)
	b.mu.Lock()
	if len(b.queue) == 0 && b.used+n <= b.most {
		b.used += n
		b.mu.Unlock()
		return nil
	}
	w := &waiter{n, make(chan struct{})}
	b.queue = append(b.queue, w)
	b.mu.Unlock()
	select {
	case <-w.ready:
		return nil
	case <-ctx.Done():
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	select {
	case <-w.ready: // it came in the same moment
		b.used -= n
	default:
		for i, q := range b.queue {
			if q == w {
				b.queue = append(b.queue[:i], b.queue[i+1:]...)
				break
			}
		}
	}
	b.wake()
	return ctx.Err()
}

// give returns what take took.
func (b *budget) give(n int64) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.used -= min(n, b.most)
	b.wake()
}

// wake lets in those at the head of the queue that fit. The caller has locked b.
func (b *budget) wake() {
	for len(b.queue) > 0 && b.used+b.queue[0].n <= b.most {
		w := b.queue[0]
		b.queue = b.queue[1:]
		b.used += w.n
		close(w.ready)
	}
}
