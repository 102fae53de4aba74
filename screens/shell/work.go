package shell

import (
	"context"

	"fyne.io/fyne/v2"
)

// worker runs jobs one after another away from the window's thread, so that a
// slow disk never stops the typing.
type worker struct {
	jobs chan func()
}

func newWorker() *worker {
	w := &worker{jobs: make(chan func(), 256)}
	go func() {
		for job := range w.jobs {
			job()
		}
	}()
	return w
}

// do runs job and then, on the window's thread, then.
func (w *worker) do(job func(context.Context) error, then func(error)) {
	w.jobs <- func() {
		err := job(context.Background())
		fyne.Do(func() { then(err) })
	}
}

// inline runs both at once, for walks without a window.
func inline(job func(context.Context) error, then func(error)) { then(job(context.Background())) }
