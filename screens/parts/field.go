package parts

import (
	"fyne.io/fyne/v2"
)

// FieldSpec is what a Field shows.
type FieldSpec struct {
	ID          string // for finding it again; not shown
	Label       string
	Text        string // the value; not put in while the person types
	Unit        string // inside the box at the right
	Error       string // what was refused and what is accepted; "" for none
	Hint        string // below the box where there is no error
	Mark        string // where the value comes from, such as "from the shop"; before the hint
	Proposed    bool   // the value is the program's own and not given yet: soft ink
	Placeholder string // shown in an empty box
	Lines       int    // of a box for several lines, as set when it is made: Enter begins a new one
	Sends       bool   // of such a box, as set when it is made: Enter is OnEnter, and begins a new line with Shift
}

// Field is a labelled box for one value. A line below the box is kept free, so
// that an error does not move the page.
type Field struct {
	part
	OnChanged func(text string) // at every change by the person
	OnCommit  func(text string) // when Enter is typed or the focus goes, if the text was changed
	OnEnter   func()            // Enter, after the commit; nil lets the page carry on
	OnEscape  func()            // Escape; nil lets the page go back
	OnStep    func(by int)      // the arrow up (1) or down (-1); nil leaves them to the box

	spec  FieldSpec
	input *boxed
	lead  float32 // kept free above the label so that boxes in a row align
	bare  bool    // neither label nor line below
}

// NewField gives a field. Callbacks are set afterwards.
func NewField(s FieldSpec) *Field {
	f := &Field{}
	f.begin(f)
	f.input = newBoxed(&f.part, s.Lines)
	f.input.sends = s.Sends
	f.input.filled = func() {
		f.ink()
		f.update()
	}
	f.input.changed = func(t string) {
		f.ink()
		if f.OnChanged != nil {
			f.OnChanged(t)
		}
	}
	f.input.committed = func(t string) {
		if f.OnCommit != nil {
			f.OnCommit(t)
		}
	}
	f.input.entered = func() {
		if f.OnEnter != nil {
			f.OnEnter()
		} else {
			f.spareKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		}
	}
	f.input.escaped = func() {
		if f.OnEscape != nil {
			f.OnEscape()
		} else {
			f.spareKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		}
	}
	f.input.keys = func(name fyne.KeyName) bool {
		by := map[fyne.KeyName]int{fyne.KeyUp: 1, fyne.KeyDown: -1}[name]
		if by == 0 || f.OnStep == nil {
			return false
		}
		f.OnStep(by)
		return true
	}
	f.apply(s)
	return f
}

// Type puts text into the box as if the person had typed it.
func (f *Field) Type(text string) {
	if f.input.Text != text {
		f.input.SetText(text)
	}
}

// Set shows another spec. While the person types in the box its text stays as
// typed, and so does a refused text until Text itself changes.
func (f *Field) Set(s FieldSpec) {
	if s == f.spec && (f.input.focused || s.Error != "" || f.input.Text == s.Text) {
		return
	}
	f.apply(s)
	f.update()
}

func (f *Field) apply(s FieldSpec) {
	keep := s.Error != "" && s.Text == f.spec.Text // what was refused stays to be mended
	f.spec = s
	if !keep {
		f.input.show(s.Text)
	}
	f.input.setUnit(s.Unit)
	if f.input.PlaceHolder != s.Placeholder {
		f.input.SetPlaceHolder(s.Placeholder)
	}
	f.ink()
}

// ink sets the colours of the box by the spec; a proposed value that the person
// has changed is a proposal no more.
func (f *Field) ink() {
	soft, wrong := f.spec.Proposed && f.input.Text == f.spec.Text, f.wrong() != ""
	if soft != f.input.soft || wrong != f.input.wrong {
		f.input.soft, f.input.wrong = soft, wrong
		f.input.Refresh()
	}
}

// wrong is what stands below the box in the colour of a refusal.
func (f *Field) wrong() string {
	if f.input.full {
		return tooLong(Most)
	}
	return f.spec.Error
}

// Spec gives what was last set.
func (f *Field) Spec() FieldSpec { return f.spec }

// Text gives what stands in the box now.
func (f *Field) Text() string { return f.input.Text }

// Focusable gives what takes the focus, for a page that sends it there.
func (f *Field) Focusable() fyne.Focusable { return f.input }

// Refresh implements fyne.CanvasObject.
func (f *Field) Refresh() {
	f.input.Refresh()
	f.part.Refresh()
}

func (f *Field) leastWidth() float32 { return 72 }

func (f *Field) labelHeight(width float32) float32 {
	if f.bare {
		return 0
	}
	return newPen(f, nil).end(f.spec.Label, 0, width, bodySoft)
}

func (f *Field) setLead(extra float32) float32 {
	before := f.lead
	f.lead = extra
	return before
}

const (
	labelGap = 3 // between a label and its box
	belowGap = 3 // between a box and the line below it
)

func (f *Field) draw(p *pen, width float32) float32 {
	y := float32(0)
	if !f.bare {
		y = p.wrapped(f.spec.Label, 0, f.lead, width, bodySoft) + labelGap*p.k
	}
	h := f.input.height(p)
	p.put(f.input, 0, y, width, h)
	if f.focused {
		p.ring(0, y, width, h)
	}
	if f.bare {
		return y + h
	}
	return p.below(f.wrong(), joined(f.spec.Mark, f.spec.Hint), 0, y+h+belowGap*p.k, width)
}

// below draws the error, or else the hint, and gives where it ends; one line is
// kept even when there is neither.
func (p *pen) below(wrong, hint string, x, y, width float32) float32 {
	least := y + p.line(noteSoft)
	if wrong != "" {
		return max(least, p.refusal(wrong, x, y, width, noteSoft))
	}
	return max(least, p.wrapped(hint, x, y, width, noteSoft))
}

func joined(a, b string) string {
	if a != "" && b != "" {
		return a + " · " + b
	}
	return a + b
}
