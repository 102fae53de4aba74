package rounds

import (
	"context"
	"errors"
	"strconv"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	model "example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// neighbour is the paper for whoever looks after the tank.
const neighbour = "neighbour"

// aways are the times away that are not over.
func (p *Page) aways() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for i, a := range p.shown.Away {
		spec := parts.ErrandSpec{Title: p.deps.Present.W.T("page.rounds.away_title", i18n.Args{"Days": a.Days}), Text: p.t("page.rounds.away_text")}
		if a.Who != "" {
			spec.When = p.deps.Present.W.T("page.rounds.away_who", i18n.Args{"Who": a.Who})
		}
		out = append(out, parts.NewErrand(spec, p.deps.Button("paper-"+a.ID, "page.rounds.away_paper", parts.Secondary, func() { p.deps.Print(neighbour, p.tank) }),
			p.deps.Button("away-"+a.ID, "label.change", parts.Quiet, func() { p.away(p.view.Away[i]) })))
	}
	return out
}

// away asks for a time away, or changes one.
func (p *Page) away(a keeper.Away) {
	if a.ID == "" {
		today := model.Wall(p.deps.Now())
		a.First, a.Last = today.AddDate(0, 0, 1).Format(dayLayout), today.AddDate(0, 0, 7).Format(dayLayout) // judgement: a week from tomorrow
	}
	w := p.deps.Present.W
	field := func(id string, label working.Key, text string) *parts.Field {
		return parts.NewField(parts.FieldSpec{ID: id, Label: p.t(label), Text: text})
	}
	first, last := field("first", "page.rounds.first_day", a.First), field("last", "page.rounds.last_day", a.Last)
	who, note := field("who", "page.rounds.who", a.Who), field("away-note", "page.rounds.away_note", a.Note)
	moves := parts.NewColumn(6)
	move := true
	made := func() keeper.Away {
		return keeper.Away{ID: a.ID, First: first.Text(), Last: last.Text(), Who: who.Text(), Note: note.Text()}
	}
	ask := func() {
		moved, err := p.deps.Keeper.MovedBy(context.Background(), p.tank, made())
		if err != nil || len(moved) == 0 || a.ID != "" {
			moves.Set()
			return
		}
		words := w.T("page.rounds.move", i18n.Args{"From": p.deps.Present.CivilDay(moved[0].From[0]), "To": p.deps.Present.CivilDay(moved[0].To)})
		moves.Set(parts.NewTick(parts.TickSpec{ID: "move", Text: words, Done: move, Caption: p.t("page.rounds.move_why")}, func(done bool) { move = done }))
	}
	boxes := map[string]*parts.Field{"first": first, "last": last, "who": who, "note": note}
	var shut func()
	keep := func() {
		for _, f := range boxes {
			fault(f, "")
		}
		reason := w.T("page.rounds.away_reason", i18n.Args{"Days": p.deps.Present.Span(first.Text(), last.Text())})
		made, moving := made(), move
		p.deps.Work(func(ctx context.Context) (err error) {
			if made.ID == "" {
				_, err = p.deps.Keeper.AddAway(ctx, p.tank, made, moving, reason)
				return err
			}
			return p.deps.Keeper.ChangeAway(ctx, p.tank, made)
		}, func(err error) {
			var r *working.Refusal
			if errors.As(err, &r) && boxes[r.Field] != nil {
				fault(boxes[r.Field], w.Refusal(r))
				nav.ToFault(p.deps, boxes[r.Field])
				return
			}
			shut()
			nav.After(p.deps, p, p.tank, "page.rounds.away_kept")(err)
		})
	}
	for _, f := range boxes {
		f.OnEnter = keep
	}
	first.OnCommit = func(string) { ask() }
	last.OnCommit = func(string) { ask() }
	buttons := []fyne.CanvasObject{p.deps.Button("keep", "page.day.keep", parts.Primary, keep)}
	if a.ID != "" {
		buttons = append(buttons, p.deps.Button("delete", "label.delete", parts.Secondary, func() {
			shut()
			p.change(func(ctx context.Context) error { return p.deps.Keeper.DeleteAway(ctx, p.tank, a.ID) }, "page.rounds.away_gone")
		}))
	}
	buttons = append(buttons, p.deps.Button("cancel", "label.cancel", parts.Quiet, func() { shut() }))
	ask()
	shut = p.deps.Dialog(p.t("page.rounds.away"), parts.NewColumn(10, parts.TextOf(p.t("page.rounds.away_purpose"), parts.Body), parts.NewRow(first, last, who), note, moves), parts.NewFlow(buttons...))
	p.deps.Focus(first.Focusable())
}

// calendar is the panel of the calendar: a paper for the coming weeks, a file to
// write once, or one that is kept up to date.
func (p *Page) calendar() {
	path, err := p.deps.Keeper.CalendarFile(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		return
	}
	box := parts.NewField(parts.FieldSpec{ID: "calendar-file", Label: p.t("page.rounds.calendar_file"), Text: path, Hint: p.t("page.rounds.calendar_hint"), Placeholder: p.deps.CalendarPath(p.tank)})
	var shut func()
	var span *parts.Choice
	spans := parts.ChoiceSpec{ID: "calendar-span", Label: p.t("page.rounds.calendar_span"), Chosen: strconv.Itoa(keeper.CareDays)}
	for _, n := range keeper.CareSpans() {
		spans.Options = append(spans.Options, parts.Option{Code: strconv.Itoa(n), Label: p.deps.Present.CareSpan(n)})
	}
	span = parts.NewChoice(spans, func(code string) {
		spans.Chosen = code
		span.Set(spans)
	})
	keep := func() {
		chosen := box.Text()
		if chosen == "" {
			chosen = p.deps.CalendarPath(p.tank)
		}
		p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.SetCalendarFile(ctx, p.tank, chosen) }, func(err error) {
			var r *working.Refusal
			if errors.As(err, &r) {
				fault(box, p.deps.Present.W.Refusal(r))
				return
			}
			shut()
			if err != nil {
				p.deps.Fail(err)
				return
			}
			p.deps.Changed() // writes it
			p.deps.Say(p.deps.Present.W.T("page.rounds.calendar_kept", i18n.Args{"Path": chosen}), "", nil)
		})
	}
	box.OnEnter = keep
	buttons := []fyne.CanvasObject{p.deps.Button("calendar-keep", "page.rounds.calendar_keep", parts.Primary, keep),
		p.deps.Button("calendar-once", "page.rounds.calendar_once", parts.Secondary, func() { shut(); p.deps.Calendar(p.tank) })}
	if path != "" {
		buttons = append(buttons, p.deps.Button("calendar-stop", "page.rounds.calendar_stop", parts.Secondary, func() {
			shut()
			p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.SetCalendarFile(ctx, p.tank, "") }, p.deps.Fail)
		}))
	}
	buttons = append(buttons, p.deps.Button("calendar-paper", "page.visit.paper", parts.Secondary, func() {
		days, err := strconv.Atoi(spans.Chosen)
		shut()
		if err == nil {
			p.deps.PrintCare(p.tank, days)
		}
	}), p.deps.Button("cancel", "label.cancel", parts.Quiet, func() { shut() }))
	shut = p.deps.Dialog(p.t("page.rounds.calendar"), parts.NewColumn(10, parts.TextOf(p.t("page.rounds.calendar_text"), parts.Body), box, span), parts.NewFlow(buttons...))
	p.deps.Focus(box.Focusable())
}
