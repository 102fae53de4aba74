package elevation

import (
	"math"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// noteRowPt is the height of a row of notes in points.
const noteRowPt = 19.0

// notes gives the notes under the drawing in their order.
func (l *layout) notes() []string {
	var out []string
	if f := l.spec.Labels.Scale; f != nil && l.tankKnown {
		if n := l.place.Ratio(1 / scene.PointMM); n > 0 {
			out = append(out, f(n))
		}
	}
	if t := l.spec.Labels.Temperature; t != "" && l.spec.Thermometer.State >= Placed && l.tankKnown && l.temperatureBelow() {
		out = append(out, t)
	}
	if c := l.spec.Labels.Figure; c != "" && l.captionBelow() {
		out = append(out, c)
	}
	for _, n := range l.spec.Labels.Notes {
		if n != "" {
			out = append(out, n)
		}
	}
	return out
}

// flowNotes breaks the notes into rows as wide as the drawing.
func (l *layout) flowNotes() {
	l.noteRows = nil
	room, gap := math.Min(l.area.W()*l.scale+30, l.frame.W-l.frame.Left-l.frame.Right-2), 18.0
	used := 0.0
	for _, n := range l.notes() {
		w := scene.TextSize(n, scene.Regular, look.Note).Width
		last := len(l.noteRows) - 1
		if last < 0 || used+gap+w > room {
			l.noteRows = append(l.noteRows, []string{n})
			used = w
			continue
		}
		l.noteRows[last] = append(l.noteRows[last], n)
		used += gap + w
	}
}

// notesTop is how far below the floor the notes begin, in points.
func (l *layout) notesTop() float64 {
	if l.spec.Compact {
		return 14
	}
	top := 55.0 // below the reactions
	if t := l.spec.Labels.StandHeight; t != "" && l.standKnown {
		// A text too long for a low stand stands below the floor.
		if l.beyond(t, l.standTop) {
			top = math.Max(top, scene.TextSize(t, scene.Regular, look.Note).Width+16)
		}
	}
	return top
}

func (d *sheet) drawNotes() {
	left, from := d.area.Min.X, 0.0
	if x, off := d.dimensionsAt(); off < 0 { // the dimensions reach farther left
		left, from = x, off-2
	}
	d.s.Group(PartNotes, func() {
		for i, row := range d.noteRows {
			x := from
			for _, n := range row {
				t := scene.Text{At: scene.Pt(left, 0), S: n, V: scene.Top, Colour: d.lineColour(look.SoftInk),
					Shift: scene.Pt(x, -d.notesTop()-float64(i)*noteRowPt)}
				d.s.Add(t)
				x += scene.TextSize(n, scene.Regular, look.Note).Width + 18
			}
		}
	})
}
