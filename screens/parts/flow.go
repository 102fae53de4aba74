package parts

import "fyne.io/fyne/v2"

// Flow sets buttons side by side at their own widths and begins another line
// when they do not fit.
type Flow struct {
	part
	children []fyne.CanvasObject
	wide     bool
}

// NewLinks gives a flow of quiet buttons: they have no ground of their own, and
// stand so far apart that they do not read as one sentence.
func NewLinks(children ...fyne.CanvasObject) *Flow {
	f := NewFlow(children...)
	f.wide = true
	return f
}

func (f *Flow) gap() float32 {
	if f.wide {
		return linkGap
	}
	return flowGap
}

// NewFlow gives a flow of the children.
func NewFlow(children ...fyne.CanvasObject) *Flow {
	f := &Flow{}
	f.begin(f)
	f.Set(children...)
	return f
}

// Set shows other children.
func (f *Flow) Set(children ...fyne.CanvasObject) {
	if same(f.children, children) {
		return
	}
	f.children = append([]fyne.CanvasObject(nil), children...)
	for _, o := range children {
		adopt(o, f)
	}
	f.update()
}

func (f *Flow) grew() { f.update() }

func (f *Flow) reveal(o fyne.CanvasObject) {
	if f.holder != nil {
		f.holder.reveal(o)
	}
}

func (f *Flow) spare(ev *fyne.KeyEvent) bool { return f.holder != nil && f.holder.spare(ev) }

func (f *Flow) leastWidth() float32 { return 40 }

const flowGap, linkGap = 8, 22

func (f *Flow) draw(p *pen, width float32) float32 {
	type placed struct {
		o       fyne.CanvasObject
		x, w, h float32
	}
	var line []placed
	x, y, tall := float32(0), float32(0), float32(0)
	end := func() { // lower ones stand in the middle of their line
		for _, c := range line {
			p.put(c.o, c.x, y+(tall-c.h)/2, c.w, c.h)
		}
		line = line[:0]
	}
	for _, o := range f.children {
		if !o.Visible() {
			continue
		}
		w := min(ownWidth(o), width)
		h := heightOf(o, w)
		if x > 0 && x+w > width {
			end()
			x, y, tall = 0, y+tall+f.gap(), 0
		}
		line = append(line, placed{o, x, w, h})
		x += w + f.gap()
		tall = max(tall, h)
	}
	end()
	return y + tall
}

func ownWidth(o fyne.CanvasObject) float32 {
	if n, ok := o.(natural); ok {
		return n.naturalWidth()
	}
	return o.MinSize().Width
}

// Ends sets one child at the left edge and one at the right, such as Back and
// Carry on; the right one goes below when both do not fit. Either may be nil.
type Ends struct {
	part
	left, right fyne.CanvasObject
}

// NewEnds gives the two ends of a line.
func NewEnds(left, right fyne.CanvasObject) *Ends {
	e := &Ends{left: left, right: right}
	e.begin(e)
	for _, o := range []fyne.CanvasObject{left, right} {
		if o != nil {
			adopt(o, e)
		}
	}
	return e
}

func (e *Ends) grew() { e.update() }

func (e *Ends) reveal(o fyne.CanvasObject) {
	if e.holder != nil {
		e.holder.reveal(o)
	}
}

func (e *Ends) spare(ev *fyne.KeyEvent) bool { return e.holder != nil && e.holder.spare(ev) }

func (e *Ends) leastWidth() float32 { return 40 }

// The least widths of the two ends, so that they are large targets that stand
// in one place from page to page.
const (
	endLeft  = 120
	endRight = 180
)

func (e *Ends) draw(p *pen, width float32) float32 {
	var lw, lh, rw, rh float32
	if e.left != nil && e.left.Visible() {
		lw = min(max(ownWidth(e.left), endLeft*p.k), width)
		lh = heightOf(e.left, lw)
	}
	left := func() {
		if lw > 0 {
			p.put(e.left, 0, 0, lw, lh)
		}
	}
	if e.right == nil || !e.right.Visible() {
		left()
		return lh
	}
	rw = min(max(ownWidth(e.right), endRight*p.k), width)
	if lw > 0 && lw+flowGap+rw > width { // one line costs less of a low window than large targets do
		if l, r := ownWidth(e.left), ownWidth(e.right); l+flowGap+r <= width {
			rw = max(r, width-flowGap-lw)
			lw = width - flowGap - rw
			lh = heightOf(e.left, lw)
		}
	}
	left()
	rh = heightOf(e.right, rw)
	if lw > 0 && lw+flowGap+rw > width {
		p.put(e.right, width-rw, lh+flowGap, rw, rh)
		return lh + flowGap + rh
	}
	p.put(e.right, width-rw, 0, rw, rh)
	return max(lh, rh)
}
