package fauna

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A layer is one piece of a drawing: contours filled, drawn or both.
type layer struct {
	shape  []contour
	fill   look.Name // "" none
	alpha  float64   // of the fill; 0 is opaque
	line   look.Name // "" none
	weight float64   // of the line, in weights of the outline
	faint  float64   // opacity of the line; 0 is opaque
	least  float64   // points of total length from which on it is drawn
	solid  bool      // counts for the total length
	ghost  bool      // belongs to the outline
	dot    float64   // a filled spot is at least so many points across; 0 as it comes
}

// A sketch is the drawing of one animal, facing right, one unit long.
type sketch struct {
	layers []layer
	bounds scene.Box
}

func (s *sketch) add(l layer) { s.layers = append(s.layers, l) }

// Sizes on the screen, in points of total length, from which more is drawn.
const (
	leastEye  = 9  // judgement: a dot is told from the outline
	leastMark = 11 // judgement: two colours are told apart
	leastFine = 26 // judgement: gill and rays are told apart
	leastRays = 46
	leastNet  = 80
)

// fit moves and stretches the sketch along x, so that its solid parts are
// exactly one unit long, and takes its bounds.
func (s *sketch) fit() *sketch {
	b := scene.EmptyBox()
	for _, l := range s.layers {
		if l.solid {
			for _, c := range l.shape {
				b.Union(c.extent())
			}
		}
	}
	k, mid := 1/b.W(), (b.Min.X+b.Max.X)/2
	s.bounds = scene.EmptyBox()
	for _, l := range s.layers {
		for _, c := range l.shape {
			for i := range c.nodes {
				c.nodes[i].X = (c.nodes[i].X - mid) * k
			}
			s.bounds.Union(c.extent())
		}
	}
	return s
}

// upset turns the sketch over, for what swims belly up.
func (s *sketch) upset() {
	for _, l := range s.layers {
		for _, c := range l.shape {
			for i := range c.nodes {
				c.nodes[i].Y = -c.nodes[i].Y
			}
		}
	}
	s.bounds.Min.Y, s.bounds.Max.Y = -s.bounds.Max.Y, -s.bounds.Min.Y
}

// ring is a circle as a contour.
func ring(c scene.Point, r float64) contour { return oval(c, r, r, 0) }

// oval is an ellipse, turned by an angle.
func oval(c scene.Point, rx, ry, turn float64) contour {
	var n []node
	sin, cos := math.Sincos(turn)
	for i := range 12 {
		v, u := math.Sincos(2 * math.Pi * float64(i) / 12)
		x, y := u*rx, v*ry
		n = append(n, at(c.X+x*cos-y*sin, c.Y+x*sin+y*cos))
	}
	return contour{nodes: n}
}
