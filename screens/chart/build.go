package chart

import (
	"math"
	"strings"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Build draws the chart w by h points large, as a scene in which a millimetre
// stands for a point. A size under 20 points either way, or a chart without any
// value, gives the spec's Empty text alone.
func Build(spec Spec, w, h float64) *scene.Scene {
	p := lay(spec, w, h)
	return p.draw()
}

func (p *plan) draw() *scene.Scene {
	s := scene.New()
	if finite(p.w, p.h) && p.w > 0 && p.h > 0 {
		s.Area(scene.Box{Max: scene.Pt(p.w, p.h)})
	}
	if p.empty {
		p.drawEmpty(s)
		return s
	}
	p.drawZones(s)
	p.drawGrid(s)
	p.drawEvents(s)
	pl := placer{room: p.plot}
	runs := make([][][]scene.Point, len(p.spec.Series))
	for i, a := range p.spec.Series {
		p.drawBand(s, a, &pl)
		runs[i] = p.runs(a.Line)
	}
	p.drawLimits(s, &pl)
	for _, m := range p.marks {
		p.drawMark(s, m)
		pl.line(scene.Pt(p.x(m.X), p.plot.Min.Y), scene.Pt(p.x(m.X), p.plot.Max.Y))
	}
	p.drawBelow(s) // after every line, so that none passes over a word
	for i, a := range p.spec.Series {
		for _, r := range runs[i] {
			if len(r) > 1 {
				s.Add(scene.Polyline{Points: r, Style: scene.Style{Stroke: a.Colour, Width: 2.25}})
			} else {
				s.Add(scene.Circle(r[0], 1.5, scene.Style{Fill: a.Colour})) // alone between gaps
			}
			pl.line(r...)
		}
	}
	for _, a := range p.spec.Series {
		p.drawPoints(s, a, &pl)
	}
	markers := len(pl.boxes)
	p.drawLabels(s, runs, &pl)
	p.labels = pl.boxes[markers:]
	return s
}

func (p *plan) drawEmpty(s *scene.Scene) {
	if p.spec.Empty == "" || !finite(p.w, p.h) || p.w <= 0 {
		return
	}
	lines := wrap(p.spec.Empty, p.w-4*gutter)
	for i, l := range lines {
		y := p.h/2 + (float64(len(lines)-1)/2-float64(i))*1.4*look.Body
		s.Add(scene.Text{At: scene.Pt(p.w/2, y), S: l, Size: look.Body, H: scene.Middle, V: scene.Centre, Colour: look.SoftInk})
	}
}

// wrap breaks a text into lines no wider than w points, where a line may end.
func wrap(text string, w float64) []string {
	var lines []string
	line := ""
	for _, piece := range scene.Pieces(text) {
		if line != "" && scene.TextSize(strings.TrimRight(line+piece, " "), scene.Regular, look.Body).Width > w {
			lines = append(lines, strings.TrimRight(line, " "))
			line = ""
		}
		line += piece
	}
	if line = strings.TrimRight(line, " "); line != "" {
		lines = append(lines, line)
	}
	return lines
}

func (p *plan) drawGrid(s *scene.Scene) {
	for _, v := range p.grid {
		y := p.y(v)
		s.Add(scene.Line{From: scene.Pt(p.plot.Min.X, y), To: scene.Pt(p.plot.Max.X, y), Style: scene.Style{Stroke: look.Rule, Width: 1, Alpha: 0.6}})
	}
	for _, t := range p.yTicks {
		s.Add(scene.Text{At: scene.Pt(p.plot.Min.X-gutter, p.y(t.At)), S: t.Label, Size: note, H: scene.End, V: scene.Centre, Colour: look.SoftInk})
	}
	if p.spec.Unit != "" {
		s.Add(scene.Text{At: scene.Pt(p.plot.Min.X, p.h-gutter), S: p.spec.Unit, Size: note, V: scene.Centre, Shift: scene.Pt(0, -2), Colour: look.SoftInk})
	}
	for _, t := range p.xTicks {
		x := p.x(t.At)
		s.Add(scene.Line{From: scene.Pt(x, p.plot.Min.Y), To: scene.Pt(x, p.plot.Min.Y-4), Style: scene.Style{Stroke: look.SoftInk, Width: 1}})
	}
}

func (p *plan) drawBand(s *scene.Scene, a Series, pl *placer) {
	var low, high []scene.Point
	for _, b := range a.Band {
		if b.X < p.x0 || b.X > p.x1 {
			continue
		}
		low = append(low, p.at(b.X, b.Low))
		high = append(high, p.at(b.X, b.High))
	}
	if len(low) < 2 {
		return
	}
	low, high = thin(low), thin(high)
	pl.bands = append(pl.bands, [2]profile{profileOf(low, p.plot), profileOf(high, p.plot)})
	ring := append([]scene.Point(nil), low...)
	for i := len(high) - 1; i >= 0; i-- {
		ring = append(ring, high[i])
	}
	s.Add(scene.Polyline{Points: ring, Closed: true, Style: scene.Style{Fill: a.Colour, Alpha: look.BandAlpha}})
}

// at gives the place of a value, held within the plot's height.
func (p *plan) at(x, y float64) scene.Point {
	return scene.Pt(p.x(x), clampTo(p.y(y), p.plot.Min.Y-1, p.plot.Max.Y+1))
}

// runs gives the unbroken parts of a line, cut to the plot's width and thinned.
func (p *plan) runs(line []Sample) (out [][]scene.Point) {
	var run []scene.Point
	end := func() {
		if len(run) > 0 {
			out = append(out, thin(run))
		}
		run = nil
	}
	for i, v := range line {
		if v.missing() {
			end()
			continue
		}
		if in := v.X >= p.x0 && v.X <= p.x1; in {
			if i > 0 && !line[i-1].missing() && line[i-1].X < p.x0 {
				run = append(run, p.cut(line[i-1], v, p.x0))
			}
			run = append(run, p.at(v.X, v.Y))
			continue
		}
		if v.X > p.x1 && i > 0 && !line[i-1].missing() && line[i-1].X < p.x1 {
			if len(run) == 0 { // the line passes over the whole plot
				run = append(run, p.cut(line[i-1], v, math.Max(p.x0, line[i-1].X)))
			}
			run = append(run, p.cut(line[i-1], v, p.x1))
		}
		end()
	}
	end()
	return out
}

// cut gives the place where the straight line from a to b has the given x.
func (p *plan) cut(a, b Sample, x float64) scene.Point {
	return p.at(x, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
}

func (p *plan) drawLimits(s *scene.Scene, pl *placer) {
	for _, l := range p.spec.Limits {
		if !finite(l.Y) || l.Y < p.y0 || l.Y > p.y1 {
			continue
		}
		line := []scene.Point{p.at(p.x0, l.Y), p.at(p.x1, l.Y)}
		s.Add(scene.Line{From: line[0], To: line[1], Style: scene.Style{Stroke: look.Limit, Width: 1.5, Dash: []float64{6, 4}}})
		pl.line(line...)
	}
}

func (p *plan) drawMark(s *scene.Scene, m marked) {
	c := m.Colour
	if c == "" {
		c = look.Ink
	}
	st := scene.Style{Stroke: c, Width: 1.25}
	if !m.Solid {
		st.Dash = []float64{3, 3}
	}
	x := p.x(m.X)
	foot := p.plot.Min.Y
	if m.Label != "" {
		foot = m.baseline - 2
	}
	s.Add(scene.Line{From: scene.Pt(x, foot), To: scene.Pt(x, p.plot.Max.Y), Style: st})
}

// drawBelow writes what stands below the plot: the labels of the x axis and of the
// marks, each on the ground where the line of a mark passes through it.
func (p *plan) drawBelow(s *scene.Scene) {
	add := func(t scene.Text) {
		b := t.Box(scene.Transform{Scale: 1, Point: 1})
		for _, o := range p.marks {
			if q := p.x(o.X); q > b.Min.X-2 && q < b.Max.X+2 {
				t.Back = p.spec.Ground
			}
		}
		s.Add(t)
	}
	for _, t := range p.xTicks {
		if t.Label != "" {
			half := width(t.Label) / 2
			add(scene.Text{At: scene.Pt(clampTo(p.x(t.At), half+1, p.w-half-1), p.plot.Min.Y-17), S: t.Label, Size: note, H: scene.Middle, Colour: look.SoftInk})
		}
	}
	for _, m := range p.marks {
		if m.Label == "" {
			continue
		}
		t := scene.Text{At: scene.Pt(m.x, m.baseline), S: m.Label, Size: note, Colour: look.SoftInk}
		if m.Colour != "" {
			t.Colour, t.Weight = m.Colour, scene.SemiBold
		}
		add(t)
	}
}

func (p *plan) drawPoints(s *scene.Scene, a Series, pl *placer) {
	const size = 8.0
	last := math.Inf(-1)
	for _, v := range a.Points {
		if v.missing() || v.X < p.x0 || v.X > p.x1 {
			continue
		}
		at := p.at(v.X, v.Y)
		if a.Bars {
			foot := p.at(v.X, math.Max(0, p.y0))
			s.Add(scene.Line{From: foot, To: at, Style: scene.Style{Stroke: a.Colour, Width: 3}})
			continue
		}
		pl.boxes = append(pl.boxes, scene.Box{Min: at, Max: at}.Grow(size/2))
		if at.X-last < 3 { // too dense to be told apart: the line shows them
			continue
		}
		last = at.X
		fill := p.spec.Ground
		if a.Filled && v.Side == 0 {
			fill = a.Colour
		}
		if v.Side != 0 { // a stem to the side where the value lies
			end := at
			end.Y += math.Copysign(size/2+5, float64(v.Side))
			s.Add(scene.Line{From: at, To: end, Style: scene.Style{Stroke: a.Colour, Width: 1.75}})
		}
		s.Add(scene.Marker{At: at, Shape: a.Shape, Size: size, Style: scene.Style{Stroke: a.Colour, Width: 1.75, Fill: fill}})
	}
}

// drawLabels writes the names of series, limits and notes where they cover
// nothing; where no free place is left, on a plate.
func (p *plan) drawLabels(s *scene.Scene, runs [][][]scene.Point, pl *placer) {
	write := func(text string, c look.Name, m scene.Metrics, candidates []scene.Box) {
		if text == "" || len(candidates) == 0 {
			return
		}
		b, free := pl.place(candidates)
		t := scene.Text{At: scene.Pt(b.Min.X, b.Min.Y+m.Descent*0.6), S: text, Size: note + 1, Weight: scene.SemiBold, Colour: c}
		if !free {
			t.Back = p.spec.Ground
		}
		s.Add(t)
	}
	measure := func(text string) scene.Metrics { return scene.TextSize(text, scene.SemiBold, note+1) }
	for i, a := range p.spec.Series {
		m := measure(a.Name)
		var longest []scene.Point
		for _, r := range runs[i] {
			if len(longest) == 0 || r[len(r)-1].X-r[0].X > longest[len(longest)-1].X-longest[0].X {
				longest = r
			}
		}
		write(a.Name, a.Colour, m, beside(longest, m, p.plot))
	}
	for _, l := range p.spec.Limits {
		if !finite(l.Y) || l.Y < p.y0 || l.Y > p.y1 {
			continue
		}
		m := measure(l.Label)
		y := p.y(l.Y)
		var c []scene.Box
		for k := range 21 {
			x := p.plot.Min.X + 4 + (p.plot.W()-m.Width-8)*float64(k)/20
			c = append(c, boxAt(x, y+4+m.Descent*0.6, m), boxAt(x, y-5-m.CapHeight, m))
		}
		write(l.Label, look.Limit, m, c)
	}
	for _, n := range p.spec.Notes {
		if !finite(n.X, n.Y) || n.X < p.x0 || n.X > p.x1 {
			continue
		}
		c := n.Colour
		if c == "" {
			c = look.Ink
		}
		m := measure(n.Text)
		at := p.at(n.X, n.Y)
		var spots []scene.Box
		for k := range 12 {
			dy := 8 + 10*float64(k)
			for _, dx := range []float64{-m.Width / 2, -m.Width, 0} {
				spots = append(spots, boxAt(at.X+dx, at.Y+dy, m), boxAt(at.X+dx, at.Y-dy-m.CapHeight, m))
			}
		}
		write(n.Text, c, m, spots)
	}
}
