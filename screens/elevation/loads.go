package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

func (d *sheet) drawLoads() {
	if d.spec.Loads.Arrows && d.tankKnown {
		d.s.Group(PartLoads, func() {
			n := int(within(math.Round(d.length*d.scale/38), 3, 16))
			foot := d.base + d.baseRim() + d.px(1)
			long := math.Min(d.px(24), d.height*0.4)
			for i := range n {
				x := d.length * (float64(i) + 0.5) / float64(n)
				d.line(x, foot+long, x, foot+d.px(2), d.faint(look.Sheet, 5, 0.7)) // lifts it off the gravel
				d.s.Add(scene.Arrow{From: scene.Pt(x, foot+long), To: scene.Pt(x, foot), Head: 6, Style: d.pen(look.Rust, 1.7)})
			}
		})
	}
	d.drawReactions()
}

// drawReactions draws the floor's answer under the feet, longer for more.
func (d *sheet) drawReactions() {
	if !d.standKnown || d.spec.Compact {
		return
	}
	most := 0.0
	for _, r := range d.spec.Loads.Reactions {
		if m := r.Mass; m > most && !math.IsInf(m, 0) {
			most = m
		}
	}
	if most == 0 {
		return
	}
	st := d.stance()
	// Numbers that would meet between the feet move apart, in points.
	wide := func(i int) float64 {
		return scene.TextSize(d.spec.Loads.Reactions[i].Label, scene.Bold, look.Note).Width
	}
	apart := math.Max(0, (wide(0)+wide(1))/2+6-(st.footR-st.footL)*d.scale) / 2
	d.s.Group(PartReactions, func() {
		for i, r := range d.spec.Loads.Reactions {
			if !(r.Mass > 0) || math.IsInf(r.Mass, 0) {
				continue
			}
			x, aside := st.footL+st.foot/2, -apart
			if i == 1 {
				x, aside = st.footR+st.foot/2, apart
			}
			long := 13 + 11*(r.Mass/most)
			tip := scene.Pt(x, -d.px(11))
			d.s.Add(scene.Arrow{From: scene.Pt(x, tip.Y-d.px(long)), To: tip, Head: 7, Style: d.pen(look.Rust, 2.2)})
			d.s.Add(scene.Text{At: scene.Pt(x, tip.Y-d.px(long)), Shift: scene.Pt(aside, -2), S: r.Label, H: scene.Middle, V: scene.Top, Weight: scene.Bold, Colour: d.lineColour(look.Rust)})
		}
	})
}
