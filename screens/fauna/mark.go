package fauna

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A mark is one thing of a colouring: a kind, a pigment, and numbers. Places
// are those of a form, heights on the flank run from the belly (-1) to the back
// (1), sizes are in lengths of the animal.
type mark struct {
	kind   string
	colour look.Name
	args   []float64
}

func (m mark) arg(i int, usual float64) float64 {
	if i < len(m.args) {
		return m.args[i]
	}
	return usual
}

// markKinds are the kinds with the most numbers each takes:
//
//	stripe  from to low high   along the body, pointed at its ends within
//	field   from to low high   the same with blunt ends
//	bar     at width lean      across the body
//	bars    n from to width    n of them
//	wedge   from to half       a triangle that points to the tail, blunt in front
//	spot    at high radius tall
//	spots   n radius from to low high
//	mottle  n radius from to low high
//	net                        the edges of scales
//	lines   n                  n fine lines along the body
//	finedge fintip finspots dorsalspot tailedge taillobes tailspot tailbase tailstripe tailspots: on the fins
var markKinds = map[string]int{"stripe": 4, "field": 4, "bar": 3, "bars": 4, "wedge": 3, "spot": 4, "spots": 6, "mottle": 6, "net": 0, "lines": 1,
	"finedge": 0, "fintip": 0, "finspots": 1, "dorsalspot": 3, "tailedge": 0, "taillobes": 0, "tailspot": 2, "tailbase": 1, "tailstripe": 3, "tailspots": 2}

// band is the part of the flank between two places and two heights. Pointed
// ends run together, except at the tail's base and the snout.
func (f *figure) band(from, to, low, high float64, pointed bool) contour {
	n := max(4, int((to-from)*16))
	mid, half := (low+high)/2, (high-low)/2
	var up, down []node
	for i := range n + 1 {
		k := float64(i) / float64(n)
		s, h := from+(to-from)*k, half
		if pointed {
			if from > .02 {
				h *= math.Sqrt(math.Min(1, k*4))
			}
			if to < .98 {
				h *= math.Sqrt(math.Min(1, (1-k)*4))
			}
		}
		edge := i == 0 || i == n
		up = append(up, node{f.on(s, mid+h), edge})
		down = append(down, node{f.on(s, mid-h), edge})
	}
	for i := n; i >= 0; i-- {
		up = append(up, down[i])
	}
	return contour{nodes: up}
}

// bar is the part of the flank about a place, as wide in lengths.
func (f *figure) bar(s, width, lean float64) contour {
	w := width / (1 - f.tail) / 2
	var up, down []node
	const n = 6
	for i := range n + 1 {
		h := -1 + 2*float64(i)/n
		c := s + lean*h*.5
		k := w * (1 - .25*h*h)
		up = append(up, node{f.on(hold(c-k, 0, 1), h), i == 0 || i == n})
		down = append(down, node{f.on(hold(c+k, 0, 1), h), i == 0 || i == n})
	}
	for i := n; i >= 0; i-- {
		up = append(up, down[i])
	}
	return contour{nodes: up}
}

// draw adds the mark to the flank; marks of fins are drawn with the fin.
func (m mark) draw(f *figure) {
	var c []contour
	l := layer{fill: m.colour, alpha: .94, least: leastMark}
	switch m.kind {
	case "stripe", "field":
		c = append(c, f.band(m.arg(0, 0), m.arg(1, 1), m.arg(2, -.2), m.arg(3, .2), m.kind == "stripe"))
	case "bar":
		c = append(c, f.bar(m.arg(0, .5), m.arg(1, .06), m.arg(2, 0)))
	case "bars":
		n := int(m.arg(0, 4))
		for i := range n {
			k := .5
			if n > 1 {
				k = float64(i) / float64(n-1)
			}
			c = append(c, f.bar(m.arg(1, .1)+(m.arg(2, .8)-m.arg(1, .1))*k, m.arg(3, .06), 0))
		}
	case "wedge":
		a, b, h := m.arg(0, 0), m.arg(1, .55), m.arg(2, .8)
		c = append(c, closed(corner(f.on(a, .12)), corner(f.on(b, h)), at2(f.on(b+.03, h*.2)), corner(f.on(b-.03, -h)), corner(f.on(a, -.12))))
	case "spot":
		r := m.arg(2, .05)
		p := f.on(m.arg(0, .5), m.arg(1, 0))
		c = append(c, oval(p, r, r*m.arg(3, 1), 0))
	case "spots", "mottle":
		n, r := int(m.arg(0, 20)), m.arg(1, .014)
		from, to, low, high := m.arg(2, .05), m.arg(3, .9), m.arg(4, -.7), m.arg(5, .85)
		// As many rows as make the steps alike along and across.
		rows := max(1, int(math.Round(math.Sqrt(float64(n)*(high-low)*f.half((from+to)/2)/((to-from)*(1-f.tail))))))
		cols := (n + rows - 1) / rows
		for i := range n {
			row, col := i%rows, i/rows
			u := (float64(col) + .25 + .5*float64(row%2) + .3*(scene.Scatter(i, 17)-.5)) / (float64(cols) + .25)
			v := (float64(row) + .5 + .3*(scene.Scatter(i, 19)-.5)) / float64(rows)
			s, w := from+(to-from)*u, low+(high-low)*v
			q := r * (.75 + .5*scene.Scatter(i, 7))
			q = math.Min(q, f.half(s)*(1-math.Abs(w))+.002)
			if m.kind == "spots" {
				c = append(c, ring(f.on(s, w), q))
				continue
			}
			var n []node
			for j := range 7 {
				sin, cos := math.Sincos(2 * math.Pi * float64(j) / 7)
				k := q * (.7 + .5*scene.Scatter(i*7+j, 11))
				n = append(n, at2(f.on(s, w).Add(scene.Pt(cos*k*1.2, sin*k*.85))))
			}
			c = append(c, contour{nodes: n})
		}
	case "net":
		l = layer{line: m.colour, weight: .5, faint: .6, least: leastNet}
		for row := range 6 {
			w := -.62 + .25*float64(row)
			for i := range 12 {
				s := .05 + .055*(float64(i)+.5*float64(row%2))
				if s > f.eye[0]-.2 {
					break
				}
				c = append(c, open(at2(f.on(s+.03, w+.1)), at2(f.on(s, w)), at2(f.on(s+.03, w-.1))))
			}
		}
	case "lines":
		n := int(m.arg(0, 4))
		for i := range n {
			w := .66 - 1.2*(float64(i)+.5)/float64(n)
			h := .36 / float64(n)
			c = append(c, f.band(0, f.eye[0]-.12, w-h, w+h, true))
		}
	default:
		return
	}
	l.shape = c
	f.out.add(l)
}
