package photo

import (
	"context"
	"errors"
	"image"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// A picture that takes longer than it may is told as that; one that the person
// no longer wants is not.
func TestDeadlineAndCancel(t *testing.T) {
	l := Usual()
	l.Time = time.Nanosecond
	data := jpegOf(t, scene(640, 480), 90)
	if _, _, err := NewDecoder(l).Decode(context.Background(), data, 100); ProblemOf(err) == nil || ProblemOf(err).Code != TooSlow {
		t.Errorf("beyond the limit: %v, want %s", err, TooSlow)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, _, err := NewDecoder(Usual()).Decode(ctx, data, 100); !errors.Is(err, context.Canceled) || ProblemOf(err) != nil {
		t.Errorf("cancelled: %v, want the context's own error", err)
	}
}

// What a decoder does wrong stays with its picture, and its pixels come back.
func TestPanicIsAProblem(t *testing.T) {
	l := Usual()
	l.Budget = 64 * 48
	d := NewDecoder(l)
	data := jpegOf(t, scene(64, 48), 90)
	info, err := Inspect(data, l)
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		_, err = d.decode(context.Background(), data, info, func(image.Image, int) image.Image { panic("a decoder's bug") })
		if p := ProblemOf(err); p == nil || p.Code != Unreadable {
			t.Fatalf("%v, want %s", err, Unreadable)
		}
	}
	if _, _, err := d.Decode(context.Background(), data, 32); err != nil {
		t.Errorf("after that: %v", err)
	}
}

// The budget is never overdrawn, whoever waits gets in, and all comes back.
func TestBudget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		most := rapid.Int64Range(1, 100).Draw(t, "most")
		wants := rapid.SliceOfN(rapid.Int64Range(1, 150), 1, 20).Draw(t, "wants")
		b := newBudget(most)
		var used, worst atomic.Int64
		var wait sync.WaitGroup
		for i, n := range wants {
			wait.Go(func() {
				ctx, cancel := context.WithCancel(context.Background())
				defer cancel()
				if i%5 == 4 {
					cancel()
				}
				if b.take(ctx, n) != nil {
					return
				}
				now := used.Add(min(n, most))
				for w := worst.Load(); now > w && !worst.CompareAndSwap(w, now); w = worst.Load() {
				}
				used.Add(-min(n, most))
				b.give(n)
			})
		}
		wait.Wait()
		if worst.Load() > most {
			t.Errorf("%d of %d were in use at once", worst.Load(), most)
		}
		if b.used != 0 || len(b.queue) != 0 {
			t.Errorf("%d in use and %d waiting at the end", b.used, len(b.queue))
		}
	})
}
