package nav

import "fyne.io/fyne/v2"

// Middle keeps a page without a tank at a width that reads well.
type Middle struct{}

const readable = 960 // points. Judgement

// MinSize implements fyne.Layout.
func (Middle) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }

// Layout implements fyne.Layout.
func (Middle) Layout(o []fyne.CanvasObject, s fyne.Size) {
	w := fyne.Min(s.Width-40, readable)
	for _, x := range o {
		x.Move(fyne.NewPos((s.Width-w)/2, 0))
		x.Resize(fyne.NewSize(w, s.Height))
	}
}
