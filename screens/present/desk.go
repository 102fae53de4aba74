package present

import (
	"slices"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/desk"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
)

// VisitSaid is what the list of the desk shows of a visit slip and what finds it
// there, in this shop's words.
func (p Presenter) VisitSaid(v slip.Visit) keeper.VisitSaid {
	x := p.Visit(v)
	said := keeper.VisitSaid{About: x.Beside}
	switch {
	case x.Case != nil:
		said.About = x.Case.Heading
	case len(v.Questions) > 0:
		said.About = slip.OneLine(v.Questions[0])
	}
	var words []string
	for _, row := range slices.Concat(x.Stock, x.Wishes) {
		words = append(words, row.Name)
	}
	words = append(words, v.Questions...)
	if x.Case != nil {
		words = append(words, x.Case.Note)
		for _, s := range x.Case.Signs {
			words = append(words, s.Text)
		}
	}
	for _, e := range v.Entries {
		words = append(words, e.Note)
	}
	said.About, said.Words = clipped(said.About), clipped(strings.Join(words, "\n"))
	return said
}

// clipped is a text cut to what the desk keeps of one, at the end of a character.
func clipped(s string) string {
	if len(s) <= desk.MaxText {
		return s
	}
	return strings.ToValidUTF8(s[:desk.MaxText], "")
}

// DeskLine is a slip in the list of the desk.
type DeskLine struct {
	Title  string // whose it is
	About  string
	Beside string // when it came, at which counter, whether it was answered
	Open   bool   // no reply was written
}

// DeskLine presents a slip on the desk.
func (p Presenter) DeskLine(v desk.Visit) DeskLine {
	out := DeskLine{Title: v.Label, About: v.About, Open: v.Answered.IsZero()}
	if out.Title == "" {
		out.Title = p.W.T("page.visit.unnamed", nil)
	}
	beside := []string{p.W.T("page.desk.received", i18n.Args{"Time": p.W.DateTime(v.Received.Local())})}
	if v.Counter != "" {
		beside = append(beside, p.W.T("page.desk.at", i18n.Args{"Counter": v.Counter}))
	}
	if out.Open {
		beside = append(beside, p.W.T("page.desk.open", nil))
	} else {
		beside = append(beside, p.W.T("page.desk.answered", i18n.Args{"Time": p.W.DateTime(v.Answered.Local())}))
	}
	out.Beside = strings.Join(beside, " · ")
	return out
}
