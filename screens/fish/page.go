package fish

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// Page is what lives in a tank.
type Page struct {
	deps    nav.Deps
	tank    string
	fish    string // to open at once
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller
	first   *parts.Button

	all   []keeper.Living
	shown present.Stock
}

var _ nav.Page = (*Page)(nil)

// New makes the page of a tank, at a fish where one is given.
func New(d nav.Deps, tank, fish string) *Page {
	p := &Page{deps: d, tank: tank, fish: fish, drawing: nav.NewDrawing(d, tank), scroll: parts.NewScroller(12)}
	p.first = parts.NewButton(parts.ButtonSpec{ID: "came", Label: p.t("page.stock.came"), Kind: parts.Primary}, func() {
		d.Go(nav.Route{Place: nav.Daybook, Tank: tank, Write: "fish_in"})
	})
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Shown is what the page says.
func (p *Page) Shown() present.Stock { return p.shown }

// Focus implements nav.Page.
func (p *Page) Focus() {
	if c := p.deps.Canvas(); c != nil {
		c.Focus(p.first)
	}
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

func text(words string, role parts.Role) fyne.CanvasObject {
	return parts.NewText(parts.TextSpec{Text: words, Role: role})
}

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	ctx := context.Background()
	fit, err := p.deps.Keeper.Fit(ctx, p.tank)
	if err != nil {
		p.deps.Fail(err)
	}
	p.all, p.shown = fit.Stock, p.deps.Present.Stock(fit)
	p.draw()
	out := []fyne.CanvasObject{parts.NewColumn(2, text(p.t("nav.fish"), parts.Heading), text(p.shown.Tank, parts.SoftBody)),
		nav.ViewRow(p.deps, p.tank, nav.Fish)}
	if v := p.shown.Verdict; v != nil {
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: nav.State(v.State), Title: v.Title, Lines: v.Lines}))
	}
	out = append(out, parts.NewFlow(p.first))
	if len(p.shown.Rows) == 0 {
		out = append(out, text(p.t("page.stock.empty"), parts.SoftBody))
	} else {
		out = append(out, parts.NewDayHeading(p.shown.Total))
	}
	for _, r := range p.shown.Rows {
		out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: "fish-" + r.ID, Time: r.Count, Kind: r.Name, Text: r.Scientific + " " + r.Length, Note: r.Since, Even: true}, nil))
	}
	p.scroll.Column().Set(append(out, parts.NewSpace(8))...)
}

func (p *Page) draw() {
	v, _, err := p.deps.Keeper.FirstFill(context.Background(), p.tank, care.HomeComing)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	c := v.Picture
	c.Bag = c.Bag && v.Current == care.HomeComing
	p.drawing.Show(c, true)
}
