package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Again finds in what is shown of o the part that had the focus: itself while it is
// there, else the one with its ID, as on a page that was made anew; nil for neither.
func Again(o fyne.CanvasObject, had fyne.Focusable) fyne.Focusable {
	if had == nil {
		return nil
	}
	var twin fyne.Focusable
	id := IDOf(had)
	there := eachFocusable(o, func(f fyne.Focusable) bool {
		if twin == nil && id != "" && IDOf(f) == id {
			twin = f
		}
		return f == had
	})
	if there {
		return had
	}
	return twin
}

// eachFocusable visits what can have the focus in o, scrolled out of view or not, until
// is holds; it reports whether it did.
func eachFocusable(o fyne.CanvasObject, is func(fyne.Focusable) bool) bool {
	if o == nil || !o.Visible() {
		return false
	}
	if f, ok := o.(fyne.Focusable); ok && is(f) {
		return true
	}
	var inner []fyne.CanvasObject
	switch x := o.(type) {
	case *fyne.Container:
		inner = x.Objects
	case *container.Scroll:
		inner = []fyne.CanvasObject{x.Content}
	case *container.ThemeOverride: // about a box
		inner = []fyne.CanvasObject{x.Content}
	case interface{ based() *part }:
		if b := x.based(); b.drawn != nil {
			inner = b.drawn.pool.shown
		}
	}
	for _, i := range inner {
		if eachFocusable(i, is) {
			return true
		}
	}
	return false
}

// keepFocus does what replaces some of the parts in o. Where one of them had the focus,
// the part that took its place has it then; else the keys would go to what nobody sees.
// A box is left alone: it keeps what is typed and is never replaced while it has the focus.
func keepFocus(o interface {
	fyne.CanvasObject
	based() *part
}, replace func()) {
	var c fyne.Canvas
	if o.based().drawn != nil {
		c = fyne.CurrentApp().Driver().CanvasForObject(o)
	}
	if c == nil { // not shown yet
		replace()
		return
	}
	had := c.Focused()
	if _, box := had.(*boxed); had == nil || box || Again(o, had) != had {
		replace()
		return
	}
	replace()
	if now := Again(o, had); now != nil && now != had {
		c.Focus(now)
	}
}
