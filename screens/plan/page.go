package plan

import (
	"cmp"
	"context"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/weeks"
)

// Page is the plan of a tank.
type Page struct {
	deps    nav.Deps
	tank    string
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller
	add     *parts.Choice // a kind to wish for
	when    *weeks.View
	rows    []*row
	steps   []fyne.CanvasObject // the panel of each step
	start   fyne.Focusable

	view  keeper.FishPlan
	shown present.Plan
}

var _ nav.Page = (*Page)(nil)

// New makes the page of a tank.
func New(d nav.Deps, tank string) *Page {
	p := &Page{deps: d, tank: tank, drawing: nav.NewDrawing(d, tank), scroll: parts.NewScroller(12)}
	p.add = parts.NewChoice(parts.ChoiceSpec{}, p.wish)
	p.when = weeks.NewView(weeks.Spec{})
	p.when.OnStep = func(n int) {
		if n < len(p.steps) {
			p.scroll.Reveal(p.steps[n])
		}
	}
	p.start = p.add
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Shown is what the page says.
func (p *Page) Shown() present.Plan { return p.shown }

// Focus implements nav.Page.
func (p *Page) Focus() {
	p.deps.Focus(p.start)
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	v, err := p.deps.Keeper.FishPlan(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.view, p.shown = v, p.deps.Present.Plan(v)
	if err := p.drawing.ShowTank(); err != nil {
		p.deps.Fail(err)
	}
	p.offer()
	p.start = p.add
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("page.plan.heading"), parts.Heading), parts.TextOf(p.shown.Tank, parts.SoftBody)), nav.ViewRow(p.deps, p.tank, nav.Plan)}
	if len(v.Wishes) == 0 {
		out = append(out, p.empty()...)
	} else {
		out = append(out, p.full()...)
	}
	p.scroll.Column().Set(append(out, parts.NewSpace(8))...)
}

// full is the page with wishes: the gate, the weeks, the wishes, the steps.
func (p *Page) full() []fyne.CanvasObject {
	g := p.shown.Gate
	out := []fyne.CanvasObject{parts.NewVerdict(parts.VerdictSpec{State: nav.State(g.State), Title: g.Title, Lines: append(g.Lines, p.shown.Filter.Title)})}
	if len(p.shown.Steps) > 0 {
		p.start = p.when.Focusable()
		p.when.Set(weeks.From(p.shown, p.deps.Present.W, false))
		out = append(out, parts.TextOf(p.t("page.plan.weeks"), parts.Section), parts.TextOf(p.shown.Done, parts.SoftBody), p.when)
	}
	out = append(out, parts.TextOf(p.t("page.plan.wishes"), parts.Section))
	out = append(out, p.wishes()...)
	out = append(out, p.add, p.catalogue())
	if len(p.shown.Steps) > 0 {
		out = append(out, parts.TextOf(p.t("page.plan.steps"), parts.Section), p.where())
		out = append(out, p.purchases()...)
		out = append(out, p.asks()...)
		out = append(out, parts.TextOf(p.t("page.plan.care"), parts.Note))
	} else {
		out = append(out, parts.TextOf(p.t("page.plan.none_fits"), parts.SoftBody))
		out = append(out, p.suits()...)
	}
	if t := p.shown.Trail; t != nil {
		work := parts.NewWorking(nav.Working(p.deps, t))
		work.OnCopy = nav.CopyWorking(p.deps)
		out = append(out, work)
	}
	return out
}

// empty is the page without wishes: what goes here, what would suit.
func (p *Page) empty() []fyne.CanvasObject {
	p.rows, p.steps = nil, nil
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.plan.empty"), parts.Body), p.add, p.catalogue()}
	return append(out, p.suits()...)
}

// catalogue leads to the kinds to choose from, and to whether all get on.
func (p *Page) catalogue() fyne.CanvasObject {
	return parts.NewFlow(p.deps.Button("catalogue", "page.plan.from_kinds", parts.Quiet, func() { p.deps.Go(nav.Route{Place: nav.Kinds, Tank: p.tank}) }),
		p.deps.Button("together", "page.plan.together", parts.Quiet, func() { p.deps.Go(nav.Route{Place: nav.Together, Tank: p.tank}) }))
}

// suggested is how many kinds are offered. Judgement.
const suggested = 6

// suits offers kinds that would suit the tank and its stock, each to wish for.
func (p *Page) suits() []fyne.CanvasObject {
	lots := p.view.Lots
	for _, w := range p.view.Wishes {
		if w.Verdict != fish.No {
			lots = append(lots, w.Lot())
		}
	}
	list, err := fish.Suggest(p.view.Home.Grown(), lots, "", 200)
	if err != nil || len(list) == 0 {
		return nil
	}
	slices.SortStableFunc(list, func(a, b fish.Suggestion) int { return cmp.Compare(rank(a), rank(b)) })
	list = list[:min(len(list), suggested)]
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.plan.suits"), parts.Section)}
	for i, s := range list {
		b := p.deps.Button("suit-"+string(s.Code), "page.plan.wish", parts.Secondary, func() { p.want(keeper.Wish{Species: s.Code, Count: s.Count}) })
		if i == 0 {
			p.start = b
		}
		out = append(out, parts.NewErrand(parts.ErrandSpec{State: nav.State(s.Finding.State), Title: p.deps.Present.KindName(s.Code), Text: p.deps.Present.Say(*s.Finding)}, b))
	}
	return out
}

// rank puts what swims before what creeps: who asks for company asks for fish.
func rank(s fish.Suggestion) int {
	if a, err := fish.Get(s.Code); err == nil && a.Swims() {
		return 0
	}
	return 1
}

// where chooses the quarantine.
func (p *Page) where() fyne.CanvasObject {
	w := p.deps.Present.W
	spec := parts.ChoiceSpec{ID: "quarantine", Label: p.t("field.fish.quarantine"), Chosen: string(p.shown.Way), Hint: p.shown.WaySay}
	for _, q := range fish.Quarantines() {
		spec.Options = append(spec.Options, parts.Option{Code: string(q), Label: w.T(working.Key("option.fish.quarantine."+string(q)), nil)})
	}
	return parts.NewChoice(spec, func(code string) {
		p.change(func(ctx context.Context) error {
			return p.deps.Keeper.SetQuarantine(ctx, p.tank, fish.Quarantine(code))
		}, "page.plan.changed")
	})
}

// change makes a change and says so, with the way back.
func (p *Page) change(job func(context.Context) error, said working.Key) {
	nav.Change(p.deps, p.tank, job, said, p.Refresh)
}
