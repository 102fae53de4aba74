package photo

import (
	"encoding/json"
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Point is a place on a picture: thousandths of its width from the left and of
// its height from the top, each 0 to 1000. Hundredths of them are kept.
type Point struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// On gives the point in pixels of a picture of that size.
func (p Point) On(width, height int) (x, y float64) {
	return p.X / 1000 * float64(width), p.Y / 1000 * float64(height)
}

// Turned gives the place of p after quarter turns clockwise; negative ones turn
// back.
func (p Point) Turned(quarters int) Point {
	for range quarter(quarters) {
		p = Point{X: 1000 - p.Y, Y: p.X}
	}
	return p
}

// quarter brings a number of quarter turns into 0 to 3.
func quarter(n int) int { return ((n % 4) + 4) % 4 }

// on reports whether p is on the picture.
func (p Point) on() bool {
	return p.X >= 0 && p.X <= 1000 && p.Y >= 0 && p.Y <= 1000 // false for NaN
}

// rounded keeps hundredths of a thousandth.
func (p Point) rounded() Point {
	return Point{X: math.Round(p.X*100) / 100, Y: math.Round(p.Y*100) / 100}
}

// MarkKind is what a mark shows.
type MarkKind string

// The kinds of marks, with their points in order.
const (
	Circle MarkKind = "circle" // the centre, a point of its rim (round in pixels)
	Arrow  MarkKind = "arrow"  // the tail, the head
	Text   MarkKind = "text"   // where the words begin
	Known  MarkKind = "known"  // both ends of something whose length is known
	Length MarkKind = "length" // both ends of what is to be measured
)

// MarkKinds lists the kinds.
func MarkKinds() []MarkKind { return []MarkKind{Circle, Arrow, Text, Known, Length} }

// points is how many points a kind has.
func (k MarkKind) points() int {
	switch k {
	case Text:
		return 1
	case Circle, Arrow, Known, Length:
		return 2
	}
	return 0
}

// Mark is a drawing beside a picture, never in it.
type Mark struct {
	ID      string
	Kind    MarkKind
	Points  []Point
	Words   string           // of any kind; required for Text
	Measure quantity.Measure // of Known: its length as typed
}

// MostWords is the longest text of a mark or caption, in runes. // judgement
const MostWords = 500

// Check refuses a mark that cannot be kept: an unknown kind, another number of
// points, a point off the picture, ends that fall together, a text without
// words, a known thing without its length.
func (m Mark) Check() error {
	n := m.Kind.points()
	switch {
	case n == 0:
		return working.Refuse("mark.kind", "refuse.photo.mark_kind")
	case len(m.Points) != n:
		return working.Refuse("mark.points", "refuse.photo.mark_points")
	case len([]rune(m.Words)) > MostWords:
		return working.Refuse("mark.words", "refuse.photo.words_long")
	case m.Kind == Text && m.Words == "":
		return working.Refuse("mark.words", "refuse.photo.mark_words")
	}
	for _, p := range m.Points {
		if !p.on() {
			return working.Refuse("mark.points", "refuse.photo.mark_off")
		}
	}
	if n == 2 && m.Points[0].rounded() == m.Points[1].rounded() {
		return working.Refuse("mark.points", "refuse.photo.mark_flat")
	}
	if m.Kind == Known {
		_, err := m.length()
		return err
	}
	return nil
}

// length is the known length, refused outside 0.5 mm to 3 m. // judgement
func (m Mark) length() (quantity.Length, error) {
	v, err := m.Measure.Value()
	if err != nil || v.Kind != quantity.KindLength {
		return 0, working.Refuse("mark.measure", "refuse.photo.known_missing")
	}
	err = working.InRange("mark.measure", "q.photo.known", v, quantity.Millimetres(0.5).Value(), quantity.Length(3).Value())
	return quantity.Length(v.X), err
}

// Turned gives the mark on the picture after quarter turns clockwise.
func (m Mark) Turned(quarters int) Mark {
	ps := make([]Point, len(m.Points))
	for i, p := range m.Points {
		ps[i] = p.Turned(quarters).rounded()
	}
	m.Points = ps
	return m
}

// PointsText writes the points as they are kept.
func (m Mark) PointsText() string {
	ps := make([]Point, len(m.Points))
	for i, p := range m.Points {
		ps[i] = p.rounded()
	}
	b, err := json.Marshal(ps)
	if err != nil { // a point that is no number, which Check refuses
		return "[]"
	}
	return string(b)
}

// PointsOf reads what PointsText wrote.
func PointsOf(s string) ([]Point, error) {
	var ps []Point
	err := json.Unmarshal([]byte(s), &ps)
	return ps, err
}

// Patch is a round part of a picture: its centre and its radius in thousandths
// of the shorter side, 1 to 250.
type Patch struct {
	Centre Point   `json:"centre"`
	Radius float64 `json:"radius"`
}

// PatchRadius is the usual radius of a patch. // judgement
const PatchRadius = 15

// Check refuses a patch that is not on the picture or of no sensible size.
func (p Patch) Check() error {
	if !p.Centre.on() || !(p.Radius >= 1 && p.Radius <= 250) {
		return working.Refuse("white", "refuse.photo.patch")
	}
	return nil
}

// Turned gives the patch on the picture after quarter turns clockwise.
func (p Patch) Turned(quarters int) Patch {
	p.Centre = p.Centre.Turned(quarters).rounded()
	return p
}
