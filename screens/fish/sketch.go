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

// scale is how many points a millimetre of an animal is: one for all rows, so that
// the largest adult fits its room; 0 where nothing can be drawn.
func (p *Page) scale() float64 {
	k := 0.0
	for _, r := range p.shown.Rows {
		if room := fauna.Box(r.Code, max(r.Adult, r.Today)); r.Adult > 0 && room.W() > 0 && room.H() > 0 {
			if fits := min(sketchWide/room.W(), sketchHigh/room.H()); k == 0 || fits < k {
				k = fits
			}
		}
	}
	return k
}

// sketch draws the animal as long as it is today within the outline of the adult, at
// k points a millimetre; one too small to be told is drawn larger. A kind that is not
// known leaves the place.
func sketch(r present.StockRow, k float64) parts.Sketch {
	out := parts.Sketch{W: sketchWide, H: sketchHigh}
	if r.Adult <= 0 || k <= 0 {
		return out
	}
	adult, today := r.Adult, r.Today
	if today <= 0 {
		today = adult
	}
	k = max(k, sketchLeast/max(adult, today))
	room := fauna.Box(r.Code, max(adult, today))
	at := scene.Pt(sketchWide/2-k*(room.Min.X+room.Max.X)/2, sketchHigh/2-k*(room.Min.Y+room.Max.Y)/2)
	s := scene.New()
	if today < adult*0.9 {
		s.Add(fauna.Outline(r.Code, adult*k, fauna.Pose{At: at, Scale: 1}, scene.Style{Stroke: look.SoftInk, Width: 0.8, Dash: []float64{2, 2}})...)
	}
	s.Add(fauna.Animal(r.Code, today*k, fauna.Pose{At: at, Scale: 1})...)
	out.Scene = s
	return out
}
