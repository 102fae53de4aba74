package firstfill

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// ways lead from the page of the first fish to the catalogue and to the plan, from
// which its kind and number come.
func (p *Page) ways() []fyne.CanvasObject {
	if p.step != care.FirstFish || p.is {
		return nil
	}
	kinds := p.way("from-kinds", "page.plan.from_kinds", nav.Kinds)
	plan := p.way("from-plan", "page.plan.from_plan", nav.Plan)
	row, ok := p.made.rest["ways"]
	if !ok {
		row = parts.NewFlow(kinds, plan)
		p.made.rest["ways"] = row
	}
	return []fyne.CanvasObject{row}
}

func (p *Page) way(id string, label working.Key, to nav.Place) *parts.Button {
	b, ok := p.made.rest[id].(*parts.Button)
	if !ok {
		b = parts.NewButton(parts.ButtonSpec{}, nil)
		p.made.rest[id] = b
	}
	b.OnPressed = func() { p.deps.Go(nav.Route{Place: to, Tank: p.tank}) }
	b.Set(parts.ButtonSpec{ID: id, Label: p.deps.Present.W.T(label, nil)})
	return b
}
