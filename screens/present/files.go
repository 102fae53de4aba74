package present

import (
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/claim"
)

// Files says what a double click on one of our files does.
func (p Presenter) Files(s claim.State) string {
	switch {
	case s.Made:
		return p.W.T("page.files.made", nil)
	case s.Some:
		return p.W.T("page.files.other", nil)
	}
	return p.W.T("page.files.not", nil)
}

// FilesPlaces says what is written for it, or would be.
func (p Presenter) FilesPlaces(s claim.State) string {
	return p.W.T("page.files.places", i18n.Args{"Places": strings.Join(s.Places, ", ")})
}
