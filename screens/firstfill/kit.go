package firstfill

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// kit is the list with a tick, a reason and a price for each thing.
func (p *Page) kit() []fyne.CanvasObject {
	if len(p.shown.Kit) == 0 {
		return nil
	}
	w := p.deps.Present.W
	out := []fyne.CanvasObject{p.text("kit", w.T("page.fill.list", nil), parts.Section)}
	for _, k := range p.shown.Kit {
		out = append(out, p.kitRow(k))
	}
	save, ok := p.made.rest["save-list"].(*parts.Button)
	if !ok {
		save = parts.NewButton(parts.ButtonSpec{}, nil)
		p.made.rest["save-list"] = save
	}
	save.OnPressed = func() { p.deps.Print("kit-list", p.tank) }
	save.Set(parts.ButtonSpec{ID: "save-list", Label: w.T("page.fill.save_list", nil)})
	return append(out, save)
}

func (p *Page) kitRow(k present.KitRow) fyne.CanvasObject {
	spec := parts.KitRowSpec{ID: k.ID, Have: k.Owned, Bare: p.is, Name: k.Name, Size: k.Size, Why: k.Why, Price: k.Price.Text, Unit: k.Price.Unit, Refuse: k.Price.Error}
	if k.Word != "" {
		spec.State, spec.Word = nav.State(k.State), k.Word
	}
	row, ok := p.made.kit[k.ID]
	if !ok {
		row = parts.NewKitRow(spec)
		have, cost := k.Have, k.Cost
		row.OnHave = func(yes bool) {
			option := ""
			if yes {
				option = care.Ticked
			}
			p.choose(have, option)
		}
		row.OnPrice = func(text string) { p.commit(cost, text) }
		p.made.kit[k.ID] = row
	}
	row.Set(spec)
	return row
}
