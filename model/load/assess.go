package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Answer is a reply to a yes-or-no question. The zero value is "not known",
// which keeps the verdict from steady wherever the answer matters.
type Answer string

// The answers.
const (
	Unknown Answer = ""
	Yes     Answer = "yes"
	No      Answer = "no"
)

// Assessment is the verdict on a stand, a floor or the glass.
type Assessment struct {
	State working.State `json:"state"`
	// Checks holds every limit that was looked at, the governing one first.
	Checks []working.Check `json:"checks"`
	// Findings say what decided the state, where no check can: an unknown
	// input, a missing back panel, furniture without a rating.
	Findings []working.Finding `json:"findings,omitempty"`
	// Cures are changes that were computed to bring the use below 0.7, or that
	// remove a finding.
	Cures []working.Finding `json:"cures,omitempty"`
	// Cautions are said whatever the verdict is.
	Cautions []working.Finding `json:"cautions,omitempty"`
	// Feet are the reactions under the stand, for the drawing; only of stands.
	Feet []Foot `json:"feet,omitempty"`
	// Total is the weight on the floor: tank and stand, upper mass.
	Total quantity.Force `json:"total,omitempty"`
}

// Foot is one foot of a stand. X runs from the left, Y from the front.
type Foot struct {
	X     quantity.Length `json:"x"`
	Y     quantity.Length `json:"y"`
	Force quantity.Force  `json:"force"`   // all feet bearing
	Rocks quantity.Force  `json:"rocking"` // two diagonal feet bearing
}

// Governing returns the check that decides, and false when there is none.
func (a Assessment) Governing() (working.Check, bool) {
	if len(a.Checks) == 0 {
		return working.Check{}, false
	}
	return a.Checks[0], true
}
