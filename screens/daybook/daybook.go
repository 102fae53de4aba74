// Package daybook is the journal: what was done and seen, by day, the newest
// first; writing, changing and deleting entries.
package daybook

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

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
	root    *fyne.Container
	drawing *nav.Drawing
	ledger  *ledger
	head    []fyne.CanvasObject // above the ledger
	buttons fyne.CanvasObject
	other   *parts.Choice // of what to write
	first   *parts.Button
	then    func() // after what is being written; nil stays here
	form    *form  // the last that was opened
}

var (
	_ nav.Page    = (*Page)(nil)
	_ nav.Dropper = (*Page)(nil)
)

// New opens the daybook, at an entry where one is given.
func New(d nav.Deps, tank, entry string) *Page {
	p := &Page{deps: d, tank: tank, entry: entry, drawing: nav.NewDrawing(d, tank)}
	p.first = parts.NewButton(parts.ButtonSpec{}, nil)
	p.ledger = newLedger(p)
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.ledger.long)
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
		if i, ok := p.ledger.rows.Place(id); ok {
			p.ledger.long.GoTo(i)
		}
		p.edit(id)
	}
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	_ = p.drawing.ShowTank() // what fails, fails with the list too, and is told there
	if p.buttons == nil {
		p.buttons = p.writing()
		p.head = []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: p.t("nav.daybook"), Role: parts.Heading})}
		if len(nav.Views(nav.Daybook)) > 1 {
			p.head = append(p.head, nav.ViewRow(p.deps, p.tank, nav.Daybook))
		}
		p.head = append(p.head, p.buttons)
	}
	p.ledger.read(p.head...)
}

// Key acts on a key typed while nothing has the focus.
func (p *Page) Key(ev *fyne.KeyEvent) bool { return p.ledger.long.Key(ev) }

func (p *Page) writing() fyne.CanvasObject {
	p.first.Set(parts.ButtonSpec{ID: "feed", Label: p.t("page.day.feed")})
	p.first.OnPressed = func() { p.write(journal.Fed) }
	more := func(id string, label working.Key, kind journal.Kind) fyne.CanvasObject {
		return parts.NewButton(parts.ButtonSpec{ID: id, Label: p.t(label)}, func() { p.write(kind) })
	}
	spec := parts.ChoiceSpec{ID: "more", Label: p.t("page.day.more"), Placeholder: p.t("page.day.choose"), Search: p.t("label.search")}
	for _, k := range journal.Written()[5:] {
		spec.Options = append(spec.Options, parts.Option{Code: string(k), Label: p.t(working.Key("entry." + string(k)))})
	}
	p.other = parts.NewChoice(spec, func(code string) { p.write(journal.Kind(code)) })
	return parts.NewColumn(6, parts.NewFlow(p.first, more("test", "page.day.test", journal.Tested), more("change", "page.day.change", journal.Changed),
		more("temperature", "page.day.temperature", journal.Temperature), more("note", "page.day.note", journal.Note),
		parts.NewButton(parts.ButtonSpec{ID: "sick", Label: p.t("page.sick.button"), Kind: parts.Quiet}, func() { p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank}) })), p.drawers())
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
