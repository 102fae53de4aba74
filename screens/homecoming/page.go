package homecoming

import (
	"context"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// onPaper is the card of the home-coming on paper.
const onPaper = "home-coming"

// Page is the bags of a tank that are on their way.
type Page struct {
	deps    nav.Deps
	tank    string
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller
	add     *parts.Button
	paper   *parts.Button

	views []keeper.BagView
	shown []present.Bag
	cards map[string]*card
	early *parts.VerdictSpec // why the tank is not ready for animals; nil where it is
}

var (
	_ nav.Page   = (*Page)(nil)
	_ nav.Ticker = (*Page)(nil)
)

// New makes the page of a tank.
func New(d nav.Deps, tank string) *Page {
	p := &Page{deps: d, tank: tank, drawing: nav.NewDrawing(d, tank), scroll: parts.NewScroller(12), cards: map[string]*card{}}
	p.add = parts.NewButton(parts.ButtonSpec{}, func() { p.edit("", keeper.BagAsk{}) })
	p.paper = p.deps.Button("bag-paper", "page.bag.paper", parts.Secondary, func() { d.Print(onPaper, tank) })
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Shown is what the page says of each bag.
func (p *Page) Shown() []present.Bag { return p.shown }

// Focus implements nav.Page: the first step to do, else the button for a bag.
func (p *Page) Focus() {
	c := p.deps.Canvas()
	if c == nil {
		return
	}
	for _, v := range p.views {
		if k := p.cards[v.ID]; k != nil && k.ticks[v.Now] != nil {
			c.Focus(k.ticks[v.Now])
			return
		}
	}
	c.Focus(p.add)
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	views, err := p.deps.Keeper.Bags(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.views, p.shown = views, nil
	for _, v := range views {
		p.shown = append(p.shown, p.deps.Present.Bag(v, p.deps.Now()))
	}
	p.draw()
	kind := parts.Primary
	if len(views) > 0 {
		kind = parts.Secondary
	}
	p.add.Set(parts.ButtonSpec{ID: "bag-add", Label: p.t("page.bag.add"), Kind: kind})
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("nav.view.homecoming"), parts.Heading), parts.TextOf(p.t("page.bag.purpose"), parts.SoftBody)),
		nav.ViewRow(p.deps, p.tank, nav.HomeComing)}
	if len(views) == 0 {
		if p.early != nil {
			out = append(out, parts.NewVerdict(*p.early))
		}
		out = append(out, parts.TextOf(p.t("page.bag.empty"), parts.Body), parts.NewFlow(p.add))
	} else {
		out = append(out, parts.NewFlow(p.add, p.paper))
	}
	kept := map[string]*card{}
	for i, v := range views {
		k := p.cards[v.ID]
		if k == nil {
			k = newCard(p, v.ID)
		}
		kept[v.ID] = k
		k.show(v, p.shown[i])
		out = append(out, k.panel)
	}
	p.cards = kept
	p.scroll.Column().Set(append(out, parts.NewSpace(8))...)
}

// Tick implements nav.Ticker: the waits count down.
func (p *Page) Tick(now time.Time) {
	for i, v := range p.views {
		was := p.shown[i]
		p.deps.Keeper.Follow(v.Timer)
		b := p.deps.Present.Bag(v, now)
		p.shown[i] = b
		if k := p.cards[v.ID]; k != nil {
			k.tick(v, b)
			if b.State != was.State { // the wait is over
				k.show(v, b)
			}
		}
	}
}

// draw shows the tank with a bag afloat while one is.
func (p *Page) draw() {
	v, _, err := p.deps.Keeper.FirstFill(context.Background(), p.tank, care.HomeComing)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.early = nil
	if v.Page.State == care.Shut {
		spec := parts.VerdictSpec{State: parts.Wait, Title: p.t("page.bag.too_early")}
		for _, f := range v.Page.Waits {
			spec.Lines = append(spec.Lines, p.deps.Present.Say(f))
		}
		p.early = &spec
	}
	c := v.Picture
	c.Bag = c.Bag && v.Current == care.HomeComing && len(p.views) == 0
	for _, b := range p.views {
		_, in := b.Done[care.BagMove]
		if x, err := b.Ask.Volume.Value(); err == nil && b.Plan.Way != care.BagDrips && !in {
			c.Bag, c.BagVolume, c.FishCount = true, quantity.Volume(x.X), b.Count
			break
		}
	}
	p.drawing.Show(c, true)
}

// change makes a change, says so and gives the way back.
func (p *Page) change(job func(context.Context) error, said working.Key) {
	p.deps.Work(job, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			p.Refresh()
			return
		}
		if said != "" {
			nav.Did(p.deps, p.tank, said, p.Refresh)
			return
		}
		p.deps.Changed()
		p.Refresh()
	})
}
