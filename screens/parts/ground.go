package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/look"
)

// Ground is an opaque piece of paper, laid below what must not be drawn over by
// something that scrolls.
type Ground struct {
	widget.BaseWidget
}

// NewGround gives a ground.
func NewGround() *Ground {
	g := &Ground{}
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer implements fyne.Widget.
func (g *Ground) CreateRenderer() fyne.WidgetRenderer {
	r := &groundRenderer{g: g, rect: canvas.NewRectangle(theme.ColorForWidget(look.Paper, g))}
	return r
}

type groundRenderer struct {
	g    *Ground
	rect *canvas.Rectangle
}

func (r *groundRenderer) Layout(s fyne.Size)           { r.rect.Resize(s) }
func (r *groundRenderer) MinSize() fyne.Size           { return fyne.NewSize(0, 0) }
func (r *groundRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.rect} }
func (r *groundRenderer) Destroy()                     {}
func (r *groundRenderer) Refresh() {
	r.rect.FillColor = theme.ColorForWidget(look.Paper, r.g)
	r.rect.Refresh()
}
