package counter

import (
	"errors"

	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// fieldOf is the field that an error is about, "" where it is about none.
func fieldOf(err error) string {
	var e *slip.Error
	if errors.As(err, &e) && e.Place != "" {
		return e.Place
	}
	var r *working.Refusal
	if errors.As(err, &r) {
		return r.Field
	}
	return ""
}
