package visit

import (
	"errors"

	"example.org/driploop/model/working"
)

// field is the box that a refusal is about.
func field(err error) string {
	var r *working.Refusal
	if errors.As(err, &r) {
		return r.Field
	}
	return ""
}
