package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// shownIn gives what o holds, in the order drawn, scrolled out of view or not. What was never
// placed holds nothing yet.
func shownIn(o fyne.CanvasObject) []fyne.CanvasObject {
	switch x := o.(type) {
	case *fyne.Container:
		return x.Objects
	case *container.Scroll:
		return []fyne.CanvasObject{x.Content}
	case interface{ based() *part }:
		if b := x.based(); b.drawn != nil {
			return b.drawn.pool.shown
		}
	}
	return nil
}

// walk visits o and all that is shown in it, with how far below the top of o each stands, in
// points, until is holds; it reports whether it did. The toolkit knows where something is only
// once it was painted.
func walk(o fyne.CanvasObject, is func(o fyne.CanvasObject, top float32) bool) bool {
	return walkFrom(o, 0, is)
}

func walkFrom(o fyne.CanvasObject, top float32, is func(o fyne.CanvasObject, top float32) bool) bool {
	if o == nil || !o.Visible() {
		return false
	}
	if is(o, top) {
		return true
	}
	for _, inner := range shownIn(o) {
		if inner != nil && walkFrom(inner, top+inner.Position().Y, is) {
			return true
		}
	}
	return false
}

// Show shows o or hides it.
func Show(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}
