package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A stance is a stand in millimetres: where its board and its supports are.
type stance struct {
	board    float64 // y of the board's underside
	foot     float64 // width of a support
	footL    float64 // left edges of the two supports
	footR    float64
	overhang float64
}

func (l *layout) stance() stance {
	s := l.spec.Stand
	w := l.standRight - l.standLeft
	st := stance{board: l.standTop - math.Min(mm(s.Top), l.standTop/3)}
	st.foot = math.Min(or(mm(s.Leg), 40), w/4)
	st.overhang = math.Min(12, w/20)
	switch s.Kind {
	case Furniture:
		st.overhang = 0
		st.foot = math.Min(or(mm(s.Leg), 18), w/4)
		if span := mm(s.Span); span > 0 && span < w {
			// The supports stand where they leave the span clear; what is more
			// than a stout leg of it is overhang of the board.
			st.foot = math.Min((w-span)/2, 60)
			st.overhang = (w-span)/2 - st.foot
		}
	case Cabinet:
		st.overhang, st.foot = 0, math.Min(or(mm(s.Leg), 18), w/4)
	}
	st.footL, st.footR = l.standLeft+st.overhang, l.standRight-st.overhang-st.foot
	return st
}

func (d *sheet) drawStand() {
	d.s.Group(PartStand, func() {
		d.s.Area(scene.Box{Min: scene.Pt(d.standLeft, 0), Max: scene.Pt(d.standRight, d.standTop)})
		st := d.stance()
		switch {
		case !d.standKnown:
			d.rect(d.standLeft, 0, d.standRight, d.standTop, 0, d.dashed())
			return
		case d.spec.Stand.Kind == Cabinet:
			d.drawCabinet(st)
		case d.spec.Stand.Kind == Furniture:
			d.drawFurniture(st)
		default:
			d.drawFrame(st)
		}
		d.drawBoard(st)
	})
	d.drawSag()
	if m := d.base - d.standTop; m > 0 {
		d.s.Group(PartStand, func() {
			d.panel(-2, d.standTop, d.length+2, d.base, d.solid(look.Rule, fine))
		})
	}
}

// drawBoard draws the top board with a hint of its grain.
func (d *sheet) drawBoard(st stance) {
	if d.standTop-st.board < 0.5 {
		d.line(d.standLeft, d.standTop, d.standRight, d.standTop, d.pen(look.Ink, strong))
		return
	}
	d.rect(d.standLeft, st.board, d.standRight, d.standTop, math.Min(2, (d.standTop-st.board)/3), d.solid(look.Wood, outline))
	if h := d.standTop - st.board; d.px(4) < h {
		d.grain(d.standLeft+8, st.board+h*0.3, d.standRight-8, d.standTop-h*0.25, 2)
	}
}

// grain draws a few long lines of wood along the longer side of a face.
func (d *sheet) grain(x0, y0, x1, y1 float64, n int) {
	for i := range n {
		f := (float64(i) + 0.5 + 0.5*(scene.Scatter(i, 3)-0.5)) / float64(n)
		a, b := 0.05+0.3*scene.Scatter(i, 5), 0.65+0.3*scene.Scatter(i, 7)
		sway := 0.25 * (scene.Scatter(i, 9) - 0.5) / float64(n)
		at := func(along, across float64) scene.Point {
			if x1-x0 >= y1-y0 {
				return scene.Pt(x0+(x1-x0)*along, y0+(y1-y0)*across)
			}
			return scene.Pt(x0+(x1-x0)*across, y0+(y1-y0)*along)
		}
		d.s.Add(scene.NewPath(d.faint(look.Ink, hair, 0.28)).MoveTo(at(a, f)).CubicTo(at(a+(b-a)*0.3, f+sway), at(a+(b-a)*0.6, f-sway), at(b, f)))
	}
}

func (d *sheet) drawFrame(st stance) {
	s := d.spec.Stand
	in0, in1 := st.footL+st.foot, st.footR
	const pad = 6.0 // judgement: usual height of a screw foot
	foot := math.Min(pad, st.board/10)
	if s.BackPanel {
		lo := math.Max(foot, mm(s.LowerRail))
		d.rect(in0, lo, in1, st.board, 0, d.wash(look.Wood, 0.5))
		for i := 1; i < 6; i++ {
			x := in0 + (in1-in0)*float64(i)/6
			d.line(x, lo, x, st.board, d.faint(look.Ink, hair, 0.25))
		}
	}
	if s.Diagonal {
		lo := math.Max(foot, mm(s.LowerRail))
		w := math.Min(30, st.board/10)
		d.s.Add(scene.Polyline{Closed: true, Style: d.solid(look.Wood, fine), Points: []scene.Point{
			scene.Pt(in0, lo), scene.Pt(in0+w, lo), scene.Pt(in1, st.board-w), scene.Pt(in1, st.board), scene.Pt(in1-w, st.board), scene.Pt(in0, lo+w)}})
	}
	if y := mm(s.LowerRail); y > 0 && y < st.board {
		h := math.Min(or(mm(s.Rail), 40), 45) / 2
		lo, hi := math.Max(y-h, foot), math.Min(y+h, st.board)
		d.panel(in0, lo, in1, hi, d.solid(look.Wood, outline))
		if s.Shelf {
			d.panel(in0, hi, in1, hi+12, d.solid(look.Wood, fine))
		}
	}
	if r := math.Min(mm(s.Rail), st.board/2); r > 0 {
		d.panel(in0, st.board-r, in1, st.board, d.solid(look.Wood, outline))
		d.grain(in0+6, st.board-r*0.85, in1-6, st.board-r*0.15, 2)
	}
	for _, x := range []float64{st.footL, st.footR} {
		d.panel(x, foot, x+st.foot, st.board, d.solid(look.Wood, outline))
		d.grain(x+st.foot*0.15, foot+10, x+st.foot*0.85, st.board-10, 2)
	}
	d.feet(st, foot)
}

// feet draws what bears on the floor, up to the height h.
func (d *sheet) feet(st stance, h float64) {
	d.s.Group(PartFeet, func() {
		for _, x := range []float64{st.footL, st.footR} {
			in := math.Min(st.foot*0.15, 8)
			d.rect(x+in, 0, x+st.foot-in, h, 0, d.solid(look.Ink, hair))
		}
	})
}

func (d *sheet) drawCabinet(st stance) {
	l, r := d.standLeft, d.standRight
	plinth := math.Min(70, st.board/6)
	d.s.Group(PartFeet, func() {
		d.panel(l+8, 0, r-8, plinth, d.solid(look.Track, outline))
	})
	d.panel(l, plinth, r, st.board, d.solid(look.Wood, outline))
	n := max(1, int(math.Round((r-l)/420)))
	m := math.Min(12, (r-l)/30)
	w := (r - l - m*float64(n+1)) / float64(n)
	for i := range n {
		x := l + m + float64(i)*(w+m)
		y0, y1 := plinth+m, st.board-m
		if y1-y0 < 40 || w < 40 {
			continue
		}
		d.panel(x, y0, x+w, y1, d.pen(look.Ink, fine))
		k := math.Min(34, w/6)
		d.panel(x+k, y0+k, x+w-k, y1-k, d.pen(look.SoftInk, hair))
		d.grain(x+k*1.4, y0+k*1.4, x+w-k*1.4, y1-k*1.4, 4)
		kx := x + w - k/2
		if i%2 == 1 || n == 1 {
			kx = x + k/2
		}
		d.s.Add(scene.Circle(scene.Pt(kx, y0+(y1-y0)*0.72), math.Max(6, d.px(1.8)), d.solid(look.Sheet, fine)))
	}
}

func (d *sheet) drawFurniture(st stance) {
	in0, in1 := st.footL+st.foot, st.footR
	foot := math.Min(20, st.board/12)
	if d.spec.Stand.BackPanel {
		d.rect(in0, foot, in1, st.board, 0, d.wash(look.Track, 0.7))
	}
	if y := mm(d.spec.Stand.LowerRail); y > 0 && y < st.board || d.spec.Stand.Shelf {
		y = within(or(y, st.board*0.45), foot+10, st.board-20)
		d.panel(in0, y-9, in1, y+9, d.solid(look.Wood, fine))
	}
	for _, x := range []float64{st.footL, st.footR} {
		d.panel(x, foot, x+st.foot, st.board, d.solid(look.Wood, outline))
		if st.foot > d.px(5) {
			d.grain(x+st.foot*0.2, foot+10, x+st.foot*0.8, st.board-10, 2)
		}
	}
	d.feet(st, foot)
}

// drawSag draws how the board bends, enlarged, with the straight line it left.
func (d *sheet) drawSag() {
	if !d.standKnown || mm(d.spec.Stand.Sag) == 0 || d.spec.Compact {
		return
	}
	st := d.stance()
	a, b := scene.Pt(st.footL+st.foot, st.board-d.px(3)), scene.Pt(st.footR, st.board-d.px(3))
	if r := mm(d.spec.Stand.Rail); r > 0 && d.spec.Stand.Kind == PostFrame {
		a.Y, b.Y = a.Y-r, b.Y-r
	}
	low := math.Min(d.px(15), st.board/5)
	mid := scene.Pt((a.X+b.X)/2, a.Y)
	d.s.Group(PartSag, func() {
		d.s.Add(scene.Line{From: a, To: b, Style: scene.Style{Stroke: d.lineColour(look.SoftInk), Width: fine, Dash: []float64{6, 3}}})
		d.s.Add(scene.NewPath(d.pen(look.Rust, 1.6)).MoveTo(a).
			CubicTo(scene.Pt(a.X+(b.X-a.X)*0.3, a.Y-low*1.33), scene.Pt(a.X+(b.X-a.X)*0.7, a.Y-low*1.33), b))
		d.s.Add(scene.Arrow{From: mid, To: scene.Pt(mid.X, mid.Y-low), Head: 4, Style: d.pen(look.Rust, fine)})
		d.word(scene.Text{S: d.spec.Labels.Sag, H: scene.Middle, V: scene.Top, Weight: scene.SemiBold, Colour: look.Rust},
			scene.Pt(mid.X, mid.Y-low-d.px(3)))
	})
}
