package chart

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// pull is a span being drawn out with the pointer, in points of the widget.
type pull struct{ from, to float32 }

const (
	leastPull = 8    // points: less is a tap that slipped
	leastSpan = 1e-9 // of X: nothing can be seen in less
)

// Dragged implements fyne.Draggable: it draws out the span to look at.
func (v *View) Dragged(e *fyne.DragEvent) {
	if v.OnZoom == nil || v.plan.empty || v.scale <= 0 {
		return
	}
	if v.pull == nil {
		v.pull = &pull{from: e.Position.X - e.Dragged.DX}
	}
	v.pull.to = e.Position.X
	v.touch()
}

// DragEnd implements fyne.Draggable.
func (v *View) DragEnd() {
	d := v.pull
	v.pull = nil
	v.touch()
	if d == nil || max(d.to-d.from, d.from-d.to) < leastPull {
		return
	}
	v.zoom(v.under(min(d.from, d.to)), v.under(max(d.from, d.to)))
}

// under gives the X at a place of the widget, held within the plot.
func (v *View) under(x float32) float64 {
	return v.plan.xAt(clampTo(float64(x)/v.scale, v.plan.plot.Min.X, v.plan.plot.Max.X))
}

func (v *View) zoom(x0, x1 float64) {
	if v.OnZoom != nil && x1-x0 > leastSpan*math.Max(1, math.Abs(x0)) {
		v.end()
		v.OnZoom(x0, x1)
	}
}

// TypedRune implements fyne.Focusable: plus looks closer about what is read, or
// the middle, minus from farther away.
func (v *View) TypedRune(r rune) {
	v.layOut()
	if v.plan.empty {
		return
	}
	middle, half := (v.plan.x0+v.plan.x1)/2, (v.plan.x1-v.plan.x0)/2
	if v.read {
		middle = v.reading.X
	}
	switch r {
	case '+':
		v.zoom(math.Max(v.plan.x0, middle-half/2), math.Min(v.plan.x1, middle+half/2))
	case '-':
		v.zoom(middle-2*half, middle+2*half)
	}
}

func (v *View) markPull(colours look.Palette) {
	if v.drawnUp.Hidden = v.pull == nil; v.drawnUp.Hidden {
		return
	}
	c := colours(look.Teal)
	v.drawnUp.StrokeColor = c
	c.A = 0x28
	v.drawnUp.FillColor = color.NRGBA{R: c.R, G: c.G, B: c.B, A: c.A}
	k := float32(v.scale)
	top := v.Size().Height - float32(v.plan.plot.Max.Y)*k
	v.drawnUp.Move(fyne.NewPos(min(v.pull.from, v.pull.to), top))
	v.drawnUp.Resize(fyne.NewSize(max(v.pull.to-v.pull.from, v.pull.from-v.pull.to), float32(v.plan.plot.H())*k))
}

var _ fyne.Draggable = (*View)(nil)
