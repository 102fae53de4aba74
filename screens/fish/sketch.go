package fish

import (
	"example.org/driploop/screens/fauna"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// The room of a sketch in its row, in points at 100 %, and the least length that an
// animal can be told at. Judgement.
const (
	sketchWide  = 84
	sketchHigh  = 46
	sketchLeast = 14
)

// longest is the longest of what is drawn on the page, in millimetres: all rows are
// drawn to one scale.
func (p *Page) longest() float64 {
	most := 0.0
	for _, r := range p.shown.Rows {
		most = max(most, r.Adult, r.Today)
	}
	return most
}

// sketch draws the animal as long as it is today within the outline of the adult, on
// the scale of the longest of the page. A kind that is not known leaves the place.
func sketch(r present.StockRow, longest float64) parts.Sketch {
	out := parts.Sketch{W: sketchWide, H: sketchHigh}
	if r.Adult <= 0 || longest <= 0 {
		return out
	}
	adult, today := r.Adult, r.Today
	if today <= 0 {
		today = adult
	}
	most := max(adult, today)
	room := fauna.Box(r.Code, most)
	long := max(sketchLeast, sketchWide*most/longest) // of the longer one, in points
	long = min(long, sketchWide*most/room.W(), sketchHigh*most/room.H())
	k := long / most
	at := scene.Pt(sketchWide/2-k*(room.Min.X+room.Max.X)/2, sketchHigh/2-k*(room.Min.Y+room.Max.Y)/2)
	s := scene.New()
	if today < adult*0.9 {
		s.Add(fauna.Outline(r.Code, adult*k, fauna.Pose{At: at, Scale: 1}, scene.Style{Stroke: look.SoftInk, Width: 0.8, Dash: []float64{2, 2}})...)
	}
	s.Add(fauna.Animal(r.Code, today*k, fauna.Pose{At: at, Scale: 1})...)
	out.Scene = s
	return out
}
