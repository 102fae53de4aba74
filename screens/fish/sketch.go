package fish

import (
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
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

// sketch is the place of the animal's drawing in its row.
func sketch(r present.StockRow, longest float64) *scene.Scene {
	if r.Adult <= 0 || longest <= 0 {
		return nil
	}
	// A bar as long as it is today, on the scale of the longest of the page.
	k := parts.StockSketchWide / longest
	long := r.Today
	if long <= 0 {
		long = r.Adult
	}
	s := scene.New()
	s.Add(scene.Polyline{Points: []scene.Point{scene.Pt(0, parts.StockSketchHigh/2), scene.Pt(long*k, parts.StockSketchHigh/2)}, Style: scene.Style{Stroke: "teal", Width: 2}})
	return s
}
