package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

func (l *layout) lidHeight() float64 { return math.Min(or(mm(l.spec.Lid.Height), 50), headroom-20) }

// drawLight draws what the lamp throws into the tank, behind all that is in it.
func (d *sheet) drawLight() {
	lid := d.spec.Lid
	if lid.State != Running || !lid.Lamp || !d.tankKnown {
		return
	}
	d.s.Group(PartWater, func() {
		y0, y1 := d.inBottom(), d.rim()
		for i := range 4 {
			x := d.inLeft() + d.inner()*(0.14+0.22*float64(i))
			w, lean := d.inner()*0.05, d.inner()*0.05
			d.s.Add(scene.Polyline{Points: []scene.Point{scene.Pt(x, y1), scene.Pt(x+w, y1), scene.Pt(x+w*1.9+lean, y0), scene.Pt(x-w*0.4+lean, y0)}, Style: scene.Style{Fill: look.Sheet, Alpha: 0.16}})
		}
	})
}

// drawLid draws the lid with its lamp, and the air between it and the water.
func (d *sheet) drawLid() {
	lid := d.spec.Lid
	if lid.State != Absent && d.tankKnown {
		d.s.Group(PartLight, func() {
			y, h := d.rim(), d.lidHeight()
			st := d.body(lid.State, look.Case)
			if lid.State == Placed || lid.State == Running {
				st.Width = outline + 0.2
			}
			d.s.Add(scene.NewPath(st).MoveTo(scene.Pt(-3, y)).LineTo(scene.Pt(-3, y+h*0.62)).QuadTo(scene.Pt(-3, y+h), scene.Pt(h*0.5, y+h)).
				LineTo(scene.Pt(d.length-h*0.5, y+h)).QuadTo(scene.Pt(d.length+3, y+h), scene.Pt(d.length+3, y+h*0.62)).LineTo(scene.Pt(d.length+3, y)).Close())
			if lid.State == Planned {
				return
			}
			d.line(d.px(3), y+h*0.5, d.length-d.px(3), y+h*0.5, d.faint(look.Ink, hair, 0.5))
			grip := math.Min(70, d.length/6)
			d.rect(d.length/2-grip/2, y+h*0.62, d.length/2+grip/2, y+h*0.84, 4, d.faint(look.Ink, hair, 0.7))
			if lid.Lamp {
				bar := d.wash(look.Sheet, 1)
				bar.Stroke, bar.Width = look.Ink, hair
				if lid.State == Running {
					bar.Fill = d.fillColour(look.FishWarm)
				}
				d.rect(d.length*0.1, y+h*0.1, d.length*0.9, y+h*0.3, 3, bar)
			}
		})
	}
	d.drawAirGap()
}

func (d *sheet) drawAirGap() {
	t := d.spec.Labels.AirGap
	if t == "" || d.water <= 0 || d.spec.Compact || (d.rim()-d.water)*d.scale < 5 {
		return
	}
	d.s.Group(PartLight, func() {
		x := d.at(0.5)
		if d.word(scene.Text{S: t, Size: 11, V: scene.Top, Colour: look.Ink, Back: d.inTank()}, scene.Pt(x+d.px(7), d.water-d.px(4)), scene.Pt(d.at(0.3), d.water-d.px(4))) {
			d.s.Add(scene.Arrow{From: scene.Pt(x, d.water-d.px(13)), To: scene.Pt(x, d.water), Head: 4, Style: d.pen(look.Ink, fine)})
			d.line(x, d.water, x, d.rim(), d.pen(look.Ink, fine))
		}
	})
}
