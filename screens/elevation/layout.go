package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Sizes of the stand-ins for a tank and a stand that are not known, and of what
// the person has not measured, in millimetres.
const (
	usualLength  = 600 // judgement: a common first tank
	usualWidth   = 300
	usualHeight  = 360
	usualStand   = 700
	leastTank    = 30   // judgement: smaller is a slip of the pen
	socketReach  = 250  // judgement: room kept beside the stand for socket and loops
	headroom     = 95   // judgement: room kept above the rim for filter, lid and cords
	leastRoom    = 120  // points: in less nothing can be told apart
	leastScale   = 0.01 // points per millimetre
	bottomRowsPt = 74   // judgement: room below the floor for reactions and notes, points
)

// A layout is the Spec brought to millimetres, with the scale it will have.
type layout struct {
	spec Spec

	length, width, height float64 // tank, outer
	wall                  float64
	tankKnown             bool
	base                  float64 // tank's underside above the floor
	water                 float64 // y of the surface; 0 when dry
	standTop              float64 // y of the board's upper side
	standKnown            bool
	standLeft, standRight float64

	frame    scene.Frame
	place    scene.Transform
	scale    float64 // points per millimetre
	area     scene.Box
	person   float64 // height of the person drawn, 0 none
	mark     float64 // height of a person marked on the wall, 0 none
	rows     float64 // room below the floor, points
	noteRows [][]string
}

func (l *layout) rim() float64      { return l.base + l.height }
func (l *layout) inBottom() float64 { return l.base + l.wall }
func (l *layout) inLeft() float64   { return l.wall }
func (l *layout) inRight() float64  { return l.length - l.wall }
func (l *layout) inner() float64    { return l.inRight() - l.inLeft() }

// at gives the x of a fraction of the length.
func (l *layout) at(f float64) float64 { return f * l.length }

// px gives n points in millimetres of the drawing.
func (l *layout) px(n float64) float64 { return n / l.scale }

// beside mirrors x where the socket is on the right, so that all that leads to
// it is reckoned as if it were on the left.
func (l *layout) beside(x float64) float64 {
	if l.spec.Socket.Side == Right {
		return l.length - x
	}
	return x
}

// Frame gives the fit that Build reckons with: the room, its margins, and the
// drawing's place in it.
func Frame(spec Spec) scene.Frame {
	w, h := spec.Room.W, spec.Room.H
	room := func(v, usual float64) float64 {
		if !(v > 0) || v > 1e5 {
			return usual
		}
		return math.Max(v, leastRoom)
	}
	w, h = room(w, 530), room(h, 740)
	m := 16.0
	if spec.Compact {
		m = 8
	}
	return scene.Frame{W: w, H: h, Margins: scene.Even(m), Point: 1, AlignY: -0.2}
}

func arrange(spec Spec) *layout {
	l := &layout{spec: spec, frame: Frame(spec)}
	l.measureTank()
	l.measureStand()
	l.base = l.standTop + math.Min(mm(spec.Stand.Mat), 40)
	if w := mm(spec.Tank.Water); w > 0 && l.tankKnown {
		l.water = math.Min(l.inBottom()+w, l.rim()-0.5)
	}
	l.measureArea()
	l.rows = bottomRowsPt
	if spec.Compact {
		l.rows = 16
	}
	l.fit()
	l.flowNotes()
	for range 3 { // more rows leave less room, which may ask for more rows
		need := l.notesTop() + float64(len(l.noteRows))*noteRowPt
		if len(l.noteRows) == 0 || need <= l.rows {
			break
		}
		l.rows = need
		l.fit()
		l.flowNotes()
	}
	return l
}

// fit finds the scale.
func (l *layout) fit() {
	bare := scene.New()
	l.drawExtent(bare)
	l.place = scene.Fit(bare, l.frame)
	l.scale = math.Max(l.place.Scale/l.place.Point, leastScale)
}

func (l *layout) measureTank() {
	t := l.spec.Tank
	l.length, l.width, l.height = mm(t.Length), mm(t.Width), mm(t.Height)
	l.tankKnown = l.length >= leastTank && l.height >= leastTank
	if !l.tankKnown {
		l.length, l.height = 0, 0
	}
	l.length, l.height = or(l.length, usualLength), or(l.height, usualHeight)
	if t.Shape == Cylinder {
		l.width = l.length
	}
	l.width = or(l.width, usualWidth)
	// Source: judgement: glass about 1/80 of the longer side, 4 mm at least.
	l.wall = or(mm(t.Wall), math.Max(4, math.Max(l.length, l.height)/80))
	l.wall = math.Min(l.wall, math.Min(l.length, l.height)/6)
}

func (l *layout) measureStand() {
	s := l.spec.Stand
	h := mm(s.Height)
	l.standKnown = s.Kind != UnknownStand && h > 0
	l.standTop = or(h, usualStand)
	w := mm(s.Length)
	if w == 0 {
		w = l.length + 24
	}
	l.standLeft, l.standRight = (l.length-w)/2, (l.length+w)/2
}

// measureArea sets the box that is kept whatever is shown, so that the scale
// stays as it is from step to step.
func (l *layout) measureArea() {
	left, right := math.Min(0, l.standLeft), math.Max(l.length, l.standRight)
	top := l.rim() + headroom
	if l.spec.Compact {
		top = math.Max(l.rim()+12, l.kitTop()+4)
	}
	if !l.spec.Compact || l.spec.Socket.Present {
		left -= socketReach
	} else {
		left -= 40
	}
	right += 40
	if l.spec.Socket.Present {
		top = math.Max(top, mm(l.spec.Socket.Height)+60)
	}
	l.person = l.figureHeight(right-left, top)
	if h := l.person; h > 0 {
		left -= h*figureWidth + 20
		top = math.Max(top, h+45)
	} else if f := l.asked(); f > 0 && f < top*1.15 {
		l.mark = f
		top = math.Max(top, f+55)
	}
	if l.spec.Socket.Side == Right {
		left, right = l.length-right, l.length-left
	}
	l.area = scene.Box{Min: scene.Pt(left, 0), Max: scene.Pt(right, top)}
}

// drawExtent draws what decides the scale: the area, the floor's rows and the
// dimensions. Everything else lies within.
func (l *layout) drawExtent(s *scene.Scene) {
	s.Area(l.area)
	floor := scene.Pt((l.area.Min.X+l.area.Max.X)/2, 0)
	// An empty text paints nothing and counts where it would stand.
	s.Add(scene.Text{At: floor, Shift: scene.Pt(0, -l.rows)})
	l.drawDimensions(s)
}

// dimensionFoot gives the y down to which the length's extension lines run.
func (l *layout) dimensionFoot() float64 {
	if l.spec.Lid.State != Absent {
		return l.rim() + l.lidHeight() + 6
	}
	return l.rim() + 6
}

// dimensionsAt gives the x that the heights are measured from, and how far
// from it in points they are drawn: away from the socket.
func (l *layout) dimensionsAt() (x, off float64) {
	x, off = math.Max(l.length, l.standRight), 34
	if l.spec.Compact {
		off = 27
	}
	if l.spec.Socket.Side == Right {
		return math.Min(0, l.standLeft), -off
	}
	return x, off
}

func (l *layout) showsHeight() bool { return l.tankKnown && l.spec.Labels.Height != "" }

func (l *layout) showsStandHeight() bool { return l.standKnown && l.spec.Labels.StandHeight != "" }

// beyond reports whether a dimension's number is longer than its line, so that it stands
// beyond the end of it.
func (l *layout) beyond(number string, long float64) bool {
	return l.scale > 0 && number != "" && scene.TextSize(number, scene.Regular, look.Note).Width+6 > long*l.scale
}

func (l *layout) drawDimensions(s *scene.Scene) {
	lab := l.spec.Labels
	x, off := l.dimensionsAt()
	size := look.Note
	if l.tankKnown && lab.Length != "" {
		s.Group(PartLength, func() {
			// The extension lines run on down to the rim.
			thin := scene.Style{Stroke: l.lineColour(look.SoftInk), Width: 0.75, Alpha: 0.4}
			for _, x := range []float64{0, l.length} {
				s.Add(scene.Line{From: scene.Pt(x, l.area.Max.Y), To: scene.Pt(x, math.Min(l.dimensionFoot(), l.area.Max.Y)), Style: thin})
			}
			s.Add(scene.Dimension{From: scene.Pt(0, l.area.Max.Y), To: scene.Pt(l.length, l.area.Max.Y), Offset: 8, Text: lab.Length, Size: size, Colour: l.lineColour(look.SoftInk)})
		})
	}
	if l.showsHeight() {
		s.Group(PartHeight, func() {
			text := lab.Height
			if off > 0 && l.beyond(lab.Length, l.length) && l.beyond(text, l.height) {
				text = "" // in so little room both numbers would stand at the one corner
			}
			s.Add(scene.Dimension{From: scene.Pt(x, l.base), To: scene.Pt(x, l.rim()), Offset: -off, Text: text, Size: size, Colour: l.lineColour(look.SoftInk)})
		})
	}
	if l.showsStandHeight() {
		s.Group(PartStandHeight, func() {
			s.Add(scene.Dimension{From: scene.Pt(x, l.standTop), To: scene.Pt(x, 0), Offset: off, Text: lab.StandHeight, Size: size, Colour: l.lineColour(look.SoftInk)})
		})
	}
}
