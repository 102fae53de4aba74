package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// usualDepth gives the body depth as a fraction of the total length where the
// Spec gives none. judgement: typical of the builds among small freshwater fish.
func usualDepth(b Body) float64 {
	switch b {
	case Deep:
		return 0.62
	case Elongate:
		return 0.17
	case Flat:
		return 0.26
	case Eel:
		return 0.09
	}
	return 0.27
}

// A figurine is a fish placed in the drawing: its middle, total length, depth
// ratio and the way it faces (1 right, -1 left).
type figurine struct {
	at     scene.Point
	length float64
	depth  float64
	way    float64
	body   Body
}

// p gives a point of the fish: u from -0.5 at the tail's end to 0.5 at the
// snout, v upwards in units of the body's depth.
func (f figurine) p(u, v float64) scene.Point {
	return scene.Pt(f.at.X+f.way*u*f.length, f.at.Y+v*f.depth*f.length)
}

// box gives the room of the fish, fins included.
func (f figurine) box() scene.Box {
	h := f.depth * f.length * 0.75
	if f.body == Eel {
		h = f.length * 0.1
	}
	return scene.Box{Min: scene.Pt(f.at.X-f.length/2, f.at.Y-h), Max: scene.Pt(f.at.X+f.length/2, f.at.Y+h)}
}

// outline adds the body without fins.
func (f figurine) outline(p *scene.Path) *scene.Path {
	q := f.p
	switch f.body {
	case Deep:
		return p.MoveTo(q(.5, .02)).CubicTo(q(.40, .30), q(.22, .58), q(.02, .5)).CubicTo(q(-.14, .42), q(-.20, .14), q(-.28, .1)).
			LineTo(q(-.28, -.1)).CubicTo(q(-.20, -.14), q(-.14, -.42), q(.02, -.5)).CubicTo(q(.22, -.58), q(.42, -.26), q(.5, .02)).Close()
	case Elongate:
		return p.MoveTo(q(.5, 0)).CubicTo(q(.42, .5), q(.1, .62), q(-.30, .22)).LineTo(q(-.30, -.22)).CubicTo(q(.1, -.68), q(.42, -.5), q(.5, 0)).Close()
	case Flat:
		return p.MoveTo(q(.5, -.22)).CubicTo(q(.44, .22), q(.26, .5), q(.1, .5)).CubicTo(q(-.06, .5), q(-.16, .16), q(-.28, .1)).
			LineTo(q(-.28, -.16)).CubicTo(q(-.1, -.42), q(.2, -.5), q(.36, -.48)).QuadTo(q(.5, -.46), q(.5, -.22)).Close()
	case Eel:
		return f.ribbon(p)
	default:
		return p.MoveTo(q(.5, .02)).CubicTo(q(.38, .44), q(.14, .66), q(-.28, .16)).LineTo(q(-.28, -.16)).CubicTo(q(.12, -.68), q(.38, -.48), q(.5, .02)).Close()
	}
}

// ribbon adds the winding body of an eel.
func (f figurine) ribbon(p *scene.Path) *scene.Path {
	const n = 12
	half := f.depth * f.length / 2
	up, down := make([]scene.Point, 0, n+1), make([]scene.Point, 0, n+1)
	for i := range n + 1 {
		u := 0.49 - 0.98*float64(i)/n // the rounded ends reach a little farther
		y := f.length * 0.055 * math.Sin(float64(i)/n*2*math.Pi*1.1) * (0.4 + 0.6*float64(i)/n)
		w := half * math.Min(1, 0.55+3*float64(i)/n) * math.Min(1, 0.12+2.2*(1-float64(i)/n))
		c := scene.Pt(f.at.X+f.way*u*f.length, f.at.Y+y)
		up, down = append(up, c.Add(scene.Pt(0, w))), append(down, c.Add(scene.Pt(0, -w)))
	}
	for i := n; i >= 0; i-- {
		up = append(up, down[i])
	}
	return smooth(p, up, true)
}

// fins adds tail, back and belly fins.
func (f figurine) fins(p *scene.Path) *scene.Path {
	q := f.p
	switch f.body {
	case Deep:
		p.MoveTo(q(-.26, .1)).CubicTo(q(-.36, .16), q(-.44, .26), q(-.5, .34)).QuadTo(q(-.44, 0), q(-.5, -.34)).CubicTo(q(-.44, -.26), q(-.36, -.16), q(-.26, -.1)).Close()
		p.MoveTo(q(.12, .5)).CubicTo(q(.0, .66), q(-.14, .72), q(-.3, .74)).CubicTo(q(-.2, .6), q(-.2, .36), q(-.22, .16)).LineTo(q(0, .46)).Close()
		p.MoveTo(q(.04, -.5)).CubicTo(q(-.04, -.64), q(-.16, -.7), q(-.3, -.74)).CubicTo(q(-.2, -.6), q(-.2, -.36), q(-.22, -.16)).LineTo(q(0, -.46)).Close()
		p.MoveTo(q(.2, -.42)).QuadTo(q(.16, -.66), q(.02, -.74)).QuadTo(q(.1, -.58), q(.13, -.46)).Close()
	case Elongate:
		p.MoveTo(q(-.28, .2)).CubicTo(q(-.36, .3), q(-.42, .7), q(-.5, .8)).QuadTo(q(-.4, 0), q(-.5, -.8)).CubicTo(q(-.42, -.7), q(-.36, -.3), q(-.28, -.2)).Close()
		p.MoveTo(q(.0, .5)).QuadTo(q(-.08, .95), q(-.18, .9)).QuadTo(q(-.14, .6), q(-.14, .4)).Close()
		p.MoveTo(q(-.04, -.5)).QuadTo(q(-.12, -.9), q(-.2, -.8)).LineTo(q(-.18, -.4)).Close()
	case Flat:
		p.MoveTo(q(-.26, .08)).CubicTo(q(-.36, .2), q(-.44, .5), q(-.5, .52)).QuadTo(q(-.4, 0), q(-.48, -.46)).CubicTo(q(-.42, -.4), q(-.36, -.2), q(-.26, -.14)).Close()
		p.MoveTo(q(.16, .48)).LineTo(q(.06, .98)).CubicTo(q(.0, .8), q(-.04, .6), q(-.1, .3)).Close()
		p.MoveTo(q(.2, -.46)).QuadTo(q(.12, -.7), q(.02, -.7)).QuadTo(q(.08, -.56), q(.1, -.46)).Close()
	case Eel:
	default:
		p.MoveTo(q(-.26, .14)).CubicTo(q(-.34, .3), q(-.42, .58), q(-.5, .6)).QuadTo(q(-.40, 0), q(-.5, -.6)).CubicTo(q(-.42, -.58), q(-.34, -.3), q(-.26, -.14)).Close()
		p.MoveTo(q(.12, .44)).QuadTo(q(.0, .84), q(-.1, .78)).QuadTo(q(-.06, .5), q(-.08, .36)).Close()
		p.MoveTo(q(.0, -.42)).QuadTo(q(-.1, -.74), q(-.18, -.66)).LineTo(q(-.16, -.28)).Close()
	}
	return p
}

// drawFigurine draws one fish in ink and wash. The smaller it comes out, the
// less of it is drawn.
func (d *sheet) drawFigurine(f figurine, c look.Name, stripe bool) {
	size := f.length * d.scale
	w := within(size/30, 0.6, 1.2)
	fin := scene.Style{Stroke: look.Ink, Width: w * 0.8, Fill: d.fillColour(c)}
	d.s.Add(f.fins(scene.NewPath(fin)))
	d.s.Add(f.outline(scene.NewPath(scene.Style{Stroke: look.Ink, Width: w, Fill: d.fillColour(c)})))
	q := f.p
	eye := f.p(.37, .1)
	switch f.body {
	case Deep:
		eye = q(.34, .08)
	case Flat:
		eye = q(.35, .08)
	case Eel:
		eye = f.at.Add(scene.Pt(f.way*f.length*.43, 0.004*f.length))
	}
	if stripe && size > 13 {
		d.drawStripe(f, size)
	}
	if size > 24 && f.body != Eel {
		p := scene.NewPath(d.faint(look.Ink, hair, 0.8))
		p.MoveTo(q(.26, .28)).QuadTo(q(.2, 0), q(.26, -.28))
		p.MoveTo(q(.16, -.12)).QuadTo(q(.08, -.34), q(.02, -.26)).QuadTo(q(.06, -.14), q(.16, -.12))
		if size > 40 {
			for _, v := range []float64{-.3, -.1, .1, .3} {
				p.MoveTo(q(-.33, v*0.5)).LineTo(q(-.45, v*1.3))
			}
		}
		d.s.Add(p)
	}
	if f.body == Flat && size > 18 {
		p := scene.NewPath(d.pen(look.Ink, hair))
		p.MoveTo(q(.49, -.3)).QuadTo(q(.54, -.4), q(.53, -.52)).MoveTo(q(.46, -.4)).QuadTo(q(.48, -.5), q(.46, -.6))
		d.s.Add(p)
	}
	r := math.Min(within(f.length*f.depth*0.085, d.px(0.7), d.px(2.4)), f.length*0.05)
	if size > 30 {
		d.s.Add(scene.Circle(eye, r*1.5, scene.Style{Fill: look.Sheet, Stroke: look.Ink, Width: hair}))
		r *= 0.8
	}
	d.s.Add(scene.Circle(eye, r, scene.Style{Fill: look.Ink}))
}

func (d *sheet) drawStripe(f figurine, size float64) {
	st := scene.Style{Stroke: look.Ink, Width: within(size/30, 0.6, 2.6), Alpha: 0.7}
	q := f.p
	p := scene.NewPath(st)
	switch f.body {
	case Deep:
		for _, u := range []float64{.2, .02, -.14} {
			h := .42 - math.Abs(u-.06)*.8
			p.MoveTo(q(u, h)).QuadTo(q(u-.03, 0), q(u, -h))
		}
	case Eel:
		return
	default:
		p.MoveTo(q(.3, .08)).QuadTo(q(0, .1), q(-.28, 0))
	}
	d.s.Add(p)
}
