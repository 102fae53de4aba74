package nav

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
)

// Button gives a button that says a message.
func (d Deps) Button(id string, label working.Key, kind parts.ButtonKind, pressed func()) *parts.Button {
	return parts.NewButton(parts.ButtonSpec{ID: id, Label: d.Present.W.T(label, nil), Kind: kind}, pressed)
}

// Focus puts the keyboard on f where the window is there to have one.
func (d Deps) Focus(f fyne.Focusable) {
	if c := d.Canvas(); c != nil {
		c.Focus(f)
	}
}
