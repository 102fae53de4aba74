package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// usual heights and spreads of the habits, in millimetres.
// judgement: young plants as sold.
var habits = map[PlantKind][2]float64{Ribbon: {220, 90}, Stem: {190, 60}, Rosette: {130, 130}, Carpet: {25, 160}, Floating: {60, 90}}

func (d *sheet) drawPlants() {
	for i, p := range d.spec.Plants {
		if i >= 40 || !d.tankKnown {
			return
		}
		usual, known := habits[p.Kind]
		if !known {
			usual = habits[Ribbon]
		}
		h, w := or(mm(p.Height), usual[0]), math.Min(or(mm(p.Spread), usual[1]), d.inner()*0.9)
		x := within(d.inLeft()+d.inner()*share(p.At, 0.5), d.inLeft()+w/2, d.inRight()-w/2)
		y := d.ground(x) - math.Min(6, d.bed().at(0.5, 0.5)/2)
		top := d.rim() - d.height*0.06
		if d.water > 0 {
			top = d.water - d.px(3)
		}
		h = math.Min(h, top-y)
		if h < d.px(3) {
			continue
		}
		if p.Kind != Carpet && p.Kind != Floating {
			d.greens = append(d.greens, scene.Box{Min: scene.Pt(x-w/2, y), Max: scene.Pt(x+w/2, y+h)})
		}
		d.s.Group(p.ID, func() {
			switch p.Kind {
			case Stem:
				d.drawStems(x, y, w, h, i)
			case Rosette:
				d.drawRosette(x, y, w, h, i)
			case Carpet:
				d.drawCarpet(x, y, w, h, i)
			case Floating:
				d.drawFloating(x, w, h, i)
			default:
				d.drawRibbons(x, y, w, h, i)
			}
		})
	}
}

// blade is the style of a leaf: those behind lie back.
func (d *sheet) blade(front bool) (fill, edge scene.Style) {
	fill, edge = d.wash(look.Leaf, 0.5), d.pen(look.Leaf, fine)
	if front {
		fill.Alpha = 0.85
	}
	if d.spec.Paper {
		fill.Alpha, edge.Stroke = 1, look.Ink
	}
	return fill, edge
}

// leaves draws the same outlines twice, as a tint and in line.
func (d *sheet) leaves(front bool, draw func(p *scene.Path)) {
	fill, edge := d.blade(front)
	p := scene.NewPath(scene.Style{Fill: fill.Fill, Alpha: fill.Alpha})
	draw(p)
	q := scene.NewPath(edge)
	draw(q)
	d.s.Add(p, q)
}

// drawRibbons draws a clump of long blades that lean outwards; those that reach
// the surface trail along it.
func (d *sheet) drawRibbons(x, y, w, h float64, seed int) {
	n := int(within(w/11, 5, 13))
	for i := range n {
		// From the outside in, so that the middle lies in front.
		k := (i%2*2 - 1) * (n - i)
		f := float64(k) / float64(n)
		tall := h * (0.62 + 0.38*(1-math.Abs(f)) - 0.16*scene.Scatter(i, seed+51))
		foot := scene.Pt(x+f*w*0.12, y)
		lean := f*w*0.36 + (scene.Scatter(i, seed+52)-0.5)*w*0.12
		tip := scene.Pt(x+f*w*0.12+lean, y+tall)
		half := math.Max(math.Min(4.5, h/40), d.px(1.1))
		sway := (scene.Scatter(i, seed+53) - 0.5) * w * 0.3
		d.leaves(i > n/2, func(p *scene.Path) {
			p.MoveTo(foot.Add(scene.Pt(-half*0.5, 0))).
				CubicTo(scene.Pt(foot.X-half+sway, y+tall*0.35), scene.Pt(tip.X-half-sway-lean*0.35, y+tall*0.7), tip).
				CubicTo(scene.Pt(tip.X+half-sway-lean*0.35, y+tall*0.7), scene.Pt(foot.X+half+sway, y+tall*0.35), foot.Add(scene.Pt(half*0.5, 0))).Close()
		})
	}
}

// drawStems draws stems with pairs of leaves that grow smaller to a bushy top.
func (d *sheet) drawStems(x, y, w, h float64, seed int) {
	n := int(within(w/20, 2, 5))
	for i := range n {
		f := (float64(i)+0.5)/float64(n) - 0.5
		tall := h * (0.7 + 0.3*scene.Scatter(i, seed+61))
		lean := f*w*0.3 + (scene.Scatter(i, seed+62)-0.5)*12
		stalk := bezier{scene.Pt(x+f*w*0.7, y), scene.Pt(x+f*w*0.7, y+tall*0.4), scene.Pt(x+f*w*0.7+lean*0.3, y+tall*0.7), scene.Pt(x+f*w*0.7+lean, y+tall)}
		d.s.Add(scene.NewPath(d.pen(look.Leaf, 1.2)).MoveTo(stalk[0]).CubicTo(stalk[1], stalk[2], stalk[3]))
		nodes := int(within(tall/17, 4, 12))
		if tall*d.scale < 60 {
			nodes = min(nodes, 6)
		}
		d.leaves(i%2 == 0, func(p *scene.Path) {
			for j := 1; j <= nodes; j++ {
				t := float64(j) / float64(nodes)
				a := stalk.at(t)
				long := (20 - 9*t) * math.Min(1, h/120)
				long = math.Max(long, d.px(3.5))
				for _, side := range []float64{-1, 1} {
					leaf(p, a, a.Add(scene.Pt(side*long*0.9, long*(0.25+0.75*t*t))), long*0.34, side*long*0.08)
				}
			}
		})
	}
}

// drawRosette draws broad leaves on stalks from one crown.
func (d *sheet) drawRosette(x, y, w, h float64, seed int) {
	n := int(within(w/13, 6, 11))
	for i := range n {
		k := (i%2*2 - 1) * (n - i)
		f := float64(k) / float64(n)
		tall := h * (1 - 0.55*math.Abs(f)) * (0.85 + 0.15*scene.Scatter(i, seed+71))
		foot, tip := scene.Pt(x+f*w*0.03, y), scene.Pt(x+f*w*0.5, y+tall)
		knee := foot.Add(tip.Sub(foot).Mul(0.42)).Add(scene.Pt(-f*w*0.05, h*0.06))
		d.s.Add(scene.NewPath(d.pen(look.Leaf, 1.1)).MoveTo(foot).QuadTo(scene.Pt(foot.X+(knee.X-foot.X)*0.3, y+tall*0.3), knee))
		d.leaves(i >= n/2, func(p *scene.Path) { leaf(p, knee, tip, tall*0.2, f*tall*0.14) })
		d.s.Add(scene.NewPath(d.faint(look.Ink, hair, 0.5)).MoveTo(knee).QuadTo(knee.Add(tip).Mul(0.5).Add(scene.Pt(0, f*f*tall*0.1)), tip))
	}
}

func (d *sheet) drawCarpet(x, y, w, h float64, seed int) {
	n := int(within(w*d.scale/2.6, 6, 60))
	p := scene.NewPath(d.pen(look.Leaf, 1))
	for i := range n {
		f := (float64(i)+scene.Scatter(i, seed+81))/float64(n) - 0.5
		foot := scene.Pt(x+f*w, d.ground(x+f*w)-2)
		tall := (h + 2) * (0.5 + 0.5*scene.Scatter(i, seed+82)) * (1 - 1.4*f*f)
		p.MoveTo(foot).QuadTo(foot.Add(scene.Pt(0, tall*0.6)), foot.Add(scene.Pt((scene.Scatter(i, seed+83)-0.5)*tall*0.8, tall)))
	}
	d.s.Add(p)
}

// drawFloating draws round leaves on the surface with roots that hang from them.
func (d *sheet) drawFloating(x, w, h float64, seed int) {
	if d.water <= 0 {
		return
	}
	n := int(within(w/24, 2, 7))
	roots := scene.NewPath(d.faint(look.Leaf, hair, 0.8))
	for i := range n {
		f := (float64(i)+0.5)/float64(n) - 0.5
		c := scene.Pt(x+f*w, d.water+1)
		for j := range 4 {
			o := (float64(j) - 1.5) * 3
			long := math.Min(h, d.water-d.ground(c.X)-10) * (0.4 + 0.6*scene.Scatter(i*4+j, seed+91))
			roots.MoveTo(c.Add(scene.Pt(o, 0))).CubicTo(c.Add(scene.Pt(o*1.6, -long*0.4)), c.Add(scene.Pt(o*0.6, -long*0.7)), c.Add(scene.Pt(o*1.8, -long)))
		}
	}
	d.s.Add(roots)
	for i := range n {
		f := (float64(i)+0.5)/float64(n) - 0.5
		c := scene.Pt(x+f*w, d.water+2)
		d.leaves(true, func(p *scene.Path) {
			leaf(p, c.Add(scene.Pt(-13, 0)), c.Add(scene.Pt(1, 0)), 5, 1)
			leaf(p, c.Add(scene.Pt(13, 1)), c.Add(scene.Pt(-1, 0)), 5, -1)
		})
	}
}
