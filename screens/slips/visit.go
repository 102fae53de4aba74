package slips

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/trace"
)

// chartHeight is how tall a chart of a slip stands, in points, and mostCharts how many
// there are. Judgement: those that tell most, without a page of their own.
const (
	chartHeight = 150
	mostCharts  = 6
)

// Visit shows a visit slip that was opened, with what was found while reading it: the
// questions first, then what looks wrong, the tests and the rest.
func Visit(d nav.Deps, v slip.Visit, found []working.Finding) []fyne.CanvasObject {
	p := d.Present
	s := p.Visit(v)
	water, err := d.Keeper.VisitWater(context.Background(), v)
	if err != nil {
		d.Fail(err)
	}
	head := parts.NewColumn(2, parts.TextOf(s.Title, parts.Section), parts.TextOf(s.Beside, parts.SoftBody))
	out := []fyne.CanvasObject{head}
	for _, f := range found {
		out = append(out, parts.TextOf(p.Say(f), parts.Note))
	}
	for _, said := range []string{s.Holds, s.Apart} {
		if said != "" {
			out = append(out, parts.TextOf(said, parts.Note))
		}
	}
	if len(s.Questions) > 0 {
		var qs []fyne.CanvasObject
		for _, q := range s.Questions {
			qs = append(qs, parts.TextOf(q, parts.Body))
		}
		out = append(out, parts.NewPanel(p.VisitPart("questions"), qs...))
	}
	if c := s.Case; c != nil {
		out = append(out, parts.TextOf(p.VisitPart("case"), parts.Section), parts.NewColumn(2, parts.TextOf(c.Heading, parts.StrongBody), parts.TextOf(c.Beside, parts.SoftBody)))
		if c.Note != "" {
			out = append(out, parts.TextOf(c.Note, parts.Body))
		}
		for _, x := range c.Signs {
			out = append(out, parts.TextOf(p.W.T("paper.visit.sign", i18n.Args{"Sign": x.Text, "Since": x.When, "Until": x.Kind}), parts.Body))
		}
	}
	if len(v.Pictures) > 0 {
		out = append(out, parts.TextOf(p.VisitPart("pictures"), parts.Section), strip(d, v))
	}
	if tests := p.VisitTests(v, water.Judged); len(tests) > 0 {
		out = append(out, parts.TextOf(p.VisitPart("tests"), parts.Section))
		var charts []fyne.CanvasObject
		for _, x := range trace.Drawn(water.Traces, mostCharts) {
			c := chart.NewView(trace.One(p, x, v.From, v.To, look.Paper))
			c.SetMinSize(fyne.NewSize(240, chartHeight*float32(look.ScaleFor(head))))
			charts = append(charts, c)
		}
		if len(charts) > 0 {
			out = append(out, parts.NewRowOf(2, charts...))
		}
		for _, x := range tests {
			out = append(out, parts.NewEntryRow(parts.EntryRowSpec{Time: x.Time, Kind: x.Kind, Text: x.Text, Note: x.Note, State: nav.State(x.State)}, nil))
		}
	}
	if s.Stand.Word != "" {
		out = append(out, parts.NewStated(nav.State(s.Stand.State), s.Stand.Word, s.Stand.Title))
	}
	out = append(out, pairs(p, p.VisitPart("stock"), append(s.Stock, s.Wishes...))...)
	out = append(out, entries(p.VisitPart("feeding"), s.Feeding)...)
	out = append(out, entries(p.VisitPart("changes"), s.Changes)...)
	out = append(out, entries(p.VisitPart("others"), s.Others)...)
	return append(out, facts(p, s)...)
}

// facts are what is known of the tank, step by step of First fill.
func facts(p present.Presenter, s present.Visit) []fyne.CanvasObject {
	var rows []present.VisitRow
	if s.Net.Name != "" {
		rows = append(rows, s.Net)
	}
	if len(s.Facts) == 0 {
		return pairs(p, p.VisitPart("facts"), rows)
	}
	out := []fyne.CanvasObject{parts.TextOf(p.VisitPart("facts"), parts.Section)}
	for i, x := range s.Facts {
		rows = append(rows, present.VisitRow{Name: x.Name, Text: x.Text})
		if i+1 == len(s.Facts) || s.Facts[i+1].Step != x.Step {
			out = append(out, parts.NewColumn(2, parts.TextOf(p.StepName(x.Step), parts.StrongBody), lines(p, rows)))
			rows = nil
		}
	}
	return out
}

func entries(title string, es []present.VisitEntry) []fyne.CanvasObject {
	if len(es) == 0 {
		return nil
	}
	out := []fyne.CanvasObject{parts.TextOf(title, parts.Section)}
	for _, e := range es {
		out = append(out, parts.NewEntryRow(parts.EntryRowSpec{Time: e.When, Kind: e.Kind, Text: e.Text}, nil))
	}
	return out
}

// pairs are names with what they are, in two columns where there is room.
func pairs(p present.Presenter, title string, rows []present.VisitRow) []fyne.CanvasObject {
	if len(rows) == 0 {
		return nil
	}
	return []fyne.CanvasObject{parts.TextOf(title, parts.Section), lines(p, rows)}
}

func lines(p present.Presenter, rows []present.VisitRow) fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, r := range rows {
		out = append(out, parts.TextOf(p.W.T("paper.figure", i18n.Args{"Name": r.Name, "Value": r.Text}), parts.Body))
	}
	return parts.NewRowOf(2, out...)
}
