package nav

import (
	"example.org/driploop/i18n"
	"example.org/driploop/screens/parts"
)

// WorkingParts lays the trail out line by line, each part led by its heading.
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
