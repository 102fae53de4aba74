package shell

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/parts"
)

// frame lays out the bar, the page below it and the undo line at its foot.
type frame struct{}

func (*frame) MinSize(o []fyne.CanvasObject) fyne.Size { return fyne.NewSize(1000, 640) }

func (*frame) Layout(o []fyne.CanvasObject, size fyne.Size) {
	if size.Width <= 0 {
		return // not in a window yet: whatever is placed now is placed again
	}
	body, ground, nav, toast, banner := o[0], o[1], o[2], o[3], o[4]
	bar := nav.MinSize().Height
	below := bar
	if t, ok := banner.(parts.Tall); ok && banner.Visible() {
		w := size.Width - 40
		banner.Move(fyne.NewPos(20, bar+4))
		banner.Resize(fyne.NewSize(w, t.HeightAt(w)))
		below += banner.Size().Height + 8
	}
	for _, x := range []fyne.CanvasObject{ground, nav} {
		x.Move(fyne.NewPos(0, 0))
		x.Resize(fyne.NewSize(size.Width, bar))
	}
	body.Move(fyne.NewPos(0, below))
	body.Resize(fyne.NewSize(size.Width, size.Height-below))
	placeToast(toast, size)
}

// placeToast puts the undo line at the foot, as high as its text needs.
func placeToast(toast fyne.CanvasObject, size fyne.Size) {
	if size.Width <= 0 {
		return
	}
	w := fyne.Min(size.Width-80, dialogWidth)
	h := toast.MinSize().Height
	if t, ok := toast.(parts.Tall); ok {
		h = t.HeightAt(w)
	}
	toast.Move(fyne.NewPos((size.Width-w)/2, size.Height-h-14))
	toast.Resize(fyne.NewSize(w, h))
}
