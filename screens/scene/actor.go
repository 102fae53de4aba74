package scene

// An Actor is a small drawing that moves over a scene: shown by itself, so that
// moving it draws nothing again. Right and Left are its drawing about the
// origin, in millimetres, facing either way. Where gives where the origin is
// after so many seconds, and whether it faces left; it must be the same every
// time.
type Actor struct {
	ID          ID
	Right, Left *Scene
	Where       func(seconds float64) (at Point, left bool)
}

// at gives what shows of the actor and its place then.
func (a Actor) at(seconds float64) (*Scene, Point) {
	p, left := a.Where(seconds)
	if left {
		return a.Left, p
	}
	return a.Right, p
}
