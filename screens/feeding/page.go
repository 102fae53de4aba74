package feeding

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// Page is how a tank is fed.
type Page struct {
	deps    nav.Deps
	tank    string
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller
	first   []*parts.Button // how a meal ended
	begin   []*parts.Button // what to do first where nobody lives
	basis   *basis
	open    bool // the working

	view  keeper.Feeding
	shown present.Feeding
}

var _ nav.Page = (*Page)(nil)

// ends are the words for what a meal left over, with their buttons.
var ends = []struct {
	word  string
	label working.Key
}{{"none", "page.feed.none"}, {"some", "page.feed.some"}, {"much", "page.feed.much"}}

// New makes the page of a tank.
func New(d nav.Deps, tank string) *Page {
	p := &Page{deps: d, tank: tank, drawing: nav.NewDrawing(d, tank), scroll: parts.NewScroller(12)}
	for _, e := range ends {
		p.first = append(p.first, p.deps.Button("fed-"+e.word, e.label, parts.Secondary, func() { p.fed(e.word) }))
	}
	p.first = append(p.first, p.deps.Button("fed-full", "page.feed.other", parts.Quiet, func() { d.Go(nav.Route{Place: nav.Daybook, Tank: tank, Write: journal.Fed}) }))
	p.begin = []*parts.Button{
		p.deps.Button("plan", "page.feed.to_plan", parts.Primary, func() { d.Go(nav.Route{Place: nav.Plan, Tank: tank}) }),
		p.deps.Button("stock", "page.feed.to_stock", parts.Secondary, func() { d.Go(nav.Route{Place: nav.Fish, Tank: tank}) }),
	}
	p.basis = newBasis(p)
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Shown is what the page says.
func (p *Page) Shown() present.Feeding { return p.shown }

// Focus implements nav.Page.
func (p *Page) Focus() {
	if c := p.deps.Canvas(); c == nil {
		return
	} else if p.empty() {
		c.Focus(p.begin[0])
	} else {
		c.Focus(p.first[0])
	}
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	ctx := context.Background()
	v, err := p.deps.Keeper.Feeding(ctx, p.tank)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.view, p.shown = v, p.deps.Present.Feeding(v)
	_ = p.drawing.ShowTank() // Feeding has read the same record
	p.basis.show(v.Basis, v.FromShop)
	p.scroll.Column().Set(p.content()...)
}

// empty reports whether nobody is in the stock.
func (p *Page) empty() bool { return len(p.view.Kinds) == 0 && p.shown.Unknown == "" }

func (p *Page) content() []fyne.CanvasObject {
	s := p.shown
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("nav.view.feeding"), parts.Heading), parts.TextOf(p.t("page.feed.purpose"), parts.SoftBody)),
		nav.ViewRow(p.deps, p.tank, nav.Feeding)}
	if p.empty() { // nobody to feed: what goes here, and what to do first
		out = append(out, parts.TextOf(p.t("page.feed.nobody"), parts.Body), parts.NewFlow(p.begin[0], p.begin[1]))
		out = append(out, p.meals()...)
		out = append(out, p.pinches()...)
		return append(append(out, p.basis.parts()...), parts.NewSpace(8))
	}
	switch {
	case s.Refused != "":
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: parts.Wait, Title: s.Refused}))
	default:
		out = append(out, parts.NewNumber(parts.NumberSpec{Name: s.Number.Name, Number: s.Number.Value, Beside: s.Number.Beside}))
		for _, h := range s.Habits {
			out = append(out, parts.TextOf(h, parts.Body))
		}
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: nav.State(s.Verdict.State), Title: s.Verdict.Title, Lines: s.Verdict.Lines}))
	}
	now := []fyne.CanvasObject{}
	for _, b := range p.first {
		now = append(now, b)
	}
	out = append(out, parts.TextOf(p.t("page.feed.now"), parts.Section), parts.TextOf(p.t("page.feed.now_note"), parts.SoftBody), parts.NewFlow(now...))
	if len(s.Water) > 0 {
		out = append(out, parts.TextOf(p.t("page.feed.water"), parts.Section))
		for _, l := range s.Water {
			out = append(out, parts.NewFigure(parts.FigureSpec{Name: l.Name, Value: l.Value, Note: l.Note}))
		}
	}
	out = append(out, p.kinds()...)
	out = append(out, p.given()...)
	out = append(out, p.meals()...)
	out = append(out, p.pinches()...)
	out = append(out, p.basis.parts()...)
	out = append(out, p.trails()...)
	out = append(out, nav.Cautions(p.deps, care.AtFeeding)...)
	return append(out, parts.NewSpace(8))
}

func (p *Page) kinds() []fyne.CanvasObject {
	if len(p.shown.Kinds) == 0 && p.shown.Unknown == "" {
		return nil
	}
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.feed.kinds"), parts.Section)}
	for _, k := range p.shown.Kinds {
		about := k.Food
		if about != "" {
			about = p.deps.Present.W.Comma(about, k.Stage)
		}
		column := []fyne.CanvasObject{}
		if about != "" {
			column = append(column, parts.TextOf(about, parts.Note))
		}
		for _, f := range k.Foods {
			column = append(column, parts.TextOf(f, parts.Body))
		}
		out = append(out, parts.NewPanel(k.Name, column...))
	}
	if p.shown.Unknown != "" {
		out = append(out, parts.TextOf(p.shown.Unknown, parts.Note))
	}
	return out
}

func (p *Page) meals() []fyne.CanvasObject {
	if len(p.shown.Meals) == 0 {
		return nil
	}
	out := []fyne.CanvasObject{parts.NewDayHeading(p.t("page.feed.last"))}
	for _, m := range p.shown.Meals {
		out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: "meal-" + m.ID, Kind: m.When, Text: m.Food, Note: m.Left, State: nav.State(m.State), Even: true, Two: true},
			func() { p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Entry: m.ID}) }))
	}
	return out
}

func (p *Page) trails() []fyne.CanvasObject {
	if len(p.shown.Trails) == 0 {
		return nil
	}
	spec := parts.WorkingSpec{Show: p.t("working.heading"), Hide: p.t("working.hide"), Copy: p.t("page.fill.copy"), Open: p.open}
	for _, t := range p.shown.Trails {
		spec.Parts = append(spec.Parts, nav.WorkingParts(t)...)
	}
	w := parts.NewWorking(spec)
	w.OnOpened = func(open bool) { p.open = open }
	w.OnCopy = nav.CopyWorking(p.deps)
	return []fyne.CanvasObject{w}
}

// fed writes a meal of the ration with how it ended.
func (p *Page) fed(left string) {
	p.change(func(ctx context.Context) error {
		rs, err := p.deps.Keeper.Prefill(ctx, p.tank, journal.Fed)
		if err != nil {
			return err
		}
		_, err = p.deps.Keeper.AddEntry(ctx, p.tank, journal.Entry{Kind: journal.Fed, Readings: append(rs, journal.Said(journal.NameLeft, left))})
		return err
	}, "page.feed.fed")
}

// change makes a change, says so and gives the way back.
func (p *Page) change(job func(context.Context) error, said working.Key) {
	nav.Change(p.deps, p.tank, job, said, p.Refresh)
}

func (p *Page) say(k working.Key, args i18n.Args) string { return p.deps.Present.W.T(k, args) }
