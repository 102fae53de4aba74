package sick

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// Page is the cases of a tank, or one of them.
type Page struct {
	deps    nav.Deps
	tank    string
	id      string // of the case; empty lists them
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller

	view  keeper.CaseView
	shown present.Case

	ticking bool // the whole list of signs is open
	ticks   map[string]*parts.Tick
	buttons map[string]*parts.Button
	search  *parts.Field
	note    *parts.Field
	about   *parts.Field
	who     *parts.Choice
	many    *parts.Choice

	photos []keeper.Photo
}

var (
	_ nav.Page    = (*Page)(nil)
	_ nav.Dropper = (*Page)(nil)
)

// New makes the page of a tank's cases, or of one case where its id is given.
func New(d nav.Deps, tank, id string) *Page {
	p := &Page{deps: d, tank: tank, id: id, drawing: nav.NewDrawing(d, tank), scroll: parts.NewScroller(12), ticks: map[string]*parts.Tick{},
		buttons: map[string]*parts.Button{}}
	p.search = parts.NewField(parts.FieldSpec{ID: "sign-search", Label: p.t("page.sick.search"), Placeholder: p.t("page.sick.search_eg")})
	p.search.OnChanged = func(string) { p.lay() }
	p.search.OnEnter = func() {}
	p.note = p.newNote()
	p.about = parts.NewField(parts.FieldSpec{ID: "case-about", Label: p.t("page.sick.about"), Placeholder: p.t("page.sick.about_eg")})
	p.about.OnEnter = p.open
	p.who, p.many = parts.NewChoice(parts.ChoiceSpec{}, nil), parts.NewChoice(parts.ChoiceSpec{}, nil)
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	p.ticking = id != "" && p.view.Case.Open() && len(p.shown.Seen) == 0
	p.lay()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Shown is the case as it stands on the page.
func (p *Page) Shown() present.Case { return p.shown }

// Focus implements nav.Page.
func (p *Page) Focus() {
	c := p.deps.Canvas()
	switch {
	case c == nil:
	case p.id == "":
		c.Focus(p.who)
	case p.ticking:
		c.Focus(p.search.Focusable())
	case !p.shown.Open:
		c.Focus(p.button("reopen", "", parts.Secondary, nil))
	default:
		c.Focus(p.button("add-pictures", "", parts.Secondary, nil))
	}
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	ctx := context.Background()
	_ = p.drawing.ShowTank() // what fails, fails below too, and is told there
	if p.id != "" {
		if err := p.read(ctx); err != nil { // the case was deleted, or its opening taken back
			p.deps.Fail(err)
			p.id, p.ticking = "", false
		}
	}
	p.lay()
}

// read asks the keeper for the case.
func (p *Page) read(ctx context.Context) error {
	v, err := p.deps.Keeper.Case(ctx, p.tank, p.id)
	if err != nil {
		return err
	}
	var own []string
	for _, e := range v.Entries {
		own = append(own, e.ID)
	}
	judged, err := p.deps.Keeper.JudgeOf(ctx, p.tank, own...)
	if err != nil {
		return err
	}
	if p.photos, err = p.deps.Keeper.Photos(ctx, p.tank, keeper.PhotoFilter{Sick: p.id}); err != nil {
		return err
	}
	p.view, p.shown = v, p.deps.Present.Case(v, judged)
	return nil
}

// lay puts the parts on the page. Parts that act are kept from one laying to the
// next, so that the focus stays where it is.
func (p *Page) lay() {
	switch {
	case p.id == "":
		p.scroll.Column().Set(p.list()...)
	case p.ticking:
		p.scroll.Column().Set(p.signs()...)
	default:
		p.scroll.Column().Set(p.whole()...)
	}
}

// button gives the button of an id, the same one each time.
func (p *Page) button(id, label string, kind parts.ButtonKind, do func()) *parts.Button {
	b, ok := p.buttons[id]
	if !ok {
		b = parts.NewButton(parts.ButtonSpec{ID: id}, nil)
		p.buttons[id] = b
	}
	if do != nil {
		b.Set(parts.ButtonSpec{ID: id, Label: label, Kind: kind})
		b.OnPressed = do
	}
	return b
}

// do asks the keeper for a change and shows what comes of it; said is told with
// the way back.
func (p *Page) do(job func(context.Context) error, said working.Key, then func()) {
	p.deps.Work(job, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			p.Refresh() // a tick that was not kept goes back
			return
		}
		p.deps.Changed()
		p.Refresh()
		if then != nil {
			then()
		}
		if said != "" {
			p.deps.Say(p.t(said), p.t("label.undo"), p.undo)
		}
	})
}

func (p *Page) undo() { nav.TakeBack(p.deps, p.tank, p.Refresh) }
