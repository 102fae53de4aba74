package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

func (d *sheet) drawFloor() {
	// It ends under the dimension lines, within what the fit reckoned with.
	in := d.px(heavy)
	a, b := scene.Pt(d.area.Min.X+in, 0), scene.Pt(d.area.Max.X-in, 0)
	x, off := d.dimensionsAt()
	switch {
	case !d.showsHeight() && !d.showsStandHeight():
	case off > 0:
		b.X = math.Max(b.X, x+d.px(off+3))
	default:
		a.X = math.Min(a.X, x+d.px(off-3))
	}
	d.s.Group(PartFloor, func() {
		d.s.Add(scene.Hatch{From: a, To: b, Step: 15, Length: 8, Style: d.faint(look.Ink, fine, 0.8)})
		d.s.Add(scene.Line{From: a, To: b, Style: d.pen(look.Ink, heavy)})
	})
}
