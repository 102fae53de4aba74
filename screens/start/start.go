// Package start is the first page: three ways on, and the tanks there are.
package start

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// Page is the first page.
type Page struct {
	deps    nav.Deps
	example func(context.Context) (string, error)
	profile func()
	root    *fyne.Container
	scroll  *parts.Scroller
	begin   *parts.Button
}

var _ nav.Page = (*Page)(nil)

// New makes the page. example makes the example tank, profile asks for a
// starter profile.
func New(d nav.Deps, example func(context.Context) (string, error), profile func()) *Page {
	p := &Page{deps: d, example: example, profile: profile, scroll: parts.NewScroller(18)}
	p.begin = parts.NewButton(parts.ButtonSpec{ID: "begin", Kind: parts.Primary, Label: p.t("page.start.begin")}, p.start)
	p.root = container.New(middle{}, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *Page) Focus() {
	p.deps.Focus(p.begin)
}

func (p *Page) t(key working.Key) string { return p.deps.Present.W.T(key, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	text := func(key working.Key, role parts.Role) fyne.CanvasObject {
		return parts.NewText(parts.TextSpec{Text: p.t(key), Role: role})
	}
	out := []fyne.CanvasObject{parts.NewSpace(24), parts.NewColumn(2, text("page.start.heading", parts.Heading), text("page.start.purpose", parts.SoftBody))}
	tanks, err := p.deps.Keeper.Tanks(context.Background())
	if err != nil {
		p.deps.Fail(err)
	}
	if len(tanks) > 0 {
		list := []fyne.CanvasObject{}
		for _, t := range tanks {
			open := parts.NewButton(parts.ButtonSpec{ID: "tank-" + t.ID, Label: p.deps.Present.TankName(t)}, func() {
				p.deps.Go(nav.Route{Place: nav.Today, Tank: t.ID})
			})
			v, err := p.deps.Keeper.Today(context.Background(), t.ID)
			if err != nil {
				p.deps.Fail(err)
				list = append(list, open)
				continue
			}
			st := p.deps.Present.TankState(v)
			if st.Word == "" {
				list = append(list, parts.NewColumn(2, open, parts.NewText(parts.TextSpec{Text: st.Text, Role: parts.Note})))
				continue
			}
			list = append(list, parts.NewColumn(2, open, parts.NewStated(nav.State(st.State), st.Word, st.Text)))
		}
		out = append(out, parts.NewPanel(p.t("page.start.go_on"), parts.NewColumn(10, list...)))
	}
	way := func(title, why working.Key, b *parts.Button) fyne.CanvasObject {
		return parts.NewPanel(p.t(title), parts.NewText(parts.TextSpec{Text: p.t(why), Role: parts.Body}), parts.NewFlow(b))
	}
	out = append(out,
		way("page.start.begin", "page.start.begin_why", p.begin),
		way("page.start.profile", "page.start.profile_why", p.deps.Button("profile", "page.start.profile_go", parts.Secondary, p.profile)),
		way("page.start.example", "page.start.example_why", p.deps.Button("example", "page.start.example_go", parts.Secondary, p.look)),
		way("page.start.kinds", "page.start.kinds_why", p.deps.Button("kinds", "page.start.kinds_go", parts.Secondary, func() { p.deps.Go(nav.Route{Place: nav.Kinds}) })),
		text("page.start.privacy", parts.Note), parts.NewSpace(16))
	p.scroll.Column().Set(out...)
}

func (p *Page) start() {
	var id string
	p.deps.Work(func(ctx context.Context) (err error) {
		id, err = p.deps.Keeper.StartTank(ctx, p.t("page.start.tank_name"), p.deps.Present.W.System())
		return err
	}, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.deps.Go(nav.Route{Place: nav.FirstFill, Tank: id})
	})
}

func (p *Page) look() {
	var id string
	p.deps.Work(func(ctx context.Context) (err error) { id, err = p.example(ctx); return err }, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.deps.Go(nav.Route{Place: nav.Today, Tank: id})
	})
}

// middle keeps the column at a width that reads well.
type middle struct{}

const readable = 640 // points. Judgement: about 75 letters a line

func (middle) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }

func (middle) Layout(o []fyne.CanvasObject, s fyne.Size) {
	w := fyne.Min(s.Width-40, readable)
	for _, x := range o {
		x.Move(fyne.NewPos((s.Width-w)/2, 0))
		x.Resize(fyne.NewSize(w, s.Height))
	}
}
