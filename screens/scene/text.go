package scene

import "example.org/driploop/screens/look"

// Weight is the cut of the type family.
type Weight uint8

// The cuts that are embedded.
const (
	Regular Weight = iota
	SemiBold
	Bold
	Italic
	weights
)

// HAlign says which part of the text lies at its anchor, along its baseline.
type HAlign int8

// Along the baseline; for turned text Start is its lower end.
const (
	Start HAlign = iota
	Middle
	End
)

// VAlign says which height of the text lies at its anchor.
type VAlign int8

// Across the baseline. Centre puts half the height of a capital letter there.
const (
	Baseline VAlign = iota
	Centre
	Top
	Bottom
)

// Text is one line of text. Its words come from the caller.
type Text struct {
	At     Point
	S      string
	Size   float64 // points; 0 means look.Note
	MM     float64 // size in millimetres of the drawing instead of points, when > 0
	Weight Weight
	H      HAlign
	V      VAlign
	Turned bool      // turned a quarter to the left: reads upwards, for vertical dimensions
	Shift  Point     // moved from At by this many points, y upwards
	Colour look.Name // "" means look.Ink
	Back   look.Name // paints a plate of this colour behind the text; "" means none
	Alpha  float64   // opacity as in Style
}

func (t Text) ok() bool {
	return t.At.finite() && t.Shift.finite() && finite(t.Size, t.MM, t.Alpha) && t.Size >= 0 && t.MM >= 0 && t.Alpha >= 0 && t.Alpha <= 1
}

func (t Text) draw(d *drawing) {
	r := t.run(d)
	if t.S == "" || r.size <= 0 {
		d.out.target([]Point{r.at})
		return
	}
	if t.Back != "" {
		b := r.box().Grow(d.pt(2))
		d.out.fill([][]Point{{b.Min, {b.Max.X, b.Min.Y}, b.Max, {b.Min.X, b.Max.Y}}}, t.Back, opacity(t.Alpha))
	}
	d.out.text(r)
}

// Box gives the room that the text takes under t, in device units, so that a
// caller can keep texts apart.
func (t Text) Box(tr Transform) Box { return t.run(&drawing{t: tr}).box() }

func (t Text) run(d *drawing) run {
	size := d.pt(t.Size)
	if t.Size == 0 {
		size = d.pt(look.Note)
	}
	if t.MM > 0 {
		size = d.mm(t.MM)
	}
	m := TextSize(t.S, t.Weight, size)
	along, across := 0.0, 0.0 // along the baseline; upwards from it
	switch t.H {
	case Middle:
		along = -m.Width / 2
	case End:
		along = -m.Width
	}
	switch t.V {
	case Centre:
		across = -m.CapHeight / 2
	case Top:
		across = -m.Ascent
	case Bottom:
		across = m.Descent
	}
	at := d.dev(t.At).Add(Point{d.pt(t.Shift.X), -d.pt(t.Shift.Y)})
	if t.Turned {
		at = at.Add(Point{-across, -along})
	} else {
		at = at.Add(Point{along, -across})
	}
	c := t.Colour
	if c == "" {
		c = look.Ink
	}
	return run{s: t.S, weight: t.Weight, size: size, at: at, turned: t.Turned, colour: c, alpha: opacity(t.Alpha)}
}
