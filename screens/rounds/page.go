package rounds

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	model "example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// Page is the rounds of a tank.
type Page struct {
	deps    nav.Deps
	tank    string // or the starter profile whose care plan it is
	own     string // the shop's own tank then
	is      bool   // it is a care plan: nothing is due
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller
	first   *parts.Button  // adds a round, or takes the usual ones up
	start   fyne.Focusable // where work begins

	view  keeper.Rounds
	shown present.Rounds

	offering bool // the usual rounds are shown
	offer    *offer
}

var _ nav.Page = (*Page)(nil)

// New makes the page of a tank.
func New(d nav.Deps, tank string) *Page { return open(&Page{deps: d, tank: tank}) }

// NewPlan makes the page of the care plan of a starter profile; own is the shop's
// own tank.
func NewPlan(d nav.Deps, own, profile string) *Page {
	return open(&Page{deps: d, tank: profile, own: own, is: true})
}

func open(p *Page) *Page {
	p.drawing, p.scroll = nav.NewDrawing(p.deps, p.tank), parts.NewScroller(12)
	if p.is {
		p.drawing.OnTapped = nil
		p.scroll.Keys = parts.Keys{Back: p.leave}
	}
	p.first = parts.NewButton(parts.ButtonSpec{}, nil)
	p.start = p.first
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Shown is what the page says.
func (p *Page) Shown() present.Rounds { return p.shown }

// Focus implements nav.Page.
func (p *Page) Focus() {
	p.deps.Focus(p.start)
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	v, err := p.deps.Keeper.Rounds(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.view, p.shown = v, p.deps.Present.Rounds(v, p.deps.Now())
	if err := p.drawing.ShowTank(); err != nil {
		p.deps.Fail(err)
	}
	if len(v.All) == 0 {
		p.offering = true
	}
	if p.offering {
		p.scroll.Column().Set(p.offers()...)
		return
	}
	p.scroll.Column().Set(p.list()...)
}

// list is the page with rounds: what to do now, the days, all of them.
func (p *Page) list() []fyne.CanvasObject {
	p.first.Set(parts.ButtonSpec{ID: "add", Label: p.t("page.rounds.add")})
	p.first.OnPressed = func() { p.edit(model.Round{Code: model.Own, Rule: model.Weekly()}) }
	p.start = p.first
	if p.is {
		return p.plan()
	}
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("nav.rounds"), parts.Heading), parts.TextOf(p.t("page.rounds.purpose"), parts.SoftBody)),
		parts.NewFlow(p.first, p.deps.Button("usual", "page.rounds.usual", parts.Secondary, func() { p.offering = true; p.Refresh(); p.Focus() }),
			p.deps.Button("away", "page.rounds.away", parts.Secondary, func() { p.away(keeper.Away{}) }), p.deps.Button("calendar", "page.rounds.calendar", parts.Secondary, p.calendar))}
	out = append(out, parts.TextOf(p.t("page.rounds.now"), parts.Section))
	for _, d := range p.shown.Now {
		out = append(out, p.errand(d))
	}
	if len(p.shown.Now) == 0 {
		out = append(out, parts.TextOf(p.t("page.rounds.nothing"), parts.SoftBody))
	}
	var due []model.Code
	for _, d := range p.shown.Now {
		due = append(due, d.Code)
	}
	out = append(out, nav.Cautions(p.deps, present.RoundPlaces(due...)...)...)
	if len(p.shown.Later) > 0 {
		out = append(out, parts.NewDayHeading(p.t("page.rounds.later")))
		for _, d := range p.shown.Later {
			out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: "later-" + d.ID, Time: d.When, Kind: d.Name}, func() { p.open(d.ID) }))
		}
	}
	out = append(out, p.weekly()...)
	out = append(out, parts.TextOf(p.t("page.rounds.days"), parts.Section), p.strip())
	if p.shown.Daily != "" {
		out = append(out, parts.TextOf(p.shown.Daily, parts.Note))
	}
	out = append(out, p.aways()...)
	out = append(out, parts.NewDayHeading(p.t("page.rounds.all")))
	return append(append(out, p.all()...), parts.NewSpace(8))
}

// plan is the care plan of a starter profile.
func (p *Page) plan() []fyne.CanvasObject {
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("page.counter.plan"), parts.Heading), parts.TextOf(p.t("page.counter.plan_why"), parts.SoftBody)),
		parts.NewFlow(p.first, p.deps.Button("usual", "page.rounds.usual", parts.Secondary, func() { p.offering = true; p.Refresh(); p.Focus() }),
			p.deps.Button("back", "label.back", parts.Quiet, p.leave))}
	return append(append(out, p.all()...), parts.NewSpace(8))
}

// leave goes back to the starter profile.
func (p *Page) leave() { p.deps.Go(nav.Route{Place: nav.Counter, Tank: p.own, Profile: p.tank}) }

// all lists every round.
func (p *Page) all() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, d := range p.shown.All {
		row := parts.EntryRowSpec{ID: "round-" + d.ID, Time: d.Short, Kind: d.Name, Text: d.Text, Even: true}
		row.Text = i18n.Sentences(row.Text, d.Note)
		if d.Shop {
			row.Kind = p.deps.Present.W.T("page.day.of_shop", i18n.Args{"Kind": d.Name})
		}
		switch {
		case p.is:
			row.Time, row.Two = "", true
		case d.State == model.Late:
			row.Time, row.Note, row.State = "", d.Short, parts.Wait
		case d.State == model.Paused || d.State == model.Over:
			row.Time, row.Note = "", d.Short
		}
		out = append(out, parts.NewEntryRow(row, func() { p.open(d.ID) }))
	}
	return out
}

// errand is a round that is late or due, with what to do about it.
func (p *Page) errand(d present.Duty) fyne.CanvasObject {
	spec := parts.ErrandSpec{Title: d.Name, When: d.When, Text: d.Note}
	if d.Late {
		spec.State = parts.Wait
	}
	do := p.deps.Button("do-"+d.ID, "page.rounds.do", parts.Secondary, func() { p.do(d) })
	if p.start == fyne.Focusable(p.first) {
		p.start = do
	}
	buttons := []fyne.CanvasObject{do, p.deps.Button("skip-"+d.ID, "page.rounds.skip", parts.Quiet, func() { p.skip(d, false) })}
	if d.Many {
		spec.Text = p.t("page.rounds.only_newest")
	}
	if d.Late {
		buttons = append(buttons, p.deps.Button("anew-"+d.ID, "page.rounds.anew", parts.Quiet, func() { p.anew(d) }))
	}
	return parts.NewErrand(spec, buttons...)
}

// weekly offers to test weekly once the record says that the filter keeps up.
func (p *Page) weekly() []fyne.CanvasObject {
	if p.view.Weekly == nil {
		return nil
	}
	r := p.view.Weekly.Round
	return []fyne.CanvasObject{parts.NewErrand(parts.ErrandSpec{State: parts.Steady, Title: p.t("page.rounds.weekly"), Text: p.t("page.rounds.weekly_why")},
		p.deps.Button("weekly", "page.rounds.weekly_go", parts.Secondary, func() {
			r.Rule = model.Weekly()
			p.change(func(ctx context.Context) error { return p.deps.Keeper.ChangeRound(ctx, p.tank, r) }, "page.rounds.changed")
		}))}
}

func (p *Page) strip() fyne.CanvasObject {
	var days []parts.DayCell
	for i, d := range p.shown.Days {
		days = append(days, parts.DayCell{Weekday: d.Weekday, Day: d.Day, Lines: d.Lines, Note: d.Note, Strong: i == 0, Off: d.Away})
	}
	return parts.NewDayStrip(days)
}

// change makes a change and says so, with the way back.
func (p *Page) change(job func(context.Context) error, said working.Key) {
	p.deps.Work(job, nav.After(p.deps, p, p.tank, said))
}

// round is a round of the view.
func (p *Page) round(id string) (model.Standing, bool) {
	for _, s := range p.view.All {
		if s.ID == id {
			return s, true
		}
	}
	return model.Standing{}, false
}
