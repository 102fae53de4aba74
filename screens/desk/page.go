package desk

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	visits "example.org/driploop/model/desk"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// shownAtOnce is how many slips the list shows before it is asked for more. Judgement:
// a Saturday of a shop.
const shownAtOnce = 40

// Page is the list of the slips on the desk.
type Page struct {
	deps   nav.Deps
	tank   string // of the shop's own, which the bar goes back to
	root   *fyne.Container
	scroll *parts.Scroller

	search *parts.Field
	open   *parts.Tick
	take   *parts.Button
	list   *parts.Column
	state  *parts.Text

	query  visits.Query
	shown  []visits.Visit
	asking int // which question the answer is awaited of
}

var _ nav.Page = (*Page)(nil)

// New makes the page.
func New(d nav.Deps, tank string) *Page {
	p := &Page{deps: d, tank: tank, scroll: parts.NewScroller(12), list: parts.NewColumn(8), state: parts.NewText(parts.TextSpec{Role: parts.SoftBody})}
	p.search = parts.NewField(parts.FieldSpec{ID: "search", Label: p.t("page.desk.search")})
	p.search.OnChanged = func(words string) { p.query.Words = words; p.ask() }
	p.open = parts.NewTick(parts.TickSpec{ID: "open", Text: p.t("page.desk.only_open")}, nil)
	p.open.OnToggled = func(only bool) {
		s := p.open.Spec()
		s.Done = only
		p.open.Set(s)
		p.query.Open = only
		p.ask()
	}
	p.take = parts.NewButton(parts.ButtonSpec{ID: "receive", Label: p.t("page.desk.receive"), Kind: parts.Primary}, func() { d.ReceiveVisits(nil, p.Refresh) })
	p.scroll.Column().Set(parts.NewSpace(8),
		parts.NewColumn(2, parts.TextOf(p.t("nav.view.desk"), parts.Heading), parts.TextOf(p.t("page.desk.purpose"), parts.SoftBody)),
		nav.ViewRow(d, tank, nav.Desk), parts.NewFlow(p.take), parts.NewRow(p.search, p.open), p.state, p.list, parts.NewSpace(12))
	p.root = container.New(nav.Middle{}, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *Page) Focus() {
	if c := p.deps.Canvas(); c != nil {
		c.Focus(p.search.Focusable())
	}
}

// Refresh implements nav.Page.
func (p *Page) Refresh() { p.ask() }

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// ask lists anew, from the top.
func (p *Page) ask() { p.more(nil) }

// more lists what comes after the slip given. An answer to a question that was asked
// before another one is left alone.
func (p *Page) more(after *visits.Visit) {
	p.asking++
	n, q := p.asking, p.query
	q.After, q.Limit = after, shownAtOnce
	var page []visits.Visit
	var all, open int
	var where string
	var err error
	p.deps.Aside(func(ctx context.Context) {
		if where, _, err = p.deps.Keeper.DeskWhere(ctx); err != nil {
			return
		}
		if page, err = p.deps.Keeper.DeskVisits(ctx, q); err == nil {
			all, open, err = p.deps.Keeper.DeskCount(ctx)
		}
	}, func() {
		if n != p.asking {
			return
		}
		if err != nil {
			p.state.Set(parts.TextSpec{Text: p.deps.Present.Error(err), Role: parts.Refusal})
			return
		}
		if after == nil {
			p.shown = nil
		}
		p.shown = append(p.shown, page...)
		p.show(len(page) == shownAtOnce, p.count(all, open, where))
	})
}

// count says how many slips there are, and where the desk is when it is not here.
func (p *Page) count(all, open int, where string) string {
	w := p.deps.Present.W
	if all == 0 {
		return p.t("page.desk.empty")
	}
	s := w.T("page.desk.count", i18n.Args{"Slips": w.N("n.slips", float64(all), nil), "Open": w.Number(float64(open), 9)})
	if where != "" {
		s = w.T("page.desk.where", i18n.Args{"Count": s, "Where": where})
	}
	return s
}

func (p *Page) show(more bool, count string) {
	p.state.Set(parts.TextSpec{Text: count, Role: parts.SoftBody})
	var out []fyne.CanvasObject
	for _, v := range p.shown {
		s := p.deps.Present.DeskLine(v)
		state, word := parts.Steady, p.t("page.desk.done")
		if s.Open {
			state, word = parts.Wait, p.t("page.desk.waits")
		}
		out = append(out, parts.NewOpenCard(parts.CardSpec{ID: "slip-" + v.ID, Title: s.Title, Lines: []string{s.About, s.Beside}, State: state, Word: word},
			func() { p.deps.Go(nav.Route{Place: nav.Desk, Tank: p.tank, Slip: v.ID}) }))
	}
	if len(p.shown) == 0 && (p.query.Words != "" || p.query.Open) {
		out = append(out, parts.TextOf(p.t("page.desk.none_found"), parts.Body))
	}
	if more {
		last := p.shown[len(p.shown)-1]
		out = append(out, parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "more", Label: p.t("page.desk.more")}, func() { p.more(&last) })))
	}
	p.list.Set(out...)
}
