package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

const (
	handHeight  = 190.0 // judgement: an adult's hand, wrist to fingertip
	childHeight = 1200.0
	adultHeight = 1700.0
	captionPt   = 12.0
	figureWidth = 0.27 // of its height, arms at the sides
)

// figureHeight gives the height of the person that is drawn, or 0 when none is
// asked for or the person would shrink the drawing by more than a fifth.
func (l *layout) figureHeight(w, h float64) float64 {
	f := l.asked()
	if f == 0 {
		return 0
	}
	roomW, roomH := l.frame.W-90, l.frame.H-130 // points left by dimensions and notes
	before := math.Min(roomW/w, roomH/h)
	after := math.Min(roomW/(w+f*figureWidth+20), roomH/math.Max(h, f+10))
	if !(after > before*0.8) {
		return 0
	}
	return f
}

// asked gives the height of the person asked for, or 0.
func (l *layout) asked() float64 {
	switch {
	case l.spec.Compact:
		return 0
	case l.spec.Figure == Child:
		return childHeight
	case l.spec.Figure == Adult:
		return adultHeight
	}
	return 0
}

// handOutline is an open hand, thumb to the left, in millimetres from the wrist.
var handOutline = []scene.Point{
	{X: -27, Y: 0}, {X: -30, Y: 22}, {X: -36, Y: 42}, {X: -50, Y: 62}, {X: -62, Y: 84}, {X: -68, Y: 104}, {X: -63, Y: 114}, {X: -54, Y: 110}, {X: -43, Y: 92}, {X: -33, Y: 84},
	{X: -33, Y: 104}, {X: -37, Y: 136}, {X: -38, Y: 164}, {X: -31, Y: 174}, {X: -23, Y: 165}, {X: -19, Y: 136}, {X: -15, Y: 110},
	{X: -13, Y: 138}, {X: -12, Y: 178}, {X: -4, Y: 190}, {X: 5, Y: 178}, {X: 5, Y: 140}, {X: 7, Y: 110},
	{X: 13, Y: 136}, {X: 19, Y: 166}, {X: 28, Y: 175}, {X: 34, Y: 164}, {X: 28, Y: 134}, {X: 25, Y: 103},
	{X: 35, Y: 122}, {X: 46, Y: 141}, {X: 54, Y: 146}, {X: 58, Y: 136}, {X: 48, Y: 106}, {X: 40, Y: 76}, {X: 35, Y: 44}, {X: 29, Y: 20}, {X: 28, Y: 0},
}

// halfPerson is the left half of a standing person from the crown to the middle
// of the stride, as fractions of the height.
var halfPerson = []scene.Point{
	{X: 0, Y: 1}, {X: -.036, Y: .986}, {X: -.05, Y: .945}, {X: -.042, Y: .9}, {X: -.026, Y: .868}, {X: -.028, Y: .845},
	{X: -.07, Y: .825}, {X: -.112, Y: .8}, {X: -.124, Y: .74}, {X: -.13, Y: .62}, {X: -.134, Y: .5}, {X: -.132, Y: .455}, {X: -.112, Y: .455}, {X: -.106, Y: .5}, {X: -.1, Y: .6}, {X: -.088, Y: .7},
	{X: -.082, Y: .6}, {X: -.088, Y: .5}, {X: -.086, Y: .36}, {X: -.074, Y: .26}, {X: -.072, Y: .16}, {X: -.062, Y: .05}, {X: -.09, Y: .012}, {X: -.07, Y: 0}, {X: -.03, Y: 0}, {X: -.028, Y: .06}, {X: -.024, Y: .25}, {X: -.012, Y: .44}, {X: 0, Y: .46},
}

func (d *sheet) drawFigure() {
	if d.spec.Compact {
		return
	}
	left := math.Min(0, d.standOuter())
	if f := d.person; f > 0 {
		x := left - socketReach - f*figureWidth/2 - 4
		d.s.Group(PartFigure, func() {
			var edge []scene.Point
			for _, p := range halfPerson {
				edge = append(edge, scene.Pt(d.beside(x+p.X*f), p.Y*f))
			}
			for i := len(halfPerson) - 2; i > 0; i-- {
				edge = append(edge, scene.Pt(d.beside(x-halfPerson[i].X*f), halfPerson[i].Y*f))
			}
			st := d.faint(look.SoftInk, fine, 0.8)
			st.Fill = look.Track
			st.Alpha = 0.55
			d.s.Add(smooth(scene.NewPath(st), edge, true))
			d.caption(scene.Pt(d.beside(x), f+d.px(5)), scene.Baseline)
		})
		return
	}
	x := left - socketGap - plateWidth/2
	switch {
	case d.spec.Figure == Hand:
		d.drawHand(x)
	case d.mark > 0:
		d.drawMark()
	}
}

// captionBelow tells that the figure's words have no room beside the tank and
// stand among the notes instead.
func (l *layout) captionBelow() bool {
	if l.spec.Compact || l.spec.Figure == NoFigure || l.spec.Figure != Hand && l.person == 0 && l.mark == 0 {
		return false
	}
	w := scene.TextSize(l.spec.Labels.Figure, scene.Regular, captionPt).Width
	return w+6 > (socketReach-socketGap*0.6)*l.scale
}

// caption writes the figure's words at a place, held within the drawing.
func (d *sheet) caption(at scene.Point, v scene.VAlign) {
	if d.captionBelow() {
		return
	}
	t, place := d.held(scene.Text{S: d.spec.Labels.Figure, V: v, Size: captionPt, Colour: look.SoftInk}, at)
	d.word(t, place)
}

// drawMark draws a person's height as a rule on the wall, divided into
// decimetres.
func (d *sheet) drawMark() {
	f := d.mark
	x := d.area.Min.X + d.px(2)
	way := 1.0
	if d.spec.Socket.Side == Right {
		x, way = d.area.Max.X-d.px(2), -1
	}
	d.s.Group(PartFigure, func() {
		p := scene.NewPath(d.faint(look.SoftInk, 1, 0.9)).MoveTo(scene.Pt(x, 0)).LineTo(scene.Pt(x, f))
		for i := 1; float64(i)*100 < f; i++ {
			long := 5.0
			if i%5 == 0 {
				long = 9
			}
			p.MoveTo(scene.Pt(x, float64(i)*100)).LineTo(scene.Pt(x+way*d.px(long), float64(i)*100))
		}
		d.s.Add(p)
		d.line(x, f, x+way*d.px(26), f, d.pen(look.SoftInk, strong))
		d.caption(scene.Pt(x, f+d.px(5)), scene.Baseline)
	})
}

// drawHand draws the hand on the wall over the socket, or under its loops.
func (d *sheet) drawHand(x float64) {
	label := d.px(17)
	y := d.rim() - handHeight
	if w, there := d.wallSocket(); there {
		over, under := w.box.Max.Y+label+d.px(28), w.box.Min.Y-usualLoop-30-handHeight
		switch {
		case over+handHeight <= d.area.Max.Y:
			y = within(y, over, d.area.Max.Y-handHeight)
		case under >= label+60:
			y = within(under, label+60, 400)
		default:
			return
		}
	}
	if y < label+10 {
		return
	}
	d.s.Group(PartFigure, func() {
		var edge []scene.Point
		for _, p := range handOutline {
			edge = append(edge, scene.Pt(d.beside(x+p.X), y+p.Y))
		}
		st := d.faint(look.SoftInk, 1, 0.85)
		d.s.Add(smooth(scene.NewPath(st), edge, false))
		d.take(x-70, y, x+60, y+handHeight)
		d.caption(scene.Pt(d.beside(x), y-d.px(3)), scene.Top)
	})
}
