package scene

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// FocusView is a View whose parts are reached by keyboard too: it takes the
// focus, the arrow keys go from part to part in drawing order with a ring about
// the chosen one, Home and End go to the first and last, and Enter or Space tap
// it. Choosing a part by key is reported like hovering over it.
type FocusView struct{ View }

// NewFocusView gives a view of s, which may be nil, that takes the focus.
func NewFocusView(s *Scene) *FocusView {
	v := &FocusView{View{scene: s}}
	v.self = v
	v.ExtendBaseWidget(v)
	return v
}

// Chosen gives the part that was last chosen by key or tap.
func (v *FocusView) Chosen() ID { return v.chosen }

// Tapped implements fyne.Tappable.
func (v *FocusView) Tapped(e *fyne.PointEvent) {
	v.chosen = v.At(e.Position)
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		c.Focus(v)
	}
	v.View.Tapped(e)
	v.Refresh()
}

// FocusGained implements fyne.Focusable.
func (v *FocusView) FocusGained() {
	v.focused = true
	v.Refresh()
}

// FocusLost implements fyne.Focusable.
func (v *FocusView) FocusLost() {
	v.focused = false
	v.showTip("", fyne.Position{})
	v.Refresh()
}

// TypedRune implements fyne.Focusable.
func (v *FocusView) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (v *FocusView) TypedKey(e *fyne.KeyEvent) {
	if v.scene == nil || WindowKey(v, e) {
		return
	}
	ids := v.ids()
	if len(ids) == 0 {
		return
	}
	at := -1
	for i, id := range ids {
		if id == v.chosen {
			at = i
		}
	}
	switch e.Name {
	case fyne.KeyRight, fyne.KeyDown:
		at = (at + 1) % len(ids)
	case fyne.KeyLeft, fyne.KeyUp:
		at = (max(at, 0) + len(ids) - 1) % len(ids)
	case fyne.KeyHome:
		at = 0
	case fyne.KeyEnd:
		at = len(ids) - 1
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		if at >= 0 && v.OnTapped != nil {
			v.OnTapped(v.chosen)
		}
		return
	default:
		return
	}
	v.chosen = ids[at]
	b := v.extentOf(v.chosen)
	mid := fyne.NewPos(float32(b.Min.X+b.W()/2), float32(b.Min.Y+b.H()/2))
	if v.OnHover != nil {
		v.OnHover(v.chosen, mid)
	}
	v.showTip(v.chosen, mid)
	v.Refresh()
}

var (
	_ fyne.Focusable     = (*FocusView)(nil)
	_ fyne.Tappable      = (*View)(nil)
	_ desktop.Hoverable  = (*View)(nil)
	_ desktop.Cursorable = (*View)(nil)
)
