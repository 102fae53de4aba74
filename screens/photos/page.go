package photos

import (
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
)

// New opens the place: the wall, or the pictures that the route names.
func New(d nav.Deps, r nav.Route) nav.Page {
	if r.Photos != "" {
		ids := strings.Split(r.Photos, ",")
		return newBench(d, r, ids[:min(len(ids), Most)])
	}
	return newWall(d, r.Tank, r.Entry, r.Fish)
}

// Most is how many pictures can be open side by side. Judgement: more are too
// small to be compared.
const Most = 4

// common is what both pages have.
type common struct {
	deps nav.Deps
	tank string
}

func (c common) t(k working.Key) string { return c.deps.Present.W.T(k, nil) }

func (c common) focus(f fyne.Focusable) {
	if cv := c.deps.Canvas(); cv != nil {
		cv.Focus(f)
	}
}
