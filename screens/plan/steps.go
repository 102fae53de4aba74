package plan

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// slip is the document of the next purchase, named as on the command line.
const slip = "stocking-plan"

// purchases are the panels of the steps, the next one first.
func (p *Page) purchases() []fyne.CanvasObject {
	p.steps = nil
	for i, s := range p.shown.Steps {
		p.steps = append(p.steps, p.purchase(i, s))
	}
	return p.steps
}

func (p *Page) purchase(i int, s present.PlanStep) fyne.CanvasObject {
	var in []fyne.CanvasObject
	in = append(in, parts.NewStated(nav.State(s.State), s.Word, s.When))
	if s.Buy != "" {
		in = append(in, text(s.Buy, parts.Body))
	}
	for _, a := range s.Animals {
		in = append(in, parts.NewColumn(0, text(a.Text, parts.StrongBody), text(a.Scientific+". "+a.Size, parts.SoftBody)))
	}
	for _, w := range append(s.Split, s.Waits...) {
		in = append(in, text(w, parts.Body))
	}
	in = append(in, text(s.Load, parts.Note))
	if i == 0 {
		in = append(in, parts.NewFlow(p.button("slip", "page.plan.slip", parts.Primary, func() { p.deps.Print(slip, p.tank) }),
			p.button("bought", "page.plan.bought", parts.Secondary, p.bought)))
	}
	return parts.NewPanel(s.Title, in...)
}

// bought goes on to where animals come home.
func (p *Page) bought() {
	p.deps.Go(nav.Route{Place: nav.FirstFill, Tank: p.tank, Step: care.HomeComing})
}

// asked are the questions for the shop, which First fill keeps.
var asked = []care.FieldID{"fish.ask_age", "fish.ask_eating", "fish.ask_water", "fish.ask_return"}

// asks is what to ask the shop, with boxes to tick.
func (p *Page) asks() []fyne.CanvasObject {
	v, _, err := p.deps.Keeper.FirstFill(context.Background(), p.tank, care.FirstFish)
	if err != nil {
		p.deps.Fail(err)
		return nil
	}
	out := []fyne.CanvasObject{text(p.t("page.plan.ask"), parts.Section)}
	set := map[care.FieldID]bool{}
	for _, t := range v.Page.Ticks {
		set[t.ID] = t.Set
	}
	for _, id := range asked {
		out = append(out, parts.NewTick(parts.TickSpec{ID: string(id), Text: p.deps.Present.Asked(id), Done: set[id]}, func(done bool) { p.tick(id, done) }))
	}
	return out
}

// tick keeps that a question was asked.
func (p *Page) tick(id care.FieldID, done bool) {
	e := keeper.Edit{Field: id}
	if done {
		e.Option = care.Ticked
	}
	p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.Set(ctx, p.tank, e) }, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.deps.Changed()
	})
}
