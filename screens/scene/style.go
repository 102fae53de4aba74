package scene

import "example.org/driploop/screens/look"

// DefaultWidth is the stroke width in points where a style gives none.
const DefaultWidth = 1.5

// Style says how an outline is painted.
type Style struct {
	Stroke look.Name // colour of the line; "" draws none
	Width  float64   // line width in points; 0 means DefaultWidth
	Dash   []float64 // lengths on, off, on … in points; empty is a full line
	Fill   look.Name // colour of the inside; "" fills none
	Alpha  float64   // opacity of both, 0 < Alpha <= 1; 0 means opaque
}

func (s Style) width() float64 {
	if s.Width == 0 {
		return DefaultWidth
	}
	return s.Width
}

func (s Style) ok() bool {
	for _, d := range s.Dash {
		if !finite(d) || d < 0 {
			return false
		}
	}
	return finite(s.Width, s.Alpha) && s.Width >= 0 && s.Alpha >= 0 && s.Alpha <= 1
}

func opacity(a float64) float64 {
	if a == 0 {
		return 1
	}
	return a
}
