package nav

import (
	"errors"

	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
)

// Retired reports whether something was refused because its tank is out of use: no
// box is at fault, and Fail offers to take it into use again.
func Retired(err error) bool {
	var r *working.Refusal
	return errors.As(err, &r) && r.Code == "refuse.keeper.retired"
}

// ToFault puts the keyboard into the first of the boxes that says what was
// refused, which brings both into view, and reports whether there is one.
func ToFault(d Deps, boxes ...*parts.Field) bool {
	for _, b := range boxes {
		if b == nil || b.Spec().Error == "" {
			continue
		}
		d.Focus(b.Focusable())
		return true
	}
	return false
}
