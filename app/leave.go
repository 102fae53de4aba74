package main

import "fyne.io/fyne/v2"

// host is the toolkit's application, left by our own hand. The toolkit's own
// shutdown can wait for ever for an event that nobody serves any more, or trip
// over its closed queue; the process would then keep the daybook locked. So what
// closes the window or quits calls leave instead, which puts everything away and
// ends the process.
type host struct {
	fyne.App
	leave func()
}

// Quit implements fyne.App.
func (h host) Quit() { h.leave() }

// leaveBy makes the window's close button leave too.
func (h host) leaveBy(w fyne.Window) { w.SetCloseIntercept(h.leave) }
