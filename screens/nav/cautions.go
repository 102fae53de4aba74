package nav

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/screens/parts"
)

// Cautions are the safety notes of places, each once and the gravest first, below
// their heading; none where the places have none.
func Cautions(d Deps, places ...care.Place) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, n := range care.NotesAt(places...) {
		if len(out) == 0 {
			out = append(out, parts.NewText(parts.TextSpec{Text: d.Present.W.T("page.fill.safety", nil), Role: parts.Section}))
		}
		out = append(out, parts.NewSafety(Panel(d.Present.Note(n)), nil))
	}
	return out
}

// EntryPlaces are the places of safety notes that writing an entry belongs to.
var EntryPlaces = map[journal.Kind]care.Place{journal.Changed: care.AtChange, journal.ToppedUp: care.AtChange, journal.Cleaned: care.AtClean, journal.Tested: care.AtTest, journal.Fed: care.AtFeeding}
