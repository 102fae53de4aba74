package scene

import "fyne.io/fyne/v2"

// WindowKey hands a key that belongs to the whole window to it, whatever has the
// focus: F1, for the safety notes. It reports whether ev was one. What takes the
// focus asks it first.
func WindowKey(o fyne.CanvasObject, ev *fyne.KeyEvent) bool {
	if ev.Name != fyne.KeyF1 {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	if c == nil || c.OnTypedKey() == nil {
		return false
	}
	c.OnTypedKey()(ev)
	return true
}
