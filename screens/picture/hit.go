package picture

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// reach is how far from a mark, in points, it is still hit: targets are 24
// points wide. Source: WCAG 2.2, success criterion 2.5.8.
const reach = 12

// hitMark gives the index of the mark at a position of the view, the uppermost
// of those as near as can be told; -1 for none.
func hitMark(marks []Mark, at XY, picture Size, l Lens, view Size) int {
	best, which := float64(reach), -1
	for i, m := range marks {
		if d := m.far(at, picture, l, view); d <= best {
			best, which = d, i
		}
	}
	return which
}

// hitEnd gives which end of a mark lies at a position; -1 for none.
func hitEnd(m Mark, at XY, picture Size, l Lens, view Size) int {
	best, which := float64(reach), -1
	for i, p := range m.at(picture, l, view) {
		if d := distance(p, at); d <= best {
			best, which = d, i
		}
	}
	return which
}

// far gives how far a position is from what is drawn of a mark, in points.
func (m Mark) far(at XY, picture Size, l Lens, view Size) float64 {
	p := m.at(picture, l, view)
	if len(p) < m.Shape.Points() {
		return math.Inf(1)
	}
	switch m.Shape {
	case Ring:
		return math.Abs(distance(p[0], at) - distance(p[0], p[1]))
	case Words:
		t := scene.Text{At: scene.Pt(p[0].X, -p[0].Y), S: m.Label, Size: look.Body, Weight: scene.SemiBold, V: scene.Centre, Shift: scene.Pt(wordsShift, 0)}
		b := t.Box(scene.Transform{Scale: 1, Point: 1})
		return math.Min(distance(p[0], at), math.Hypot(beyond(at.X, b.Min.X, b.Max.X), beyond(at.Y, b.Min.Y, b.Max.Y)))
	}
	return farFromLine(at, p[0], p[1])
}

func beyond(v, low, high float64) float64 { return math.Max(0, math.Max(low-v, v-high)) }

// farFromLine gives the distance of p from the stretch between a and b.
func farFromLine(p, a, b XY) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	if dx == 0 && dy == 0 {
		return distance(p, a)
	}
	t := clamp(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/(dx*dx+dy*dy), 0, 1)
	return distance(p, XY{a.X + t*dx, a.Y + t*dy})
}
