package picture

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// press is what the pointer holds between its button's going down and up.
type press struct {
	down    bool
	from    XY
	by      XY   // moved since
	mark    bool // it holds the chosen mark
	dragged bool
}

func xy(p fyne.Position) XY { return XY{float64(p.X), float64(p.Y)} }

// pixel gives the point of the picture at a position of the view.
func (v *View) pixel(at XY) Point { return PointAt(v.lens.ToPicture(at, v.room()), v.size) }

// MouseDown implements desktop.Mouseable.
func (v *View) MouseDown(e *desktop.MouseEvent) {
	v.take()
	v.grasp(xy(e.Position))
}

// MouseUp implements desktop.Mouseable.
func (v *View) MouseUp(*desktop.MouseEvent) {
	if !v.held.dragged {
		v.held = press{}
	}
}

// grasp notes what lies under the pointer.
func (v *View) grasp(at XY) {
	v.held = press{down: true, from: at}
	if v.tool != Hand {
		return
	}
	room := v.room()
	if i := v.at(v.chosen); i >= 0 {
		if g := hitEnd(v.marks[i], at, v.size, v.lens, room); g >= 0 {
			v.grip, v.held.mark = g, true
			return
		}
	}
	if i := hitMark(v.marks, at, v.size, v.lens, room); i >= 0 {
		v.choose(v.marks[i].ID)
		v.held.mark = true
	}
}

func (v *View) choose(id string) {
	changed := id != v.chosen
	v.chosen, v.grip = id, -1
	if changed && v.OnChosen != nil {
		v.OnChosen(id)
	}
	v.touch()
}

// Dragged implements fyne.Draggable.
func (v *View) Dragged(e *fyne.DragEvent) {
	by := XY{float64(e.Dragged.DX), float64(e.Dragged.DY)}
	if !v.held.down {
		at := xy(e.Position)
		v.grasp(XY{at.X - by.X, at.Y - by.Y})
	}
	v.held.dragged = true
	v.held.by = XY{v.held.by.X + by.X, v.held.by.Y + by.Y}
	switch {
	case v.tool == TwoPoint:
		if len(v.draft) != 1 || v.crossed {
			v.draft, v.crossed = []Point{v.pixel(v.held.from)}, false
		}
		v.touch()
	case v.tool == Hand && v.held.mark:
		v.touch()
	case v.tool == Hand:
		v.Pan(by)
	}
}

// DragEnd implements fyne.Draggable.
func (v *View) DragEnd() {
	held := v.held
	switch {
	case !held.dragged:
	case v.tool == TwoPoint:
		v.finish(v.drafted())
	case v.tool == OnePoint:
		v.finish([]Point{v.pixel(held.to())})
	case held.mark:
		if i := v.at(v.chosen); i >= 0 {
			points := v.moved(v.marks[i].Points)
			v.marks[i].Points = points
			if v.OnMoved != nil {
				v.OnMoved(v.chosen, points)
			}
		}
	}
	v.held = press{}
	v.touch()
}

func (p press) to() XY { return XY{p.from.X + p.by.X, p.from.Y + p.by.Y} }

// Tapped implements fyne.Tappable: it chooses, or sets a point of the tool.
func (v *View) Tapped(e *fyne.PointEvent) {
	v.take()
	at := xy(e.Position)
	v.held = press{}
	if v.tool != Hand {
		v.crossed = false
		v.set(v.pixel(at))
		return
	}
	id, room := "", v.room()
	if i := v.at(v.chosen); i >= 0 && hitEnd(v.marks[i], at, v.size, v.lens, room) >= 0 {
		id = v.chosen
	} else if i := hitMark(v.marks, at, v.size, v.lens, room); i >= 0 {
		id = v.marks[i].ID
	}
	v.choose(id)
}

// set sets the next point of the tool.
func (v *View) set(p Point) {
	v.draft = append(v.draft, p)
	if v.tool == TwoPoint && len(v.draft) < 2 {
		v.touch()
		return
	}
	v.finish(v.draft)
}

// finish hands over the points set, unless both fall together.
func (v *View) finish(points []Point) {
	v.draft = nil
	v.touch()
	if v.tool == TwoPoint && (len(points) != 2 || distance(points[0].In(v.size), points[1].In(v.size))*v.lens.Scale < 3) { // judgement: a slip of the hand
		return
	}
	if v.OnDrawn != nil {
		v.OnDrawn(points)
	}
}

// drafted are the points of the tool as they would be now.
func (v *View) drafted() []Point {
	if v.tool != TwoPoint || len(v.draft) != 1 {
		return nil
	}
	switch {
	case v.held.dragged:
		return []Point{v.draft[0], v.pixel(v.held.to())}
	case v.crossed:
		return []Point{v.draft[0], v.cross}
	}
	return nil
}

// moved gives points of the chosen mark as the pointer has moved them, all of
// them kept on the picture.
func (v *View) moved(points []Point) []Point {
	if !v.held.mark || !v.held.dragged {
		return points
	}
	return shifted(points, v.grip, Point{v.held.by.X / v.lens.Scale / v.size.W * 1000, v.held.by.Y / v.lens.Scale / v.size.H * 1000})
}

// shifted moves one point, or with -1 all of them as far as they stay on the
// picture together.
func shifted(points []Point, which int, by Point) []Point {
	out := append([]Point(nil), points...)
	if which >= 0 && which < len(out) {
		out[which] = Point{clamp(out[which].X+by.X, 0, 1000), clamp(out[which].Y+by.Y, 0, 1000)}
		return out
	}
	for _, p := range points {
		by.X = clamp(by.X, -p.X, 1000-p.X)
		by.Y = clamp(by.Y, -p.Y, 1000-p.Y)
	}
	for i := range out {
		out[i] = Point{out[i].X + by.X, out[i].Y + by.Y}
	}
	return out
}

// Scrolled implements fyne.Scrollable: the wheel zooms about the pointer.
func (v *View) Scrolled(e *fyne.ScrollEvent) {
	if d := float64(e.Scrolled.DY); d != 0 {
		v.Zoom(math.Exp(d/wheel), xy(e.Position))
	}
}

// wheel is how far to turn, in points, for a picture e times as large. Judgement:
// a click of a wheel, about 25 points, is then a fifth more.
const wheel = 130

func (v *View) take() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil && c.Focused() != fyne.Focusable(v) {
		c.Focus(v)
	}
}

// FocusGained implements fyne.Focusable.
func (v *View) FocusGained() {
	v.focused = true
	v.touch()
	if v.OnFocus != nil {
		v.OnFocus()
	}
}

// FocusLost implements fyne.Focusable.
func (v *View) FocusLost() {
	v.focused, v.fine = false, false
	v.touch()
}

var (
	_ fyne.Draggable     = (*View)(nil)
	_ fyne.Scrollable    = (*View)(nil)
	_ fyne.Tappable      = (*View)(nil)
	_ fyne.Focusable     = (*View)(nil)
	_ desktop.Mouseable  = (*View)(nil)
	_ desktop.Keyable    = (*View)(nil)
	_ desktop.Cursorable = (*View)(nil)
)
