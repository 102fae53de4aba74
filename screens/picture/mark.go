package picture

import (
	"image"
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2/theme"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Shape is the form of a mark.
type Shape uint8

// The shapes with their points in order.
const (
	Ring    Shape = iota // the centre, a point of the rim; round in pixels
	Pointer              // the tail, the head
	Words                // where the words begin
	Ruler                // both ends of a length
)

// Points is how many points a shape has.
func (s Shape) Points() int {
	if s == Words {
		return 1
	}
	return 2
}

// Mark is a drawing over a picture.
type Mark struct {
	ID     string
	Shape  Shape
	Points []Point
	Label  string // its words, or a length with its unit
	Given  bool   // a Ruler on something whose length is known: its ends are square
}

// night is the palette that marks are drawn in, whatever the theme: pale lines
// with a dark edge show on light and dark parts of a picture alike.
func night(n look.Name) color.NRGBA { return look.Color(n, theme.VariantDark) }

// at gives where the points of a mark lie in a view.
func (m Mark) at(picture Size, l Lens, view Size) []XY {
	out := make([]XY, len(m.Points))
	for i, p := range m.Points {
		out[i] = l.ToView(p.In(picture), view)
	}
	return out
}

// The strokes of marks, in points. Judgement.
const (
	markWidth  = 2.2
	edgeWidth  = 5.0
	headLength = 14.0
	gripRadius = 6.0
)

// drawn is a mark with the ends that can be taken hold of.
type drawn struct {
	Mark
	chosen bool
	grip   int // the end in hand; -1 for none
}

// plates are where the words of marks stand, so that none lies upon another and no
// stroke of another mark crosses them: they are drawn last.
type plates struct {
	taken []scene.Box
	words []scene.Text
	scale float64 // of text
}

// draw puts the words on the drawing.
func (p *plates) draw(s *scene.Scene) {
	for _, t := range p.words {
		s.Add(t)
	}
}

// put gives the text a place of its own: where it belongs, or else by as many lines
// above or below as it takes, the nearest first.
func (p *plates) put(t scene.Text) scene.Text {
	tr := scene.Transform{Scale: 1, Point: p.scale}
	const most = 12 // judgement: more marks in one spot cannot be read anyway
	box := t.Box(tr).Grow(plateRoom)
	for n := 1; n <= most && slices.ContainsFunc(p.taken, box.Overlaps); n++ {
		lines := float64((n + 1) / 2)
		if n%2 == 1 {
			lines = -lines
		}
		moved := t
		moved.Shift.Y += lines * t.Box(tr).Grow(plateRoom).H() / p.scale
		if b := moved.Box(tr).Grow(plateRoom); !slices.ContainsFunc(p.taken, b.Overlaps) {
			t, box = moved, b
		}
	}
	p.taken = append(p.taken, box)
	return t
}

// plateRoom is kept free about the words of a mark, in points: its plate, and a gap.
const plateRoom = 3.0

// sketch puts a mark on a drawing whose millimetres are points of the view.
func (d drawn) sketch(s *scene.Scene, picture Size, l Lens, view Size, words *plates) {
	at := d.at(picture, l, view)
	if len(at) < d.Shape.Points() {
		return
	}
	pt := func(p XY) scene.Point { return scene.Pt(p.X, -p.Y) }
	ink := look.Ink
	if d.chosen {
		ink = look.Teal
	}
	both := func(add func(st scene.Style)) {
		add(scene.Style{Stroke: look.Paper, Width: edgeWidth, Alpha: 0.8})
		add(scene.Style{Stroke: ink, Width: markWidth})
	}
	label := func(p XY, h scene.HAlign, shift scene.Point) {
		if d.Label != "" {
			words.words = append(words.words, words.put(scene.Text{At: pt(p), S: d.Label, Size: look.Body, Weight: scene.SemiBold, H: h, V: scene.Centre, Shift: shift, Colour: ink, Back: look.Paper}))
		}
	}
	switch d.Shape {
	case Ring:
		r := distance(at[0], at[1])
		both(func(st scene.Style) { s.Add(scene.Circle(pt(at[0]), r, st)) })
		label(XY{at[0].X, at[0].Y + r}, scene.Middle, scene.Pt(0, -16))
	case Pointer:
		both(func(st scene.Style) { s.Add(scene.Arrow{From: pt(at[0]), To: pt(at[1]), Head: headLength, Style: st}) })
		side := scene.Pt(0, -14)
		if at[1].Y > at[0].Y {
			side = scene.Pt(0, 14)
		}
		label(at[0], scene.Middle, side)
	case Words:
		s.Add(scene.Marker{At: pt(at[0]), Shape: scene.Square, Size: 7, Style: scene.Style{Fill: ink, Stroke: look.Paper, Width: 1.5}})
		label(at[0], scene.Start, scene.Pt(wordsShift, 0))
	case Ruler:
		both(func(st scene.Style) { s.Add(scene.Line{From: pt(at[0]), To: pt(at[1]), Style: st}) })
		for _, e := range ends(at[0], at[1]) {
			both(func(st scene.Style) { s.Add(scene.Line{From: pt(e[0]), To: pt(e[1]), Style: st}) })
		}
		shape := scene.Round
		if d.Given {
			shape = scene.Square
		}
		for _, p := range at {
			s.Add(scene.Marker{At: pt(p), Shape: shape, Size: 7, Style: scene.Style{Fill: ink, Stroke: look.Paper, Width: 1}})
		}
		label(XY{(at[0].X + at[1].X) / 2, (at[0].Y + at[1].Y) / 2}, scene.Middle, scene.Pt(0, 16))
	}
	if !d.chosen {
		return
	}
	for i, p := range at {
		st := scene.Style{Fill: look.Paper, Stroke: look.Teal, Width: 2}
		if i == d.grip {
			st.Fill = look.Teal
		}
		s.Add(scene.Marker{At: pt(p), Shape: scene.Round, Size: 2 * gripRadius, Style: st})
	}
}

// wordsShift is how far right of its point a text begins, in points.
const wordsShift = 9

// ends are the short strokes across both ends of a ruler.
func ends(a, b XY) [2][2]XY {
	const half = 7 // judgement
	d := math.Max(distance(a, b), 1e-9)
	n := XY{-(b.Y - a.Y) / d * half, (b.X - a.X) / d * half}
	return [2][2]XY{{{a.X - n.X, a.Y - n.Y}, {a.X + n.X, a.Y + n.Y}}, {{b.X - n.X, b.Y - n.Y}, {b.X + n.X, b.Y + n.Y}}}
}

func distance(a, b XY) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// Burn gives a copy of a picture with marks drawn into it, in strokes that look
// as they do on a view of the whole picture.
func Burn(m image.Image, marks []Mark, b Balance) *image.RGBA {
	bounds := m.Bounds()
	size := Size{float64(bounds.Dx()), float64(bounds.Dy())}
	out := image.NewRGBA(image.Rect(0, 0, bounds.Dx(), bounds.Dy()))
	paint(out, NewLevels(m)[:1], size, Lens{1, XY{size.W / 2, size.H / 2}}, 1, b, color.RGBA{A: 0xFF})
	point := math.Max(1, size.long()/burnLong) // pixels of the copy to a point
	view := Size{size.W / point, size.H / point}
	s := scene.New()
	words := &plates{scale: 1}
	for _, mark := range marks {
		drawn{Mark: mark, grip: -1}.sketch(s, size, Fit(size, view), view, words)
	}
	words.draw(s)
	var pen scene.Raster
	pen.Draw(out, s, scene.Transform{Scale: point, Point: point}, night)
	return out
}

// burnLong is the longer side, in points, of the view that a copy is drawn as.
// Judgement: that of a usual window.
const burnLong = 900
