package sick

import (
	"context"
	"strconv"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"golang.org/x/text/unicode/norm"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	model "example.org/driploop/model/sick"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// heading is the head of a case: whom it concerns, which day it is.
func (p *Page) heading() []fyne.CanvasObject {
	return []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.shown.Heading, parts.Heading), parts.TextOf(p.shown.Beside, parts.SoftBody)), nav.ViewRow(p.deps, p.tank, nav.Sick)}
}

func verdict(kicker string, v present.Verdict) fyne.CanvasObject {
	title := v.Title
	return parts.NewVerdict(parts.VerdictSpec{Kicker: kicker, State: nav.State(v.State), Title: title, Lines: v.Lines})
}

// signs is the page while signs are ticked: they stand still while they are.
func (p *Page) signs() []fyne.CanvasObject {
	out := append(p.heading(), parts.TextOf(p.t("page.sick.tick"), parts.Body), p.search)
	want := plain(p.search.Text())
	found := false
	for _, g := range p.shown.Signs {
		var rows []fyne.CanvasObject
		for _, s := range g.Signs {
			if want == "" || strings.Contains(plain(s.Text+" "+g.Title+" "+s.Level), want) {
				rows = append(rows, p.tick(s))
			}
		}
		if len(rows) == 0 {
			continue
		}
		found = true
		out = append(out, parts.NewDayHeading(g.Title), parts.NewColumn(4, rows...))
	}
	if !found {
		out = append(out, parts.TextOf(p.t("page.sick.no_sign"), parts.SoftBody))
	}
	out = append(out, verdict(p.t("page.sick.urgency"), p.shown.Urgency))
	return append(out, parts.NewFlow(p.button("what-to-do", p.t("page.sick.what_to_do"), parts.Primary, func() {
		p.ticking = false
		p.lay()
		p.scroll.Top()
		p.Focus()
	})))
}

// plain brings a text to what is compared in a search: small letters, no accents.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, norm.NFD.String(strings.TrimSpace(s)))
}

func (p *Page) tick(s present.CaseSign) *parts.Tick {
	t, ok := p.ticks[string(s.Code)]
	if !ok {
		t = parts.NewTick(parts.TickSpec{}, nil)
		p.ticks[string(s.Code)] = t
	}
	caption := s.Level
	if s.Since != "" {
		caption += " · " + s.Since
	}
	t.Set(parts.TickSpec{ID: "sign-" + string(s.Code), Text: s.Text, Done: s.Set, Caption: caption})
	t.OnToggled = func(done bool) {
		p.do(func(ctx context.Context) error {
			if done {
				return p.deps.Keeper.TickSign(ctx, p.tank, p.id, s.Code)
			}
			return p.deps.Keeper.UntickSign(ctx, p.tank, p.id, s.Code)
		}, "", nil)
	}
	return t
}

// whole is the page of a case: water first.
func (p *Page) whole() []fyne.CanvasObject {
	s := p.shown
	out := p.heading()
	if !s.Open {
		return append(out, p.closed()...)
	}
	out = append(out, verdict(p.t("page.sick.urgency"), s.Urgency), parts.NewFlow(
		p.button("add-pictures", p.t("page.sick.add_pictures"), parts.Secondary, func() { p.add(nil) }), p.button("more-signs", p.t("page.sick.more_signs"), parts.Secondary, p.more), p.printer(),
		p.visit(), p.button("concern", p.t("page.sick.concern"), parts.Secondary, p.concern), p.button("close-case", p.t("page.sick.close"), parts.Secondary, p.finish)))
	out = append(out, p.notes(func(n present.Note) bool { return n.Severity == care.Danger })...)
	out = append(out, p.water()...)
	if len(s.Acts) > 0 {
		out = append(out, parts.TextOf(p.t("page.sick.next_hour"), parts.Section))
		out = append(out, p.notes(func(n present.Note) bool { return n.Severity != care.Danger && n.ID != reagents })...)
		for i, a := range s.Acts {
			out = append(out, parts.TextOf(p.numbered(i, a), parts.Body))
		}
	}
	out = append(out, p.changes()...)
	out = append(out, parts.TextOf(p.t("page.sick.vet"), parts.Section), verdict("", s.Vet))
	if len(s.Seen) > 0 {
		out = append(out, parts.TextOf(p.t("page.sick.seen"), parts.Section))
		for _, x := range s.Seen {
			out = append(out, p.tick(x))
		}
	}
	out = append(out, p.gallery()...)
	return append(out, p.record()...)
}

// closed is the page of a case that has ended: its record, and the way back.
func (p *Page) closed() []fyne.CanvasObject {
	out := []fyne.CanvasObject{parts.NewVerdict(parts.VerdictSpec{State: parts.Steady, Title: p.shown.Outcome, Lines: lines(p.view.Case.Note)}),
		parts.NewFlow(p.button("reopen", p.t("page.sick.reopen"), parts.Secondary, func() {
			p.do(func(ctx context.Context) error { return p.deps.Keeper.ReopenCase(ctx, p.tank, p.id) }, "page.sick.reopened", p.Focus)
		}), p.printer(), p.visit(), p.remove())}
	out = append(out, p.gallery()...)
	return append(out, p.record()...)
}

// visit leads to the slip for the shop or the veterinarian.
func (p *Page) visit() fyne.CanvasObject {
	return p.button("visit", p.t("page.visit.make"), parts.Secondary, func() { p.deps.Go(nav.Route{Place: nav.Visit, Tank: p.tank, Case: p.id}) })
}

func lines(note string) []string {
	if note == "" {
		return nil
	}
	return []string{note}
}

func (p *Page) numbered(i int, words string) string {
	return p.deps.Present.W.T("page.sick.numbered", i18n.Args{"Number": strconv.Itoa(i + 1), "Words": words})
}

func (p *Page) more() {
	p.ticking = true
	p.lay()
	p.scroll.Top()
	p.Focus()
}

// reagents is the safety note of the water tests.
const reagents = care.NoteID("reagents")

// notes are the safety notes of one place on the page, before what they are about.
func (p *Page) notes(here func(present.Note) bool) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, n := range p.shown.Notes {
		if here(n) {
			out = append(out, parts.NewSafety(nav.Panel(n), nil))
		}
	}
	return out
}

// water is what comes first: what the latest test says and the tests to make now.
func (p *Page) water() []fyne.CanvasObject {
	s := p.shown
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.sick.water_first"), parts.Section)}
	if s.Water != nil {
		out = append(out, verdict(s.WaterAt, *s.Water))
	} else {
		out = append(out, parts.TextOf(p.t("page.sick.not_tested"), parts.Body))
	}
	out = append(out, p.notes(func(n present.Note) bool { return n.ID == reagents })...)
	out = append(out, parts.TextOf(p.t("page.sick.tests"), parts.StrongBody))
	first := true
	for i, t := range s.Tests {
		if first && (!p.view.Tests[i].Fresh || i == len(s.Tests)-1) {
			first = false
			out = append(out, parts.NewFlow(p.button("test-now", p.deps.Present.W.T("page.sick.test_now", i18n.Args{"Test": t.Label}), parts.Primary, func() { p.test(t.Name) })))
		}
	}
	for i, t := range s.Tests {
		row := parts.EntryRowSpec{ID: "test-" + t.Name, Time: strconv.Itoa(i + 1), Kind: t.Label, Text: t.Last}
		if !p.view.Tests[i].Fresh {
			row.Note, row.State = p.t("page.sick.to_test"), parts.Wait
		}
		out = append(out, parts.NewEntryRow(row, func() { p.test(t.Name) }))
	}
	return out
}

// test opens the form of a water test at one of its boxes; the test becomes part
// of the case.
func (p *Page) test(name string) {
	p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Case: p.id, Write: journal.Tested, Ask: name})
}

// changes is what has changed lately; each line opens its entry.
func (p *Page) changes() []fyne.CanvasObject {
	out := []fyne.CanvasObject{parts.TextOf(p.deps.Present.W.N("n.changed_days", model.Window, nil), parts.Section)}
	for _, c := range p.shown.Changes {
		row := parts.EntryRowSpec{ID: "change-" + c.Entry, Time: c.When, Kind: c.Kind, Text: c.Text}
		out = append(out, parts.NewEntryRow(row, func() {
			if c.Entry == "" {
				p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Case: p.id, Write: journal.Changed})
				return
			}
			p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Entry: c.Entry})
		}))
	}
	if len(p.shown.Changes) == 0 {
		out = append(out, parts.TextOf(p.t("page.sick.nothing_changed"), parts.SoftBody))
	}
	return out
}

// record is what was written for the case, with a box to write more.
func (p *Page) record() []fyne.CanvasObject {
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.sick.record"), parts.Section)}
	if p.shown.Open {
		out = append(out, p.earlier()...)
		out = append(out, p.note, parts.NewFlow(p.button("write-note", p.t("page.sick.write_note"), parts.Secondary, p.writeNote)))
	}
	for _, d := range p.shown.Days {
		out = append(out, parts.NewDayHeading(d.Title))
		for _, e := range d.Entries {
			row := parts.EntryRowSpec{ID: e.ID, Time: e.Time, Kind: e.Kind, Text: e.Text, Note: e.Note}
			if e.Note != "" {
				row.State = nav.State(e.State)
			}
			out = append(out, parts.NewEntryRow(row, func() { p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Entry: e.ID}) }))
		}
	}
	if len(p.shown.Days) == 0 {
		out = append(out, parts.TextOf(p.t("page.sick.no_record"), parts.SoftBody))
	}
	if p.shown.Open {
		out = append(out, parts.NewFlow(p.remove()))
	}
	return append(out, parts.TextOf(p.t("page.sick.no_names"), parts.Note))
}

func (p *Page) remove() fyne.CanvasObject {
	return p.button("delete-case", p.t("page.sick.delete"), parts.Quiet, func() {
		p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.DeleteCase(ctx, p.tank, p.id) }, func(err error) {
			if err != nil {
				p.deps.Fail(err)
				return
			}
			p.id, p.ticking = "", false
			p.deps.Changed()
			p.Refresh()
			p.scroll.Top()
			p.Focus()
			p.deps.Say(p.t("page.sick.deleted"), p.t("label.undo"), p.undo)
		})
	})
}

func (p *Page) writeNote() {
	words := p.note.Text()
	if strings.TrimSpace(words) == "" {
		return
	}
	p.do(func(ctx context.Context) error {
		_, err := p.deps.Keeper.NoteCase(ctx, p.tank, p.id, words)
		return err
	}, "page.sick.noted", func() {
		p.note = p.newNote()
		p.lay()
		p.deps.Focus(p.note.Focusable())
	})
}

// newNote is an empty box for what was noticed.
func (p *Page) newNote() *parts.Field {
	f := parts.NewField(parts.FieldSpec{ID: "case-note", Label: p.t("page.sick.note"), Placeholder: p.t("page.sick.note_eg"), Hint: p.t("page.entry.note_hint"), Lines: 3, Sends: true})
	f.OnEnter = p.writeNote
	return f
}

// printer makes the paper for the veterinarian.
func (p *Page) printer() fyne.CanvasObject {
	return p.button("print-case", p.t("page.sick.print"), parts.Secondary, func() { p.deps.PrintCase(p.tank, p.id) })
}

// earlier offers what was written lately without the case, to be put into it.
func (p *Page) earlier() []fyne.CanvasObject {
	spec := parts.ChoiceSpec{ID: "into-case", Label: p.t("page.sick.into"), Placeholder: p.t("page.sick.into_which"), Search: p.t("label.search")}
	for _, e := range p.view.Loose {
		row := p.deps.Present.Entry(e)
		spec.Options = append(spec.Options, parts.Option{Code: e.ID, Label: p.deps.Present.W.T("page.sick.into_row", i18n.Args{"Day": p.deps.Present.CivilDay(e.At), "Kind": row.Kind, "Words": row.Text})})
	}
	if len(spec.Options) == 0 {
		return nil
	}
	return []fyne.CanvasObject{parts.NewChoice(spec, func(entry string) {
		p.do(func(ctx context.Context) error { return p.deps.Keeper.AddToCase(ctx, p.tank, p.id, entry) }, "page.sick.put_in", nil)
	})}
}
