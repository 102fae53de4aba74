package kinds

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// Together is whether all in a tank and in its plan get on and have room.
type Together struct {
	deps   nav.Deps
	tank   string
	root   *fyne.Container
	side   *side
	scroll *parts.Scroller
	choose *parts.Button
	shown  present.GetOn
}

var _ nav.Page = (*Together)(nil)

// NewTogether makes the page of a tank.
func NewTogether(d nav.Deps, tank string) *Together {
	p := &Together{deps: d, tank: tank, side: newSide(d, tank), scroll: parts.NewScroller(12)}
	p.choose = p.deps.Button("choose", "page.together.choose", parts.Secondary, func() { d.Go(nav.Route{Place: nav.Kinds, Tank: tank}) })
	p.root = container.New(nav.Beside{}, p.side.root, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Together) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *Together) Focus() {
	p.deps.Focus(p.choose)
}

// Key acts on a key typed while nothing has the focus.
func (p *Together) Key(ev *fyne.KeyEvent) bool { return p.scroll.Key(ev) }

// Shown is what stands on the page.
func (p *Together) Shown() present.GetOn { return p.shown }

func (p *Together) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Together) Refresh() {
	head := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("page.together.heading"), parts.Heading), parts.TextOf(p.t("page.together.purpose"), parts.SoftBody)),
		nav.ViewRow(p.deps, p.tank, nav.Together)}
	g, err := p.deps.Keeper.GetOn(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		p.side.show(nil)
		p.scroll.Column().Set(append(head, parts.TextOf(p.t("page.kinds.no_size"), parts.Body), parts.NewFlow(p.choose))...)
		return
	}
	p.shown = p.deps.Present.GetOn(g)
	p.side.show(topBars(p.shown))
	s := p.shown
	out := append(head, parts.NewVerdict(parts.VerdictSpec{State: nav.State(s.Head.State), Title: s.Head.Word + " · " + s.Head.Title, Lines: s.Head.Lines}), parts.NewFlow(p.choose))
	if len(g.Lots) > 0 {
		out = append(out, p.clashes()...)
		out = append(out, p.instead()...)
	}
	out = append(out, p.many()...)
	if len(g.Lots) > 0 {
		out = append(out, p.who()...)
	}
	p.scroll.Column().Set(append(out, parts.NewSpace(16))...)
}

func (p *Together) clashes() []fyne.CanvasObject {
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.together.clashes"), parts.Section)}
	for _, c := range p.shown.Clashes {
		out = append(out, clashCard(c))
	}
	if len(p.shown.Clashes) == 0 {
		out = append(out, parts.TextOf(p.t("page.together.no_clash"), parts.Body))
	}
	if len(p.shown.Hints) > 0 {
		out = append(out, parts.TextOf(p.t("page.together.hints"), parts.StrongBody))
		for _, c := range p.shown.Hints {
			out = append(out, clashCard(c))
		}
	}
	return out
}

func (p *Together) instead() []fyne.CanvasObject {
	if len(p.shown.Instead) == 0 {
		return nil
	}
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.together.instead"), parts.Section)}
	for _, i := range p.shown.Instead {
		out = append(out, parts.TextOf(i.Of, parts.StrongBody))
		for _, k := range i.Kinds {
			out = append(out, openCard(p.deps, p.tank, k))
		}
	}
	return out
}

// many is how full the tank is: every limit with its working, the governing first,
// the familiar rule beside them.
func (p *Together) many() []fyne.CanvasObject {
	s := p.shown
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.together.many"), parts.Section), parts.NewVerdict(parts.VerdictSpec{State: nav.State(s.Room.State), Title: s.Room.Title, Lines: s.Room.Lines})}
	limit := func(b present.Bar, t *working.Trail) fyne.CanvasObject {
		w := parts.NewWorking(nav.Working(p.deps, t))
		w.OnCopy = nav.CopyWorking(p.deps)
		return parts.NewColumn(2, bar(b), parts.TextOf(b.Detail, parts.Note), w)
	}
	for i, b := range s.Bars {
		out = append(out, limit(b, s.Trails[i]))
	}
	cross := []fyne.CanvasObject{parts.TextOf(s.CrossIs, parts.Body), limit(s.Cross, s.Trails[len(s.Trails)-1])}
	if s.Fails != "" {
		cross = append(cross, parts.TextOf(s.Fails, parts.Body))
	}
	out = append(out, parts.NewPanel("", cross...))
	if len(s.Stock) > 0 {
		levels := []fyne.CanvasObject{parts.TextOf(p.t("page.together.levels"), parts.StrongBody)}
		for _, l := range s.Levels {
			levels = append(levels, bar(l))
		}
		out = append(out, parts.NewColumn(6, levels...))
	}
	return out
}

// who lists what is judged.
func (p *Together) who() []fyne.CanvasObject {
	var rows []fyne.CanvasObject
	for _, l := range p.shown.Stock {
		rows = append(rows, parts.NewFigure(parts.FigureSpec{Name: l.Name, Value: p.deps.Present.W.T("page.together.line", i18n.Args{"Count": l.Count, "Sizes": l.Sizes})}))
	}
	return []fyne.CanvasObject{parts.TextOf(p.t("page.together.who"), parts.Section), parts.NewColumn(6, rows...)}
}
