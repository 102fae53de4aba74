package nav

import "example.org/driploop/screens/parts"

// ToFault puts the keyboard into the first of the boxes that says what was
// refused, which brings both into view, and reports whether there is one.
func ToFault(d Deps, boxes ...*parts.Field) bool {
	for _, b := range boxes {
		if b == nil || b.Spec().Error == "" {
			continue
		}
		if c := d.Canvas(); c != nil {
			c.Focus(b.Focusable())
		}
		return true
	}
	return false
}
