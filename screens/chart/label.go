package chart

import (
	"math"

	"example.org/driploop/screens/scene"
)

// columnWidth is the width in points of the columns in which lines are looked
// up when texts are placed.
const columnWidth = 3.0

// A profile is a line as its lowest and highest place in each column.
type profile struct {
	left   float64
	lo, hi []float64
}

func profileOf(line []scene.Point, room scene.Box) profile {
	n := int(room.W()/columnWidth) + 2
	p := profile{left: room.Min.X, lo: make([]float64, n), hi: make([]float64, n)}
	for i := range n {
		p.lo[i], p.hi[i] = math.Inf(1), math.Inf(-1)
	}
	add := func(c int, y float64) {
		if c >= 0 && c < n {
			p.lo[c], p.hi[c] = math.Min(p.lo[c], y), math.Max(p.hi[c], y)
		}
	}
	for i, q := range line {
		add(p.column(q.X), q.Y)
		if i == 0 {
			continue
		}
		o := line[i-1] // and where the line between them passes from column to column
		for c := max(0, p.column(o.X)+1); c <= min(n-1, p.column(q.X)); c++ {
			y := o.Y + (q.Y-o.Y)*(p.left+float64(c)*columnWidth-o.X)/(q.X-o.X)
			add(c-1, y)
			add(c, y)
		}
	}
	return p
}

func (p profile) column(x float64) int { return int(math.Floor((x - p.left) / columnWidth)) }

// span gives the lowest and highest place between two x; hi < lo when the line
// is not there.
func (p profile) span(x0, x1 float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for c := max(0, p.column(x0)); c <= min(len(p.lo)-1, p.column(x1)); c++ {
		lo, hi = math.Min(lo, p.lo[c]), math.Max(hi, p.hi[c])
	}
	return lo, hi
}

// A placer puts texts where they cover neither lines nor each other.
type placer struct {
	room  scene.Box // texts stay within
	lines []profile
	bands [][2]profile // lower and upper edge
	boxes []scene.Box
}

func (p *placer) line(points ...scene.Point) {
	p.lines = append(p.lines, profileOf(points, p.room))
}

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
	for _, l := range p.lines {
		for k := max(0, l.column(b.Min.X)); k <= min(len(l.lo)-1, l.column(b.Max.X)); k++ {
			if b.Min.Y <= l.hi[k] && b.Max.Y >= l.lo[k] {
				c += 100
			}
		}
	}
	for _, s := range p.bands {
		lo, _ := s[0].span(b.Min.X, b.Max.X)
		_, hi := s[1].span(b.Min.X, b.Max.X)
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
		// Moved in from the sides; a text wider than the room begins at its left.
		in := scene.Pt(math.Max(p.room.Min.X+1-b.Min.X, math.Min(0, p.room.Max.X-1-b.Max.X)), 0)
		b = scene.Box{Min: b.Min.Add(in), Max: b.Max.Add(in)}
		if c := p.cost(b.Grow(1)) + float64(i)*1e-3; c < least {
			least, best = c, b
		}
	}
	p.boxes = append(p.boxes, best)
	return best, least < 100
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
	var out, tight []scene.Box
	const spots = 40
	w := room.W() / spots
	shape := profileOf(line, room)
	for k := range 2 * spots {
		x := line[peak].X + float64((k+1)/2)*w*(1-2*float64(k%2)) - m.Width/2
		lo, hi := shape.span(x-3, x+m.Width+3)
		if hi < lo {
			continue // the line is not here
		}
		if hi-lo > room.H()/3 { // steep: stand beside it
			out = append(out, boxAt(x-m.Width/2-6, (lo+hi)/2, m), boxAt(x+m.Width/2+6, (lo+hi)/2, m))
			continue
		}
		out = append(out, boxAt(x, hi+8+m.Descent*0.6, m), boxAt(x, lo-8-m.CapHeight, m))
		tight = append(tight, boxAt(x, hi+4+m.Descent*0.6, m), boxAt(x, lo-5-m.CapHeight, m))
	}
	first, last := line[0], line[len(line)-1]
	out = append(out, boxAt(last.X+8, last.Y-m.CapHeight/2, m), boxAt(first.X-8-m.Width, first.Y-m.CapHeight/2, m))
	return append(out, tight...)
}
