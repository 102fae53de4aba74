// Package daybook is the journal: what was done and seen, by day, the newest
// first; writing, changing and deleting entries.
package daybook

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
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
		parts.NewButton(parts.ButtonSpec{ID: "sick", Label: p.t("page.sick.button"), Kind: parts.Quiet}, func() { p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank}) })), parts.NewRow(other, parts.NewText(parts.TextSpec{}), parts.NewText(parts.TextSpec{})))
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

// write opens the form for a new entry.
func (p *Page) write(kind journal.Kind) {
	p.begin(journal.Entry{Kind: kind, Readings: p.last(kind)}, "", nil)
}

// Write opens the form for a new entry at one of its boxes. The entry belongs to
// a case where one is given, and one goes back there once it is written.
func (p *Page) Write(kind journal.Kind, ask, sick string) {
	then := func() { p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank, Case: sick}) }
	if sick == "" {
		then = nil
	}
	p.begin(journal.Entry{Kind: kind, Sick: sick}, ask, then)
}

func (p *Page) begin(e journal.Entry, ask string, then func()) {
	f := newForm(p.deps, e, p.deps.Now())
	p.then = then
	p.open(p.t(working.Key("entry."+string(e.Kind))), f, func(ctx context.Context, e journal.Entry) (err error) {
		f.id, err = p.deps.Keeper.AddEntry(ctx, p.tank, e)
		return err
	}, nil)
	if b := f.boxes[ask]; b != nil && p.deps.Canvas() != nil {
		p.deps.Canvas().Focus(b.Focusable())
	}
}

// last is what was given the last time: a feed and a change are mostly the same
// again. A test is never filled in beforehand.
func (p *Page) last(kind journal.Kind) []journal.Reading {
	if kind != journal.Fed && kind != journal.Changed && kind != journal.Dosed {
		return nil
	}
	days, err := p.deps.Keeper.Days(context.Background(), p.tank)
	if err != nil {
		return nil
	}
	for _, d := range days {
		for _, e := range d.Entries {
			if e.Kind == kind {
				return e.Readings
			}
		}
	}
	return nil
}

// edit opens the form of an entry.
func (p *Page) edit(id string) {
	e, err := p.deps.Keeper.Entry(context.Background(), p.tank, id)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.then = nil
	f := newForm(p.deps, e, p.deps.Now())
	f.id = id
	p.open(p.t("page.day.edit"), f, func(ctx context.Context, e journal.Entry) error {
		return p.deps.Keeper.EditEntry(ctx, p.tank, e)
	}, func(ctx context.Context) error { return p.deps.Keeper.DeleteEntry(ctx, p.tank, id) })
}

// open shows a form with what keeps it and, where there is one, what deletes it.
func (p *Page) open(title string, f *form, keep func(context.Context, journal.Entry) error, remove func(context.Context) error) {
	var shut func()
	pictures := nav.NewPictured(p.deps, p.tank, keeper.AddOptions{Entry: f.id})
	p.form, f.pictures = f, pictures
	var next func() // after it is written, instead of staying
	done := func(said working.Key) func(error) {
		return func(err error) {
			after := next
			next = nil
			if err != nil {
				if !f.refuse(err) {
					p.deps.Fail(err)
				}
				return
			}
			shut()
			p.deps.Changed()
			if then := p.then; then != nil {
				then()
			} else {
				p.Refresh()
			}
			p.deps.Say(p.t(said), p.t("label.undo"), p.undo)
			if waiting := pictures.Waiting(); len(waiting) > 0 && f.id != "" {
				p.deps.Pictures(p.tank, keeper.AddOptions{Entry: f.id}, waiting, nil)
			}
			if after != nil {
				after()
			}
		}
	}
	save := func() {
		if e, ok := f.entry(); ok {
			p.deps.Work(func(ctx context.Context) error { return keep(ctx, e) }, done("page.day.written"))
		}
	}
	f.onEnter = save
	pictures.OnOpen = func(x keeper.Photo) { // what is half typed is written first
		next = func() { p.deps.Go(nav.Route{Place: nav.Photos, Tank: p.tank, Photos: x.ID}) }
		save()
	}
	if f.id == "" {
		pictures.OnAdd = func() {
			next = func() { p.deps.Pictures(p.tank, keeper.AddOptions{Entry: f.id}, nil, nil) }
			save()
		}
	}
	buttons := []fyne.CanvasObject{parts.NewButton(parts.ButtonSpec{ID: "keep", Label: p.t("page.day.write"), Kind: parts.Primary}, save),
		parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: p.t("label.cancel")}, func() { shut() })}
	if remove != nil {
		buttons = append(buttons, parts.NewButton(parts.ButtonSpec{ID: "delete", Label: p.t("page.day.delete")}, func() {
			p.deps.Work(remove, done("page.day.deleted"))
		}))
	}
	f.panel = parts.NewColumn(10, f.column, pictures.Object(), parts.NewFlow(buttons...))
	shut = p.deps.Dialog(title, f.panel)
	f.focus(p.deps.Canvas())
}

// Dropped implements nav.Dropper: pictures go with the entry whose form is open.
func (p *Page) Dropped(paths []string) bool {
	if p.form == nil || !p.deps.Showing(p.form.panel) {
		return false
	}
	p.form.pictures.Add(paths)
	return true
}

func (p *Page) undo() {
	var label working.Key
	var values map[string]string
	p.deps.Work(func(ctx context.Context) (err error) {
		label, values, err = p.deps.Keeper.Undo(ctx, p.tank)
		return err
	}, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.deps.Changed()
		p.Refresh()
		p.deps.Say(p.deps.Present.W.T("page.today.undone", i18n.Args{"What": p.deps.Present.UndoName(label, values)}), "", nil)
	})
}
