package daybook

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// write opens the form for a new entry, filled in with what stands mostly again.
func (p *Page) write(kind journal.Kind) {
	if kind == journal.FishIn || kind == journal.FishOut { // whoever comes or goes changes the stock
		p.deps.Go(nav.Route{Place: nav.Fish, Tank: p.tank, Write: kind})
		return
	}
	readings, err := p.deps.Keeper.Prefill(context.Background(), p.tank, kind)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.begin(journal.Entry{Kind: kind, Readings: readings}, nav.Route{}, nil)
}

// Write opens the form for a new entry at one of its boxes. The entry belongs to
// a case where one is given, and one goes back there once it is written or left.
func (p *Page) Write(kind journal.Kind, ask, sick string) {
	p.WriteFor(nav.Route{Write: kind, Ask: ask, Case: sick})
}

// WriteFor is Write for what a route asks. An entry that does a late round goes back
// to the rounds.
func (p *Page) WriteFor(r nav.Route) {
	var then func()
	switch {
	case r.Case != "":
		then = func() { p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank, Case: r.Case}) }
	case r.Round != "":
		then = func() { p.deps.Go(nav.Route{Place: nav.Rounds, Tank: p.tank}) }
	}
	p.begin(journal.Entry{Kind: r.Write, Sick: r.Case}, r, then)
}

// begin opens the form of an entry to be written at the box that the route asks,
// for the round that it names; nil where the tank is out of use.
func (p *Page) begin(e journal.Entry, r nav.Route, then func()) *form {
	if err := p.deps.Keeper.InUse(context.Background(), p.tank); err != nil {
		p.deps.Fail(err)
		return nil
	}
	f := newForm(p.deps, p.tank, e, p.deps.Now())
	p.then = then
	p.open(p.t(working.Key("entry."+string(e.Kind))), f, func(ctx context.Context, e journal.Entry) (err error) {
		if r.Round != "" {
			f.id, err = p.deps.Keeper.DoRoundWith(ctx, p.tank, keeper.Doing{Round: r.Round, Due: r.Due, Entry: &e, FromToday: true, Retest: f.remindAt})
			return err
		}
		if f.remindAt != "" {
			f.id, err = p.deps.Keeper.AddWithFollowUp(ctx, p.tank, e, rounds.Retest, f.remindAt)
			return err
		}
		f.id, err = p.deps.Keeper.AddEntry(ctx, p.tank, e)
		return err
	}, nil)
	if b := f.boxes[r.Ask]; b != nil && p.deps.Canvas() != nil {
		p.deps.Canvas().Focus(b.Focusable())
	}
	return f
}

// edit opens the form of an entry.
func (p *Page) edit(id string) {
	e, err := p.deps.Keeper.Entry(context.Background(), p.tank, id)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	p.then = nil
	f := newForm(p.deps, p.tank, e, p.deps.Now())
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
	done := func(said working.Key, next func()) func(error) {
		return func(err error) {
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
			if next != nil {
				next()
			}
		}
	}
	save := func(next func()) {
		if e, ok := f.entry(); ok {
			f.remindAt = ""
			if f.live != nil {
				if at, want := f.live.followUp(); want {
					f.remindAt = at
				}
			}
			p.deps.Work(func(ctx context.Context) error { return keep(ctx, e) }, done("page.day.written", next))
			return
		}
		f.toFault()
	}
	pictures.OnOpen = func(x keeper.Photo) { // what is half typed is written first
		save(func() { p.deps.Go(nav.Route{Place: nav.Photos, Tank: p.tank, Photos: x.ID}) })
	}
	if f.id == "" {
		pictures.OnAdd = func() {
			save(func() { p.deps.Pictures(p.tank, keeper.AddOptions{Entry: f.id}, nil, nil) })
		}
	}
	f.onEnter = func() { save(nil) }
	if f.live != nil {
		f.live.onPlan = func(share quantity.Ratio) { save(func() { p.plan(share) }) }
		f.live.judge()
	}
	leave := func() { // nothing is written; one goes back to where the form was opened
		shut()
		if p.then != nil {
			p.then()
		}
	}
	content := append(p.shop(f.from), f.column)
	if f.from.Kind == journal.Changed || f.from.Kind == journal.ToppedUp {
		help := parts.NewButton(parts.ButtonSpec{ID: "work-out", Label: p.t("page.change.open")}, func() {
			p.help(f, keeper.ChangeAsk{TopUp: f.from.Kind == journal.ToppedUp})
		})
		content = append(content, parts.NewFlow(help))
	}
	buttons := []fyne.CanvasObject{parts.NewButton(parts.ButtonSpec{ID: "keep", Label: p.t("page.day.write"), Kind: parts.Primary}, func() { save(nil) }),
		parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: p.t("label.cancel")}, leave)}
	if remove != nil {
		buttons = append(buttons, parts.NewButton(parts.ButtonSpec{ID: "delete", Label: p.t("page.day.delete")}, func() {
			p.deps.Work(remove, done("page.day.deleted", nil))
		}))
	}
	content = append(content, pictures.Object())
	if place, ok := nav.EntryPlaces[f.from.Kind]; ok && f.from.ID == "" { // what is only looked at again is past
		content = append(content, nav.Cautions(p.deps, place)...)
	}
	if f.from.ID != "" {
		content = append(content, p.past(f.from, func(n int) {
			p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.RestorePast(ctx, p.tank, f.from.ID, n) }, done("page.entry.restored", nil))
		})...)
	}
	f.panel = parts.NewColumn(10, content...)
	shut = p.deps.DialogBack(title, f.panel, leave, parts.NewFlow(buttons...))
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

// plan opens the form of a water change with its helper at the share that a test
// asks for.
func (p *Page) plan(share quantity.Ratio) {
	readings, err := p.deps.Keeper.Prefill(context.Background(), p.tank, journal.Changed)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	f := p.begin(journal.Entry{Kind: journal.Changed, Readings: readings}, nav.Route{}, nil)
	if f == nil {
		return
	}
	p.help(f, keeper.ChangeAsk{Way: keeper.ByShare, Share: quantity.Of(float64(share)*100, "percent", 3)})
}

// help opens the helper with a water change over its form.
func (p *Page) help(f *form, begin keeper.ChangeAsk) {
	showChange(p.deps, p.tank, begin, func(rs []journal.Reading) {
		f.put(rs)
		f.focus(p.deps.Canvas())
	})
}

// shop says whose reply an entry came from; nothing for one of the keeper's own.
func (p *Page) shop(e journal.Entry) []fyne.CanvasObject {
	from, ok, err := p.deps.Keeper.ReplyFrom(context.Background(), e)
	if err != nil {
		p.deps.Fail(err)
	}
	if !ok || err != nil {
		return nil
	}
	name := from.Name
	if name == "" {
		name = p.t("page.reply.unnamed")
	}
	return []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: p.deps.Present.W.T("page.day.of_reply", i18n.Args{"From": name}), Role: parts.Note})}
}

// past is how an entry was before it was edited, each state with what brings it back.
func (p *Page) past(e journal.Entry, restore func(n int)) []fyne.CanvasObject {
	w := p.deps.Present.W
	past, err := p.deps.Keeper.EntryPast(context.Background(), p.tank, e.ID)
	if err != nil {
		p.deps.Fail(err)
		return nil
	}
	if len(past) == 0 {
		return nil
	}
	out := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: w.T("page.entry.past", nil), Role: parts.Section})}
	zone := p.deps.Now().Location()
	for _, x := range past {
		row := p.deps.Present.Entry(x.Entry)
		when := ""
		if t, err := x.Entry.At.Parse(); err == nil {
			when = w.DateTime(t)
		}
		head := w.T("page.entry.until", i18n.Args{"When": w.DateTime(x.Until.In(zone))})
		out = append(out, parts.NewColumn(2, parts.NewText(parts.TextSpec{Text: head, Role: parts.Note}), parts.NewText(parts.TextSpec{Text: joined(when, row.Text)}),
			parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "restore-" + w.Number(float64(x.N), 6), Label: w.T("page.entry.restore", nil), Kind: parts.Quiet}, func() { restore(x.N) }))))
	}
	return out
}

func joined(a, b string) string {
	if a != "" && b != "" {
		return a + " · " + b
	}
	return a + b
}

func (p *Page) undo() { nav.TakeBack(p.deps, p.tank, p.Refresh) }
