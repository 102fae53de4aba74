package photo

import (
	"errors"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Problem codes: why a picture cannot be taken or shown.
const (
	NotAFile      working.Key = "photo.problem.not_a_file"  // a folder, a device, a pipe
	Gone          working.Key = "photo.problem.gone"        // no file there, or not to be read
	Empty         working.Key = "photo.problem.empty"       // no byte in it
	TooBig        working.Key = "photo.problem.too_big"     // beyond Limits.Bytes
	NotAPicture   working.Key = "photo.problem.not_picture" // none of Formats by its content
	TooManyPixels working.Key = "photo.problem.too_many_pixels"
	OnePiece      working.Key = "photo.problem.one_piece"  // a HEIC coded in larger pieces than the memory allowed
	Unreadable    working.Key = "photo.problem.unreadable" // damaged, cut short, or of a kind the decoder lacks
	TooSlow       working.Key = "photo.problem.too_slow"   // beyond Limits.Time
	NotHeld       working.Key = "photo.problem.not_held"   // the original is missing from the data folder
	Changed       working.Key = "photo.problem.changed"    // the original is no longer what was kept
)

// Problem says why a picture cannot be taken or shown. It unwraps to a
// *working.Refusal of the same code, which has words in every language, and to
// its cause.
type Problem struct {
	Code   working.Key
	Values map[string]quantity.Value
	Err    error
}

// Error implements error for logs.
func (p *Problem) Error() string {
	s := "photo: " + string(p.Code)
	if p.Err != nil {
		s += ": " + p.Err.Error()
	}
	return s
}

// Unwrap gives the refusal for people and the cause.
func (p *Problem) Unwrap() []error {
	out := []error{&working.Refusal{Field: "photo", Code: p.Code, Values: p.Values}}
	if p.Err != nil {
		out = append(out, p.Err)
	}
	return out
}

// Kept reports whether a picture with this problem still has its place in the
// daybook, its original kept: it is a picture, but cannot be shown.
func (p *Problem) Kept() bool {
	return p.Code == TooManyPixels || p.Code == OnePiece || p.Code == Unreadable || p.Code == TooSlow
}

// ProblemOf finds the Problem in an error, nil where there is none.
func ProblemOf(err error) *Problem {
	var p *Problem
	if errors.As(err, &p) {
		return p
	}
	return nil
}

func problem(code working.Key, err error) *Problem { return &Problem{Code: code, Err: err} }
