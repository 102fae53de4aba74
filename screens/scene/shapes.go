package scene

import "math"

// Line is a straight line.
type Line struct {
	From, To Point
	Style
}

func (l Line) ok() bool        { return l.From.finite() && l.To.finite() && l.Style.ok() }
func (l Line) draw(d *drawing) { d.paint([]Point{d.dev(l.From), d.dev(l.To)}, false, l.Style) }

// Polyline is a line through points, closed or open. An open one may be filled
// too; the fill then closes it with a straight edge.
type Polyline struct {
	Points []Point
	Closed bool
	Style
}

func (l Polyline) ok() bool {
	for _, p := range l.Points {
		if !p.finite() {
			return false
		}
	}
	return l.Style.ok()
}

func (l Polyline) draw(d *drawing) { d.paint(d.devs(l.Points), l.Closed, l.Style) }

// Rect is an upright rectangle between two opposite corners in any order.
type Rect struct {
	Min, Max Point
	Radius   float64 // of the corners in millimetres, >= 0; limited to half the shorter side
	RadiusPt float64 // of the corners in points, used when Radius is 0
	Style
}

func (r Rect) ok() bool {
	return r.Min.finite() && r.Max.finite() && finite(r.Radius, r.RadiusPt) && r.Radius >= 0 && r.RadiusPt >= 0 && r.Style.ok()
}

func (r Rect) draw(d *drawing) {
	a, b := d.dev(r.Min), d.dev(r.Max)
	x0, x1 := math.Min(a.X, b.X), math.Max(a.X, b.X)
	y0, y1 := math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
	k := d.mm(r.Radius)
	if k == 0 {
		k = d.pt(r.RadiusPt)
	}
	k = math.Min(k, math.Min(x1-x0, y1-y0)/2)
	if k <= 0 {
		d.paint([]Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, true, r.Style)
		return
	}
	const q = math.Pi / 2
	var line []Point
	line = arc(line, Point{x1 - k, y0 + k}, k, k, 0, q)
	line = arc(line, Point{x0 + k, y0 + k}, k, k, q, 2*q)
	line = arc(line, Point{x0 + k, y1 - k}, k, k, 2*q, 3*q)
	line = arc(line, Point{x1 - k, y1 - k}, k, k, 3*q, 4*q)
	d.paint(line, true, r.Style)
}

// Ellipse is an upright ellipse.
type Ellipse struct {
	Centre Point
	RX, RY float64 // half axes in millimetres, >= 0
	Style
}

// Circle gives the circle of radius r millimetres about c.
func Circle(c Point, r float64, st Style) Ellipse { return Ellipse{c, r, r, st} }

func (e Ellipse) ok() bool {
	return e.Centre.finite() && finite(e.RX, e.RY) && e.RX >= 0 && e.RY >= 0 && e.Style.ok()
}

func (e Ellipse) draw(d *drawing) {
	line := arc(nil, d.dev(e.Centre), d.mm(e.RX), d.mm(e.RY), 0, 2*math.Pi)
	d.paint(line[:len(line)-1], true, e.Style)
}

// area is the rectangle of Scene.Area.
type area struct{ box Box }

func (a area) ok() bool { return a.box.Min.finite() && a.box.Max.finite() && !a.box.Empty() }

func (a area) draw(d *drawing) {
	b := a.box
	d.out.target([]Point{d.dev(b.Min), d.dev(Point{b.Max.X, b.Min.Y}), d.dev(b.Max), d.dev(Point{b.Min.X, b.Max.Y})})
}
