package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// drawGlass draws the tank's outline, its panes and its rim, over what is in it.
func (d *sheet) drawGlass() {
	d.s.Group(PartTank, func() {
		if !d.tankKnown {
			d.rect(0, d.base, d.length, d.rim(), 0, d.dashed())
			return
		}
		d.drawFaces()
		pane := d.wash(look.Glass, 0.22)
		if d.spec.Paper {
			pane = d.wash(look.Sheet, 1)
		}
		d.rect(0, d.base, d.wall, d.rim(), 0, pane)
		d.rect(d.length-d.wall, d.base, d.length, d.rim(), 0, pane)
		d.rect(d.wall, d.base, d.length-d.wall, d.base+d.wall, 0, pane)
		if d.wall > d.px(2.2) {
			edge := d.pen(look.Glass, fine)
			d.line(d.inLeft(), d.inBottom(), d.inLeft(), d.rim(), edge)
			d.line(d.inRight(), d.inBottom(), d.inRight(), d.rim(), edge)
			d.line(d.inLeft(), d.inBottom(), d.inRight(), d.inBottom(), edge)
		}
		edge := d.pen(look.Glass, strong+0.4)
		d.line(0, d.base, 0, d.rim(), edge)
		d.line(d.length, d.base, d.length, d.rim(), edge)
		d.line(0, d.base, d.length, d.base, edge)
		d.drawGlare()
	})
	if d.tankKnown {
		d.s.Group(PartRim, d.drawRim)
	}
}

// rimHeight gives the height of the frame round the edges.
func (l *layout) rimHeight() float64 { return math.Min(18, l.height/12) } // judgement: usual

// baseRim gives how far the frame round the lower edge reaches up.
func (l *layout) baseRim() float64 {
	if l.spec.Tank.Rimless {
		return 0
	}
	return math.Min(l.rimHeight()*0.6, l.wall*1.6)
}

// drawRim draws the frame round the upper and the lower edge, or the bare edge.
func (d *sheet) drawRim() {
	if d.spec.Tank.Rimless {
		d.line(0, d.rim(), d.length, d.rim(), d.pen(look.Glass, strong))
		return
	}
	h := d.rimHeight()
	dark := scene.Style{Fill: look.Ink, Stroke: look.Ink, Width: fine}
	if d.spec.Tank.Material == Acrylic {
		dark.Fill = d.fillColour(look.Case)
	}
	y := d.rim()
	if d.spec.Tank.Shape == BowFront {
		// Seen a little from above, the bowed front edge hangs lower in the middle.
		drop := math.Min(h*0.9, d.height/14)
		d.s.Add(scene.NewPath(dark).MoveTo(scene.Pt(0, y)).LineTo(scene.Pt(d.length, y)).LineTo(scene.Pt(d.length, y-h*0.5)).
			CubicTo(scene.Pt(d.length*0.72, y-h*0.5-drop*1.2), scene.Pt(d.length*0.28, y-h*0.5-drop*1.2), scene.Pt(0, y-h*0.5)).Close())
	} else {
		d.rect(0, y-h*0.6, d.length, y, 0, dark)
		d.line(d.px(2), y-h*0.25, d.length-d.px(2), y-h*0.25, d.faint(look.Paper, hair, 0.5))
	}
	d.rect(0, d.base, d.length, d.base+d.baseRim(), 0, dark)
}

// drawFaces tells the shape of the tank by its edges and by fine lines that
// close up where a face turns away.
func (d *sheet) drawFaces() {
	y0, y1 := d.inBottom(), d.rim()
	mid := d.length / 2
	switch d.spec.Tank.Shape {
	case Hexagon:
		// Seen square to a face, the width over the corners is twice the face.
		for _, x := range []float64{d.length / 4, d.length * 3 / 4} {
			d.line(x, y0, x, y1, d.faint(look.Glass, strong, 0.75))
		}
		st := d.faint(look.Glass, hair, 0.45)
		for i := 1; i < 6; i++ {
			x := d.length / 4 * math.Pow(float64(i)/6, 1.5)
			d.line(x, y0, x, y1, st)
			d.line(d.length-x, y0, d.length-x, y1, st)
		}
	case Cylinder, BowFront:
		turn := math.Pi / 2
		if d.spec.Tank.Shape == BowFront {
			turn = math.Pi / 3.2
		}
		st := d.faint(look.Glass, hair, 0.32)
		for i := 1; i <= 7; i++ {
			// Lines at even turns round the face crowd towards its edge.
			f := math.Sin(turn*(1-float64(i)*0.06)) / math.Sin(turn)
			x := mid - (mid-d.wall)*f
			d.line(x, y0, x, y1, st)
			d.line(d.length-x, y0, d.length-x, y1, st)
		}
	}
	if d.spec.Tank.Shape == Cylinder {
		// The rim as a thin ellipse: how a round edge is seen a little from above.
		d.s.Add(scene.Ellipse{Centre: scene.Pt(mid, y1-math.Min(10, d.height/20)), RX: mid - 1, RY: math.Min(10, d.height/20), Style: d.faint(look.Glass, fine, 0.9)})
	}
}

// drawGlare draws two slanting strokes, the sign for glass.
func (d *sheet) drawGlare() {
	long := math.Min(d.height, d.length) * 0.13
	x, y := d.inLeft()+d.inner()*0.02+d.px(2), d.base+d.height*0.5
	p := scene.NewPath(d.faint(look.Glass, 1.1, 0.6))
	p.MoveTo(scene.Pt(x, y-long)).LineTo(scene.Pt(x+long, y))
	p.MoveTo(scene.Pt(x, y-long*0.55)).LineTo(scene.Pt(x+long*0.55, y))
	d.s.Add(p)
}
