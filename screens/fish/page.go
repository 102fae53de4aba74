package fish

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// Page is what lives in a tank, or one fish or group of it.
type Page struct {
	deps    nav.Deps
	tank    string
	id      string // of the fish; empty lists them
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller
	first   *parts.Button

	all      []keeper.Living
	shown    present.Stock
	every    bool // all rows are shown
	parted   bool // those that live here no more are shown
	pictures *nav.Pictured
	panel    *form // the last that was opened
}

var (
	_ nav.Page    = (*Page)(nil)
	_ nav.Dropper = (*Page)(nil)
)

// New makes the page of a tank, or of a fish where one is given.
func New(d nav.Deps, tank, id string) *Page {
	p := &Page{deps: d, tank: tank, id: id, drawing: nav.NewDrawing(d, tank), scroll: parts.NewScroller(12)}
	p.first = parts.NewButton(parts.ButtonSpec{}, nil)
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	if id != "" {
		p.pictures = nav.NewPictured(d, tank, keeper.AddOptions{Fish: id})
	}
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Shown is what the page says.
func (p *Page) Shown() present.Stock { return p.shown }

// Focus implements nav.Page.
func (p *Page) Focus() {
	p.deps.Focus(p.first)
}

// Dropped implements nav.Dropper: pictures go with what is being written, or else
// into the album of the fish.
func (p *Page) Dropped(paths []string) bool {
	switch {
	case p.panel != nil && p.panel.pictures != nil && p.deps.Showing(p.panel.column):
		p.panel.pictures.Add(paths)
	case p.pictures != nil:
		p.pictures.Add(paths)
	default:
		return false
	}
	return true
}

// Write opens the form for animals that come in or leave.
func (p *Page) Write(kind journal.Kind) {
	switch kind {
	case journal.FishIn:
		p.arrive(nil)
	case journal.FishOut:
		p.leave("")
	}
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	fit, err := p.deps.Keeper.Fit(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
	}
	p.all, p.shown = fit.Stock, p.deps.Present.Stock(fit)
	if err := p.drawing.ShowTank(); err != nil {
		p.deps.Fail(err)
	}
	if p.id != "" {
		p.one()
		return
	}
	p.list()
}

func (p *Page) done(said working.Key) {
	nav.Did(p.deps, p.tank, said, p.Refresh)
	p.Focus()
}

// living is a fish of the page.
func (p *Page) living(id string) (keeper.Living, bool) {
	for _, l := range p.all {
		if l.ID == id {
			return l, true
		}
	}
	return keeper.Living{}, false
}
