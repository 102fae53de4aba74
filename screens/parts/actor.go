package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// actor is the base of the parts that take the focus and the pointer.
type actor struct{ part }

// FocusGained implements fyne.Focusable.
func (a *actor) FocusGained() { a.focus(true) }

// FocusLost implements fyne.Focusable.
func (a *actor) FocusLost() { a.focus(false) }

// TypedRune implements fyne.Focusable.
func (a *actor) TypedRune(rune) {}

// MouseIn implements desktop.Hoverable.
func (a *actor) MouseIn(*desktop.MouseEvent) { a.hover(true) }

// MouseMoved implements desktop.Hoverable.
func (a *actor) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (a *actor) MouseOut() { a.hover(false) }

// Cursor implements desktop.Cursorable.
func (a *actor) Cursor() desktop.Cursor { return desktop.PointerCursor }

// hoverAlpha is the opacity of what is laid over a control under the pointer.
const hoverAlpha = 0x14 // judgement: as the theme lays over Fyne's own controls

// leastTarget is the least height and width of what can be tapped.
// Source: WCAG 2.2, success criterion 2.5.8.
const leastTarget = 24

var (
	_ desktop.Hoverable  = (*actor)(nil)
	_ desktop.Cursorable = (*actor)(nil)
	_ fyne.Focusable     = (*Button)(nil)
)
