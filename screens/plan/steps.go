package plan

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
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
		in = append(in, parts.TextOf(s.Buy, parts.Body))
	}
	for _, a := range s.Animals {
		in = append(in, parts.NewColumn(0, parts.TextOf(a.Text, parts.StrongBody), parts.TextOf(p.deps.Present.W.Stop(a.Scientific, a.Size), parts.SoftBody)))
	}
	for _, w := range append(s.Split, s.Waits...) {
		in = append(in, parts.TextOf(w, parts.Body))
	}
	in = append(in, parts.TextOf(s.Load, parts.Note))
	if i == 0 {
		in = append(in, parts.NewFlow(p.deps.Button("slip", "page.plan.slip", parts.Primary, func() { p.deps.Print(slip, p.tank) }),
			p.deps.Button("bought", "page.plan.bought", parts.Secondary, p.bought)))
	}
	return parts.NewPanel(s.Title, in...)
}

// bought puts the animals of the next step into bags, one for each kind, unless one
// of that kind is on its way, as one change, and goes on to where they come home.
func (p *Page) bought() {
	ctx := context.Background()
	bags, err := p.deps.Keeper.Bags(ctx, p.tank)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	var job []keeper.BagAsk
	for _, a := range p.shown.Steps[0].Animals {
		if slices.ContainsFunc(bags, func(b keeper.BagView) bool { return b.Ask.Species == string(a.Code) }) {
			continue
		}
		ask, err := p.deps.Keeper.BagDefaults(ctx, p.tank)
		if err != nil {
			p.deps.Fail(err)
			return
		}
		ask.Name, ask.Species, ask.Count = a.Name, string(a.Code), quantity.Of(float64(a.Count), "piece", 6)
		if a.Males != nil {
			ask.Males = quantity.Of(float64(*a.Males), "piece", 6)
		}
		job = append(job, ask)
	}
	p.deps.Work(func(ctx context.Context) error {
		_, err := p.deps.Keeper.OpenBags(ctx, p.tank, job)
		return err
	}, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.deps.Changed()
		p.deps.Go(nav.Route{Place: nav.HomeComing, Tank: p.tank})
	})
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
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.plan.ask"), parts.Section)}
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
