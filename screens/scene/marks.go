package scene

import (
	"math"

	"example.org/driploop/screens/look"
)

// Arrow is a line with an open head at To. Width and dash apply to its shaft.
type Arrow struct {
	From, To Point
	Head     float64 // length of the head in points; 0 means 7
	Style
}

func (a Arrow) ok() bool {
	return a.From.finite() && a.To.finite() && finite(a.Head) && a.Head >= 0 && a.Style.ok()
}

func (a Arrow) draw(d *drawing) {
	from, to := d.dev(a.From), d.dev(a.To)
	st := a.Style
	st.Fill = ""
	d.paint([]Point{from, to}, false, st)
	head := a.Head
	if head == 0 {
		head = 7
	}
	v := to.Sub(from)
	if v.Len() == 0 || d.t.Point == 0 {
		return
	}
	v = v.Mul(d.pt(head) / v.Len())
	n := Point{-v.Y, v.X}.Mul(0.62) // judgement: a head a little wider than long
	st.Dash = nil
	d.paint([]Point{to.Sub(v).Add(n), to, to.Sub(v).Sub(n)}, false, st)
}

// Hatch draws short slanting strokes below the line From to To, seen with From
// at the left: the sign of solid ground.
type Hatch struct {
	From, To Point
	Step     float64 // between strokes in points; 0 means 21
	Length   float64 // depth of the strokes in points; 0 means 9
	Style
}

func (h Hatch) ok() bool {
	return h.From.finite() && h.To.finite() && finite(h.Step, h.Length) && h.Step >= 0 && h.Length >= 0 && h.Style.ok()
}

func (h Hatch) draw(d *drawing) {
	from, to := d.dev(h.From), d.dev(h.To)
	step, depth := h.Step, h.Length
	if step == 0 {
		step = 21
	}
	if depth == 0 {
		depth = 9
	}
	v := to.Sub(from)
	if d.t.Point == 0 || v.Len() == 0 {
		d.out.target([]Point{from, to})
		return
	}
	u := v.Mul(1 / v.Len())
	down := Point{-u.Y, u.X}.Mul(d.pt(depth))
	back := u.Mul(-d.pt(depth))
	st := h.Style
	st.Fill = ""
	n := int(math.Min(v.Len()/d.pt(step), 2000))
	for i := range n {
		a := from.Add(u.Mul(d.pt(step) * (float64(i) + 0.5)))
		d.paint([]Point{a, a.Add(down).Add(back)}, false, st)
	}
}

// Shape is the form of a marker. A series in a chart and a state each have a
// shape of their own, so that nothing is told by colour alone.
type Shape uint8

// The marker shapes. Round, diamond and triangle are also the signs of the
// states steady, wait and act.
const (
	Round Shape = iota
	Square
	Diamond
	Triangle // upright
	Cross
	Tick // a check mark
)

// Marker is a small sign of fixed size at a place.
type Marker struct {
	At    Point
	Shape Shape
	Size  float64 // height in points; 0 means 9
	Shift Point   // moved from At by this many points, y upwards
	Style
}

func (m Marker) ok() bool {
	return m.At.finite() && m.Shift.finite() && finite(m.Size) && m.Size >= 0 && m.Style.ok()
}

func (m Marker) draw(d *drawing) {
	c := d.dev(m.At).Add(Point{d.pt(m.Shift.X), -d.pt(m.Shift.Y)})
	r := d.pt(m.Size) / 2
	if m.Size == 0 {
		r = d.pt(4.5)
	}
	if r == 0 {
		d.out.target([]Point{c})
		return
	}
	at := func(x, y float64) Point { return Point{c.X + x*r, c.Y - y*r} }
	switch m.Shape {
	case Square:
		d.paint([]Point{at(-.9, -.9), at(.9, -.9), at(.9, .9), at(-.9, .9)}, true, m.Style)
	case Diamond:
		d.paint([]Point{at(0, -1.15), at(1.15, 0), at(0, 1.15), at(-1.15, 0)}, true, m.Style)
	case Triangle:
		d.paint([]Point{at(-1.1, -.85), at(1.1, -.85), at(0, 1.05)}, true, m.Style)
	case Cross:
		d.paint([]Point{at(-.9, -.9), at(.9, .9)}, false, m.Style)
		d.paint([]Point{at(-.9, .9), at(.9, -.9)}, false, m.Style)
	case Tick:
		st := m.Style
		st.Fill = ""
		d.paint([]Point{at(-1, 0), at(-.3, -.8), at(1, .8)}, false, st)
	default:
		line := arc(nil, c, r, r, 0, 2*math.Pi)
		d.paint(line[:len(line)-1], true, m.Style)
	}
}

// Dimension is a dimension line with extension lines, slanting ticks at its ends
// and its text above it or, when it runs steeply, turned and to the left of it,
// so that it reads from below and from the right. A text that has no room
// between the ticks is put beyond To.
// Source: the placing follows ISO 129-1, presentation of dimensions.
type Dimension struct {
	From, To Point     // the two measured points
	Offset   float64   // from the measured points in points: positive to the left when going From to To, negative to the right
	Text     string    // with its unit; "" draws the line alone
	Colour   look.Name // "" means look.SoftInk
	Size     float64   // of the text in points; 0 means look.Note
	Back     look.Name // plate behind the text as in Text
}

func (m Dimension) ok() bool {
	return m.From.finite() && m.To.finite() && finite(m.Offset, m.Size) && m.Size >= 0
}

func (m Dimension) draw(d *drawing) {
	a, b := d.dev(m.From), d.dev(m.To)
	v := b.Sub(a)
	if v.Len() == 0 || d.t.Point == 0 {
		d.out.target([]Point{a, b})
		return
	}
	u := v.Mul(1 / v.Len())
	n := Point{u.Y, -u.X} // to the left, y downwards
	if m.Offset < 0 {
		n = n.Mul(-1)
	}
	off := d.pt(math.Abs(m.Offset))
	c := m.Colour
	if c == "" {
		c = look.SoftInk
	}
	thin, fine := Style{Stroke: c, Width: 1}, Style{Stroke: c, Width: 0.75, Alpha: 0.5}
	p, q := a.Add(n.Mul(off)), b.Add(n.Mul(off))
	if gap := d.pt(5); off > gap {
		d.paint([]Point{a.Add(n.Mul(gap)), p.Add(n.Mul(gap))}, false, fine)
		d.paint([]Point{b.Add(n.Mul(gap)), q.Add(n.Mul(gap))}, false, fine)
	}
	d.paint([]Point{p, q}, false, thin)
	k := d.pt(4.5)
	for _, e := range []Point{p, q} {
		d.paint([]Point{{e.X - k, e.Y + k}, {e.X + k, e.Y - k}}, false, Style{Stroke: c, Width: 1.5})
	}
	if m.Text == "" {
		return
	}
	steep := math.Abs(v.Y) > math.Abs(v.X)
	t := Text{S: m.Text, Size: m.Size, H: Middle, Colour: c, Back: m.Back, Turned: steep}
	if steep {
		t.Shift.X = -5
	} else {
		t.Shift.Y = 5
	}
	mid := p.Add(q).Mul(0.5)
	size := m.Size
	if size == 0 {
		size = look.Note
	}
	if w := TextSize(m.Text, Regular, d.pt(size)).Width; w+d.pt(6) > v.Len() {
		mid = q.Add(u.Mul(w/2 + d.pt(8)))
	}
	t.At = d.t.Drawing(mid)
	t.draw(d)
}
