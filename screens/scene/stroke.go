package scene

import "math"

// outline turns a line into pieces that together cover its stroke. All pieces
// run the same way round, so that overlapping ones add up and never cancel.
// Joins and the ends of undashed lines are round.
func outline(line []Point, closed bool, width float64, dash []float64, piece func([]Point)) {
	if len(dash) > 0 {
		for _, part := range dashes(line, closed, dash) {
			solid(part, false, width, false, piece)
		}
		return
	}
	solid(line, closed, width, !closed && width >= 2, piece)
}

func solid(line []Point, closed bool, width float64, caps bool, piece func([]Point)) {
	h := width / 2
	n := len(line)
	edges := n - 1
	if closed {
		edges = n
	}
	var first, before Point // unit directions
	have := false
	for i := range edges {
		a, b := line[i], line[(i+1)%n]
		v := b.Sub(a)
		l := v.Len()
		if l < 1e-9 {
			continue
		}
		u := v.Mul(1 / l)
		s := Point{-u.Y, u.X}.Mul(h)
		piece([]Point{a.Add(s), b.Add(s), b.Sub(s), a.Sub(s)})
		if have {
			join(a, before, u, h, piece)
		} else {
			first, have = u, true
		}
		before = u
	}
	if !have {
		return
	}
	if closed {
		join(line[0], before, first, h, piece)
	} else if caps {
		disc(line[0], h, piece)
		disc(line[n-1], h, piece)
	}
}

// join covers the gap at p between directions u and v.
func join(p, u, v Point, h float64, piece func([]Point)) {
	cross, dot := u.X*v.Y-u.Y*v.X, u.X*v.X+u.Y*v.Y
	if math.Abs(cross)*h < 0.05 && dot > 0 { // the gap is too thin to be seen
		return
	}
	if dot < 0.94 && h > 0.6 { // more than 20 degrees: a round join
		disc(p, h, piece)
		return
	}
	side := h
	if cross > 0 {
		side = -h
	}
	a, b := p.Add(Point{-u.Y, u.X}.Mul(side)), p.Add(Point{-v.Y, v.X}.Mul(side))
	if (a.X-p.X)*(b.Y-p.Y)-(a.Y-p.Y)*(b.X-p.X) > 0 {
		a, b = b, a
	}
	piece([]Point{p, a, b})
}

func disc(c Point, r float64, piece func([]Point)) {
	n := max(8, pieces(r*4*math.Pi*math.Pi))
	ring := make([]Point, n)
	for i := range ring {
		sin, cos := math.Sincos(-2 * math.Pi * float64(i) / float64(n))
		ring[i] = Point{c.X + r*cos, c.Y + r*sin}
	}
	piece(ring)
}

// dashes cuts a line into its inked parts. A pattern with an odd number of
// lengths is taken twice, as usual.
func dashes(line []Point, closed bool, pattern []float64) (parts [][]Point) {
	if closed && len(line) > 0 {
		line = append(append([]Point(nil), line...), line[0])
	}
	if len(pattern)%2 == 1 {
		pattern = append(append([]float64(nil), pattern...), pattern...)
	}
	k, left, on := 0, pattern[0], true
	var part []Point
	for i := 0; i+1 < len(line); i++ {
		a, b := line[i], line[i+1]
		l := b.Sub(a).Len()
		if l < 1e-9 {
			continue
		}
		u := b.Sub(a).Mul(1 / l)
		if on && len(part) == 0 {
			part = append(part, a)
		}
		done := 0.0
		for done < l {
			if left > l-done {
				left -= l - done
				if on {
					part = append(part, b)
				}
				break
			}
			done += left
			at := a.Add(u.Mul(done))
			if on {
				parts = append(parts, append(part, at))
			}
			part = nil
			on = !on
			k = (k + 1) % len(pattern)
			left = pattern[k]
			if on {
				part = append(part, at)
			}
			if len(parts) > 20000 { // a pattern far finer than the device
				return parts
			}
		}
	}
	if on && len(part) > 1 {
		parts = append(parts, part)
	}
	return parts
}
