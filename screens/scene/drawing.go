package scene

import (
	"math"

	"example.org/driploop/screens/look"
)

// A sink takes what items come down to: filled outlines, lines and runs of
// text, all in device units, y downwards. Each back-end is a sink.
type sink interface {
	fill(outlines [][]Point, c look.Name, alpha float64)
	stroke(line []Point, closed bool, width float64, dash []float64, c look.Name, alpha float64)
	text(r run)
	target(outline []Point) // paints nothing
}

// A run is one line of text with its baseline's start in device units.
type run struct {
	s      string
	weight Weight
	size   float64 // em in device units
	at     Point
	turned bool // reads upwards
	colour look.Name
	alpha  float64
}

// box gives the room that the run takes, in device units.
func (r run) box() Box {
	m := TextSize(r.s, r.weight, r.size)
	if r.turned {
		return Box{Point{r.at.X - m.Ascent, r.at.Y - m.Width}, Point{r.at.X + m.Descent, r.at.Y}}
	}
	return Box{Point{r.at.X, r.at.Y - m.Ascent}, Point{r.at.X + m.Width, r.at.Y + m.Descent}}
}

// drawing carries the transform from the items to the sink.
type drawing struct {
	t   Transform
	out sink
}

func (d *drawing) pt(n float64) float64 { return n * d.t.Point }
func (d *drawing) dev(p Point) Point    { return d.t.Device(p) }
func (d *drawing) mm(n float64) float64 { return n * d.t.Scale }
func (d *drawing) devs(ps []Point) []Point {
	out := make([]Point, len(ps))
	for i, p := range ps {
		out[i] = d.dev(p)
	}
	return out
}

// paint fills and strokes one outline given in device units.
func (d *drawing) paint(line []Point, closed bool, st Style) {
	if st.Fill != "" && len(line) > 2 {
		d.out.fill([][]Point{line}, st.Fill, opacity(st.Alpha))
	}
	if st.Stroke != "" && len(line) > 1 {
		d.out.stroke(line, closed, d.pt(st.width()), d.dash(st.Dash), st.Stroke, opacity(st.Alpha))
	}
}

func (d *drawing) dash(pattern []float64) []float64 {
	sum := 0.0
	for _, v := range pattern {
		sum += v
	}
	if sum <= 0 || d.t.Point <= 0 {
		return nil
	}
	out := make([]float64, len(pattern))
	for i, v := range pattern {
		out[i] = d.pt(v)
	}
	return out
}

// flatness is the most that a flattened curve may lie off the true one, in
// device units.
const flatness = 0.1 // judgement: a tenth of a pixel cannot be seen

// pieces gives how many chords keep a curve within flatness, where bend is the
// largest size of its second derivative. The chord error is at most bend/8n².
func pieces(bend float64) int {
	return int(clamp(math.Ceil(math.Sqrt(bend/(8*flatness))), 1, 400))
}

// arc appends points of an ellipse's arc from angle a to b (radians,
// counter-clockwise in a y-up view) about c in device units, both ends included.
func arc(line []Point, c Point, rx, ry, a, b float64) []Point {
	turn := b - a
	n := pieces(math.Max(rx, ry) * turn * turn)
	for i := 0; i <= n; i++ {
		sin, cos := math.Sincos(a + turn*float64(i)/float64(n))
		line = append(line, Point{c.X + rx*cos, c.Y - ry*sin})
	}
	return line
}

// A reader takes the texts alone.
type reader struct{ lines []Written }

func (r *reader) fill([][]Point, look.Name, float64)                           {}
func (r *reader) stroke([]Point, bool, float64, []float64, look.Name, float64) {}
func (r *reader) target([]Point)                                               {}
func (r *reader) text(x run)                                                   { r.lines = append(r.lines, Written{x.s, x.box()}) }

// A measurer takes the box of all that is drawn.
type measurer struct{ box Box }

func (m *measurer) fill(outlines [][]Point, _ look.Name, _ float64) {
	for _, o := range outlines {
		m.target(o)
	}
}

func (m *measurer) stroke(line []Point, _ bool, width float64, _ []float64, _ look.Name, _ float64) {
	h := width / 2
	for _, p := range line {
		m.box.Add(Point{p.X - h, p.Y - h})
		m.box.Add(Point{p.X + h, p.Y + h})
	}
}

func (m *measurer) text(r run) { m.box.Union(r.box()) }

func (m *measurer) target(outline []Point) {
	for _, p := range outline {
		m.box.Add(p)
	}
}
