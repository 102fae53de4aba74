package nav

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/parts"
)

// ViewRow is the row of buttons that goes between the views of a place of the
// bar. A page of the daybook or of the fish shows it below its heading.
func ViewRow(d Deps, tank string, current Place) fyne.CanvasObject {
	var row []fyne.CanvasObject
	for _, p := range Views(current.InBar()) {
		spec := parts.ButtonSpec{ID: "view_" + string(p), Label: d.Present.ViewName(string(p)), Kind: parts.View}
		if p == current {
			spec.Kind = parts.ViewHere
		}
		row = append(row, parts.NewButton(spec, func() { d.Go(Route{Place: p, Tank: tank}) }))
	}
	return parts.NewFlow(row...)
}
