package shell

import "testing"

// What moves stops where it is once the system or the person asks for less motion,
// and goes on from there.
func TestMotionStopsWhereItIs(t *testing.T) {
	at := -1.0
	s := &Shell{}
	s.moving = &moving{step: func(seconds float64) { at = seconds }}
	want := func(x float64) {
		t.Helper()
		if s.Moves(1); at != x {
			t.Errorf("at %v s, want %v", at, x)
		}
	}
	want(1)
	s.Calm(true)
	want(1)
	s.Calm(false)
	s.prefs.Still = true
	want(1)
	s.prefs.Still = false
	want(2)
}
