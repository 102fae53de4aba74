package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A bed is the substrate as heights above the inside of the bottom.
type bed struct{ front, back, left, right float64 }

// bed reads the Spec's depths, in millimetres, no higher than two thirds of the tank.
func (l *layout) bed() bed {
	g, most := l.spec.Gravel, l.height*2/3
	d := func(v float64) float64 { return math.Min(mm(v), most) }
	b := bed{d(g.Front), d(g.Back), d(g.Left), d(g.Right)}
	if b.front == 0 && b.back == 0 {
		b.front = (b.left + b.right) / 2
		b.back = b.front
	}
	if b.left == 0 && b.right == 0 {
		b.left = (b.front + b.back) / 2
		b.right = b.left
	}
	return b
}

func (b bed) empty() bool { return b.front+b.back+b.left+b.right == 0 }

// at gives the depth at a fraction of the length from the left, at the front
// (z 0) or the back (z 1). The two slopes add up about the mean.
func (b bed) at(f, z float64) float64 {
	across := b.left + (b.right-b.left)*f
	deep := (b.back - b.front) * (z - 0.5)
	return math.Max(0, across+deep)
}

// ground gives the y of the ground midway from front to back at x.
func (l *layout) ground(x float64) float64 {
	f := 0.0
	if l.inner() > 0 {
		f = within((x-l.inLeft())/l.inner(), 0, 1)
	}
	return l.inBottom() + l.bed().at(f, 0.5)
}

// profile gives the upper edge of the bed at depth z, from left to right.
func (d *sheet) profile(z float64, rough float64) []scene.Point {
	b := d.bed()
	n := within(d.inner()*d.scale/9, 8, 90)
	var out []scene.Point
	for i := range int(n) + 1 {
		f := float64(i) / float64(int(n))
		h := b.at(f, z)
		out = append(out, scene.Pt(d.inLeft()+d.inner()*f, d.inBottom()+math.Max(0, h-rough*scene.Scatter(i, int(z*4)+21))))
	}
	return out
}

func (d *sheet) heap(edge []scene.Point, st scene.Style) {
	out := append([]scene.Point{scene.Pt(d.inLeft(), d.inBottom())}, edge...)
	d.s.Add(scene.Polyline{Points: append(out, scene.Pt(d.inRight(), d.inBottom())), Closed: true, Style: st})
}

// drawGravelBack draws the ground that rises behind the front edge.
func (d *sheet) drawGravelBack() {
	if d.bed().empty() || !d.tankKnown {
		return
	}
	d.s.Group(PartGravel, func() {
		st := d.solid(look.Gravel, fine)
		d.heap(d.profile(1, d.px(1.2)), st)
		d.heap(d.profile(1, d.px(1.2)), d.wash(look.Sheet, 0.22))
	})
}

// drawGravelFront draws the ground against the front pane, with its grains.
func (d *sheet) drawGravelFront() {
	b := d.bed()
	if b.empty() || !d.tankKnown {
		return
	}
	d.s.Group(PartGravel, func() {
		d.heap(d.profile(0, d.px(1.2)), d.solid(look.Gravel, 1.1))
		if !(d.spec.Paper && d.spec.Loads.Arrows) { // ink arrows need a plain ground
			d.drawGrains(b)
		}
	})
}

// drawGrains scatters grains over the bed, fewer on a small drawing.
func (d *sheet) drawGrains(b bed) {
	mean := (b.at(0, 0) + b.at(1, 0)) / 2
	n := int(within(d.inner()*mean*d.scale*d.scale/70, 0, 130))
	dark, light := scene.NewPath(d.faint(look.Ink, hair, 0.5)), scene.NewPath(d.wash(look.Sheet, 0.5))
	for i := range n {
		f, v := scene.Scatter(i, 31), scene.Scatter(i, 37)
		h := b.at(f, 0)
		r := d.px(1.1 + 1.3*scene.Scatter(i, 41))
		x, y := d.inLeft()+d.inner()*f, d.inBottom()+h*v
		if y+r*1.6 > d.inBottom()+h || y-r < d.inBottom() || x-r < d.inLeft() || x+r > d.inRight() {
			continue
		}
		if i%4 == 0 {
			light.MoveTo(scene.Pt(x-r, y)).QuadTo(scene.Pt(x, y+r*1.7), scene.Pt(x+r, y)).QuadTo(scene.Pt(x, y-r*1.3), scene.Pt(x-r, y)).Close()
			continue
		}
		dark.MoveTo(scene.Pt(x-r, y)).QuadTo(scene.Pt(x-r*0.2, y+r*1.8), scene.Pt(x+r, y+r*0.2))
	}
	d.s.Add(light, dark)
}
