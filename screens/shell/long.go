package shell

import (
	"context"
	"math"
	"sync"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/parts"
)

// shownEvery is how often a bar of progress is drawn anew. // judgement
const shownEvery = 100 * time.Millisecond

// longJobs are the jobs that run beside the window with a bar and Cancel.
type longJobs struct {
	mu    sync.Mutex
	stops map[int]context.CancelFunc
	next  int
	done  sync.WaitGroup
}

// long runs a job that may take minutes, away from the window's thread, with a bar
// of what is done and a button that stops it. then is called on the window's
// thread; its error is context.Canceled when the person stopped the job.
func (s *Shell) long(title string, job func(ctx context.Context, progress func(done, total int64)) error, then func(error)) {
	if s.o.Inline {
		then(job(context.Background(), func(int64, int64) {}))
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	j := &s.jobs
	j.mu.Lock()
	if j.stops == nil {
		j.stops = map[int]context.CancelFunc{}
	}
	id := j.next
	j.next++
	j.stops[id] = stop
	j.done.Add(1)
	j.mu.Unlock()

	bar := parts.NewBar(parts.BarSpec{Name: title, Share: math.NaN()})
	shut := s.dialog(title, parts.NewColumn(12, bar), parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "stop", Label: s.t("label.cancel")}, stop)))
	var last time.Time
	progress := func(done, total int64) {
		if now := s.o.Now(); total > 0 && (now.Sub(last).Abs() >= shownEvery || done == total) {
			last = now
			share := float64(done) / float64(total)
			fyne.Do(func() {
				bar.Set(parts.BarSpec{Name: title, Text: s.present.W.Percent(math.Round(share*100) / 100), Share: share})
			})
		}
	}
	go func() {
		defer j.done.Done()
		err := job(ctx, progress)
		if ctx.Err() != nil && err != nil {
			err = context.Canceled
		}
		stop()
		j.mu.Lock()
		delete(j.stops, id)
		j.mu.Unlock()
		fyne.Do(func() {
			shut()
			then(err)
		})
	}()
}

// end stops the jobs under way and waits for them.
func (j *longJobs) end() {
	j.mu.Lock()
	for _, stop := range j.stops {
		stop()
	}
	j.mu.Unlock()
	j.done.Wait()
}
