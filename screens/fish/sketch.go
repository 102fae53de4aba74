package fish

import (
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// The room of a sketch in its row, in points at 100 %.
const (
	sketchWide = 84
	sketchHigh = 46
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
func sketch(present.StockRow, float64) parts.Sketch {
	return parts.Sketch{}
}
