package shell

// moving is what moves on the page that is shown.
type moving struct {
	step    func(seconds float64)
	seconds float64 // that it has moved for
}

// still reports whether no motion is wanted.
func (s *Shell) still() bool { return s.prefs.Still || s.calm }

// Calm says whether the system asks for less motion; what moves stops where it is.
func (s *Shell) Calm(calm bool) { s.calm = calm }

// beat is what a page asks for its motion; nil without a window, where time does
// not pass.
func (s *Shell) beat() func(step func(seconds float64)) {
	if s.o.Window == nil {
		return nil
	}
	return func(step func(seconds float64)) {
		if s.moving == nil {
			s.moving = &moving{}
		}
		s.moving.step = step
		step(s.moving.seconds) // what is drawn anew goes on where it was
	}
}

// Moves says that so many seconds have passed in which the window was in front:
// what moves on the page moves on, unless no motion is wanted.
func (s *Shell) Moves(seconds float64) {
	if s.still() || s.moving == nil || s.moving.step == nil {
		return
	}
	s.moving.seconds += seconds
	s.moving.step(s.moving.seconds)
}
