package nav

import "fyne.io/fyne/v2"

// Beside lays out the tank as it now is beside a page: first the drawing, then
// the page.
type Beside struct{}

// The widths, from the design at 1280 points. Judgement.
const (
	besideWide = 410
	besideSlim = 320
	besideGap  = 24
)

// MinSize implements fyne.Layout.
func (Beside) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(800, 500) }

// Layout implements fyne.Layout.
func (Beside) Layout(o []fyne.CanvasObject, s fyne.Size) {
	w := float32(besideWide)
	if s.Width < 1180 {
		w = besideSlim
	}
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(w, s.Height))
	for _, x := range o[1:] {
		x.Move(fyne.NewPos(w+besideGap, 0))
		x.Resize(fyne.NewSize(s.Width-w-2*besideGap, s.Height))
	}
}
