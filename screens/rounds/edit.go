package rounds

import (
	"context"
	"errors"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/journal"
	model "example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// open shows a round with what can be done with it.
func (p *Page) open(id string) {
	if s, ok := p.round(id); ok {
		p.edit(s.Round)
	}
}

// editor is the panel of a round: its title, repetition, time and note.
type editor struct {
	p      *Page
	round  model.Round
	title  *parts.Field
	every  *parts.Field
	unit   *parts.Choice
	on     *parts.Choice // day of the month
	days   []*parts.Tick
	clock  *parts.Field
	begins *parts.Field
	note   *parts.Field
	says   *parts.Text
	column *parts.Column
	chosen model.Plain
	plain  bool // the rule can be set by hand
}

const (
	dayLayout   = "2006-01-02" // ISO 8601
	clockLayout = "15:04"
	onSame      = "same"
	onLast      = "last"
)

// edit asks for a new round, or changes one that is there.
func (p *Page) edit(r model.Round) {
	e := &editor{p: p, round: r}
	at, err := r.Start.Parse()
	if err != nil {
		at = model.Wall(p.deps.Now())
		at = time.Date(at.Year(), at.Month(), at.Day(), 9, 0, 0, 0, time.UTC) // judgement: a morning
	}
	e.chosen, e.plain = r.Rule.Plain()
	if r.ID == "" {
		e.chosen, e.plain = model.Plain{Every: 1, Unit: model.Weeks}, true
	}
	field := func(id string, label working.Key, text string) *parts.Field {
		f := parts.NewField(parts.FieldSpec{ID: id, Label: p.t(label), Text: text})
		f.OnChanged = func(string) { e.say() }
		return f
	}
	e.title = field("title", "page.rounds.title", r.Title)
	e.every = field("every", "page.rounds.every", strconv.Itoa(max(1, e.chosen.Every)))
	e.unit = parts.NewChoice(e.unitSpec(), func(code string) {
		e.chosen.Unit = model.Unit(code)
		e.unit.Set(e.unitSpec())
		e.lay()
	})
	e.on = parts.NewChoice(e.onSpec(), func(code string) {
		e.chosen.MonthDay = 0
		if code == onLast {
			e.chosen.MonthDay = -1
		}
		e.on.Set(e.onSpec())
		e.say()
	})
	w := p.deps.Present.W
	days := e.chosen.Weekdays
	if len(days) == 0 && r.ID != "" {
		days = []time.Weekday{at.Weekday()}
	}
	for i := range 7 {
		d := (w.FirstWeekday() + time.Weekday(i)) % 7
		on := false
		for _, x := range days {
			on = on || x == d
		}
		e.days = append(e.days, parts.NewTick(parts.TickSpec{ID: "day-" + strconv.Itoa(int(d)), Text: w.Weekday(d), Done: on}, func(bool) { e.say() }))
	}
	e.clock = field("clock", "page.rounds.clock", at.Format(clockLayout))
	e.begins = field("begins", "page.rounds.begins", at.Format(dayLayout))
	e.note = field("note", "page.rounds.note", r.Note)
	e.says = parts.NewText(parts.TextSpec{})
	e.column = parts.NewColumn(10)
	var shut func()
	act := func(id string, label working.Key, said working.Key, do func(context.Context) error) fyne.CanvasObject {
		return p.deps.Button(id, label, parts.Secondary, func() {
			shut()
			p.change(do, said)
		})
	}
	save := func() {
		made, ok := e.read()
		if !ok {
			return
		}
		said := working.Key("page.rounds.changed")
		if made.ID == "" {
			said = "page.rounds.added"
		}
		p.deps.Work(func(ctx context.Context) (err error) {
			if made.ID == "" {
				_, err = p.deps.Keeper.AddRound(ctx, p.tank, made)
				return err
			}
			return p.deps.Keeper.ChangeRound(ctx, p.tank, made)
		}, func(err error) {
			if e.refuse(err) {
				return
			}
			shut()
			nav.After(p.deps, p, p.tank, said)(err)
		})
	}
	for _, f := range []*parts.Field{e.title, e.every, e.clock, e.begins, e.note} {
		f.OnEnter = save
	}
	row := []fyne.CanvasObject{p.deps.Button("keep", "page.day.keep", parts.Primary, save)}
	if r.ID != "" && p.is {
		row = append(row, act("delete", "label.delete", "page.rounds.deleted", func(ctx context.Context) error { return p.deps.Keeper.DeleteRound(ctx, p.tank, r.ID) }))
	} else if r.ID != "" {
		if s, ok := p.round(r.ID); ok && s.State == model.Coming {
			d := p.deps.Present.Rounds(p.view, p.deps.Now())
			for _, x := range d.All {
				if x.ID == r.ID {
					row = append(row, p.deps.Button("do-early", "page.rounds.do_early", parts.Secondary, func() { shut(); p.do(x) }),
						p.deps.Button("skip-early", "page.rounds.skip_next", parts.Secondary, func() { shut(); p.skip(x, false) }))
				}
			}
		}
		if r.Paused == "" {
			row = append(row, act("pause", "page.rounds.pause", "page.rounds.was_paused", func(ctx context.Context) error { return p.deps.Keeper.PauseRound(ctx, p.tank, r.ID, true) }))
		} else {
			row = append(row, act("resume", "page.rounds.resume", "page.rounds.resumed", func(ctx context.Context) error { return p.deps.Keeper.PauseRound(ctx, p.tank, r.ID, false) }))
		}
		row = append(row, act("delete", "label.delete", "page.rounds.deleted", func(ctx context.Context) error { return p.deps.Keeper.DeleteRound(ctx, p.tank, r.ID) }))
	}
	row = append(row, p.deps.Button("cancel", "label.cancel", parts.Quiet, func() { shut() }))
	e.lay()
	head := p.t("page.rounds.new")
	if r.ID != "" {
		head = p.deps.Present.RoundName(r)
	}
	shut = p.deps.Dialog(head, e.column, parts.NewFlow(row...))
	p.deps.Focus(e.begin())
}

// begin is the first box.
func (e *editor) begin() fyne.Focusable {
	switch {
	case e.round.Code == model.Own:
		return e.title.Focusable()
	case e.plain && !e.chosen.Once:
		return e.every.Focusable()
	}
	return e.clock.Focusable()
}

func (e *editor) unitSpec() parts.ChoiceSpec {
	s := parts.ChoiceSpec{ID: "unit", Label: e.p.t("page.rounds.unit"), Chosen: string(e.chosen.Unit)}
	for _, u := range model.Units() {
		s.Options = append(s.Options, parts.Option{Code: string(u), Label: e.p.t(working.Key("page.rounds.unit_" + string(u)))})
	}
	return s
}

func (e *editor) onSpec() parts.ChoiceSpec {
	s := parts.ChoiceSpec{ID: "on", Label: e.p.t("page.rounds.on"), Chosen: onSame,
		Options: []parts.Option{{Code: onSame, Label: e.p.t("page.rounds.on_same")}, {Code: onLast, Label: e.p.t("page.rounds.on_last_day")}}}
	if e.chosen.MonthDay == -1 {
		s.Chosen = onLast
	}
	return s
}

// lay shows what the unit asks for.
func (e *editor) lay() {
	var out []fyne.CanvasObject
	if e.round.Code == model.Own {
		out = append(out, e.title)
	}
	if e.plain && !e.chosen.Once {
		row := []fyne.CanvasObject{e.every, e.unit}
		if e.chosen.Unit == model.Months {
			row = append(row, e.on)
		}
		out = append(out, parts.NewRow(row...))
		if e.chosen.Unit == model.Weeks {
			var ticks []fyne.CanvasObject
			for _, t := range e.days {
				ticks = append(ticks, t)
			}
			out = append(out, parts.NewRow(ticks...))
		}
	}
	out = append(out, parts.NewRow(e.clock, e.begins), e.note, e.says)
	out = append(out, e.past()...)
	e.column.Set(out...)
	e.say()
}

// pastShown is how much of what was done and skipped stands in the panel. Judgement.
const pastShown = 8

// past is what was done and skipped of late, with the reasons.
func (e *editor) past() []fyne.CanvasObject {
	if e.round.ID == "" || e.p.is {
		return nil
	}
	past, err := e.p.deps.Keeper.RoundPast(context.Background(), e.p.tank, e.round.ID)
	if err != nil {
		e.p.deps.Fail(err)
		return nil
	}
	var out []fyne.CanvasObject
	for i, h := range past {
		if i == 0 {
			out = append(out, parts.TextOf(e.p.t("page.rounds.past"), parts.Section))
		}
		if i == pastShown {
			break
		}
		out = append(out, parts.TextOf(e.p.deps.Present.HandledLine(h), parts.Note))
	}
	return out
}

// say writes the repetition in words, as it stands in the boxes.
func (e *editor) say() {
	r, ok := e.made()
	if !ok {
		e.says.Set(parts.TextSpec{})
		return
	}
	e.says.Set(parts.TextSpec{Text: e.p.deps.Present.Repeats(r.Rule, r.Start), Role: parts.StrongBody})
}

// made is the round as it stands in the boxes.
func (e *editor) made() (model.Round, bool) {
	r := e.round
	r.Title, r.Note = e.title.Text(), e.note.Text()
	if r.Code != model.Own {
		r.Title = e.round.Title
	}
	if e.plain && !e.chosen.Once {
		plain := e.chosen
		n, err := strconv.Atoi(strings.TrimSpace(e.every.Text()))
		if err != nil {
			return r, false
		}
		plain.Every, plain.Weekdays = n, nil
		for i, t := range e.days {
			if t.Spec().Done && plain.Unit == model.Weeks {
				plain.Weekdays = append(plain.Weekdays, (e.p.deps.Present.W.FirstWeekday()+time.Weekday(i))%7)
			}
		}
		if r.Rule, err = plain.Rule(); err != nil {
			return r, false
		}
	}
	day, errD := time.Parse(dayLayout, strings.TrimSpace(e.begins.Text()))
	clock, errC := time.Parse(clockLayout, strings.TrimSpace(e.clock.Text()))
	if errD != nil || errC != nil {
		return r, false
	}
	r.Start = journal.CivilOf(time.Date(day.Year(), day.Month(), day.Day(), clock.Hour(), clock.Minute(), 0, 0, time.UTC))
	return r, true
}

func fault(f *parts.Field, words string) {
	s := f.Spec()
	s.Text, s.Error = f.Text(), words
	f.Set(s)
}

// read is made, with what cannot be read said at its box.
func (e *editor) read() (model.Round, bool) {
	w := e.p.deps.Present.W
	for _, f := range []*parts.Field{e.title, e.every, e.clock, e.begins, e.note} {
		fault(f, "")
	}
	ok := true
	refuse := func(f *parts.Field, words string) {
		fault(f, words)
		ok = false
	}
	if n, err := strconv.Atoi(strings.TrimSpace(e.every.Text())); err != nil && e.plain {
		refuse(e.every, w.T("refuse.rounds.every", nil))
	} else if e.plain && !e.chosen.Once {
		if _, err := (model.Plain{Every: n, Unit: e.chosen.Unit}).Rule(); err != nil {
			words, _ := w.Problem(err)
			refuse(e.every, words)
		}
	}
	if _, err := time.Parse(clockLayout, strings.TrimSpace(e.clock.Text())); err != nil {
		refuse(e.clock, w.T("refuse.rounds.clock", nil))
	}
	if _, err := time.Parse(dayLayout, strings.TrimSpace(e.begins.Text())); err != nil {
		refuse(e.begins, w.T("refuse.rounds.day", nil))
	}
	r, made := e.made()
	nav.ToFault(e.p.deps, e.title, e.every, e.clock, e.begins, e.note)
	return r, ok && made
}

// refuse says at its box what the keeper did not take; false where that is no
// matter of a box.
func (e *editor) refuse(err error) bool {
	var r *working.Refusal
	if nav.Retired(err) || !errors.As(err, &r) {
		return false
	}
	f, ok := map[string]*parts.Field{"title": e.title, "note": e.note, "start": e.begins, "rule": e.every, "every": e.every}[r.Field]
	if ok {
		fault(f, e.p.deps.Present.W.Refusal(r))
		nav.ToFault(e.p.deps, f)
	}
	return ok
}
