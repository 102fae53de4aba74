package parts

import "fyne.io/fyne/v2"

// Framed is a page whose head and foot stay, with a body between them that takes
// the room that is left and scrolls by itself.
type Framed struct {
	part
	Keys Keys
	head *Column
	foot *Column
	body fyne.CanvasObject
}

// NewFramed gives such a page. body should have a height of its own choosing.
func NewFramed(head *Column, body fyne.CanvasObject, foot *Column) *Framed {
	f := &Framed{head: head, foot: foot, body: body}
	f.begin(f)
	for _, o := range []fyne.CanvasObject{head, body, foot} {
		adopt(o, f)
	}
	return f
}

func (f *Framed) leastWidth() float32 { return 160 }

// HeightAt gives the height that shows enough of the body to work with.
func (f *Framed) HeightAt(width float32) float32 {
	w := width - scrollInset - scrollRight
	return f.head.HeightAt(w) + f.foot.HeightAt(w) + 2*footGap + footLow + framedBody
}

// framedBody is the room that the body wants. Judgement: ten rows of a list.
const framedBody = 420

func (f *Framed) draw(p *pen, width float32) float32 {
	w := width - scrollInset - scrollRight
	top, low := f.head.HeightAt(w), f.foot.HeightAt(w)
	p.put(f.head, scrollInset, 0, w, top)
	p.put(f.body, 0, top+footGap, width, max(0, p.height-top-low-2*footGap-footLow))
	p.put(f.foot, scrollInset, p.height-low-footLow, w, low)
	return p.height
}

func (f *Framed) grew() { f.Refresh() }

func (f *Framed) reveal(fyne.CanvasObject) {}

func (f *Framed) spare(ev *fyne.KeyEvent) bool { return f.Keys.take(ev.Name) }
