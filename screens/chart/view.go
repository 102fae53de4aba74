package chart

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// View shows a chart as large as it has room for. The pointer, or with the
// focus the left and right arrow keys (Home, End, and Escape to leave off),
// reads the values at the nearest sample: a line through the plot, a ring about
// each value, and a plate with the caller's words.
//
// The arrow keys visit the measured points, or the samples of the lines when
// nothing is measured. All fields and methods belong to the goroutine of the
// user interface.
type View struct {
	widget.BaseWidget

	// ReadOut gives the words for a reading, lines parted by "\n"; nil shows none.
	ReadOut func(Reading) string
	// OnZoom is told the span of X that was drawn out with the pointer, or asked
	// for with plus and minus; nil allows neither.
	OnZoom func(x0, x1 float64)
	// OnFocus is told that the chart took the focus, so that it can be brought
	// into view.
	OnFocus func()
	// OnRead is told each new reading, and ok false when reading ends.
	OnRead func(r Reading, ok bool)

	spec    Spec // ready
	min     fyne.Size
	stops   []float64
	plan    plan
	planned fyne.Size
	scale   float64
	reading Reading
	read    bool
	beside  float64 // what another chart reads, where follows is set
	follows bool
	focused bool
	reveal  func(fyne.CanvasObject) // brings the chart into view where its page scrolls
	pull    *pull                   // under way

	picture *scene.View
	cross   *canvas.Line
	plate   *canvas.Rectangle
	ring    *canvas.Rectangle
	drawnUp *canvas.Rectangle // what is being drawn out
	dots    []*canvas.Circle
	lines   []*canvas.Text
	drawn   *viewRenderer
}

// NewView gives a view of the chart.
func NewView(s Spec) *View {
	v := &View{picture: scene.NewView(nil), min: fyne.NewSize(240, 140)}
	v.take(s)
	v.ExtendBaseWidget(v)
	return v
}

// Set shows another chart; a reading in progress ends.
func (v *View) Set(s Spec) {
	v.end()
	v.follows = false
	v.take(s)
	v.Refresh()
}

func (v *View) take(s Spec) {
	v.spec = s.ready()
	v.stops = v.spec.stops()
	v.planned = fyne.Size{}
}

// SetMinSize sets the least size that layouts give the chart; 240 by 140 points
// at first.
func (v *View) SetMinSize(s fyne.Size) {
	v.min = s
	v.Refresh()
}

// Reading gives what is being read, if anything is.
func (v *View) Reading() (Reading, bool) { return v.reading, v.read }

// layOut lays the chart out for the widget's size, in points at the person's
// text scale, when it is not so already.
func (v *View) layOut() {
	size, k := v.Size(), look.ScaleFor(v)
	if v.planned == size && v.scale == k || size.Width <= 0 {
		return
	}
	v.planned, v.scale = size, k
	w, h := float64(size.Width)/k, float64(size.Height)/k
	v.plan = lay(v.spec, w, h)
	v.picture.SetPlaced(v.plan.draw(), scene.Transform{Scale: k, Point: k, Y: float64(size.Height)})
}

// readAt reads the values nearest to x.
func (v *View) readAt(x float64) {
	r, ok := v.spec.at(x)
	if !ok || v.read && r.X == v.reading.X {
		return
	}
	v.reading, v.read = r, true
	if v.OnRead != nil {
		v.OnRead(r, true)
	}
	v.touch()
}

func (v *View) end() {
	if !v.read {
		return
	}
	v.read, v.reading = false, Reading{}
	if v.OnRead != nil {
		v.OnRead(Reading{}, false)
	}
	v.touch()
}

// Follow shows the line at what another chart reads, with a ring about each value
// there and no words; ok false ends it. A reading of its own goes before it.
func (v *View) Follow(x float64, ok bool) {
	if v.follows == ok && v.beside == x {
		return
	}
	v.beside, v.follows = x, ok
	v.touch()
}

// touch shows the read-out without painting the picture anew.
func (v *View) touch() {
	if v.drawn != nil {
		v.drawn.mark()
		canvas.Refresh(v)
	}
}

// MouseIn implements desktop.Hoverable.
func (v *View) MouseIn(e *desktop.MouseEvent) { v.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (v *View) MouseMoved(e *desktop.MouseEvent) {
	v.layOut()
	if v.plan.empty || v.scale <= 0 {
		return
	}
	x := clampTo(float64(e.Position.X)/v.scale, v.plan.plot.Min.X, v.plan.plot.Max.X)
	v.readAt(v.plan.xAt(x))
}

// MouseOut implements desktop.Hoverable.
func (v *View) MouseOut() {
	if !v.focused {
		v.end()
	}
}

// Tapped implements fyne.Tappable: it takes the focus.
func (v *View) Tapped(*fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		c.Focus(v)
	}
}

// RevealedBy takes what brings the chart into view when it takes the focus.
func (v *View) RevealedBy(reveal func(fyne.CanvasObject)) { v.reveal = reveal }

// FocusGained implements fyne.Focusable.
func (v *View) FocusGained() {
	v.focused = true
	v.touch()
	switch {
	case v.OnFocus != nil:
		v.OnFocus()
	case v.reveal != nil:
		v.reveal(v)
	}
}

// FocusLost implements fyne.Focusable.
func (v *View) FocusLost() {
	v.focused = false
	v.end()
	v.touch()
}

// TypedKey implements fyne.Focusable.
func (v *View) TypedKey(e *fyne.KeyEvent) {
	n := len(v.stops)
	if scene.WindowKey(v, e) || n == 0 {
		return
	}
	next := func(past func(x float64) bool, last int) float64 { // the nearest stop that way
		if !v.read {
			return v.stops[n-1] // the newest is asked for most
		}
		best, d := v.stops[last], math.Inf(1)
		for _, x := range v.stops {
			if past(x) && math.Abs(x-v.reading.X) < d {
				best, d = x, math.Abs(x-v.reading.X)
			}
		}
		return best
	}
	switch e.Name {
	case fyne.KeyRight:
		v.readAt(next(func(x float64) bool { return x > v.reading.X }, n-1))
	case fyne.KeyLeft:
		v.readAt(next(func(x float64) bool { return x < v.reading.X }, 0))
	case fyne.KeyHome:
		v.readAt(v.stops[0])
	case fyne.KeyEnd:
		v.readAt(v.stops[n-1])
	case fyne.KeyEscape:
		v.end()
	}
}

// CreateRenderer implements fyne.Widget.
func (v *View) CreateRenderer() fyne.WidgetRenderer {
	v.cross = canvas.NewLine(nil)
	v.plate = canvas.NewRectangle(nil)
	v.plate.CornerRadius = 4
	v.plate.StrokeWidth = 1
	v.drawnUp = canvas.NewRectangle(nil)
	v.drawnUp.StrokeWidth = 1
	v.ring = canvas.NewRectangle(nil)
	v.ring.StrokeWidth = 2
	v.ring.CornerRadius = 4
	v.drawn = &viewRenderer{v}
	v.drawn.Refresh()
	return v.drawn
}

type viewRenderer struct{ v *View }

func (r *viewRenderer) Layout(size fyne.Size) {
	r.v.picture.Resize(size)
	r.v.layOut()
	r.mark()
}

func (r *viewRenderer) MinSize() fyne.Size { return r.v.min }

func (r *viewRenderer) Objects() []fyne.CanvasObject {
	v := r.v
	out := []fyne.CanvasObject{v.picture, v.drawnUp, v.cross}
	for _, d := range v.dots {
		out = append(out, d)
	}
	out = append(out, v.plate)
	for _, t := range v.lines {
		out = append(out, t)
	}
	return append(out, v.ring)
}

func (r *viewRenderer) Refresh() {
	r.v.layOut()
	r.v.picture.Refresh()
	r.mark()
	canvas.Refresh(r.v)
}

func (r *viewRenderer) Destroy() {}

// mark puts the read-out over the picture, without painting the picture anew.
func (r *viewRenderer) mark() {
	v := r.v
	colours := look.PaletteFor(v)
	size := v.Size()
	v.ring.Hidden = !v.focused
	v.ring.FillColor = colours("")
	v.ring.StrokeColor = colours(look.Teal)
	v.ring.Move(fyne.NewPos(1, 1))
	v.ring.Resize(fyne.NewSize(size.Width-2, size.Height-2))

	v.markPull(colours)
	show := v.read && !v.plan.empty && v.scale > 0
	reading := v.reading
	if !v.read && v.follows && !v.plan.empty && v.scale > 0 && v.beside >= v.plan.x0 && v.beside <= v.plan.x1 {
		show, reading = true, Reading{X: v.beside}
		for _, a := range v.spec.Series {
			reading.Values = append(reading.Values, a.at(v.beside))
		}
	}
	v.cross.Hidden = !show
	v.plate.Hidden = !v.read || !show || v.ReadOut == nil
	for _, d := range v.dots {
		d.Hidden = true
	}
	for _, t := range v.lines {
		t.Hidden = true
	}
	if !show {
		return
	}
	k := v.scale
	pos := func(p scene.Point) fyne.Position {
		return fyne.NewPos(float32(p.X*k), size.Height-float32(p.Y*k))
	}
	x := v.plan.x(reading.X)
	v.cross.StrokeColor = colours(look.SoftInk)
	v.cross.StrokeWidth = 1
	v.cross.Position1 = pos(scene.Pt(x, v.plan.plot.Max.Y))
	v.cross.Position2 = pos(scene.Pt(x, v.plan.plot.Min.Y))
	for i, a := range reading.Values {
		if i == len(v.dots) {
			v.dots = append(v.dots, canvas.NewCircle(nil))
		}
		d := v.dots[i]
		if d.Hidden = !a.OK; d.Hidden {
			continue
		}
		rad := float32(6 * k)
		c := pos(v.plan.at(reading.X, a.Y))
		d.StrokeColor, d.StrokeWidth, d.FillColor = colours(look.Ink), 2, colours("")
		d.Move(fyne.NewPos(c.X-rad, c.Y-rad))
		d.Resize(fyne.NewSize(2*rad, 2*rad))
	}
	if v.plate.Hidden {
		return
	}
	words := strings.Split(v.ReadOut(v.reading), "\n")
	var w, h float32
	textSize := theme.SizeForWidget(look.SizeNote, v)
	for i, s := range words {
		if i == len(v.lines) {
			v.lines = append(v.lines, canvas.NewText("", nil))
		}
		t := v.lines[i]
		t.Text, t.TextSize, t.Color, t.Hidden = s, textSize, colours(look.Ink), false
		t.TextStyle.Bold = i == 0
		m := t.MinSize()
		w, h = fyne.Max(w, m.Width), h+m.Height
	}
	const pad = 7
	// Right of the line where there is room, else left of it; never cut off.
	left := float32(x*k) + 10
	if left+w+2*pad > size.Width-2 {
		left = float32(x*k) - 10 - w - 2*pad
	}
	left = fyne.Max(2, fyne.Min(left, size.Width-2-w-2*pad))
	top := fyne.Max(2, v.cross.Position1.Y)
	v.plate.FillColor, v.plate.StrokeColor = colours(look.Sheet), colours(look.Edge)
	v.plate.Move(fyne.NewPos(left, top))
	v.plate.Resize(fyne.NewSize(w+2*pad, h+2*pad))
	y := top + pad
	for _, t := range v.lines[:len(words)] {
		t.Move(fyne.NewPos(left+pad, y))
		t.Resize(t.MinSize())
		y += t.MinSize().Height
	}
}

var (
	_ fyne.Focusable    = (*View)(nil)
	_ fyne.Tappable     = (*View)(nil)
	_ desktop.Hoverable = (*View)(nil)
)
