package counter

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/elevation"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// Page is the catalogue with the card of the shop.
type Page struct {
	deps   nav.Deps
	tank   string // of the shop's own, which the bar goes back to
	root   *fyne.Container
	scroll *parts.Scroller
	first  *parts.Button
	cards  []keeper.ProfileCard
}

var _ nav.Page = (*Page)(nil)

// New makes the page.
func New(d nav.Deps, tank string) *Page {
	p := &Page{deps: d, tank: tank, scroll: parts.NewScroller(12)}
	p.first = p.deps.Button("new", "page.counter.new", parts.Primary, p.begin)
	p.root = container.New(nav.Middle{}, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *Page) Focus() {
	p.deps.Focus(p.first)
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	cards, err := p.deps.Keeper.Profiles(context.Background())
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.cards = cards
	out := []fyne.CanvasObject{parts.NewSpace(8), parts.NewColumn(2, parts.TextOf(p.t("nav.counter"), parts.Heading), parts.TextOf(p.t("page.counter.purpose"), parts.SoftBody))}
	if len(nav.Views(nav.Counter)) > 1 {
		out = append(out, nav.ViewRow(p.deps, p.tank, nav.Counter))
	}
	out = append(out, p.shop(), parts.TextOf(p.t("page.counter.catalogue"), parts.Section), parts.NewFlow(p.adds()...))
	if len(cards) == 0 {
		out = append(out, parts.TextOf(p.t("page.counter.empty"), parts.Body))
	}
	for _, c := range cards {
		out = append(out, p.card(c))
	}
	out = append(out, nav.Cautions(p.deps, care.AtCounter)...)
	p.scroll.Column().Set(append(out, parts.NewSpace(12))...)
}

func (p *Page) adds() []fyne.CanvasObject {
	out := []fyne.CanvasObject{p.first}
	if tanks, err := p.deps.Keeper.Tanks(context.Background()); err == nil && len(tanks) > 0 {
		out = append(out, p.deps.Button("of-tank", "page.counter.of_tank", parts.Secondary, func() { p.fromTank(tanks) }))
	}
	return out
}

// The drawing on a card, in points. Judgement: the tank on its stand can be told.
const (
	sketchWide = 132
	sketchHigh = 116
)

// card is a profile with its drawing and the two ways to hand it out at once.
func (p *Page) card(c keeper.ProfileCard) fyne.CanvasObject {
	s := p.deps.Present.ProfileCard(c)
	spec := parts.CardSpec{ID: "profile-" + c.Tank.ID, Sketch: sketch(p.deps, c.Picture), Title: s.Name, Under: s.Size, Facts: s.Facts, State: nav.State(s.State), Word: s.Word, Lines: s.Lines}
	return parts.NewColumn(4, parts.NewOpenCard(spec, func() { p.open(c.Tank.ID) }),
		parts.NewFlow(p.deps.Button("file-"+c.Tank.ID, "page.counter.file", parts.Secondary, func() { p.deps.HandFile(c.Tank.ID, p.Refresh) }),
			p.deps.Button("sheet-"+c.Tank.ID, "page.counter.sheet", parts.Secondary, func() { p.deps.HandSheets(c.Tank.ID, []string{""}, p.Refresh) }),
			p.deps.Button("open-"+c.Tank.ID, "page.counter.open", parts.Quiet, func() { p.open(c.Tank.ID) })))
}

func sketch(d nav.Deps, c care.Picture) parts.Sketch {
	spec := elevation.From(c, elevation.Labels{}, d.Present.Mass)
	spec.Compact = true
	spec.Room.W, spec.Room.H = sketchWide, sketchHigh
	return parts.Sketch{Scene: elevation.Build(spec), W: sketchWide, H: sketchHigh, Fitted: true}
}

func (p *Page) open(id string) {
	p.deps.Go(nav.Route{Place: nav.Counter, Tank: p.tank, Profile: id})
}

// begin makes a profile from nothing and opens its first step.
func (p *Page) begin() {
	p.name("page.counter.new", p.t("page.counter.new_name"), func(ctx context.Context, name string) (string, error) {
		return p.deps.Keeper.StartProfile(ctx, name, p.deps.Present.W.System())
	}, func(id string) {
		p.deps.Go(nav.Route{Place: nav.Draft, Tank: p.tank, Profile: id, Step: care.TankPlace})
	})
}

// fromTank asks which tank a profile is made of.
func (p *Page) fromTank(tanks []keeper.Tank) {
	var shut func()
	var rows []fyne.CanvasObject
	for _, t := range tanks {
		rows = append(rows, parts.NewButton(parts.ButtonSpec{ID: "from-" + t.ID, Label: p.deps.Present.TankName(t)}, func() {
			shut()
			p.copyOf(t.ID, t.Name)
		}))
	}
	shut = p.deps.Dialog(p.t("page.counter.of_tank"), parts.NewColumn(8, append([]fyne.CanvasObject{parts.TextOf(p.t("page.counter.of_tank_why"), parts.SoftBody)}, rows...)...),
		parts.NewFlow(p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
}

func (p *Page) copyOf(id, name string) {
	p.name("page.counter.copy", name, func(ctx context.Context, name string) (string, error) {
		return p.deps.Keeper.DraftFrom(ctx, id, name)
	}, p.open)
}

// name asks for a name and makes a profile of it.
func (p *Page) name(title working.Key, proposed string, do func(context.Context, string) (string, error), then func(id string)) {
	askName(p.deps, title, proposed, func(ctx context.Context, name string) (func(), error) {
		id, err := do(ctx, name)
		return func() {
			p.deps.Changed()
			then(id)
		}, err
	})
}

// askName asks for the name of a profile; do makes of it what is done then, on the
// window's thread, with the panel closed.
func askName(d nav.Deps, title working.Key, proposed string, do func(context.Context, string) (then func(), err error)) {
	w := d.Present.W
	f := parts.NewField(parts.FieldSpec{ID: "name", Label: w.T("page.counter.name", nil), Text: proposed})
	var shut func()
	keep := func() {
		name := f.Text()
		var then func()
		d.Work(func(ctx context.Context) (err error) { then, err = do(ctx, name); return err }, func(err error) {
			if words, ok := w.Problem(err); err != nil && ok {
				nav.Fault(f, words)
				nav.ToFault(d, f)
				return
			}
			shut()
			if err != nil {
				d.Fail(err)
				return
			}
			then()
		})
	}
	f.OnEnter = keep
	shut = d.Dialog(w.T(title, nil), f, parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "keep", Label: w.T("page.day.keep", nil), Kind: parts.Primary}, keep),
		parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: w.T("label.cancel", nil)}, func() { shut() })))
	d.Focus(f.Focusable())
}

// remove puts a profile aside and says so, with the way back.
func remove(d nav.Deps, tank, id, name string) {
	d.Work(func(ctx context.Context) error { return d.Keeper.RemoveProfile(ctx, id) }, func(err error) {
		if err != nil {
			d.Fail(err)
			return
		}
		back := nav.Route{Place: nav.Counter, Tank: tank}
		d.Go(back)
		d.Changed()
		w := d.Present.W
		d.Say(w.T("menu.removed", i18n.Args{"Name": name}), w.T("label.undo", nil), func() {
			nav.TakeBack(d, "", func() { d.Go(back) })
		})
	})
}
