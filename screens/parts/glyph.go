package parts

import (
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// stateMark draws the shape of a state, s points high at 100 %, and gives the
// room that it takes.
func (p *pen) stateMark(st State, x, y, s float32) float32 {
	sh, ok := st.shape()
	if !ok {
		return 0
	}
	sc := scene.New()
	d := float64(s)
	style := scene.Style{Fill: st.colour()}
	if st == Steady {
		style = scene.Style{Stroke: look.Ink, Width: 1.4}
	}
	sc.Add(scene.Marker{At: scene.Pt(d/2+1, d/2+1), Shape: sh, Size: d, Style: style})
	p.sketch(sc, x-p.k, y-p.k, (s+2)*p.k, (s+2)*p.k)
	return s * p.k
}

// stated draws the shape and the word of a state as one line and gives its width.
func (p *pen) stated(st State, word string, x, y float32, c cut) float32 {
	w := p.statedWidth(st, word, c)
	c = c.in(st.colour())
	size := p.size(c) * 0.7 / p.k
	if _, ok := st.shape(); ok {
		x += p.stateMark(st, x, y+p.base(c)-size*p.k, size) + markGap*p.k
	}
	p.text(word, x, y, c)
	return w
}

func (p *pen) statedWidth(st State, word string, c cut) float32 {
	w := p.widthOf(word, c)
	if _, ok := st.shape(); ok {
		w += p.size(c)*0.7 + markGap*p.k
	}
	return w
}

const markGap = 6

// check draws a check mark in a square of s points at 100 %.
func (p *pen) check(x, y, s float32, c look.Name) {
	d := float64(s)
	sc := scene.New()
	sc.Add(scene.Polyline{
		Points: []scene.Point{scene.Pt(0.1*d, 0.5*d), scene.Pt(0.38*d, 0.2*d), scene.Pt(0.9*d, 0.82*d)},
		Style:  scene.Style{Stroke: c, Width: d * 0.13},
	})
	p.sketch(sc, x, y, s*p.k, s*p.k)
}

// chevron draws the sign of a list that opens downwards, in a square of s points.
func (p *pen) chevron(x, y, s float32, c look.Name) {
	d := float64(s)
	sc := scene.New()
	sc.Add(scene.Polyline{
		Points: []scene.Point{scene.Pt(0.15*d, 0.66*d), scene.Pt(0.5*d, 0.32*d), scene.Pt(0.85*d, 0.66*d)},
		Style:  scene.Style{Stroke: c, Width: 1.6},
	})
	p.sketch(sc, x, y, s*p.k, s*p.k)
}

// disclosure draws the small triangle before what opens: to the right when
// shut, downwards when open.
func (p *pen) disclosure(open bool, x, y, s float32, c look.Name) {
	d := float64(s)
	pts := []scene.Point{scene.Pt(0.1*d, 0.9*d), scene.Pt(0.1*d, 0.1*d), scene.Pt(0.9*d, 0.5*d)}
	if open {
		pts = []scene.Point{scene.Pt(0.05*d, 0.85*d), scene.Pt(0.95*d, 0.85*d), scene.Pt(0.5*d, 0.1*d)}
	}
	sc := scene.New()
	sc.Add(scene.Polyline{Points: pts, Closed: true, Style: scene.Style{Fill: c}})
	p.sketch(sc, x, y, s*p.k, s*p.k)
}

// alert draws the triangle of a safety note, w points wide: black edged, white
// within, with a black stroke and dot.
// Source: the form of ISO 3864-2 safety alert symbols; the drawing is our own.
func (p *pen) alert(x, y, w float32) {
	d := float64(w)
	h := d * 0.88
	line, ground := look.SignWarningText, look.SignDangerText // black and white in both variants
	sc := scene.New()
	sc.Add(
		scene.Polyline{Closed: true, Points: []scene.Point{scene.Pt(0.04*d, 0.05*h), scene.Pt(0.96*d, 0.05*h), scene.Pt(0.5*d, 0.95*h)},
			Style: scene.Style{Fill: ground, Stroke: line, Width: 2}},
		scene.Polyline{Closed: true, Points: []scene.Point{scene.Pt(0.455*d, 0.68*h), scene.Pt(0.545*d, 0.68*h), scene.Pt(0.525*d, 0.34*h), scene.Pt(0.475*d, 0.34*h)},
			Style: scene.Style{Fill: line}},
		scene.Circle(scene.Pt(0.5*d, 0.21*h), 0.05*d, scene.Style{Fill: line}),
	)
	p.sketch(sc, x, y, w*p.k, float32(h)*p.k)
}

// statedWrap draws the shape and the word of a state in lines no wider than
// width and gives where they end.
func (p *pen) statedWrap(st State, word string, x, y, width float32, c cut) float32 {
	if word == "" {
		return y
	}
	in := p.statedWidth(st, "", c)
	if in > 0 {
		size := p.size(c) * 0.7 / p.k
		p.stateMark(st, x, y+p.base(c)-size*p.k, size)
	}
	return p.wrapped(word, x+in, y, width-in, c.in(st.colour()))
}

// statedEnd gives where statedWrap would end.
func (p *pen) statedEnd(st State, word string, y, width float32, c cut) float32 {
	return p.end(word, y, width-p.statedWidth(st, "", c), c)
}
