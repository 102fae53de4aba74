package nav

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/rounds"
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

// roundPlaces are the places of safety notes that a round leads to.
var roundPlaces = map[rounds.Code]care.Place{rounds.Change: care.AtChange, rounds.Filter: care.AtClean, rounds.Glass: care.AtClean, rounds.Gravel: care.AtClean,
	rounds.Protection: care.AtSwitch, rounds.Test: care.AtTest, rounds.TestKit: care.AtTest, rounds.Feed: care.AtFeeding}

// RoundPlaces are the places of safety notes that rounds lead to, in their order.
func RoundPlaces(codes ...rounds.Code) []care.Place {
	var out []care.Place
	for _, c := range codes {
		if p, ok := roundPlaces[c]; ok {
			out = append(out, p)
		}
	}
	return out
}

// EntryPlaces are the places of safety notes that writing an entry belongs to.
var EntryPlaces = map[journal.Kind]care.Place{journal.Changed: care.AtChange, journal.ToppedUp: care.AtChange, journal.Cleaned: care.AtClean, journal.Tested: care.AtTest, journal.Fed: care.AtFeeding}
