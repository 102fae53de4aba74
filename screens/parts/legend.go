package parts

import (
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// LegendItem is a sign and its word.
type LegendItem struct {
	Shape  scene.Shape
	Colour look.Name
	Filled bool
	Stem   int    // a stem below the sign (-1) or above it (1)
	Count  string // stands in a ring in the place of the sign; empty for none
	Word   string
}

// Legend says what signs mean, side by side in as many lines as it takes.
type Legend struct {
	part
	items []LegendItem
}

// NewLegend gives a legend.
func NewLegend(items ...LegendItem) *Legend {
	l := &Legend{items: items}
	l.begin(l)
	return l
}

// Set shows other signs.
func (l *Legend) Set(items ...LegendItem) {
	if !same(items, l.items) {
		l.items = items
		l.update()
	}
}

func (l *Legend) leastWidth() float32 { return 120 }

func (l *Legend) draw(p *pen, width float32) float32 {
	if len(l.items) == 0 {
		return 0
	}
	const size, room = 8.0, 16.0
	x, y, line := float32(0), float32(0), p.line(noteSoft)
	for _, it := range l.items {
		need := room*p.k + p.widthOf(it.Word, noteSoft)
		if x > 0 && x+need > width {
			x, y = 0, y+line
		}
		sc := scene.New()
		at := scene.Pt(room/2-2, room/2)
		style := scene.Style{Stroke: it.Colour, Width: 1.5, Fill: look.Paper}
		if it.Filled {
			style.Fill = it.Colour
		}
		if it.Stem != 0 {
			sc.Add(scene.Line{From: at, To: scene.Pt(at.X, at.Y+float64(it.Stem)*room/2), Style: scene.Style{Stroke: it.Colour, Width: 1.5}})
		}
		if it.Count != "" {
			sc.Add(scene.Circle(at, room/2-1.5, style))
			sc.Add(scene.Text{At: at, S: it.Count, Size: look.Note - 3, Weight: scene.SemiBold, H: scene.Middle, V: scene.Centre, Colour: it.Colour})
		} else {
			sc.Add(scene.Marker{At: at, Shape: it.Shape, Size: size, Style: style})
		}
		p.sketch(sc, x, y+(line-room*p.k)/2, room*p.k, room*p.k)
		p.text(it.Word, x+room*p.k, y, noteSoft)
		x += need + 14*p.k
	}
	return y + line
}
