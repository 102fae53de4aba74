package parts

import "fyne.io/fyne/v2"

// Keys is what a page does with the keys that none of its parts took. A nil
// function leaves the key unused.
type Keys struct {
	CarryOn func() // Enter
	Back    func() // Escape
}

// take acts on a key and tells whether it was one of its own.
func (k Keys) take(name fyne.KeyName) bool {
	var f func()
	switch name {
	case fyne.KeyReturn, fyne.KeyEnter:
		f = k.CarryOn
	case fyne.KeyEscape:
		f = k.Back
	}
	if f == nil {
		return false
	}
	f()
	return true
}

// holder is what a part stands in. It hears of growth, of focus and of keys.
type holder interface {
	grew()                        // a part inside has another height than it was given
	reveal(o fyne.CanvasObject)   // a part inside took the focus
	spare(ev *fyne.KeyEvent) bool // a key that a part inside had no use for; true when used
}

// wholeIn asks what h stands in to bring all of o into view: was tells whether it was
// there before, fits whether the view is as high. Where nothing scrolls it always is.
func wholeIn(h holder, o fyne.CanvasObject) (was, fits bool) {
	if v, ok := h.(interface {
		whole(o fyne.CanvasObject) (was, fits bool)
	}); ok {
		return v.whole(o)
	}
	return true, true
}

// adopt makes h the holder of every part in o, plain containers seen through.
func adopt(o fyne.CanvasObject, h holder) {
	switch c := o.(type) {
	case interface{ heldBy(holder) }:
		c.heldBy(h)
	case interface{ RevealedBy(func(fyne.CanvasObject)) }: // no part, but takes the focus
		c.RevealedBy(h.reveal)
	case *fyne.Container:
		for _, child := range c.Objects {
			adopt(child, h)
		}
	}
}

func isEnter(n fyne.KeyName) bool { return n == fyne.KeyReturn || n == fyne.KeyEnter }
