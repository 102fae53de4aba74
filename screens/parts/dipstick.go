package parts

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// StepState is how far a step of the dipstick is.
type StepState uint8

// The states of steps.
const (
	StepShut     StepState = iota // waits for something; readable
	StepOpen                      // can be done now
	StepDone                      // carries a tick
	StepReopened                  // was done, and something has changed since; carries a diamond and its word
)

// DipStep is one step on the dipstick.
type DipStep struct {
	Label string
	State StepState
	Word  string // of a reopened step, such as "look again"
	Waits string // what a shut step waits for
}

// DipstickSpec is what a Dipstick shows.
type DipstickSpec struct {
	Steps   []DipStep // bottom to top
	Current int       // the step whose page is shown; the water stands at it
	Still   bool      // the water does not move slowly: reduced motion, or the window is not in front
}

// Dipstick is the graduated tube that shows how far a work of several steps is.
// Arrow keys go up and down, Enter and Space go to the step's page, a tap goes
// there at once. A shut step says what it waits for when pointed at.
type Dipstick struct {
	actor
	OnSelect  func(index int)
	OnExplain func(index int) // a step is pointed at by key or pointer; -1 when none is

	spec   DipstickSpec
	at     int     // chosen by key
	over   int     // under the pointer, or -1
	level  float32 // of the water, in steps
	moving *fyne.Animation
}

// NewDipstick gives a dipstick. selected may be nil.
func NewDipstick(s DipstickSpec, selected func(index int)) *Dipstick {
	d := &Dipstick{spec: s, OnSelect: selected, over: -1, at: s.Current, level: float32(s.Current)}
	d.begin(d)
	return d
}

// Set shows another spec; the water goes slowly to where it now stands.
func (d *Dipstick) Set(s DipstickSpec) {
	if same(s, d.spec) {
		return
	}
	moved := s.Current != d.spec.Current
	d.spec = s
	if d.over >= len(s.Steps) {
		d.over = -1
	}
	if moved || d.at >= len(s.Steps) {
		d.at = s.Current
	}
	d.run(s.Still)
	d.update()
}

// Spec gives what is shown.
func (d *Dipstick) Spec() DipstickSpec { return d.spec }

// rise is how long the water takes to a new level.
const rise = 900 * time.Millisecond // judgement: slow, yet over before the page is read

// run lets the water go to the current step.
func (d *Dipstick) run(still bool) {
	if d.moving != nil {
		d.moving.Stop()
		d.moving = nil
	}
	from, to := d.level, float32(d.spec.Current)
	if still || from == to {
		d.level = to
		return
	}
	d.moving = fyne.NewAnimation(rise, func(f float32) {
		d.level = from + (to-from)*f
		d.Refresh()
	})
	d.moving.Start()
}

// FocusLost implements fyne.Focusable.
func (d *Dipstick) FocusLost() {
	d.actor.FocusLost()
	d.explain(d.over)
}

// FocusGained implements fyne.Focusable.
func (d *Dipstick) FocusGained() {
	d.actor.FocusGained()
	d.explain(d.at)
}

// TypedKey implements fyne.Focusable.
func (d *Dipstick) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyUp:
		d.move(d.at + 1)
	case fyne.KeyDown:
		d.move(d.at - 1)
	case fyne.KeyHome:
		d.move(0)
	case fyne.KeyEnd:
		d.move(len(d.spec.Steps) - 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		d.choose(d.at)
	default:
		d.spareKey(ev)
	}
}

func (d *Dipstick) move(to int) {
	to = max(0, min(to, len(d.spec.Steps)-1))
	if to == d.at {
		return
	}
	d.at = to
	d.Refresh()
	d.explain(to)
}

func (d *Dipstick) choose(i int) {
	if i >= 0 && i < len(d.spec.Steps) && d.OnSelect != nil {
		d.OnSelect(i)
	}
}

func (d *Dipstick) explain(i int) {
	if d.OnExplain != nil {
		d.OnExplain(i)
	}
}

// Tapped implements fyne.Tappable.
func (d *Dipstick) Tapped(ev *fyne.PointEvent) {
	i := d.under(ev.Position.Y)
	if i >= 0 {
		d.at = i
	}
	d.take()
	d.Refresh()
	d.choose(i)
}

// MouseIn implements desktop.Hoverable.
func (d *Dipstick) MouseIn(ev *desktop.MouseEvent) { d.MouseMoved(ev) }

// MouseMoved implements desktop.Hoverable.
func (d *Dipstick) MouseMoved(ev *desktop.MouseEvent) { d.point(d.under(ev.Position.Y)) }

// MouseOut implements desktop.Hoverable.
func (d *Dipstick) MouseOut() { d.point(-1) }

func (d *Dipstick) point(i int) {
	if i == d.over {
		return
	}
	d.over = i
	d.Refresh()
	d.explain(i)
}
