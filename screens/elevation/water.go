package elevation

import (
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// drawBehind draws what is seen through the tank from behind: the hang-on
// filter and the air within the glass.
func (d *sheet) drawBehind() {
	if d.tankKnown {
		d.s.Group(PartTank, func() {
			d.s.Area(scene.Box{Min: scene.Pt(0, d.base), Max: scene.Pt(d.length, d.rim())})
			d.rect(0, d.base, d.length, d.rim(), 0, d.wash(look.Sheet, 0.55))
		})
	}
	if d.spec.Filter.Kind == HangOn {
		d.drawHangOn()
	}
	d.drawWater()
}

// drawWater draws the water as a tint with its surface, and short strokes that
// thin out with depth.
func (d *sheet) drawWater() {
	if d.water <= d.inBottom() {
		return
	}
	x0, x1, y := d.inLeft(), d.inRight(), d.water
	d.s.Group(PartWater, func() {
		d.rect(x0, d.inBottom(), x1, y, 0, d.wash(look.Water, 0.74))
		deep := y - d.inBottom()
		row := 0
		for at := d.px(6); at < deep*0.8 && row < 14; row++ {
			p := scene.NewPath(d.faint(look.Teal, hair, 0.3))
			n := max(1, int((x1-x0)*d.scale/90)-row/4)
			for i := range n {
				w := d.px(10 + 22*scene.Scatter(i*31+row, 11))
				x := x0 + d.px(4) + (x1-x0-w-d.px(8))*scene.Scatter(i*17+row, 13)
				if x+w > x1 {
					continue
				}
				p.MoveTo(scene.Pt(x, y-at)).QuadTo(scene.Pt(x+w/2, y-at-d.px(1.4)), scene.Pt(x+w, y-at))
			}
			d.s.Add(p)
			at += d.px(6 + 3.2*float64(row))
		}
	})
}

// drawSurface draws the surface, which climbs a little at the panes.
func (d *sheet) drawSurface() {
	if d.water <= d.inBottom() {
		return
	}
	x0, x1, y := d.inLeft(), d.inRight(), d.water
	d.s.Group(PartWater, func() {
		r := d.px(2.5)
		d.s.Add(scene.NewPath(d.pen(look.Teal, strong)).MoveTo(scene.Pt(x0, y+r)).QuadTo(scene.Pt(x0+r*0.4, y), scene.Pt(x0+r*2.5, y)).
			LineTo(scene.Pt(x1-r*2.5, y)).QuadTo(scene.Pt(x1-r*0.4, y), scene.Pt(x1, y+r)))
		d.line(x0+d.px(7), y-d.px(3), x1-d.px(7), y-d.px(3), d.faint(look.Teal, hair, 0.45))
	})
}

// bubbles draws n rings rising about x from y0 to y1.
func (d *sheet) bubbles(x, y0, y1 float64, n, series int) {
	if y1-y0 < d.px(8) {
		return
	}
	for i := range n {
		f := (float64(i) + scene.Scatter(i, series)) / float64(n)
		r := d.px(1.1 + 1.3*scene.Scatter(i, series+1))
		d.s.Add(scene.Circle(scene.Pt(x+d.px(7)*(scene.Scatter(i, series+2)-0.5)*(0.5+f), y0+(y1-y0-r)*f), r, d.faint(look.Teal, hair, 0.8)))
	}
}
