package firstfill

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
)

// columns lays out the drawing, the dipstick and the page with its foot. The
// widths are those of the design at 1280 points, and shrink to fit 1024.
type columns struct {
	stick *parts.Dipstick
	fit   func(width, height float32) // decides what stands in the foot
}

// The widths. Judgement from the design sketches.
const (
	wideAt      = 1180 // from here on the drawing has its full column
	drawingWide = 470
	drawingSlim = 318
	stickWide   = 212
	stickSlim   = 196
	margin      = 20
	footGap     = 8
	footBetween = 12
	stickMost   = 1.25 // of its width, for labels that need more
	pageLeast   = 360  // at 100 % text: below it a safety note is higher than a small window
	drawingMin  = 224  // what the drawing keeps while it gives room to the page
)

func (c *columns) scale() float32 { return float32(look.ScaleFor(c.stick)) }

// MinSize implements fyne.Layout.
func (c *columns) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(900, 560)
}

// Layout implements fyne.Layout.
func (c *columns) Layout(o []fyne.CanvasObject, size fyne.Size) {
	drawing, stick, page, ground, foot := o[0], o[1], o[2], o[3], o[4]
	dw, sw := float32(drawingWide), float32(stickWide)
	if size.Width < wideAt {
		dw, sw = drawingSlim, stickSlim
	}
	if m := stick.MinSize().Width; sw < m {
		sw = m
	}
	pad := stick.MinSize().Width - c.stick.MinSize().Width
	sw = max(sw, min(c.stick.WidthNeeded()+pad, sw*stickMost))
	if short := pageLeast*c.scale() - (size.Width - dw - sw - margin); short > 0 { // large text in a small window
		dw = max(drawingMin, dw-short)
	}
	drawing.Move(fyne.NewPos(0, 0))
	drawing.Resize(fyne.NewSize(dw, size.Height))
	stick.Move(fyne.NewPos(dw, 0))
	stick.Resize(fyne.NewSize(sw, size.Height))
	x := dw + sw
	w := size.Width - x - margin
	c.fit(w, size.Height)
	fh := heightAt(foot, w)
	foot.Move(fyne.NewPos(x, size.Height-fh-margin/2))
	foot.Resize(fyne.NewSize(w, fh))
	ground.Move(fyne.NewPos(x-4, size.Height-fh-margin/2-footGap))
	ground.Resize(fyne.NewSize(w+margin+4, fh+margin))
	page.Move(fyne.NewPos(x, 0))
	page.Resize(fyne.NewSize(w, size.Height-fh-margin/2-footGap))
}

func heightAt(o fyne.CanvasObject, w float32) float32 {
	if t, ok := o.(interface{ HeightAt(float32) float32 }); ok {
		return t.HeightAt(w)
	}
	return o.MinSize().Height
}
