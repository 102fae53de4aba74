package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

func (d *sheet) drawOrnaments() {
	for i, o := range d.spec.Ornaments {
		if i >= 20 || !d.tankKnown {
			return
		}
		w, h := math.Min(mm(o.W), d.inner()*0.9), math.Min(mm(o.H), d.height*0.9)
		if w == 0 || h == 0 {
			continue
		}
		x := within(d.inLeft()+d.inner()*share(o.At, 0.5), d.inLeft()+w/2, d.inRight()-w/2)
		y := d.ground(x) - math.Min(h*0.12, d.bed().at(0.5, 0.5)*0.6)
		d.s.Group(o.ID, func() {
			if o.Kind == Wood {
				d.drawWood(x, y, w, h, i)
			} else {
				d.drawRock(x, y, w, h, i)
			}
		})
	}
}

// drawRock draws a boulder: a rough outline with two faces in hatching.
func (d *sheet) drawRock(x, y, w, h float64, seed int) {
	at := func(u, v float64) scene.Point { return scene.Pt(x+w*(u-0.5), y+h*v) }
	j := func(i int) float64 { return 0.07 * (scene.Scatter(i, seed+101) - 0.5) }
	edge := []scene.Point{at(0, 0), at(0.03, 0.3+j(1)), at(0.16+j(2), 0.66), at(0.36+j(3), 0.93+j(3)), at(0.58, 1), at(0.8+j(4), 0.78+j(5)), at(0.94, 0.42+j(6)), at(1, 0)}
	d.s.Add(scene.Polyline{Points: edge, Closed: true, Style: d.solid(look.Case, outline)})
	ridge := []scene.Point{edge[4], at(0.62+j(7), 0.6), at(0.52, 0.3+j(8)), at(0.6, 0)}
	d.s.Add(scene.Polyline{Points: ridge, Style: d.faint(look.Ink, fine, 0.7)})
	p := scene.NewPath(d.faint(look.Ink, hair, 0.4))
	n := int(within(h*d.scale/5, 3, 9))
	for i := range n {
		v := 0.08 + 0.66*float64(i)/float64(n)
		a, b := at(0.64+0.02*float64(i%2), v), at(0.94-0.3*v*v, v+0.06)
		p.MoveTo(a).LineTo(b)
	}
	d.s.Add(p)
}

// drawWood draws a root with two branches.
func (d *sheet) drawWood(x, y, w, h float64, seed int) {
	at := func(u, v float64) scene.Point { return scene.Pt(x+w*(u-0.5), y+h*v) }
	k := 0.08 * (scene.Scatter(1, seed+111) - 0.5)
	edge := []scene.Point{
		at(0, 0), at(0.08, 0.16), at(0.24, 0.3), at(0.34, 0.5+k), at(0.33, 0.78), at(0.38, 1), at(0.43, 0.8),
		at(0.45, 0.58), at(0.56, 0.52), at(0.72, 0.7+k), at(0.86, 0.78), at(1, 0.92), at(0.94, 0.72), at(0.78, 0.56), at(0.66, 0.38), at(0.74, 0.2), at(0.92, 0),
		at(0.66, 0.04), at(0.46, 0.14), at(0.26, 0.08),
	}
	d.s.Add(smooth(scene.NewPath(d.solid(look.Gravel, outline)), edge, true))
	p := scene.NewPath(d.faint(look.Ink, hair, 0.55))
	smooth(p, []scene.Point{at(0.12, 0.1), at(0.3, 0.3), at(0.39, 0.56), at(0.38, 0.84)}, false)
	smooth(p, []scene.Point{at(0.3, 0.16), at(0.46, 0.34), at(0.6, 0.44), at(0.8, 0.66)}, false)
	smooth(p, []scene.Point{at(0.5, 0.2), at(0.62, 0.22), at(0.78, 0.06)}, false)
	d.s.Add(p)
}
