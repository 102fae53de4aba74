package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Line weights in points, heaviest first.
const (
	heavy   = 2.2 // the floor
	strong  = 1.8 // the tank, the water's surface
	outline = 1.3 // stand, kit
	fine    = 0.9 // parts within an outline
	hair    = 0.7 // texture
)

// A sheet is a drawing under way.
type sheet struct {
	*layout
	s      *scene.Scene
	taken  []scene.Box // in millimetres: kit and words that later words keep clear of
	weight plate
	fish   []swimmer
	greens []scene.Box // plants, which fish keep off where they can
	words  []func()    // put off until all that they keep clear of is placed
}

// Build draws the elevation.
func Build(spec Spec) *scene.Scene { return compose(spec).s }

func compose(spec Spec) *sheet {
	d := &sheet{layout: arrange(spec), s: scene.New()}
	d.drawExtent(d.s)
	d.drawFigure()
	d.drawFloor()
	d.drawStand()
	d.drawBehind()
	d.drawInside()
	d.drawGlass()
	d.drawLid()
	d.drawPower()
	d.drawLoads()
	d.drawWeight()
	d.drawNotes()
	d.drawHighlight()
	return d
}

// lineColour gives the colour of a line or a word: on paper all is ink.
func (l *layout) lineColour(c look.Name) look.Name {
	if l.spec.Paper {
		switch c {
		case look.Teal, look.Rust, look.Leaf, look.Glass, look.SoftInk, look.Ochre:
			return look.Ink
		}
	}
	return c
}

// fillColour gives the colour of a surface: on paper fish and leaves are left
// white, so that their lines tell them apart.
func (l *layout) fillColour(c look.Name) look.Name {
	if l.spec.Paper {
		switch c {
		case look.Ink, look.Paper, look.Sheet, look.Water, look.Gravel, look.Track, look.Rule, "":
		case look.SoftInk, look.Rust:
			return look.Ink
		default:
			return look.Sheet
		}
	}
	return c
}

// pen is a line without a fill.
func (l *layout) pen(c look.Name, width float64) scene.Style {
	return scene.Style{Stroke: l.lineColour(c), Width: width}
}

// faint is a line that lies back.
func (l *layout) faint(c look.Name, width, alpha float64) scene.Style {
	return scene.Style{Stroke: l.lineColour(c), Width: width, Alpha: alpha}
}

// solid is an outline in ink about a surface.
func (l *layout) solid(fill look.Name, width float64) scene.Style {
	return scene.Style{Stroke: look.Ink, Width: width, Fill: l.fillColour(fill)}
}

// wash is a surface without an outline.
func (l *layout) wash(fill look.Name, alpha float64) scene.Style {
	return scene.Style{Fill: l.fillColour(fill), Alpha: alpha}
}

// dashed is the outline of what is not there yet, or not known.
func (l *layout) dashed() scene.Style {
	return scene.Style{Stroke: l.lineColour(look.SoftInk), Width: 1.1, Dash: []float64{5, 4}}
}

// body is the style of a piece of kit: dashed while it is only planned.
func (l *layout) body(st State, fill look.Name) scene.Style {
	if st == Planned {
		return l.dashed()
	}
	return l.solid(fill, outline)
}

func (d *sheet) rect(x0, y0, x1, y1, radius float64, st scene.Style) {
	d.s.Add(scene.Rect{Min: scene.Pt(x0, y0), Max: scene.Pt(x1, y1), Radius: radius, Style: st})
}

// panel draws a large square-cornered rectangle as a surface and four lines: a
// line takes little to paint, the outline of a large box takes its whole inside.
func (d *sheet) panel(x0, y0, x1, y1 float64, st scene.Style) {
	if st.Fill != "" {
		d.rect(x0, y0, x1, y1, 0, scene.Style{Fill: st.Fill, Alpha: st.Alpha})
	}
	st.Fill = ""
	h := d.px(st.Width / 2) // so that the corners are filled
	d.line(x0-h, y0, x1+h, y0, st)
	d.line(x0-h, y1, x1+h, y1, st)
	d.line(x0, y0, x0, y1, st)
	d.line(x1, y0, x1, y1, st)
}

func (d *sheet) line(x0, y0, x1, y1 float64, st scene.Style) {
	d.s.Add(scene.Line{From: scene.Pt(x0, y0), To: scene.Pt(x1, y1), Style: st})
}

// take keeps later words off a box in millimetres.
func (d *sheet) take(x0, y0, x1, y1 float64) {
	d.taken = append(d.taken, scene.Box{Min: scene.Pt(x0, y0), Max: scene.Pt(x1, y1)})
}

// room gives the box of a text in millimetres.
func (d *sheet) room(t scene.Text) scene.Box {
	b := t.Box(scene.Transform{Scale: d.scale, Point: 1})
	return scene.Box{Min: scene.Pt(b.Min.X/d.scale, -b.Max.Y/d.scale), Max: scene.Pt(b.Max.X/d.scale, -b.Min.Y/d.scale)}
}

// free tells whether a box keeps clear of all that is taken.
func (d *sheet) free(b scene.Box) bool {
	for _, t := range d.taken {
		if b.Overlaps(t) {
			return false
		}
	}
	return true
}

// word draws a text at the first of the places that is free, or else not at
// all, and takes its room.
func (d *sheet) word(t scene.Text, places ...scene.Point) bool {
	if t.S == "" {
		return false
	}
	t.Colour = d.lineColour(t.Colour)
	plate := t.Back
	t.Back = ""
	for _, p := range places {
		t.At = p
		b := d.room(t).Grow(d.px(2))
		if b.Min.X < d.area.Min.X || b.Max.X > d.area.Max.X+d.px(40) || b.Max.Y > d.area.Max.Y+d.px(2) || !d.free(b) {
			continue
		}
		if plate != "" {
			d.s.Add(scene.Rect{Min: b.Min, Max: b.Max, RadiusPt: 4, Style: scene.Style{Fill: plate, Alpha: 0.8}})
		}
		d.s.Add(t)
		d.taken = append(d.taken, b)
		return true
	}
	return false
}

// held sets a text in the middle of at, but keeps it within the drawing's edge
// on the socket's side, at whatever scale it is shown.
func (d *sheet) held(t scene.Text, at scene.Point) (scene.Text, scene.Point) {
	half := scene.TextSize(t.S, t.Weight, t.Size).Width/2 + 3
	if d.spec.Socket.Side == Right {
		t.H = scene.End
		t.Shift.X = -math.Max(0, (d.area.Max.X-at.X)*d.scale-half) - 3
		return t, scene.Pt(d.area.Max.X, at.Y)
	}
	t.H = scene.Start
	t.Shift.X = math.Max(0, (at.X-d.area.Min.X)*d.scale-half) + 3
	return t, scene.Pt(d.area.Min.X, at.Y)
}

// later puts off words that belong to a part.
func (d *sheet) later(id scene.ID, write func()) {
	d.words = append(d.words, func() { d.s.Group(id, write) })
}

// write writes the words that were put off.
func (d *sheet) write() {
	for _, w := range d.words {
		w()
	}
	d.words = nil
}
