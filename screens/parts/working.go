package parts

import (
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// WorkingPart is one step of a worked calculation. Empty texts are left out.
type WorkingPart struct {
	Heading  string // begins a group of steps
	Name     string // of what is worked out
	Equation string // in symbols
	Filled   string // the same with its numbers
	Value    string // the result with its unit
	Note     string // the source, the valid range
}

// WorkingSpec is what a Working shows.
type WorkingSpec struct {
	Show, Hide string // labels of the disclosure while shut and while open
	Copy       string // label of the button that copies; "" for none
	Parts      []WorkingPart
	Open       bool
}

// Working is a disclosure that reveals how a figure was worked out.
type Working struct {
	part
	OnOpened func(open bool)
	OnCopy   func(text string)

	spec        WorkingSpec
	opener      *Button
	copyingFrom *Button
}

// NewWorking gives a working.
func NewWorking(s WorkingSpec) *Working {
	w := &Working{spec: s}
	w.begin(w)
	w.opener = NewButton(w.openerSpec(), w.turn)
	w.copyingFrom = NewButton(ButtonSpec{Label: s.Copy, Kind: Quiet}, func() {
		if w.OnCopy != nil {
			w.OnCopy(w.Text())
		}
	})
	w.opener.heldBy(w)
	w.copyingFrom.heldBy(w)
	return w
}

func (w *Working) openerSpec() ButtonSpec {
	if w.spec.Open {
		return ButtonSpec{Label: w.spec.Hide, Kind: Quiet, Disclosure: Opened}
	}
	return ButtonSpec{Label: w.spec.Show, Kind: Quiet, Disclosure: Shut}
}

// Set shows another spec. Whether it is open follows the spec.
func (w *Working) Set(s WorkingSpec) {
	if same(s, w.spec) {
		return
	}
	w.spec = s
	w.opener.Set(w.openerSpec())
	w.copyingFrom.Set(ButtonSpec{Label: s.Copy, Kind: Quiet})
	w.update()
}

// Spec gives what is shown, Open as the person left it.
func (w *Working) Spec() WorkingSpec { return w.spec }

func (w *Working) turn() {
	w.spec.Open = !w.spec.Open
	w.opener.Set(w.openerSpec())
	w.update()
	if w.OnOpened != nil {
		w.OnOpened(w.spec.Open)
	}
}

// Text gives the whole working as lines of text.
func (w *Working) Text() string {
	var b strings.Builder
	for _, s := range w.spec.Parts {
		head := s.Name
		if s.Name != "" && s.Value != "" {
			head += ": "
		}
		for _, l := range []string{s.Heading, head + s.Value, s.Equation, s.Filled, s.Note} {
			if l != "" {
				b.WriteString(l + "\n")
			}
		}
	}
	return b.String()
}

func (w *Working) grew() { w.update() }

func (w *Working) reveal(o fyne.CanvasObject) {
	if w.holder != nil {
		w.holder.reveal(o)
	}
}

func (w *Working) spare(ev *fyne.KeyEvent) bool { return w.holder != nil && w.holder.spare(ev) }

func (w *Working) leastWidth() float32 { return 100 }

const (
	workingIndent = 14
	stepGap       = 10
)

func (w *Working) draw(p *pen, width float32) float32 {
	ow := min(width, w.opener.naturalWidth())
	y := w.opener.HeightAt(ow)
	p.put(w.opener, 0, 0, ow, y)
	if !w.spec.Open {
		return y
	}
	y += 6 * p.k
	top := y
	in := workingIndent * p.k
	for i, s := range w.spec.Parts {
		if i > 0 {
			y += stepGap * p.k
		}
		y = w.step(p, s, in, y, width-in)
	}
	p.rect(0, top, 2, y-top, box{fill: look.Rule})
	if w.spec.Copy != "" {
		y += stepGap * p.k
		cw := min(width-in, w.copyingFrom.naturalWidth())
		h := w.copyingFrom.HeightAt(cw)
		p.put(w.copyingFrom, in, y, cw, h)
		y += h
	}
	return y
}

func (w *Working) step(p *pen, s WorkingPart, x, y, width float32) float32 {
	y = p.wrapped(s.Heading, x, y, width, bodyBold)
	vw := p.widthOf(s.Value, bodyBold)
	switch room := width - vw - barGap*p.k; {
	case s.Value == "":
		y = p.wrapped(s.Name, x, y, width, bodySoft)
	case room >= width/3:
		p.right(s.Value, x+width, y, bodyBold)
		y = max(p.wrapped(s.Name, x, y, room, bodySoft), y+p.line(bodyBold))
	default:
		y = p.wrapped(s.Name, x, y, width, bodySoft)
		y = p.wrapped(s.Value, x, y, width, bodyBold)
	}
	y = p.wrapped(s.Equation, x, y, width, cut{look.SizeBody, italic, look.Ink})
	y = p.wrapped(s.Filled, x, y, width, bodyInk)
	return p.wrapped(s.Note, x, y, width, noteSoft)
}
