package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// listRows are the rows of an open list, each as high as its label needs.
type listRows struct {
	actor
	list *listPopUp
	typed
}

const (
	rowPadX = 8
	rowPadY = 5
)

// TypedKey implements fyne.Focusable.
func (r *listRows) TypedKey(ev *fyne.KeyEvent) {
	if scene.WindowKey(r, ev) {
		return
	}
	n := ev.Name
	switch n {
	case fyne.KeyHome:
		r.list.move(0)
		return
	case fyne.KeyEnd:
		r.list.move(len(r.list.found) - 1)
		return
	case fyne.KeySpace:
		n = fyne.KeyReturn
	}
	r.list.key(n)
}

// TypedRune implements fyne.Focusable: letters go to the option they begin.
func (r *listRows) TypedRune(c rune) {
	if i := r.seek(c, r.list.found, r.list.at); c != ' ' && i >= 0 {
		r.list.move(i)
	}
}

// Tapped implements fyne.Tappable.
func (r *listRows) Tapped(ev *fyne.PointEvent) {
	if i := r.under(ev.Position.Y); i >= 0 {
		r.list.at = i
		r.list.close(true)
	}
}

// MouseMoved implements desktop.Hoverable: the bar follows the pointer.
func (r *listRows) MouseMoved(ev *desktop.MouseEvent) {
	if i := r.under(ev.Position.Y); i >= 0 && i != r.list.at {
		r.list.at = i
		r.Refresh()
	}
}

func (r *listRows) leastWidth() float32 { return 0 }

// widest gives the width at which no label wraps.
func (r *listRows) widest() float32 {
	p := newPen(r, nil)
	w := float32(0)
	for _, o := range r.list.spec.options {
		w = max(w, p.widthOf(o.Label, fieldBold))
	}
	return w + 2*rowPadX*p.k + 16 // the scroll bar's room
}

// fullHeight gives the height of all options, so that a search does not move
// the list.
func (r *listRows) fullHeight(width float32) float32 {
	p := newPen(r, nil)
	h := float32(0)
	for _, o := range r.list.spec.options {
		h += r.rowHeight(p, o, width)
	}
	return h
}

func (r *listRows) rowHeight(p *pen, o Option, width float32) float32 {
	room := width - 2*rowPadX*p.k
	return max(leastTarget, p.end(o.Label, 0, room, fieldBold)+2*rowPadY*p.k)
}

// width gives what the rows are drawn at.
func (r *listRows) width() float32 { return max(r.assumed, r.Size().Width) }

// span gives the top and the foot of a row.
func (r *listRows) span(i int) (top, foot float32) {
	p := newPen(r, nil)
	for j, o := range r.list.found {
		foot = top + r.rowHeight(p, o, r.width())
		if j >= i {
			break
		}
		top = foot
	}
	return top, foot
}

// under gives the row at a height, or -1.
func (r *listRows) under(y float32) int {
	p := newPen(r, nil)
	foot := float32(0)
	for i, o := range r.list.found {
		if foot += r.rowHeight(p, o, r.width()); y < foot {
			return i
		}
	}
	return -1
}

func (r *listRows) draw(p *pen, width float32) float32 {
	y := float32(0)
	if len(r.list.found) == 0 {
		return p.wrapped(r.list.spec.empty, rowPadX*p.k, rowPadY*p.k, width-2*rowPadX*p.k, bodySoft) + rowPadY*p.k
	}
	for i, o := range r.list.found {
		h := r.rowHeight(p, o, width)
		c := cut{look.SizeField, regular, look.Ink}
		if o.Code == r.list.spec.chosen {
			c = fieldBold
		}
		if i == r.list.at {
			p.rect(1, y, width-2, h, box{fill: look.Tint, stroke: look.Teal, width: 2, radius: sheetRadius})
		}
		p.wrapped(o.Label, rowPadX*p.k, y+rowPadY*p.k, width-2*rowPadX*p.k, c)
		y += h
	}
	return y
}
