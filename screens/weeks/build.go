package weeks

import (
	"math"

	"example.org/driploop/screens/fauna"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Measures in points. Judgement.
const (
	left     = 54.0 // room for the labels of the lines
	right    = 14.0
	top      = 16.0  // above the line of all that the tank carries
	chart    = 92.0  // height from nothing to all
	axisGap  = 34.0  // from the axis to the first blocks
	line     = 17.0  // of text
	blockGap = 10.0  // between blocks
	sketch   = 62.0  // length of the largest animal
	least    = 12.0  // and of the smallest
	mostUse  = 1.5   // of the drawing; more is cut
	leastW   = 220.0 // below it nothing is drawn
)

// block is the label of a step, laid out: y is its top, counted down from the axis.
type block struct {
	x, y, w, h float64
	sketches   []size
}

type size struct{ w, h float64 }

type plan struct {
	Spec
	w, h, axis float64 // axis counted down from the top
	blocks     []block
	perMM      float64 // points a millimetre of an animal
}

// Height is how high a plan is drawn at a width.
func Height(s Spec, width float64) float64 { return lay(s, width).h }

func (p *plan) x(week float64) float64 {
	return left + (p.w-left-right)*week/p.last()
}

// level is how far down from the top a use stands.
func (p *plan) level(use float64) float64 {
	return p.axis - chart*math.Min(use, mostUse)
}

func lay(s Spec, width float64) *plan {
	p := &plan{Spec: s, w: math.Max(width, leastW)}
	over, longest := 1.0, 0.0
	for _, x := range s.Steps {
		over = math.Max(over, math.Min(x.Use, mostUse))
		for _, a := range x.Animals {
			longest = math.Max(longest, a.Length)
		}
	}
	p.axis = top + chart*over
	if longest > 0 {
		p.perMM = sketch / longest
	}
	foot := 0.0
	for _, x := range s.Steps {
		b := p.block(x)
		b.x = math.Min(math.Max(left-8, p.x(x.Week)-10), math.Max(left-8, p.w-right-b.w))
		b.y = axisGap
		for moved := true; moved; { // below what stands in its way
			moved = false
			for _, o := range p.blocks {
				if b.x < o.x+o.w+blockGap && o.x < b.x+b.w+blockGap && b.y < o.y+o.h+blockGap && o.y < b.y+b.h+blockGap {
					b.y, moved = o.y+o.h+blockGap, true
				}
			}
		}
		p.blocks = append(p.blocks, b)
		foot = math.Max(foot, b.y+b.h)
	}
	p.h = p.axis + math.Max(foot, axisGap) + 6
	return p
}

// block measures the label of a step.
func (p *plan) block(s Step) block {
	b := block{h: 2 * line}
	wide := func(t string, w scene.Weight) { b.w = math.Max(b.w, scene.TextSize(t, w, look.Note).Width) }
	wide(s.Date, scene.Bold)
	b.w = math.Max(b.w, 16+scene.TextSize(s.Word, scene.Regular, look.Note).Width)
	for _, a := range s.Animals {
		l := math.Max(least, a.Length*p.perMM)
		box := fauna.Box(a.Code, l)
		sz := size{box.W(), math.Max(line, box.H()+4)}
		b.sketches = append(b.sketches, sz)
		b.w = math.Max(b.w, sz.w+8+scene.TextSize(a.Text, scene.Regular, look.Note).Width)
		b.h += sz.h
	}
	return b
}

// Build draws a plan so wide, in points.
func Build(s Spec, width float64) *scene.Scene {
	p := lay(s, width)
	d := scene.New()
	d.Area(scene.Box{Max: scene.Pt(p.w, p.h)})
	at := func(x, down float64) scene.Point { return scene.Pt(x, p.h-down) }
	p.drawLoad(d, at)
	p.drawAxis(d, at)
	for i, x := range p.Steps {
		d.Group(ID(i), func() { p.drawStep(d, at, i, x) })
	}
	return d
}

// drawLoad draws how full the tank becomes, under the two lines.
func (p *plan) drawLoad(d *scene.Scene, at func(x, down float64) scene.Point) {
	x0, end := p.x(0), p.x(p.last())
	use, from := p.Now, x0
	var edge []scene.Point
	add := func(to float64) {
		if use > 0 {
			d.Add(scene.Rect{Min: at(from, p.axis), Max: at(to, p.level(use)), Style: scene.Style{Fill: look.Water, Alpha: 0.65}})
		}
		edge = append(edge, at(from, p.level(use)), at(to, p.level(use)))
	}
	for _, s := range p.Steps {
		x := p.x(s.Week)
		add(x)
		use, from = s.Use, x
	}
	add(end)
	d.Add(scene.Polyline{Points: edge, Style: scene.Style{Stroke: look.Teal, Width: 2}})
	for _, l := range []struct {
		use  float64
		text string
		dash []float64
		col  look.Name
	}{{1, p.Full, nil, look.Limit}, {green, p.Green, []float64{5, 4}, look.SoftInk}} {
		d.Add(scene.Line{From: at(x0, p.level(l.use)), To: at(end, p.level(l.use)), Style: scene.Style{Stroke: l.col, Width: 1.5, Dash: l.dash}},
			scene.Text{At: at(x0-6, p.level(l.use)), S: l.text, H: scene.End, V: scene.Centre, Colour: l.col})
	}
}

// drawAxis draws the weeks.
func (p *plan) drawAxis(d *scene.Scene, at func(x, down float64) scene.Point) {
	d.Add(scene.Line{From: at(p.x(0), p.axis), To: at(p.x(p.last()), p.axis), Style: scene.Style{Stroke: look.Ink, Width: 1.5}})
	free := math.Inf(-1)
	for n := 0; n <= int(p.last()); n++ {
		x := p.x(float64(n))
		text := p.Today
		if n > 0 {
			text = p.Week(n)
		}
		w := scene.TextSize(text, scene.Regular, look.Note).Width
		h, a, from := scene.Middle, x-w/2, x
		switch {
		case n == 0:
			if h = scene.Start; len(p.Steps) > 0 && p.Steps[0].Week <= 0.01 {
				from += 6 // beside the line to what is bought today
			}
			a = from
		case x+w/2 > p.w:
			h, a = scene.End, x-w
		}
		long := 4.0
		if a > free && !p.marked(a-4, a+w+4) {
			long, free = 7, a+w+10
			d.Add(scene.Text{At: at(from, p.axis+20), S: text, H: h, Colour: look.SoftInk})
		}
		d.Add(scene.Line{From: at(x, p.axis), To: at(x, p.axis+long), Style: scene.Style{Stroke: look.SoftInk, Width: 1}})
	}
}

// marked reports whether the leader of a step runs down between two places.
func (p *plan) marked(from, to float64) bool {
	for i, s := range p.Steps {
		if x := p.x(s.Week); x >= from && x <= to && (i > 0 || s.Week > 0.01) {
			return true
		}
	}
	return false
}

// drawStep draws a purchase: its mark on the axis, its use above, its label below.
func (p *plan) drawStep(d *scene.Scene, at func(x, down float64) scene.Point, i int, s Step) {
	x, b := p.x(s.Week), p.blocks[i]
	shape, col := shapes[s.State], colours[s.State]
	end := p.x(p.last())
	if i+1 < len(p.Steps) {
		end = p.x(p.Steps[i+1].Week)
	}
	if w := scene.TextSize(s.Percent, scene.Bold, look.Note).Width; end-x > w+8 || i+1 == len(p.Steps) {
		d.Add(scene.Text{At: at(math.Min(x+5, p.w-right-w), p.level(s.Use)-5), S: s.Percent, Weight: scene.Bold, Back: look.Paper})
	}
	lx := math.Min(math.Max(x, b.x+2), b.x+b.w)
	d.Add(scene.Polyline{Points: []scene.Point{at(x, p.axis+6), at(x, p.axis+12), at(lx, p.axis+b.y-4)}, Style: scene.Style{Stroke: look.Rule, Width: 1}},
		scene.Marker{At: at(x, p.axis), Shape: shape, Size: 14, Style: scene.Style{Fill: look.Paper, Stroke: col, Width: 2}})
	y := p.axis + b.y
	d.Add(scene.Rect{Min: at(b.x-5, y+b.h+3), Max: at(b.x+b.w+5, y-4), RadiusPt: 3, Style: scene.Style{Fill: look.Sheet, Stroke: look.Rule, Width: 1}})
	y += line
	d.Add(scene.Text{At: at(b.x, y-4), S: s.Date, Weight: scene.Bold})
	y += line
	d.Add(scene.Marker{At: at(b.x+5, y-9), Shape: shape, Size: 9, Style: scene.Style{Stroke: col, Width: 1.5, Fill: fills[s.State]}},
		scene.Text{At: at(b.x+16, y-4), S: s.Word, Colour: col})
	for n, a := range s.Animals {
		sz := b.sketches[n]
		l := math.Max(least, a.Length*p.perMM)
		box := fauna.Box(a.Code, l)
		mid := y + sz.h/2
		d.Add(fauna.Animal(a.Code, l, fauna.Pose{At: at(b.x-box.Min.X, mid+(box.Min.Y+box.Max.Y)/2), Scale: 1, Paper: p.Paper})...)
		d.Add(scene.Text{At: at(b.x+sz.w+8, mid), S: a.Text, V: scene.Centre})
		y += sz.h
	}
}
