package parts

import (
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// ButtonKind is how much weight a button has on its page.
type ButtonKind uint8

// The kinds of buttons.
const (
	Secondary ButtonKind = iota // outlined
	Primary                     // filled; at most one on a page
	Quiet                       // like a link
	View                        // one of several views of the same things
	ViewHere                    // the view that is shown: underlined
)

// Disclosure is the small triangle before a quiet button that opens something.
type Disclosure uint8

// The disclosures.
const (
	NoDisclosure Disclosure = iota
	Shut                    // pointing to the right
	Opened                  // pointing down
)

// ButtonSpec is what a Button shows.
type ButtonSpec struct {
	ID         string // for finding it again; not shown
	Label      string
	Kind       ButtonKind
	Disclosure Disclosure // for Quiet
	Busy       bool       // its work runs: presses are not taken and dots follow the label
	Off        bool       // there is nothing to do, as for undo with nothing done
}

// Button is pressed by tap, Enter or Space. OnPressed may be nil.
type Button struct {
	actor
	OnPressed func()

	spec ButtonSpec
}

// NewButton gives a button.
func NewButton(s ButtonSpec, pressed func()) *Button {
	b := &Button{spec: s, OnPressed: pressed}
	b.begin(b)
	return b
}

// Set shows another spec.
func (b *Button) Set(s ButtonSpec) {
	if s != b.spec {
		b.spec = s
		b.update()
	}
}

// Spec gives what is shown.
func (b *Button) Spec() ButtonSpec { return b.spec }

// Tapped implements fyne.Tappable.
func (b *Button) Tapped(*fyne.PointEvent) {
	b.take()
	b.press()
}

// TypedKey implements fyne.Focusable.
func (b *Button) TypedKey(ev *fyne.KeyEvent) {
	if isEnter(ev.Name) || ev.Name == fyne.KeySpace {
		b.press()
		return
	}
	b.spareKey(ev)
}

func (b *Button) press() {
	if b.OnPressed != nil && !b.spec.Busy && !b.spec.Off {
		b.OnPressed()
	}
}

func (b *Button) leastWidth() float32 { return leastTarget }

// label gives the text with the room for the busy dots kept, so that nothing
// moves while the work runs.
func (b *Button) cut() cut {
	c := bodyBold
	switch {
	case b.spec.Off:
		c = c.in(look.SoftInk)
	case b.spec.Kind == Primary:
		c = c.in(look.OnTeal)
	case b.spec.Kind == Quiet:
		c = c.in(look.Teal)
	case b.spec.Kind == View:
		c = c.in(look.SoftInk)
	}
	if b.spec.Kind == Secondary || b.spec.Kind == View {
		c.style = regular
	}
	return c
}

// tab reports whether the button is one of a row of views.
func (b *Button) tab() bool { return b.spec.Kind == View || b.spec.Kind == ViewHere }

const (
	buttonPad    = 20
	buttonHeight = 40
	buttonLeast  = 84
	busyDots     = 30
	openerSize   = 9
	openerGap    = 6
	quietPad     = 3
	tabPad       = 8 // of a view, at the sides
)

func (b *Button) pad() float32 {
	switch {
	case b.spec.Kind == Quiet:
		return 0
	case b.tab():
		return tabPad
	}
	return buttonPad
}

func (b *Button) naturalWidth() float32 {
	p := newPen(b, nil)
	w := p.widthOf(b.spec.Label, b.cut()) + 2*b.pad()*p.k + b.opener(p)
	if b.spec.Kind == Quiet || b.tab() {
		return max(w+1, leastTarget)
	}
	return max(w+1, buttonLeast*p.k, busyDots*p.k+2*b.pad()*p.k)
}

func (b *Button) opener(p *pen) float32 {
	if b.spec.Kind == Quiet && b.spec.Disclosure != NoDisclosure {
		return (openerSize + openerGap) * p.k
	}
	return 0
}

func (b *Button) draw(p *pen, width float32) float32 {
	c := b.cut()
	left := b.opener(p)
	room := max(width-2*b.pad()*p.k-left, p.size(c))
	lines := wrap(b.spec.Label, room, p.measurer(c))
	line := p.line(c)
	h := float32(len(lines)) * line
	switch {
	case b.spec.Kind == Quiet:
		h = max(h+2*quietPad, leastTarget)
	case b.tab():
		h = max(h+2*tabPad*p.k, leastTarget)
	default:
		h = max(h+2*9*p.k, buttonHeight*p.k)
	}
	b.ground(p, width, h)
	y := (h - float32(len(lines))*line) / 2
	if left > 0 {
		p.disclosure(b.spec.Disclosure == Opened, 0, y+p.base(c)-openerSize*p.k, openerSize, c.colour)
	}
	if b.spec.Busy {
		b.dots(p, width, h, c.colour)
	} else {
		for _, l := range lines {
			l = strings.TrimSpace(l)
			x := left
			if b.spec.Kind != Quiet {
				x = (width - p.widthOf(l, c)) / 2
			}
			p.text(l, x, y, c)
			y += line
		}
	}
	if b.focused {
		p.ring(0, 0, width, h)
	}
	return h
}

func (b *Button) ground(p *pen, width, h float32) {
	g := box{radius: 6}
	switch {
	case b.spec.Off && (b.spec.Kind == Primary || b.spec.Kind == Secondary):
		g.fill, g.stroke, g.width = look.Sheet, look.Edge, 1
	case b.spec.Kind == Primary:
		g.fill = look.Teal
	case b.spec.Kind == Secondary:
		g.fill, g.stroke, g.width = look.Sheet, look.Ink, 1.3
	}
	if g.fill != "" {
		p.rect(0, 0, width, h, g)
	}
	if b.spec.Kind == ViewHere {
		p.rect(tabPad*p.k, h-3*p.k, width-2*tabPad*p.k, 2.5*p.k, box{fill: look.Teal})
		return
	}
	if b.hovered && !b.spec.Off && !b.spec.Busy {
		if b.spec.Kind == Quiet || b.spec.Kind == View {
			p.rect(0, h-2, width, 1.5, box{fill: look.Teal})
		} else {
			p.rect(0, 0, width, h, box{fill: look.Ink, alpha: hoverAlpha, radius: 6})
		}
	}
}

// dots draws three dots in place of the label while the button's work runs.
func (b *Button) dots(p *pen, width, h float32, c look.Name) {
	const d = 6
	x := (width - busyDots*p.k) / 2
	if b.spec.Kind == Quiet {
		x = 0
	}
	for range 3 {
		p.rect(x, (h-d*p.k)/2, d*p.k, d*p.k, box{fill: c, radius: d * p.k / 2})
		x += 12 * p.k
	}
}
