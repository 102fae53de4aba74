package nav

import (
	"slices"
	"strconv"
	"strings"

	"example.org/driploop/model/photo"
	"example.org/driploop/screens/picture"
)

var shapes = map[photo.MarkKind]picture.Shape{photo.Circle: picture.Ring, photo.Arrow: picture.Pointer, photo.Text: picture.Words, photo.Known: picture.Ruler, photo.Length: picture.Ruler}

// ShapeOf is how a mark of a kind is drawn.
func ShapeOf(k photo.MarkKind) picture.Shape { return shapes[k] }

// Marks are the marks of a picture of w by h pixels as a view draws them. A length is told
// where a known one gives the scale; a mark without an ID goes by its place in the list.
func Marks(d Deps, marks []photo.Mark, w, h int) []picture.Mark {
	words := d.Present.W
	known := slices.IndexFunc(marks, func(m photo.Mark) bool { return m.Kind == photo.Known })
	var out []picture.Mark
	for i, m := range marks {
		x := picture.Mark{ID: m.ID, Shape: shapes[m.Kind], Given: m.Kind == photo.Known}
		if x.ID == "" {
			x.ID = strconv.Itoa(i)
		}
		for _, p := range m.Points {
			x.Points = append(x.Points, picture.Point{X: p.X, Y: p.Y})
		}
		measure := ""
		switch {
		case m.Kind == photo.Known:
			measure = words.Measure(m.Measure)
		case m.Kind == photo.Length && known >= 0:
			if length, _, err := photo.MeasureLength(marks[known], m, w, h); err == nil {
				measure = words.Quantity(length.Value())
			}
		}
		x.Label = strings.TrimSpace(strings.Join([]string{m.Words, measure}, " "))
		out = append(out, x)
	}
	return out
}
