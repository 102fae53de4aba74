package main

import (
	"context"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/shell"
)

// How the fish are moved. Each step paints the window again, which costs next to
// nothing where the machine has a graphics unit and tens of milliseconds where the
// processor paints: a step is followed by as long a rest as keeps its share.
const (
	moveEvery = 300 * time.Millisecond // judgement: a slow fish moves a pixel or less in this time
	mostRest  = 3 * time.Second
	mostShare = 0.03                   // of one core, for all of the motion
	mostStep  = 600 * time.Millisecond // of drift a step: after a longer rest the fish are slower, and do not leap
	painted   = 150 * time.Millisecond // judgement: by then a step has been painted
	// A system that has not said by then whether it wants less motion has not asked.
	longestAsk = 2 * time.Second // judgement
)

// pace is how long to rest between steps.
type pace struct{ cost time.Duration } // of a step, smoothed

// note takes what a step cost of the processor's time.
func (p *pace) note(cost time.Duration) {
	cost = max(0, min(cost, time.Second)) // a page that was opened meanwhile is no step
	if p.cost == 0 {
		p.cost = cost
	}
	p.cost += (cost - p.cost) / 4
}

// rest is how long after the last step the next one is due.
func (p *pace) rest() time.Duration {
	return max(moveEvery, min(mostRest, time.Duration(float64(p.cost)/mostShare)))
}

// drift is how much time passes for the fish in a step after that rest.
func drift(rest time.Duration) time.Duration { return min(rest, mostStep) }

// move moves what moves on the page while the window is in front, until the
// channel is closed. Behind other windows or put away, nothing is painted.
// Whether the system asks for less motion is asked whenever the window comes to
// the front, beside it; nothing moves before the first answer.
func move(a fyne.App, env Env, s *shell.Shell, stop <-chan struct{}) {
	var front, told atomic.Bool
	a.Lifecycle().SetOnEnteredForeground(func() {
		front.Store(true)
		go func() {
			ctx, cancel := context.WithTimeout(context.Background(), longestAsk)
			defer cancel()
			calm := calmSystem(ctx, env)
			fyne.Do(func() { s.Calm(calm) })
			told.Store(true)
		}()
	})
	a.Lifecycle().SetOnExitedForeground(func() { front.Store(false) })
	go func() {
		var p pace
		for {
			rest := p.rest()
			if !sleep(rest-painted, stop) {
				return
			}
			before := processorTime()
			moved := front.Load() && told.Load()
			if moved {
				fyne.Do(func() { s.Moves(drift(rest).Seconds()) })
			}
			if !sleep(painted, stop) {
				return
			}
			if moved {
				p.note(processorTime() - before)
			}
		}
	}()
}

// sleep waits; false when the channel was closed meanwhile.
func sleep(d time.Duration, stop <-chan struct{}) bool {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-stop:
		return false
	case <-t.C:
		return true
	}
}
