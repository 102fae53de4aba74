package picture

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"example.org/driploop/screens/scene"
)

// The steps of the keys. Judgement.
const (
	keyZoom  = 1.25
	keyPan   = 0.12 // of the view
	keyMove  = 8    // points
	fineMove = 1    // points, with Shift
)

// KeyDown implements desktop.Keyable.
func (v *View) KeyDown(e *fyne.KeyEvent) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		v.fine = true
	}
}

// KeyUp implements desktop.Keyable.
func (v *View) KeyUp(e *fyne.KeyEvent) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		v.fine = false
	}
}

// TypedRune implements fyne.Focusable.
func (v *View) TypedRune(r rune) {
	switch r {
	case '+', '=':
		v.Zoom(keyZoom, v.Middle())
	case '-':
		v.Zoom(1/keyZoom, v.Middle())
	case '0':
		v.Fit()
	case '1':
		v.Zoom(1/v.device/v.lens.Scale, v.Middle())
	case ' ':
	default:
		if v.OnRune != nil {
			v.OnRune(r)
		}
	}
}

var arrows = map[fyne.KeyName]XY{fyne.KeyLeft: {-1, 0}, fyne.KeyRight: {1, 0}, fyne.KeyUp: {0, -1}, fyne.KeyDown: {0, 1}}

// TypedKey implements fyne.Focusable.
func (v *View) TypedKey(e *fyne.KeyEvent) {
	if scene.WindowKey(v, e) {
		return
	}
	if d, ok := arrows[e.Name]; ok {
		v.arrow(d)
		return
	}
	enter := e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter
	switch {
	case v.tool != Hand && (enter || e.Name == fyne.KeySpace):
		v.setCross()
	case e.Name == fyne.KeySpace && len(v.marks) > 0:
		v.choose(v.marks[(v.at(v.chosen)+1)%len(v.marks)].ID)
	case enter && v.chosen != "":
		n := len(v.marks[v.at(v.chosen)].Points)
		if v.grip++; v.grip >= n || n == 1 {
			v.grip = -1
		}
		v.touch()
	case (e.Name == fyne.KeyDelete || e.Name == fyne.KeyBackspace) && v.chosen != "":
		if v.OnDelete != nil {
			v.OnDelete(v.chosen)
		}
	case e.Name == fyne.KeyEscape && len(v.draft) > 0:
		v.draft = nil
		v.touch()
	case e.Name == fyne.KeyEscape && v.chosen != "":
		v.choose("")
	default:
		if v.OnKey != nil {
			v.OnKey(e)
		}
	}
}

// arrow moves the cross, the chosen mark, or the picture.
func (v *View) arrow(d XY) {
	step := float64(keyMove)
	if v.fine {
		step = fineMove
	}
	by := Point{}
	if v.size.W > 0 && v.size.H > 0 {
		by = Point{d.X * step / v.lens.Scale / v.size.W * 1000, d.Y * step / v.lens.Scale / v.size.H * 1000}
	}
	room := v.room()
	switch i := v.at(v.chosen); {
	case v.tool != Hand:
		v.showCross()
		v.cross = shifted([]Point{v.cross}, 0, by)[0]
		v.follow()
		v.touch()
	case i >= 0:
		points := shifted(v.marks[i].Points, v.grip, by)
		v.marks[i].Points = points
		v.touch()
		if v.OnMoved != nil {
			v.OnMoved(v.chosen, points)
		}
	case v.fine:
		v.Pan(XY{-d.X * keyMove, -d.Y * keyMove})
	default:
		v.Pan(XY{-d.X * keyPan * room.W, -d.Y * keyPan * room.H})
	}
}

// showCross puts the cross in the middle of the view unless it is shown.
func (v *View) showCross() {
	if !v.crossed {
		v.cross, v.crossed = v.pixel(v.Middle()), true
	}
}

// follow brings the cross into view.
func (v *View) follow() {
	at, room := v.lens.ToView(v.cross.In(v.size), v.room()), v.room()
	const margin = 20
	by := XY{clamp(at.X, margin, room.W-margin) - at.X, clamp(at.Y, margin, room.H-margin) - at.Y}
	if by != (XY{}) {
		v.Pan(by)
	}
}

// setCross sets a point where the cross is; the first key only shows it.
func (v *View) setCross() {
	if !v.crossed {
		v.showCross()
		v.touch()
		return
	}
	v.set(v.cross)
}
