package present

import (
	"slices"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/working"
)

// Said is an answer of First fill where it stands apart from its page.
type Said struct {
	Field      care.FieldID // the first of those that it tells
	Step       care.Step
	Name, Text string
}

// labels are the fields of a bottle's label: how much for how much water. They are
// told in one, as neither says anything alone, and there are two bottles.
var labels = map[care.FieldID]care.FieldID{"dose.amount": "dose.per", "bacteria.amount": "bacteria.per"}

// priced marks the field of a kit item's price: see kit.ITEM among the messages.
const priced = ".price"

// Answers are answers in the order of First fill, each with a name that no other has at
// its step.
func (p Presenter) Answers(by map[care.FieldID]care.Answer) []Said {
	var out []Said
	told := map[care.FieldID]bool{}
	for _, f := range care.Fields() {
		a, ok := by[f.ID]
		if !ok || told[f.ID] {
			continue
		}
		s := Said{Field: f.ID, Step: f.Step, Name: p.W.T(f.Label(), nil), Text: p.answer(f, a)}
		if item, ok := strings.CutSuffix(string(f.ID), priced); ok {
			s.Name += " (" + p.W.T(working.Key(item), nil) + ")"
		}
		if per, ok := labels[f.ID]; ok {
			s.Name = p.W.T(working.Key("group."+f.Group), nil)
			if of, ok := care.FieldOf(per); ok && !by[per].IsZero() {
				s.Text, told[per] = s.Text+" / "+p.answer(of, by[per]), true
			}
		}
		out = append(out, s)
	}
	return out
}

// AnswersAt are those of a step.
func (p Presenter) AnswersAt(step care.Step, by map[care.FieldID]care.Answer) []Said {
	return slices.DeleteFunc(p.Answers(by), func(s Said) bool { return s.Step != step })
}

// Line is the answer as a line.
func (s Said) Line(w *i18n.Words) string {
	return w.T("page.start.profile_line", i18n.Args{"Field": s.Name, "Value": s.Text})
}
