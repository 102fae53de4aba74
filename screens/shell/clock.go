package shell

import (
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// wall is the clock on the wall beside one that nobody sets.
type wall struct {
	at     time.Time
	steady time.Duration
}

// setLeast is how far the clock on the wall must have been set to be spoken of:
// corrections by the network are smaller. // judgement
const setLeast = time.Minute

// moved looks at both clocks and gives how far the one on the wall was set since the
// look before: forward, or back below nought. It is 0 at the first look.
func (w *wall) moved(now time.Time, steady time.Duration) time.Duration {
	was := *w
	// Without Go's own steady reading, which would hide what was set.
	*w = wall{now.Round(0), steady}
	if was.at.IsZero() {
		return 0
	}
	return w.at.Sub(was.at) - (steady - was.steady)
}

// seeClock says when the clock of the computer was set. Waits go on by the other one;
// what is written from now on has the new time.
func (s *Shell) seeClock() {
	if s.o.Steady == nil {
		return
	}
	d := s.clock.moved(s.o.Now(), s.o.Steady())
	key := working.Key("page.clock.forward")
	switch {
	case d <= -setLeast:
		key = "page.clock.back"
	case d < setLeast:
		return
	}
	s.say(s.present.W.T(key, i18n.Args{"Time": s.present.W.Duration(quantity.Time(d.Abs().Round(time.Minute).Seconds()))}), "", nil)
	s.page.Refresh() // it may tell until when a wait lasts
}
