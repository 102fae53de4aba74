package shell

import (
	"context"
	"sync"

	"fyne.io/fyne/v2"
)

// aside runs what takes long beside the window and beside the changes, which must
// not wait for it. It ends with the program.
type aside struct {
	inline bool
	ctx    context.Context
	stop   context.CancelFunc
	all    sync.WaitGroup
}

func newAside(inline bool) *aside {
	a := &aside{inline: inline}
	a.ctx, a.stop = context.WithCancel(context.Background())
	return a
}

// run begins f beside the window, or in a walk without one does it.
func (a *aside) run(f func()) {
	if a.inline {
		f()
		return
	}
	a.all.Go(f)
}

// post brings f back to the window's thread.
func (a *aside) post(f func()) {
	if a.inline {
		f()
		return
	}
	fyne.Do(f)
}

// do runs job and then, back on the window's thread, then.
func (a *aside) do(job func(context.Context), then func()) {
	a.run(func() {
		job(a.ctx)
		a.post(then)
	})
}

// finish ends what is under way and waits for it.
func (a *aside) finish() {
	a.stop()
	a.all.Wait()
}
