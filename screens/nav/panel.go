package nav

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

var severities = map[care.Severity]parts.Severity{care.Danger: parts.Danger, care.Warning: parts.Warning, care.Caution: parts.Caution, care.Notice: parts.Notice}

// Panel is a safety note as its panel shows it.
func Panel(n present.Note) parts.SafetySpec {
	return parts.SafetySpec{Severity: severities[n.Severity], Word: n.Signal, Hazard: n.Hazard, Consequence: n.Consequence, Avoidance: []string{n.Avoid}, Aside: n.Unreviewed}
}

var states = map[working.State]parts.State{working.Steady: parts.Steady, working.Wait: parts.Wait, working.Act: parts.Act}

// State is a state as the parts show it.
func State(s working.State) parts.State { return states[s] }

// WorkingParts lays a trail out line by line, each part led by its heading.
func WorkingParts(t i18n.TrailText) []parts.WorkingPart {
	out := []parts.WorkingPart{{Heading: t.Question, Note: t.Strength}}
	for _, part := range t.Parts {
		for i, l := range part.Lines {
			wp := parts.WorkingPart{Name: l.Text, Equation: l.Equation, Filled: l.Filled, Value: l.Value, Note: l.Note}
			if i == 0 {
				wp.Heading = part.Heading
			}
			out = append(out, wp)
		}
	}
	return out
}

// Working is one trail as a disclosure shows it.
func Working(d Deps, t *working.Trail) parts.WorkingSpec {
	w := d.Present.W
	return parts.WorkingSpec{Show: w.T("working.heading", nil), Hide: w.T("working.hide", nil), Copy: w.T("page.fill.copy", nil), Parts: WorkingParts(w.Trail(t))}
}

// CopyWorking puts a working on the clipboard and says so.
func CopyWorking(d Deps) func(text string) {
	return func(text string) {
		fyne.CurrentApp().Clipboard().SetContent(text)
		d.Say(d.Present.W.T("page.fill.copied", nil), "", nil)
	}
}
