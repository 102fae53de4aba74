package scene

import (
	"math"

	"example.org/driploop/screens/look"
)

// HitTest gives the topmost part at (x, y) in millimetres, "" for none. Where
// nothing is hit exactly, lines count that pass within a hundredth of the
// drawing's diagonal. What is sized in points cannot be hit without a transform: see Transform.Hit.
func (s *Scene) HitTest(x, y float64) ID {
	b := s.Bounds()
	if b.Empty() || !finite(x, y) {
		return ""
	}
	return Transform{Scale: 1}.Hit(s, x, -y, math.Hypot(b.W(), b.H())/100)
}

// Hit gives the topmost part of s at the device position (x, y) when s is shown
// under t; "" for none. Where nothing is hit exactly, the topmost line that
// passes within slack device units counts.
func (t Transform) Hit(s *Scene, x, y, slack float64) ID {
	if s == nil || !finite(x, y, slack) {
		return ""
	}
	if id := t.hit(s, hitter{at: Point{x, y}}); id != "" || slack <= 0 {
		return id
	}
	return t.hit(s, hitter{at: Point{x, y}, slack: slack})
}

func (t Transform) hit(s *Scene, h hitter) ID {
	d := drawing{t: t, out: &h}
	for i := len(s.entries) - 1; i >= 0; i-- {
		e := s.entries[i]
		if e.id == "" {
			continue
		}
		if e.item.draw(&d); h.hit {
			return e.id
		}
	}
	return ""
}

// A hitter finds out whether anything is drawn at a place.
type hitter struct {
	at    Point
	slack float64
	hit   bool
}

func (h *hitter) fill(outlines [][]Point, _ look.Name, _ float64) {
	turns := 0
	for _, o := range outlines {
		turns += winding(o, h.at)
	}
	h.hit = h.hit || turns != 0
}

func (h *hitter) stroke(line []Point, closed bool, width float64, _ []float64, _ look.Name, _ float64) {
	near := width/2 + h.slack
	for i := range line {
		j := i + 1
		if j == len(line) {
			if !closed {
				return
			}
			j = 0
		}
		if apart(h.at, line[i], line[j]) <= near {
			h.hit = true
			return
		}
	}
}

func (h *hitter) text(r run) { h.hit = h.hit || r.box().Grow(h.slack).Contains(h.at) }

func (h *hitter) target(outline []Point) {
	h.hit = h.hit || len(outline) > 2 && winding(outline, h.at) != 0
}

// winding counts how often the closed outline goes round p.
func winding(o []Point, p Point) int {
	n := 0
	for i, a := range o {
		b := o[(i+1)%len(o)]
		side := (b.X-a.X)*(p.Y-a.Y) - (p.X-a.X)*(b.Y-a.Y)
		switch {
		case a.Y <= p.Y && b.Y > p.Y && side > 0:
			n++
		case a.Y > p.Y && b.Y <= p.Y && side < 0:
			n--
		}
	}
	return n
}

// apart gives the distance of p from the straight line between a and b.
func apart(p, a, b Point) float64 {
	v := b.Sub(a)
	k := 0.0
	if l := v.X*v.X + v.Y*v.Y; l > 0 {
		w := p.Sub(a)
		k = clamp((w.X*v.X+w.Y*v.Y)/l, 0, 1)
	}
	return p.Sub(a.Add(v.Mul(k))).Len()
}
