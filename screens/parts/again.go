package parts

import "fyne.io/fyne/v2"

// Again finds in what is shown of o the part that had the focus: itself while it is
// there, else the one with its ID, as on a page that was made anew; nil for neither.
func Again(o fyne.CanvasObject, had fyne.Focusable) fyne.Focusable {
	if had == nil {
		return nil
	}
	var twin fyne.Focusable
	id := IDOf(had)
	there := walk(o, func(o fyne.CanvasObject, _ float32) bool {
		f, ok := o.(fyne.Focusable)
		if ok && twin == nil && id != "" && IDOf(f) == id {
			twin = f
		}
		return ok && f == had
	})
	if there {
		return had
	}
	return twin
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
