// Package today is the page of today: the one thing to do next, how the water
// stands, what was done last, and the tank as it now is.
package today

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// Page is the page of today.
type Page struct {
	deps    nav.Deps
	tank    string
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller
	next    *parts.Button
}

var _ nav.Page = (*Page)(nil)

// New makes the page of a tank.
func New(d nav.Deps, tank string) *Page {
	p := &Page{deps: d, tank: tank, drawing: nav.NewDrawing(d, tank), scroll: parts.NewScroller(16)}
	p.next = parts.NewButton(parts.ButtonSpec{}, nil)
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *Page) Focus() {
	p.deps.Focus(p.next)
}

// PaintAhead implements nav.Painter.
func (p *Page) PaintAhead() { p.drawing.PaintAhead() }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	t, err := p.deps.Keeper.Today(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.drawing.Show(t.Picture, true)
	w, s := p.deps.Present.W, p.deps.Present.Today(t)
	text := func(words string, role parts.Role) fyne.CanvasObject {
		return parts.NewText(parts.TextSpec{Text: words, Role: role})
	}
	out := []fyne.CanvasObject{parts.NewColumn(2, text(s.Heading, parts.Heading), text(s.Beside, parts.SoftBody))}
	if !t.Tank.Retired.IsZero() {
		out = append(out, text(w.T("page.tanks.retired_on", i18n.Args{"Date": w.ShortDate(t.Tank.Retired)}), parts.Note))
	}
	if t.Tank.Origin == keeper.Example {
		out = append(out, text(w.T("page.example", nil), parts.Note))
	}
	v := parts.NewVerdict(parts.VerdictSpec{Kicker: w.T("page.today.next", nil), State: nav.State(s.Next.State), Title: s.Next.Title, Lines: s.Next.Lines})
	p.next.Set(parts.ButtonSpec{ID: "next", Label: s.Next.Go, Kind: parts.Primary})
	p.next.OnPressed = func() {
		if t.Next.All {
			p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank})
			return
		}
		p.deps.Go(nav.Route{Place: nav.FirstFill, Tank: p.tank, Step: s.Next.Step})
	}
	out = append(out, v, parts.NewFlow(p.next))
	out = append(out, p.bags(t)...)
	for _, l := range t.Losses {
		out = append(out, nav.EarlyLoss(p.deps, p.tank, l))
	}
	out = append(out, p.cases(t)...)
	taken := p.rounds(t.Day)
	out = append(out, taken...)
	if shop := nav.HandedBy(p.deps, p.tank, len(taken) == 0 && t.Tank.Retired.IsZero()); shop != nil {
		out = append(out, shop)
	}
	if len(s.Facts) > 0 {
		out = append(out, text(w.T("page.today.water", nil), parts.Section))
		if s.Water != nil {
			out = append(out, parts.NewVerdict(parts.VerdictSpec{State: nav.State(s.Water.State), Title: s.Water.Title, Lines: s.Water.Lines}))
		}
		for _, f := range s.Facts {
			value := f.Value
			if f.Note != "" {
				if value != "" {
					value += " · "
				}
				value += f.Note
			}
			out = append(out, parts.NewFigure(parts.FigureSpec{Name: f.Name, Value: value}))
		}
	}
	out = append(out, parts.NewDayHeading(s.LastOf))
	for _, e := range s.Last {
		out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: e.ID, Time: e.Time, Kind: e.Kind, Text: e.Text}, func() {
			p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Entry: e.ID})
		}))
	}
	if s.Empty != "" {
		out = append(out, text(s.Empty, parts.SoftBody))
	}
	p.scroll.Column().Set(out...)
}

// bags are the bags on their way home, each with what to do now.
func (p *Page) bags(t keeper.Today) []fyne.CanvasObject {
	w := p.deps.Present.W
	var out []fyne.CanvasObject
	for _, v := range t.Bags {
		b := p.deps.Present.Bag(v, p.deps.Now())
		now := b.Now
		if b.Refused != "" {
			now = b.Refused
		}
		out = append(out, parts.NewErrand(parts.ErrandSpec{State: nav.State(b.State), Title: w.T("page.today.bag", i18n.Args{"Name": b.Name}), Text: now},
			parts.NewButton(parts.ButtonSpec{ID: "bag-" + v.ID, Label: w.T("page.today.bag_go", nil)}, func() {
				p.deps.Go(nav.Route{Place: nav.HomeComing, Tank: p.tank})
			})))
	}
	return out
}

// cases are the fish that look wrong, with what to look at again today, and the
// way to one more.
func (p *Page) cases(t keeper.Today) []fyne.CanvasObject {
	w := p.deps.Present.W
	var out []fyne.CanvasObject
	var buttons []fyne.CanvasObject
	for _, c := range t.Cases {
		who := p.deps.Present.About(c)
		spec := parts.VerdictSpec{Kicker: p.deps.Present.CaseBeside(c), State: parts.Wait, Title: w.T("page.sick.remind", i18n.Args{"Who": who})}
		if c.Looked {
			spec.State, spec.Title = parts.Steady, w.T("page.sick.looked", i18n.Args{"Who": who})
		}
		out = append(out, parts.NewVerdict(spec))
		buttons = append(buttons, parts.NewButton(parts.ButtonSpec{ID: "case-" + c.ID, Label: w.T("page.sick.go", i18n.Args{"Who": who})}, func() {
			p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank, Case: c.ID})
		}))
	}
	buttons = append(buttons, parts.NewButton(parts.ButtonSpec{ID: "sick", Label: w.T("page.sick.button", nil)}, func() {
		p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank})
	}))
	return append(out, parts.NewFlow(buttons...))
}
