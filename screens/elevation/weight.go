package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A plate is the large weight with its place.
type plate struct {
	text scene.Text
	box  scene.Box
}

// placeWeight finds the clearest place for the large weight and takes it.
func (d *sheet) placeWeight() {
	t := scene.Text{S: d.spec.Labels.Weight, Size: 22, Weight: scene.Bold, H: scene.Middle, V: scene.Centre, Colour: look.Rust}
	if t.S == "" || !d.tankKnown {
		return
	}
	if d.spec.Compact {
		t.Size = 17
	}
	for t.Size > 15 && d.room(t).W() > d.inner()*0.36 {
		t.Size--
	}
	t.Colour = d.lineColour(t.Colour)
	box := d.room(t).Grow(d.px(5))
	best, clash := scene.Pt(d.length/2, d.rim()-d.height*0.3), math.Inf(1)
	for _, v := range []float64{0.3, 0.4, 0.5} {
		for _, u := range []float64{0.5, 0.44, 0.56, 0.38, 0.62, 0.34, 0.66, 0.28, 0.72} {
			at := scene.Pt(d.length*u, d.rim()-d.height*v)
			b := scene.Box{Min: box.Min.Add(at), Max: box.Max.Add(at)}
			bad := math.Abs(u-0.5)*d.px(1) + v*d.px(1)
			for _, o := range d.taken {
				if b.Overlaps(o) {
					bad += d.px(100) + (math.Min(b.Max.X, o.Max.X) - math.Max(b.Min.X, o.Min.X))
				}
			}
			if b.Min.X < d.inLeft() || b.Max.X > d.inRight() {
				bad += d.px(1000)
			}
			if bad < clash {
				best, clash = at, bad
			}
		}
	}
	t.At = best
	b := scene.Box{Min: box.Min.Add(best), Max: box.Max.Add(best)}
	d.weight = plate{t, b}
	d.taken = append(d.taken, b)
}

func (d *sheet) drawWeight() {
	if d.weight.text.S == "" {
		return
	}
	d.s.Group(PartWeight, func() {
		d.s.Add(scene.Rect{Min: d.weight.box.Min, Max: d.weight.box.Max, RadiusPt: 4, Style: scene.Style{Fill: look.Sheet, Stroke: d.weight.text.Colour, Width: fine, Alpha: 0.95}})
		d.s.Add(d.weight.text)
	})
}

// drawHighlight rings the chosen part.
func (d *sheet) drawHighlight() {
	id := d.spec.Highlight
	if id == "" {
		return
	}
	b := d.s.ExtentOf(id, scene.Transform{Scale: d.scale, Point: 1})
	if b.Empty() {
		return
	}
	b = b.Grow(6)
	d.s.Group(PartHighlight, func() {
		for _, w := range []struct {
			c     look.Name
			width float64
		}{{look.Paper, 5}, {look.Teal, 2.4}} {
			d.s.Add(scene.Rect{Min: scene.Pt(b.Min.X/d.scale, -b.Max.Y/d.scale), Max: scene.Pt(b.Max.X/d.scale, -b.Min.Y/d.scale), RadiusPt: 8,
				Style: scene.Style{Stroke: d.lineColour(w.c), Width: w.width, Dash: nil}})
		}
	})
}
