package parts

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// ErrandSpec is what an Errand shows.
type ErrandSpec struct {
	State State
	Title string
	When  string // beside the title, such as how late it is
	Text  string // below both
}

// Errand is a thing to do with its buttons: at the right of its words, or below
// them where there is no room.
type Errand struct {
	part
	spec    ErrandSpec
	buttons *Flow
}

// NewErrand gives an errand with its buttons.
func NewErrand(s ErrandSpec, buttons ...fyne.CanvasObject) *Errand {
	e := &Errand{spec: s, buttons: NewFlow(buttons...)}
	e.begin(e)
	e.buttons.heldBy(e)
	return e
}

func (e *Errand) grew() { e.update() }

func (e *Errand) reveal(o fyne.CanvasObject) {
	if e.holder != nil {
		e.holder.reveal(o)
	}
}

func (e *Errand) spare(ev *fyne.KeyEvent) bool { return e.holder != nil && e.holder.spare(ev) }

func (e *Errand) leastWidth() float32 { return 160 }

const (
	errandPadX = 14
	errandPadY = 9
	errandText = 240 // judgement: least width of the words beside the buttons
)

func (e *Errand) draw(p *pen, width float32) float32 {
	in, pad := errandPadX*p.k, errandPadY*p.k
	inner := width - 2*in
	row := float32(0)
	for i, o := range e.buttons.children {
		if i > 0 {
			row += flowGap
		}
		row += ownWidth(o)
	}
	beside := row > 0 && inner-row-in >= errandText*p.k
	words := inner
	if beside {
		words = inner - row - in
	}
	foot := e.words(newPen(p.w, nil), in, pad, words)
	bw := inner
	if beside {
		bw = row + 1
	}
	bh := e.buttons.HeightAt(bw)
	h := foot + pad
	switch {
	case len(e.buttons.children) == 0:
	case beside:
		h = max(h, bh+2*pad)
	default:
		h = foot + pad*0.7 + bh + pad
	}
	edge, wide := look.Rule, float32(1)
	if e.spec.State != NoState {
		edge, wide = e.spec.State.colour(), 1.4
	}
	p.rect(0, 0, width, h, box{fill: look.Sheet, stroke: edge, width: wide, radius: sheetRadius})
	e.words(p, in, pad, words)
	switch {
	case len(e.buttons.children) == 0:
	case beside:
		p.put(e.buttons, width-in-row, (h-bh)/2, bw, bh)
	default:
		p.put(e.buttons, in, h-pad-bh, bw, bh)
	}
	return h
}

// words draws title, time and text and gives where they end.
func (e *Errand) words(p *pen, x, y, width float32) float32 {
	title := cut{look.SizeField, semiBold, look.Ink}
	foot := p.statedWrap(e.spec.State, e.spec.Title, x, y, width, title)
	foot = p.wrapped(e.spec.When, x, foot, width, bodySoft)
	return p.wrapped(e.spec.Text, x, foot, width, bodyInk)
}
