package parts

import (
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// State is how something stands. It is shown by a shape and by a word that the
// caller gives, never by its colour alone.
type State uint8

// The states. The zero value shows neither shape nor colour.
const (
	NoState State = iota
	Steady        // circle
	Wait          // diamond
	Act           // triangle
)

// colour gives the role that text and shapes of the state are drawn in.
func (s State) colour() look.Name {
	switch s {
	case Steady:
		return look.Steady
	case Wait:
		return look.Wait
	case Act:
		return look.Act
	}
	return look.Ink
}

// shape gives the marker of the state and whether it has one.
func (s State) shape() (scene.Shape, bool) {
	switch s {
	case Steady:
		return scene.Round, true
	case Wait:
		return scene.Diamond, true
	case Act:
		return scene.Triangle, true
	}
	return 0, false
}
