package elevation

import (
	"math"

	"example.org/driploop/screens/fauna"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// drawBag draws the tied bag afloat with the fish in it. The bag is taken as
// twice as wide as its water is deep and two thirds as thick as wide.
func (d *sheet) drawBag() {
	if !d.spec.Bag.Afloat || d.water <= d.inBottom() {
		return
	}
	v := d.spec.Bag.Water
	if !(v > 0 && v < 0.1) {
		v = 0.001
	}
	// Volume of half an ellipsoid with the half axes w/2, w/3 and depth w/2: π w³/18.
	w := math.Cbrt(v*1e9*18/math.Pi) * 1.02
	w = math.Min(w, d.inner()*0.6)
	deep := math.Min(w*0.5, d.water-d.inBottom())
	x, y := d.bagX(w), d.water
	air := w * 0.36
	top := y + air
	at := func(u, v float64) scene.Point { return scene.Pt(x+w*u, y+v) }
	d.take(x-w/2, y-deep, x+w/2, top+w*0.2)
	body := func(p *scene.Path) *scene.Path {
		return p.MoveTo(at(-.06, air)).CubicTo(at(-.3, air*0.9), at(-.5, air*0.5), at(-.5, 0)).
			CubicTo(at(-.5, -deep*0.62), at(-.3, -deep), at(0, -deep)).CubicTo(at(.3, -deep), at(.5, -deep*0.62), at(.5, 0)).
			CubicTo(at(.5, air*0.5), at(.3, air*0.9), at(.06, air)).Close()
	}
	d.s.Group(PartBag, func() {
		d.s.Add(body(scene.NewPath(scene.Style{Fill: look.Sheet, Alpha: 0.62})))
		d.s.Add(scene.NewPath(d.wash(look.Water, 0.7)).MoveTo(at(-.5, 0)).CubicTo(at(-.5, -deep*0.62), at(-.3, -deep), at(0, -deep)).
			CubicTo(at(.3, -deep), at(.5, -deep*0.62), at(.5, 0)).Close())
		d.line(x-w/2, y+d.px(1.5), x+w/2, y+d.px(1.5), d.pen(look.Teal, 1.2))
	})
	d.drawBagFish(x, y, w, deep)
	d.s.Group(PartBag, func() {
		d.s.Add(body(scene.NewPath(d.pen(look.Ink, outline))))
		tail := w * 0.17
		d.s.Add(scene.NewPath(scene.Style{Stroke: look.Ink, Width: fine, Fill: look.Sheet}).MoveTo(at(-.025, air)).CubicTo(at(-.03, air+tail*0.5), at(-.1, air+tail*0.7), at(-.12, air+tail)).
			QuadTo(at(-.05, air+tail*0.8), at(0, air+tail*1.05)).QuadTo(at(.05, air+tail*0.8), at(.12, air+tail)).CubicTo(at(.1, air+tail*0.7), at(.03, air+tail*0.5), at(.025, air)).Close())
		d.rect(x-w*0.06, y+air-w*0.018, x+w*0.06, y+air+w*0.022, w*0.02, d.solid(look.FishEarth, fine))
		p := scene.NewPath(d.faint(look.Ink, hair, 0.5))
		for _, u := range []float64{-.3, -.12, .1, .27} {
			p.MoveTo(at(u*0.12, air*0.94)).QuadTo(at(u*0.7, air*0.8), at(u, air*0.42))
		}
		p.MoveTo(at(-.42, -deep*0.15)).QuadTo(at(-.4, -deep*0.5), at(-.27, -deep*0.74))
		d.s.Add(p)
	})
}

// bagX gives the middle of the bag: the clearest stretch of the surface.
func (d *sheet) bagX(w float64) float64 {
	best, clash := d.length/2, math.Inf(1)
	for i := range 21 {
		x := within(d.inLeft()+d.inner()*float64(i)/20, d.inLeft()+w/2+4, d.inRight()-w/2-4)
		b := scene.Box{Min: scene.Pt(x-w/2, d.water-w/2), Max: scene.Pt(x+w/2, d.water+w/2)}
		bad := math.Abs(x-d.length*0.45) * 0.05
		for _, o := range d.taken {
			if b.Overlaps(o) {
				bad += math.Min(b.Max.X, o.Max.X) - math.Max(b.Min.X, o.Min.X)
			}
		}
		if bad < clash {
			best, clash = x, bad
		}
	}
	return best
}

func (d *sheet) drawBagFish(x, y, w, deep float64) {
	k := 0
	for i, f := range d.spec.Bag.Fish {
		long := mm(f.Length)
		if long == 0 || i >= 6 {
			continue
		}
		d.s.Group(f.ID, func() {
			for range max(0, min(f.Count, 6)) {
				p := fauna.Pose{Left: k%2 == 1, Scale: d.scale, Paper: d.spec.Paper}
				way := float64(1 - (k%2)*2)
				p.At = scene.Pt(x+w*0.34*(scene.Scatter(k, 151)-0.5)+w*0.12*way, y-deep*(0.22+0.24*float64(k%3)))
				d.s.Add(fauna.Animal(f.Code, long, p)...)
				k++
			}
		})
	}
}
