package parts

import (
	"strings"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

const (
	dipTube     = 12 // width of the tube
	dipTubeLeft = 34 // of its left side
	dipLabel    = 62 // left side of the labels
	dipEnds     = 28 // of tube beyond the first and the last step
	dipLeast    = 34 // least distance of two steps
	dipMost     = 56 // most
	dipTick     = 15 // size of the check mark
)

func (d *Dipstick) leastWidth() float32 { return 150 }

// lead gives the width of the labels' room.
func (d *Dipstick) labelRoom(p *pen, width float32) float32 {
	return max(width-dipLabel*p.k-4, 20)
}

// step gives the distance of two steps and the height of the lowest one when
// the dipstick is height high.
func (d *Dipstick) step(p *pen, height float32) (step, first float32) {
	n := float32(max(len(d.spec.Steps)-1, 1))
	step = (height - 2*dipEnds*p.k) / n
	step = max(dipLeast*p.k, min(step, dipMost*p.k))
	tall := n*step + 2*dipEnds*p.k
	top := max(0, (height-tall)/2)
	return step, top + tall - dipEnds*p.k
}

// under gives the step at a height, or -1.
func (d *Dipstick) under(y float32) int {
	p := newPen(d, nil)
	step, first := d.step(p, d.Size().Height)
	i := int((first-y)/step + 0.5)
	if y > first+step/2 || i < 0 || i >= len(d.spec.Steps) {
		return -1
	}
	return i
}

func (d *Dipstick) draw(p *pen, width float32) float32 {
	n := len(d.spec.Steps)
	least := (float32(max(n-1, 1))*dipLeast + 2*dipEnds) * p.k
	if p.pool == nil || n == 0 {
		return least
	}
	step, first := d.step(p, p.height)
	x, w := dipTubeLeft*p.k, dipTube*p.k
	top, foot := first-float32(n-1)*step-dipEnds*p.k, first+dipEnds*p.k
	water := first - d.level*step
	p.tube(x, top, w, foot-top, foot-water)
	for i, s := range d.spec.Steps {
		d.one(p, s, i, first-float32(i)*step, step, width)
	}
	d.tip(p, step, first, width)
	if d.focused {
		y := first - float32(d.at)*step
		h := dipLeast * p.k * 0.9
		p.ring(dipLabel*p.k-4, y-h/2+ringGap, width-dipLabel*p.k+4-ringGap, h-2*ringGap)
	}
	return least
}

// tube draws the tube with water of a height in it.
func (p *pen) tube(x, y, w, h, water float32) {
	if p.pool == nil {
		return
	}
	// A margin of one point keeps the outline whole.
	sw, sh, m := float64(w/p.k), float64(h/p.k), 1.0
	level := min(float64(water/p.k), sh)
	sc := scene.New()
	r := sw / 2
	sc.Add(scene.Rect{Min: scene.Pt(m, m), Max: scene.Pt(m+sw, m+sh), Radius: r, Style: scene.Style{Fill: look.Sheet}})
	if level > r {
		bowl := scene.NewPath(scene.Style{Fill: look.Water}).MoveTo(scene.Pt(m, m+level)).LineTo(scene.Pt(m, m+r)).
			CubicTo(scene.Pt(m, m+0.45*r), scene.Pt(m+0.45*r, m), scene.Pt(m+r, m)).
			CubicTo(scene.Pt(m+1.55*r, m), scene.Pt(m+2*r, m+0.45*r), scene.Pt(m+2*r, m+r)).
			LineTo(scene.Pt(m+sw, m+level)).Close()
		sc.Add(bowl)
	}
	sc.Add(scene.Rect{Min: scene.Pt(m, m), Max: scene.Pt(m+sw, m+sh), Radius: r, Style: scene.Style{Stroke: look.Ink, Width: 1.3}})
	p.sketch(sc, x-p.k, y-p.k, w+2*p.k, h+2*p.k)
}

// one draws a step: its mark, its graduation and its label.
func (d *Dipstick) one(p *pen, s DipStep, i int, y, step, width float32) {
	x, w := dipTubeLeft*p.k, dipTube*p.k
	switch s.State {
	case StepDone:
		p.check(x-(dipTick+6)*p.k, y-dipTick*p.k/2, dipTick, look.Teal)
	case StepReopened:
		p.stateMark(Wait, x-(dipTick+4)*p.k, y-5.5*p.k, 11)
	}
	p.rect(x+w, y-0.6, 8*p.k, 1.2, box{fill: look.Ink})
	if i == d.spec.Current {
		p.rect(x-4*p.k, y-1.25*p.k, w+8*p.k, 2.5*p.k, box{fill: look.Teal})
	}
	c := bodyInk
	switch {
	case i == d.spec.Current:
		c = bodyBold
	case s.State == StepShut:
		c = bodySoft
	case i == d.over:
		c = c.in(look.Teal)
	}
	d.label(p, s, c, y, step, width)
}

// label sets a step's label about its height: smaller when it does not fit
// between its neighbours, and shortened when even that does not hold it.
func (d *Dipstick) label(p *pen, s DipStep, c cut, y, step, width float32) {
	room := d.labelRoom(p, width)
	word := float32(0)
	if s.State == StepReopened && s.Word != "" {
		word = p.line(noteSoft)
	}
	lines := wrap(s.Label, room, p.measurer(c))
	if float32(len(lines))*p.line(c)+word > step || longestWord(s.Label, p.measurer(c)) > room {
		c.size = look.SizeNote
	}
	lines = shortened(s.Label, max(1, int((step-word)/p.line(c))), room, p.measurer(c))
	y -= (float32(len(lines))*p.line(c) + word) / 2
	for _, l := range lines {
		p.text(l, dipLabel*p.k, y, c)
		y += p.line(c)
	}
	if word > 0 {
		p.text(ellipsis(s.Word, room, p.measurer(noteSoft)), dipLabel*p.k, y, noteSoft.in(look.Wait))
	}
}

// WidthNeeded gives the width, in points, at which every label stands in full
// in at most two lines.
func (d *Dipstick) WidthNeeded() float32 {
	p := newPen(d, nil)
	room := float32(0)
	for _, s := range d.spec.Steps {
		m := p.measurer(bodyBold)
		best, words := m(s.Label), scene.Pieces(s.Label)
		for i := 1; i < len(words); i++ {
			head, tail := strings.Join(words[:i], ""), strings.Join(words[i:], "")
			best = min(best, max(m(strings.TrimSpace(head)), m(tail)))
		}
		room = max(room, best)
	}
	return max(room+1+(dipLabel*p.k)+4, d.leastWidth()*p.k)
}

func longestWord(s string, m measurer) float32 {
	w := float32(0)
	for _, piece := range scene.Pieces(s) {
		w = max(w, m(strings.TrimSpace(piece)))
	}
	return w
}

// tip says what the shut step that is pointed at waits for, on a plate below
// its label, or above it where there is no room below.
func (d *Dipstick) tip(p *pen, step, first, width float32) {
	i := d.over
	if i < 0 && d.focused {
		i = d.at
	}
	if i < 0 || i >= len(d.spec.Steps) || d.spec.Steps[i].State != StepShut || d.spec.Steps[i].Waits == "" {
		return
	}
	const pad = 6
	x := dipLabel*p.k - 6
	inner := max(width-x-2*pad, 20)
	h := p.end(d.spec.Steps[i].Waits, 0, inner, noteSoft) + 2*pad
	y := first - float32(i)*step + step*0.42
	if y+h > p.height {
		y = first - float32(i)*step - step*0.42 - h
	}
	p.rect(x, y, width-x, h, box{fill: look.Sheet, stroke: look.Edge, width: 1, radius: sheetRadius})
	p.wrapped(d.spec.Steps[i].Waits, x+pad, y+pad, inner, noteSoft.in(look.Ink))
}
