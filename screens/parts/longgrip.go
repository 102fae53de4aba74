package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"example.org/driploop/screens/look"
)

// longGrip is the bar at the right that shows where in the whole the view is.
type longGrip struct {
	part
	list *Long
}

const gripLeast = 28 // points: so that it can be taken hold of

func (g *longGrip) leastWidth() float32 { return 0 }

func (g *longGrip) place(height float32) (y, h float32) {
	l := g.list
	if l.h == nil || height <= 0 {
		return 0, 0
	}
	whole := l.headHeight() + l.h.all() + scrollFoot
	h = max(gripLeast, height*float32(float64(height)/whole))
	return (height - h) * float32(l.off/max(1, whole-float64(height))), h
}

func (g *longGrip) draw(p *pen, width float32) float32 {
	y, h := g.place(p.height)
	w := float32(5)
	if g.hovered {
		w = 9
	}
	p.rect(0, 0, width, p.height, box{})
	p.rect(width-w, y, w, h, box{fill: look.SoftInk, radius: w / 2, alpha: 0xb0})
	return p.height
}

// Dragged implements fyne.Draggable.
func (g *longGrip) Dragged(ev *fyne.DragEvent) {
	height := g.Size().Height
	_, h := g.place(height)
	l := g.list
	if height > h {
		l.scroll(float64(ev.Dragged.DY) / float64(height-h) * (l.headHeight() + l.h.all() + scrollFoot - float64(height)))
	}
}

// DragEnd implements fyne.Draggable.
func (g *longGrip) DragEnd() {}

// MouseIn implements desktop.Hoverable.
func (g *longGrip) MouseIn(*desktop.MouseEvent) { g.hover(true) }

// MouseMoved implements desktop.Hoverable.
func (g *longGrip) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (g *longGrip) MouseOut() { g.hover(false) }

// Tapped implements fyne.Tappable: above the bar or below it, by a view's height.
func (g *longGrip) Tapped(ev *fyne.PointEvent) {
	y, h := g.place(g.Size().Height)
	switch page := 0.9 * float64(g.list.Size().Height); {
	case ev.Position.Y < y:
		g.list.scroll(-page)
	case ev.Position.Y > y+h:
		g.list.scroll(page)
	}
}

var _ fyne.Draggable = (*longGrip)(nil)
