package fish

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// mostRows is how many groups are shown at first; a button shows the rest.
// Judgement: more than most tanks hold.
const mostRows = 40

// list is the page of all that lives here.
func (p *Page) list() {
	pr := p.deps.Present
	p.first.Set(parts.ButtonSpec{ID: "came", Label: p.t("page.stock.came"), Kind: parts.Primary})
	p.first.OnPressed = func() { p.arrive(nil) }
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("nav.fish"), parts.Heading), parts.TextOf(p.shown.Tank, parts.SoftBody)),
		nav.ViewRow(p.deps, p.tank, nav.Fish)}
	out = append(out, p.losses("")...)
	if v := p.shown.Verdict; v != nil {
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: nav.State(v.State), Title: v.Title, Lines: v.Lines}),
			parts.NewFlow(p.deps.Button("together", "page.stock.why_so", parts.Quiet, func() { p.deps.Go(nav.Route{Place: nav.Together, Tank: p.tank}) })))
	}
	buttons := []fyne.CanvasObject{p.first}
	if len(p.all) > 0 {
		buttons = append(buttons, p.deps.Button("left", "page.stock.left", parts.Secondary, func() { p.leave("") }), p.deps.Button("born", "page.stock.born", parts.Secondary, p.born))
	}
	out = append(out, parts.NewFlow(buttons...))
	out = append(out, p.untied()...)
	if len(p.shown.Rows) == 0 {
		out = append(out, parts.TextOf(p.t("page.stock.empty"), parts.SoftBody))
	} else {
		out = append(out, parts.NewDayHeading(p.shown.Total))
	}
	k := p.scale()
	for i, r := range p.shown.Rows {
		if i == mostRows && !p.every {
			out = append(out, parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "every", Label: pr.W.N("page.stock.more", float64(len(p.shown.Rows)-i), nil), Kind: parts.Quiet}, func() {
				p.every = true
				p.Refresh()
			})))
			break
		}
		out = append(out, parts.NewOpenCard(parts.CardSpec{ID: "fish-" + r.ID, Sketch: sketch(r, k), Title: r.Name, Under: r.Scientific, Facts: r.Facts, Lines: r.Lines,
			State: nav.State(r.State), Word: r.Word}, func() { p.deps.Go(nav.Route{Place: nav.Fish, Tank: p.tank, Fish: r.ID}) }))
	}
	out = append(out, p.gone()...)
	p.scroll.Column().Set(append(out, parts.NewSpace(8))...)
}

// losses are those that died or were not seen again soon after animals came in, of
// one fish or of all, with the way to what to do about it.
func (p *Page) losses(id string) []fyne.CanvasObject {
	ls, err := p.deps.Keeper.EarlyLosses(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
	}
	var out []fyne.CanvasObject
	for _, l := range ls {
		if id == "" || l.Fish.ID == id {
			out = append(out, nav.EarlyLoss(p.deps, p.tank, l))
		}
	}
	return out
}

// untied are entries that say that fish came in, of which the stock does not know,
// each to be taken into it.
func (p *Page) untied() []fyne.CanvasObject {
	es, err := p.deps.Keeper.Untied(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
	}
	var out []fyne.CanvasObject
	for i := len(es) - 1; i >= 0 && len(out) < 3; i-- { // the latest; the others follow as these are taken
		e := es[i]
		out = append(out, parts.NewErrand(parts.ErrandSpec{Title: p.deps.Present.CameIn(e), When: p.deps.Present.CivilDay(e.At), Text: p.t("page.stock.untied")},
			p.deps.Button("tie-"+e.ID, "page.stock.tie", parts.Secondary, func() { p.arrive(&e) })))
	}
	return out
}

// gone are those that live here no more, behind a disclosure.
func (p *Page) gone() []fyne.CanvasObject {
	fish, err := p.deps.Keeper.Gone(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
	}
	if len(fish) == 0 {
		return nil
	}
	spec := parts.ButtonSpec{ID: "gone", Label: p.deps.Present.W.N("page.stock.gone", float64(len(fish)), nil), Kind: parts.Quiet, Disclosure: parts.Shut}
	if p.parted {
		spec.Disclosure = parts.Opened
	}
	out := []fyne.CanvasObject{parts.NewFlow(parts.NewButton(spec, func() { p.parted = !p.parted; p.Refresh() }))}
	if p.parted {
		for _, f := range fish[:min(len(fish), mostRows)] {
			out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: "gone-" + f.ID, Time: p.deps.Present.CivilDay(f.Gone), Kind: p.deps.Present.FishName(f), Text: p.lived(f), Even: true},
				func() { p.deps.Go(nav.Route{Place: nav.Fish, Tank: p.tank, Fish: f.ID}) }))
		}
	}
	return out
}

func (p *Page) lived(f keeper.Fish) string {
	if f.Since == "" {
		return ""
	}
	return p.deps.Present.W.T("page.stock.since", i18n.Args{"Day": p.deps.Present.CivilDay(f.Since)})
}
