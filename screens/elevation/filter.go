package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

func (l *layout) filterX() float64 { return l.at(share(l.spec.Filter.At, 0.2)) }

// hangOn gives the body of a hang-on filter in millimetres: it hangs on the
// rim with about a quarter of its height above.
func (l *layout) hangOn() scene.Box {
	w := math.Min(or(mm(l.spec.Filter.W), 105), l.length*0.6)
	h := math.Min(or(mm(l.spec.Filter.H), 145), l.height*0.8)
	x, top := l.filterX(), l.rim()+math.Min(h*0.28, headroom-30)
	return scene.Box{Min: scene.Pt(x-w/2, top-h), Max: scene.Pt(x+w/2, top)}
}

// kitTop gives the highest point of what stands on or hangs over the rim.
func (l *layout) kitTop() float64 {
	y := l.rim()
	if f := l.spec.Filter; f.State != Absent && f.Kind == HangOn {
		y = math.Max(y, l.hangOn().Max.Y)
	}
	if l.spec.Lid.State != Absent {
		y = math.Max(y, l.rim()+l.lidHeight())
	}
	for range l.cords() {
		y += 14
	}
	return y
}

func (d *sheet) drawHangOn() {
	f := d.spec.Filter
	if f.State == Absent {
		return
	}
	b := d.hangOn()
	w, h := b.W(), b.H()
	x := b.Min.X
	st := d.body(f.State, look.Case)
	d.take(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
	d.s.Group(PartFilter, func() {
		d.rect(x, b.Min.Y, b.Max.X, b.Max.Y, math.Min(12, w/8), st)
		d.rect(x-2, b.Max.Y-h*0.1, b.Max.X+2, b.Max.Y, 3, st)
		if f.State == Planned {
			return
		}
		p := scene.NewPath(d.faint(look.Ink, hair, 0.55))
		for i := range 4 {
			y := b.Min.Y + h*(0.16+0.07*float64(i))
			p.MoveTo(scene.Pt(x+w*0.22, y)).LineTo(scene.Pt(b.Max.X-w*0.22, y))
		}
		p.MoveTo(scene.Pt(x+w*0.1, b.Max.Y-h*0.18)).LineTo(scene.Pt(x+w*0.1, b.Min.Y+h*0.12))
		d.s.Add(p)
	})
}

// drawFilter draws the parts of the filter that are inside the tank.
func (d *sheet) drawFilter() {
	f := d.spec.Filter
	if f.State == Absent || !d.tankKnown {
		return
	}
	d.s.Group(PartFilter, func() {
		switch f.Kind {
		case Sponge:
			d.drawSponge()
		case Internal:
			d.drawInternal()
		default:
			d.drawIntake()
		}
	})
}

// drawIntake draws a hang-on filter's spout, its fall of water and its intake.
func (d *sheet) drawIntake() {
	f, b := d.spec.Filter, d.hangOn()
	w := b.W()
	st := d.body(f.State, look.Case)
	x, lip := (b.Min.X+b.Max.X)/2+w*0.14, d.rim()-math.Min(24, d.height*0.07)
	half := w * 0.27
	if f.State == Running && d.water > 0 {
		d.drawFall(x, half, math.Min(lip, math.Max(lip-6, d.water)))
	}
	d.s.Add(scene.Polyline{Closed: true, Style: st, Points: []scene.Point{
		scene.Pt(x-half, d.rim()-3), scene.Pt(x+half, d.rim()-3), scene.Pt(x+half*1.12, lip), scene.Pt(x-half*1.12, lip)}})
	tx := b.Min.X + w*0.2
	reach := or(mm(f.Intake), d.height*0.62)
	end := math.Max(d.rim()-reach, d.ground(tx)+12)
	r := math.Max(5, d.px(1.6))
	if end >= d.rim()-30 {
		return
	}
	d.take(tx-r*2, end-20, tx+r*2, d.rim())
	d.rect(tx-r, end+20, tx+r, d.rim()-3, 0, st)
	d.rect(tx-r*1.7, end, tx+r*1.7, end+math.Min(52, (d.rim()-end)/2), r, st)
	if f.State != Planned {
		p := scene.NewPath(d.faint(look.Ink, hair, 0.8))
		for i := range 5 {
			y := end + 9 + float64(i)*8
			p.MoveTo(scene.Pt(tx-r, y)).LineTo(scene.Pt(tx+r, y))
		}
		d.s.Add(p)
	}
}

// drawFall draws water that runs from a lip into the tank.
func (d *sheet) drawFall(x, half, lip float64) {
	p := scene.NewPath(d.faint(look.Teal, fine, 0.75))
	low := d.water - math.Min(38, (d.water-d.inBottom())*0.2)
	for i := range 5 {
		f := float64(i)/2 - 1
		y := low + 22*math.Abs(f)
		p.MoveTo(scene.Pt(x+f*half*0.9, lip)).CubicTo(scene.Pt(x+f*half, lip-8), scene.Pt(x+f*half*1.2, (lip+y)/2), scene.Pt(x+f*half*1.5, y))
	}
	for i := 1; i <= 3; i++ {
		r := half * (1.1 + 0.5*float64(i))
		y := d.water + d.px(0.6)
		p.MoveTo(scene.Pt(within(x-r, d.inLeft(), x), y)).QuadTo(scene.Pt(x-r*0.8, y+d.px(2.6)/float64(i)), scene.Pt(within(x-r*0.6, d.inLeft(), x), y))
		p.MoveTo(scene.Pt(within(x+r, x, d.inRight()), y)).QuadTo(scene.Pt(x+r*0.8, y+d.px(2.6)/float64(i)), scene.Pt(within(x+r*0.6, x, d.inRight()), y))
	}
	d.s.Add(p)
	d.bubbles(x, low-d.px(5), low+d.px(8), 5, 121)
}

func (d *sheet) drawSponge() {
	f := d.spec.Filter
	st := d.body(f.State, look.Case)
	w, h := math.Min(or(mm(f.W), 75), d.inner()*0.4), math.Min(or(mm(f.H), 95), d.height*0.5)
	x := within(d.filterX(), d.inLeft()+w/2, d.inRight()-w/2)
	y := d.ground(x) - 2
	top := d.rim() - d.height*0.12
	r := math.Max(7, d.px(1.8))
	d.take(x-w/2, y, x+w/2, top)
	d.rect(x-r, y+h, x+r, top, 0, st)
	d.s.Add(scene.NewPath(st).MoveTo(scene.Pt(x-r, top-10)).LineTo(scene.Pt(x+r*4, top+2)).LineTo(scene.Pt(x+r*4, top+2-r*2)).LineTo(scene.Pt(x+r, top-10-r*2)))
	body := d.body(f.State, look.Rule)
	d.rect(x-w*0.55, y, x+w*0.55, y+h*0.1, 2, st)
	d.rect(x-w/2, y+h*0.1, x+w/2, y+h, w/8, body)
	if f.State == Planned {
		return
	}
	p := scene.NewPath(d.faint(look.Ink, hair, 0.55))
	for i := 1; i < 7; i++ {
		v := y + h*(0.1+0.9*float64(i)/7)
		p.MoveTo(scene.Pt(x-w/2, v)).QuadTo(scene.Pt(x, v-h*0.04), scene.Pt(x+w/2, v))
	}
	d.s.Add(p)
	if f.State == Running && d.water > top {
		d.bubbles(x+r*4, top, d.water, 7, 131)
	}
}

func (d *sheet) drawInternal() {
	f := d.spec.Filter
	st := d.body(f.State, look.Case)
	w, h := math.Min(or(mm(f.W), 62), d.inner()*0.4), math.Min(or(mm(f.H), 165), d.height*0.7)
	x := within(d.filterX(), d.inLeft()+w/2+6, d.inRight()-w/2-6)
	top := d.rim() - math.Max(d.height*0.14, 30)
	y := math.Max(top-h, d.ground(x)+8)
	if top-y < 20 {
		return
	}
	h = top - y
	d.take(x-w/2, y, x+w/2, top+8)
	d.rect(x-w/2, y, x+w/2, top, w/6, st)
	d.rect(x-w/2, y+h*0.66, x+w/2, top, w/6, st)
	d.s.Add(scene.Polyline{Closed: true, Style: st, Points: []scene.Point{
		scene.Pt(x+w/2, top-h*0.1), scene.Pt(x+w*0.85, top-h*0.08), scene.Pt(x+w*0.85, top-h*0.16), scene.Pt(x+w/2, top-h*0.18)}})
	if f.State == Planned {
		return
	}
	p := scene.NewPath(d.faint(look.Ink, hair, 0.65))
	for i := range 7 {
		v := y + h*(0.08+0.075*float64(i))
		p.MoveTo(scene.Pt(x-w*0.3, v)).LineTo(scene.Pt(x+w*0.3, v))
	}
	d.s.Add(p)
	if f.State == Running && d.water > top-h*0.1 {
		flow := scene.NewPath(d.faint(look.Teal, fine, 0.6))
		for i := range 3 {
			v := top - h*(0.09+0.03*float64(i))
			flow.MoveTo(scene.Pt(x+w*0.95, v)).CubicTo(scene.Pt(x+w*1.3, v+3), scene.Pt(x+w*1.6, v-6), scene.Pt(x+w*(2.1-0.2*float64(i)), v-float64(i)*5))
		}
		d.s.Add(flow)
	}
}
