package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/scene"
)

// boxed is an entry in a box of ours, with its unit inside at the right. It
// keeps what is typed: text set from outside waits until the focus has gone.
type boxed struct {
	widget.Entry
	owner   *part // redrawn when the focus comes and goes, and asked for keys
	soft    bool  // the text is proposed
	wrong   bool  // the text is refused
	focused bool
	quiet   bool   // the text is being set from outside
	given   string // as last set from outside or committed
	lines   int    // shown; above 1 it takes several
	sends   bool   // Enter is done with the box, with Shift it begins a new line
	shift   bool   // is held
	full    bool   // what was to be pasted last is more than a box takes

	changed, committed func(text string)
	entered, escaped   func()
	filled             func()                  // full has changed
	keys               func(fyne.KeyName) bool // tried before everything else

	unit   *unitMark
	coming *boxedRenderer // while the box is dressed
}

func newBoxed(owner *part, lines int) *boxed {
	b := &boxed{owner: owner, lines: max(1, lines)}
	b.TextStyle = semiBold
	b.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	if b.lines > 1 {
		b.MultiLine, b.Wrapping, b.Scroll = true, fyne.TextWrapWord, fyne.ScrollVerticalOnly
	}
	b.ExtendBaseWidget(b)
	b.OnChanged = func(s string) {
		b.fill(false)
		if !b.quiet && b.changed != nil {
			b.changed(s)
		}
	}
	b.unit = newUnitMark(owner)
	b.ActionItem = b.unit
	return b
}

// TakeBack gives a box back the text that it had before the person began to type
// in it. It reports whether o is a box that holds something half typed.
func TakeBack(o fyne.Focusable) bool {
	b, ok := o.(*boxed)
	if !ok || b.Text == b.given {
		return false
	}
	b.SetText(b.given)
	return true
}

// show puts text given from outside into the box, unless the person is typing.
func (b *boxed) show(text string) {
	if b.focused && b.Text != b.given || b.Text == text {
		if b.Text == text {
			b.given = text
		}
		return
	}
	b.given = text
	b.quiet = true
	b.SetText(text)
	b.quiet = false
}

// commit reports the text if it differs from what was last given or reported.
func (b *boxed) commit() {
	if b.Text == b.given {
		return
	}
	b.given = b.Text
	if b.committed != nil {
		b.committed(b.Text)
	}
}

// FocusGained implements fyne.Focusable.
func (b *boxed) FocusGained() {
	b.focused = true
	b.Entry.FocusGained()
	if b.Text == b.given && b.lines == 1 { // a value is replaced by typing; what is half typed goes on
		b.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	b.owner.focus(true)
}

// FocusLost implements fyne.Focusable.
func (b *boxed) FocusLost() {
	b.focused, b.shift = false, false
	b.Entry.FocusLost()
	b.commit()
	b.owner.focus(false)
}

// TypedKey implements fyne.Focusable.
func (b *boxed) TypedKey(ev *fyne.KeyEvent) {
	switch {
	case scene.WindowKey(b, ev):
	case b.keys != nil && b.keys(ev.Name):
	case isEnter(ev.Name) && b.lines > 1 && (b.shift || !b.sends):
		b.Entry.TypedKey(ev)
	case isEnter(ev.Name):
		b.commit()
		if b.entered != nil {
			b.entered()
		} else {
			b.owner.spareKey(ev)
		}
	case ev.Name == fyne.KeyEscape:
		if b.escaped != nil {
			b.escaped()
		} else {
			b.owner.spareKey(ev)
		}
	case ev.Name == fyne.KeyPageUp, ev.Name == fyne.KeyPageDown:
		b.owner.spareKey(ev)
	default:
		b.Entry.TypedKey(ev)
	}
}

// setUnit shows a unit at the end of the box, or none. The entry makes room for it
// only when its own size changes.
func (b *boxed) setUnit(unit string) {
	if b.unit.unit == unit {
		return
	}
	b.unit.set(unit)
	size := b.Size()
	b.Resize(size.AddWidthHeight(1, 0))
	b.Resize(size)
}

// height gives the height of the box.
func (b *boxed) height(p *pen) float32 { return float32(b.lines)*p.line(fieldBold) + 2*boxPad*p.k }

// AcceptsTab implements fyne.Tabbable: Tab goes on to the next part in every box.
func (b *boxed) AcceptsTab() bool { return false }

// unitMark is the unit inside of a box.
type unitMark struct {
	part
	unit string
}

func newUnitMark(owner *part) *unitMark {
	u := &unitMark{}
	u.begin(u)
	u.dress = owner.self // the entry's own theme is not a theme of ours
	return u
}

func (u *unitMark) set(unit string) {
	if u.unit != unit {
		u.unit = unit
		u.Refresh()
	}
}

func (u *unitMark) leastWidth() float32 { return 0 }

func (u *unitMark) naturalWidth() float32 {
	if u.unit == "" {
		return 0
	}
	p := newPen(u.dressed(), nil)
	return p.widthOf(u.unit, fieldSoft) + (boxPad+2)*p.k
}

func (u *unitMark) draw(p *pen, width float32) float32 {
	y := (p.height - p.line(fieldSoft)) / 2
	p.text(u.unit, 0, y, fieldSoft)
	return p.line(fieldSoft)
}
