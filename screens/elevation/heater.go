package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// heaterBox gives the heater in millimetres; it hangs below the rim and clear of
// the ground where it can.
func (l *layout) heaterBox() scene.Box {
	h := l.spec.Heater
	w := math.Max(math.Min(or(mm(h.Diameter), 26), l.inner()/6), 4)
	long := or(mm(h.Length), 200)
	x := within(l.at(share(h.At, 0.87)), l.inLeft()+w, l.inRight()-w)
	bottom := math.Max(l.rim()-math.Max(40, l.height*0.13)-long, l.ground(x)+20)
	return scene.Box{Min: scene.Pt(x-w/2, bottom), Max: scene.Pt(x+w/2, math.Min(bottom+long, l.rim()+headroom-25))}
}

func (d *sheet) drawHeater() {
	h := d.spec.Heater
	if h.State == Absent || !d.tankKnown {
		return
	}
	b := d.heaterBox()
	x, w, long := (b.Min.X+b.Max.X)/2, b.W(), b.H()
	d.take(b.Min.X-w*0.3, b.Min.Y, b.Max.X+w*0.3, b.Max.Y+8)
	d.s.Group(PartHeater, func() {
		d.s.Area(b)
		tube := d.body(h.State, look.Sheet)
		d.rect(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y-long*0.12, w/2, tube)
		d.rect(b.Min.X, b.Max.Y-long*0.2, b.Max.X, b.Max.Y, w*0.3, d.body(h.State, look.Case))
		if h.State == Planned {
			return
		}
		coil := look.SoftInk
		if h.State == Running {
			coil = look.Rust
		}
		p := scene.NewPath(d.pen(coil, 1.2))
		y0, y1 := b.Min.Y+long*0.1, b.Max.Y-long*0.28
		n := int(within((y1-y0)*d.scale/3.4, 4, 22))
		p.MoveTo(scene.Pt(x, y0-long*0.03)).LineTo(scene.Pt(x-w*0.22, y0))
		for i := 1; i <= n; i++ {
			side := float64(i%2*2 - 1)
			p.LineTo(scene.Pt(x+side*w*0.22, y0+(y1-y0)*float64(i)/float64(n)))
		}
		p.LineTo(scene.Pt(x, y1+long*0.03)).LineTo(scene.Pt(x, b.Max.Y-long*0.2))
		d.s.Add(p)
		for _, v := range []float64{0.16, 0.7} { // the holders
			y := b.Min.Y + long*v
			d.rect(b.Min.X-w*0.18, y-4, b.Max.X+w*0.18, y+4, 2, d.solid(look.SoftInk, fine))
		}
		d.line(x-w*0.2, b.Max.Y-long*0.07, x+w*0.2, b.Max.Y-long*0.07, d.pen(look.Ink, fine))
		d.drawMinLevel(b)
	})
}

// drawMinLevel draws the mark that the water must cover. Where the tank holds
// water that does not, the mark carries the sign to act.
func (d *sheet) drawMinLevel(b scene.Box) {
	m := mm(d.spec.Heater.MinLevel)
	if m == 0 || m > b.H() {
		return
	}
	y := b.Min.Y + m
	bare := d.water > 0 && d.water < y
	c := look.Ink
	if bare {
		c = look.Rust
	}
	ext := d.px(7)
	st := d.pen(c, fine)
	d.line(b.Min.X-ext, y, b.Max.X+ext, y, st)
	// The level sign of technical drawings: a triangle standing on the line.
	d.s.Add(scene.Polyline{Closed: true, Style: scene.Style{Stroke: d.lineColour(c), Width: fine, Fill: look.Sheet}, Points: []scene.Point{
		scene.Pt(b.Min.X-ext, y), scene.Pt(b.Min.X-ext-d.px(3.5), y+d.px(6)), scene.Pt(b.Min.X-ext+d.px(3.5), y+d.px(6))}})
	if bare {
		d.s.Add(scene.Marker{At: scene.Pt(b.Max.X, y), Shape: scene.Triangle, Size: 11, Shift: scene.Pt(12, 1), Style: scene.Style{Fill: d.lineColour(look.Rust)}})
	}
	if d.spec.Compact || d.inner()*d.scale < 200 {
		return
	}
	d.later(PartHeater, func() {
		d.minWord(b, y, c)
	})
}

func (d *sheet) minWord(b scene.Box, y float64, c look.Name) {
	ext := d.px(7)
	t := scene.Text{S: d.spec.Labels.MinLevel, H: scene.End, V: scene.Centre, Size: 11, Colour: c, Back: d.inTank()}
	d.word(t, scene.Pt(b.Min.X-ext-d.px(8), y+d.px(2)), scene.Pt(b.Min.X-ext-d.px(8), y-d.px(12)))
}

// inTank gives the plate behind words within the tank: the water, or the glass.
func (l *layout) inTank() look.Name {
	if l.water > 0 {
		return look.Water
	}
	return look.Sheet
}

// temperatureBelow tells that the temperature would fill the tank and stands
// among the notes instead.
func (l *layout) temperatureBelow() bool {
	w := scene.TextSize(l.spec.Labels.Temperature, scene.SemiBold, look.Note).Width
	return w > l.inner()*l.scale*0.22
}

func (d *sheet) drawThermometer() {
	th := d.spec.Thermometer
	if th.State == Absent || !d.tankKnown {
		return
	}
	long := math.Min(or(mm(th.Length), 110), d.height*0.6)
	w := math.Max(9, d.px(4))
	x := within(d.at(share(th.At, 0.63)), d.inLeft()+w, d.inRight()-w)
	top := d.rim() - d.height*0.2
	if d.water > 0 {
		top = math.Min(top, d.water-12)
	}
	bottom := math.Max(top-long, d.ground(x)+5)
	if top-bottom < 10 {
		return
	}
	long = top - bottom
	d.take(x-w, bottom, x+w, top)
	d.s.Group(PartThermometer, func() {
		d.s.Area(scene.Box{Min: scene.Pt(x-w/2, bottom), Max: scene.Pt(x+w/2, top)})
		d.rect(x-w/2, bottom, x+w/2, top, w/2, d.body(th.State, look.Sheet))
		if th.State == Planned {
			return
		}
		bulb := scene.Pt(x, bottom+w*0.55)
		d.s.Add(scene.Circle(bulb, w*0.27, d.wash(look.Rust, 1)))
		d.line(x, bulb.Y, x, bottom+long*0.62, d.pen(look.Rust, 1.3))
		p := scene.NewPath(d.pen(look.Ink, hair))
		for i := range 5 {
			y := bottom + long*(0.3+0.14*float64(i))
			p.MoveTo(scene.Pt(x+w*0.18, y)).LineTo(scene.Pt(x+w*0.5, y))
		}
		d.s.Add(p)
		if d.temperatureBelow() {
			return
		}
		d.later(PartThermometer, func() {
			t := scene.Text{S: d.spec.Labels.Temperature, V: scene.Centre, Weight: scene.SemiBold, Back: d.inTank()}
			size := d.room(t)
			out := w/2 + d.px(6)
			d.word(t, scene.Pt(x+out, top-long*0.4), scene.Pt(x-out-size.W(), top-long*0.4), scene.Pt(x+out, top-long*0.9),
				scene.Pt(x-size.W()/2, bottom-d.px(12)), scene.Pt(x-out-size.W(), bottom))
		})
	})
}
