package parts

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// TickSpec is what a Tick shows.
type TickSpec struct {
	ID      string // for finding it again; not shown
	Text    string
	Done    bool
	Barred  string // why it cannot be ticked yet, shown below; "" when it can
	Strong  bool   // the text is set bold
	Caption string // a soft line below the text
	Choice  bool   // something chosen and not something done: its text keeps its ink
}

// Tick is a square box with text. Tap or Space turn it over; Enter is left to
// the page. A barred one takes the focus too, so that its reason is found.
type Tick struct {
	actor
	OnToggled func(done bool)

	spec TickSpec
	may  func() bool // asked before it is set: false leaves it; nil for always
}

// NewTick gives a tick.
func NewTick(s TickSpec, toggled func(done bool)) *Tick {
	t := &Tick{spec: s, OnToggled: toggled}
	t.begin(t)
	return t
}

// Set shows another spec.
func (t *Tick) Set(s TickSpec) {
	if s != t.spec {
		t.spec = s
		t.update()
	}
}

// Spec gives what is shown.
func (t *Tick) Spec() TickSpec { return t.spec }

// Tapped implements fyne.Tappable.
func (t *Tick) Tapped(*fyne.PointEvent) {
	may := t.mayBeSet() // as things stood under the pointer: the focus scrolls
	t.take()
	if may {
		t.turn()
	}
}

// TypedKey implements fyne.Focusable.
func (t *Tick) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeySpace {
		if t.mayBeSet() {
			t.turn()
		}
		return
	}
	t.spareKey(ev)
}

func (t *Tick) mayBeSet() bool {
	return t.spec.Barred == "" && (t.spec.Done || t.may == nil || t.may())
}

func (t *Tick) turn() {
	t.spec.Done = !t.spec.Done
	t.Refresh()
	if t.OnToggled != nil {
		t.OnToggled(t.spec.Done)
	}
}

func (t *Tick) leastWidth() float32 { return 60 }

const (
	tickSize = 19
	tickGap  = 11
	tickPad  = 3 // above and below, for the target's height
)

func (t *Tick) draw(p *pen, width float32) float32 {
	c := bodyInk
	if t.spec.Strong {
		c = bodyBold
	}
	if t.spec.Done && !t.spec.Choice || t.spec.Barred != "" {
		c = c.in(look.SoftInk)
	}
	in := (tickSize + tickGap) * p.k
	y := float32(tickPad)
	top := y + (p.line(c)-tickSize*p.k)/2
	y = p.wrapped(t.spec.Text, in, y, width-in, c)
	y = p.wrapped(t.spec.Caption, in, y, width-in, noteSoft)
	y = p.wrapped(t.spec.Barred, in, y, width-in, noteSoft)
	h := max(y+tickPad, leastTarget, top+tickSize*p.k+tickPad)
	t.square(p, top)
	if t.hovered && t.spec.Barred == "" {
		p.rect(0, top, tickSize*p.k, tickSize*p.k, box{fill: look.Ink, alpha: hoverAlpha, radius: 4})
	}
	if t.focused {
		p.ring(0, 0, width, h)
	}
	return h
}

func (t *Tick) square(p *pen, top float32) {
	s := tickSize * p.k
	switch {
	case t.spec.Done:
		p.rect(0, top, s, s, box{fill: look.Teal, stroke: look.Ink, width: 1.3, radius: 4})
		p.check(0, top, tickSize, look.OnTeal)
	case t.spec.Barred != "":
		p.rect(0, top, s, s, box{fill: look.Paper, stroke: look.Edge, width: 1.3, radius: 4})
	default:
		p.rect(0, top, s, s, box{fill: look.Sheet, stroke: look.Ink, width: 1.3, radius: 4})
	}
}
