package chart

import (
	"math"

	"example.org/driploop/screens/scene"
)

// A placer puts texts where they cover neither lines nor each other.
type placer struct {
	room  scene.Box // texts stay within
	lines [][]scene.Point
	bands []strip
	boxes []scene.Box
}

// A strip is a band: its lower and upper edge from left to right.
type strip struct{ low, high []scene.Point }

// cost tells how bad it is to put a text there; 0 is free.
func (p *placer) cost(b scene.Box) float64 {
	c := 0.0
	if b.Min.X < p.room.Min.X || b.Max.X > p.room.Max.X || b.Min.Y < p.room.Min.Y || b.Max.Y > p.room.Max.Y {
		c += 1e6
	}
	for _, o := range p.boxes {
		if b.Overlaps(o) {
			c += 1e4
		}
	}
	for _, line := range p.lines {
		for i := 0; i+1 < len(line); i++ {
			if crosses(line[i], line[i+1], b) {
				c += 100
			}
		}
	}
	for _, s := range p.bands {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, e := range [][]scene.Point{s.low, s.high} {
			for _, q := range e {
				if q.X >= b.Min.X && q.X <= b.Max.X {
					lo, hi = math.Min(lo, q.Y), math.Max(hi, q.Y)
				}
			}
		}
		if b.Min.Y < hi && b.Max.Y > lo {
			c += 5 // legible, but better elsewhere
		}
	}
	return c
}

// place takes the cheapest candidate, the earlier on a tie; it gives the place
// of the text's lower left corner of box and whether it is free.
func (p *placer) place(candidates []scene.Box) (best scene.Box, free bool) {
	least := math.Inf(1)
	for i, b := range candidates {
		if c := p.cost(b.Grow(1)) + float64(i)*1e-3; c < least {
			least, best = c, b
		}
	}
	p.boxes = append(p.boxes, best)
	return best, least < 100
}

// crosses tells whether the straight line from a to b touches the box, by
// cutting it at the four sides.
func crosses(a, b scene.Point, box scene.Box) bool {
	t0, t1 := 0.0, 1.0
	d := b.Sub(a)
	for _, s := range [][2]float64{{-d.X, a.X - box.Min.X}, {d.X, box.Max.X - a.X}, {-d.Y, a.Y - box.Min.Y}, {d.Y, box.Max.Y - a.Y}} {
		if s[0] == 0 {
			if s[1] < 0 {
				return false
			}
			continue
		}
		r := s[1] / s[0]
		if s[0] < 0 {
			t0 = math.Max(t0, r)
		} else {
			t1 = math.Min(t1, r)
		}
	}
	return t0 <= t1
}

// boxAt gives the room of a text with its left end at x and its baseline at y.
func boxAt(x, y float64, m scene.Metrics) scene.Box {
	return scene.Box{Min: scene.Pt(x, y-m.Descent*0.6), Max: scene.Pt(x+m.Width, y+m.CapHeight+2)}
}

// beside gives places for a name along its line, the best first: from the
// highest point outwards, above and below the line.
func beside(line []scene.Point, m scene.Metrics, room scene.Box) []scene.Box {
	if len(line) == 0 {
		return nil
	}
	peak := 0
	for i, p := range line {
		if p.Y > line[peak].Y {
			peak = i
		}
	}
	var out []scene.Box
	const spots = 40
	w := room.W() / spots
	for k := range 2 * spots {
		x := line[peak].X + float64((k+1)/2)*w*(1-2*float64(k%2)) - m.Width/2
		lo, hi := math.Inf(1), math.Inf(-1)
		for i, p := range line {
			if p.X >= x-3 && p.X <= x+m.Width+3 {
				lo, hi = math.Min(lo, p.Y), math.Max(hi, p.Y)
			} else if i+1 < len(line) && p.X < x && line[i+1].X > x+m.Width {
				lo, hi = math.Min(lo, math.Min(p.Y, line[i+1].Y)), math.Max(hi, math.Max(p.Y, line[i+1].Y))
			}
		}
		if hi < lo {
			continue // the line is not here
		}
		if hi-lo > room.H()/3 { // steep: stand beside it
			out = append(out, boxAt(x-m.Width/2-6, (lo+hi)/2, m), boxAt(x+m.Width/2+6, (lo+hi)/2, m))
			continue
		}
		out = append(out, boxAt(x, hi+8+m.Descent*0.6, m), boxAt(x, lo-8-m.CapHeight, m))
	}
	return out
}
