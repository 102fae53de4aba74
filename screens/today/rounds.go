package today

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// rounds are what is late and due, each to be done or skipped here, and the way
// to the rest. A tank that runs and has none is offered the usual ones.
func (p *Page) rounds(day int) []fyne.CanvasObject {
	v, err := p.deps.Keeper.Rounds(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		return nil
	}
	w := p.deps.Present.W
	button := func(id string, label working.Key, kind parts.ButtonKind, do func()) fyne.CanvasObject {
		return parts.NewButton(parts.ButtonSpec{ID: id, Label: w.T(label, nil), Kind: kind}, do)
	}
	all := func() { p.deps.Go(nav.Route{Place: nav.Rounds, Tank: p.tank}) }
	if len(v.All) == 0 {
		if day == 0 {
			return nil
		}
		return []fyne.CanvasObject{parts.NewErrand(parts.ErrandSpec{Title: w.T("page.rounds.none_title", nil), Text: w.T("page.rounds.none_text", nil)},
			button("rounds", "page.rounds.none_go", parts.Secondary, all))}
	}
	shown := p.deps.Present.Rounds(v, p.deps.Now())
	out := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: w.T("nav.rounds", nil), Role: parts.Section})}
	for _, d := range shown.Now {
		spec := parts.ErrandSpec{Title: d.Name, When: d.When, Text: d.Note}
		if d.Late {
			spec.State = parts.Wait
		}
		out = append(out, parts.NewErrand(spec,
			button("do-"+d.ID, "page.rounds.do", parts.Secondary, func() { nav.DoRound(p.deps, p.tank, d, nav.After(p.deps, p, p.tank, "page.rounds.did")) }),
			button("skip-"+d.ID, "page.rounds.skip", parts.Quiet, func() { nav.SkipRound(p.deps, p.tank, d, false, nav.After(p.deps, p, p.tank, "page.rounds.skipped")) })))
	}
	if len(shown.Now) == 0 {
		out = append(out, parts.NewText(parts.TextSpec{Text: w.T("page.rounds.nothing", nil), Role: parts.SoftBody}))
	}
	var later []string
	for _, d := range shown.Later {
		later = append(later, w.T("page.rounds.later_one", i18n.Args{"Name": d.Name, "Time": d.When}))
	}
	if len(later) > 0 {
		out = append(out, parts.NewText(parts.TextSpec{Text: w.T("page.rounds.later_line", i18n.Args{"Names": w.List(later)}), Role: parts.SoftBody}))
	}
	return append(out, parts.NewFlow(button("rounds", "page.rounds.see_all", parts.Quiet, all)))
}
