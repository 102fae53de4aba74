// Package daybook is the journal: what was done and seen, by day, the newest
// first; writing, changing and deleting entries.
package daybook

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// Page is the daybook of a tank.
type Page struct {
	deps    nav.Deps
	tank    string
	entry   string // to open at once
	many    int    // entries shown
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller
	first   *parts.Button
	then    func() // after what is being written; nil stays here
	form    *form  // the last that was opened
}

// step is how many entries are added by 'Show older'. Judgement.
const step = 150

var (
	_ nav.Page    = (*Page)(nil)
	_ nav.Dropper = (*Page)(nil)
)

// New opens the daybook, at an entry where one is given.
func New(d nav.Deps, tank, entry string) *Page {
	p := &Page{deps: d, tank: tank, entry: entry, many: step, drawing: nav.NewDrawing(d, tank), scroll: parts.NewScroller(10)}
	p.first = parts.NewButton(parts.ButtonSpec{}, nil)
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page; an entry that was asked for opens.
func (p *Page) Focus() {
	if c := p.deps.Canvas(); c != nil {
		c.Focus(p.first)
	}
	if p.entry != "" {
		id := p.entry
		p.entry = ""
		p.edit(id)
	}
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	days, err := p.deps.Keeper.Days(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	judged, err := p.deps.Keeper.Judge(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.draw()
	out := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: p.t("nav.daybook"), Role: parts.Heading})}
	if len(nav.Views()) > 1 {
		out = append(out, nav.ViewRow(p.deps, p.tank, nav.Daybook))
	}
	out = append(out, p.buttons())
	shown, left := 0, 0
	for i, d := range p.deps.Present.Days(days, judged) {
		if shown >= p.many {
			left += len(days[i].Entries)
			continue
		}
		out = append(out, parts.NewDayHeading(d.Title))
		for _, e := range d.Entries {
			shown++
			row := parts.EntryRowSpec{ID: e.ID, Time: e.Time, Kind: e.Kind, Text: e.Text, Note: e.Note}
			if e.Note != "" {
				row.State = nav.State(e.State)
			}
			out = append(out, parts.NewEntryRow(row, func() { p.edit(e.ID) }))
		}
	}
	if shown == 0 {
		out = append(out, parts.NewText(parts.TextSpec{Text: p.t("page.day.empty"), Role: parts.SoftBody}))
	}
	if left > 0 {
		out = append(out, parts.NewButton(parts.ButtonSpec{ID: "older", Label: p.deps.Present.W.N("n.older", float64(left), nil)}, func() {
			p.many += step
			p.Refresh()
		}))
	}
	p.scroll.Column().Set(out...)
}

func (p *Page) buttons() fyne.CanvasObject {
	p.first.Set(parts.ButtonSpec{ID: "feed", Label: p.t("page.day.feed")})
	p.first.OnPressed = func() { p.write(journal.Fed) }
	more := func(id string, label working.Key, kind journal.Kind) fyne.CanvasObject {
		return parts.NewButton(parts.ButtonSpec{ID: id, Label: p.t(label)}, func() { p.write(kind) })
	}
	spec := parts.ChoiceSpec{ID: "more", Label: p.t("page.day.more"), Placeholder: p.t("page.day.choose"), Search: p.t("label.search")}
	for _, k := range journal.Written()[5:] {
		spec.Options = append(spec.Options, parts.Option{Code: string(k), Label: p.t(working.Key("entry." + string(k)))})
	}
	other := parts.NewChoice(spec, func(code string) { p.write(journal.Kind(code)) })
	return parts.NewColumn(6, parts.NewFlow(p.first, more("test", "page.day.test", journal.Tested), more("change", "page.day.change", journal.Changed),
		more("temperature", "page.day.temperature", journal.Temperature), more("note", "page.day.note", journal.Note),
		parts.NewButton(parts.ButtonSpec{ID: "sick", Label: p.t("page.sick.button"), Kind: parts.Quiet}, func() { p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank}) })), parts.NewRow(other, p.drawers()))
}

// drawers are what lies beside the days: help with a water change, the test kits,
// the bin.
func (p *Page) drawers() fyne.CanvasObject {
	quiet := func(id string, label working.Key, open func()) fyne.CanvasObject {
		return parts.NewButton(parts.ButtonSpec{ID: id, Label: p.t(label), Kind: parts.Quiet}, open)
	}
	return parts.NewFlow(quiet("change-helper", "page.change.open", p.ShowChange), quiet("kits", "page.kits.heading", func() { ShowKits(p.deps) }),
		quiet("bin", "page.bin.heading", func() { ShowBin(p.deps, p.tank, p.Refresh) }))
}

func (p *Page) draw() {
	v, _, err := p.deps.Keeper.FirstFill(context.Background(), p.tank, care.HomeComing)
	if err != nil {
		return
	}
	c := v.Picture
	c.Bag = c.Bag && v.Current == care.HomeComing
	p.drawing.Show(c, true)
}
