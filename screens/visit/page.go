package visit

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// Memory is the visit slips in the making, by tank: whoever looks something up in the
// daybook finds the slip as it was left, but for the private things, which are left out
// anew. The zero Memory is empty. It goes with the program.
type Memory map[string]keeper.VisitAsk

// Page is the visit slip of a tank in the making.
type Page struct {
	deps    nav.Deps
	tank    string
	memory  Memory
	root    *fyne.Container
	drawing *nav.Drawing
	scroll  *parts.Scroller

	ask   keeper.VisitAsk
	cases []keeper.Case
	shown present.VisitPlan

	span, about   *parts.Choice
	label, asking *parts.Field
	holds         map[keeper.VisitPart]*parts.Tick
	private       map[slip.Private]*parts.Tick
	look          *parts.Button
	save, paper   *parts.Button
	reply         *parts.Button
}

var _ nav.Page = (*Page)(nil)

// New makes the page of a tank; id is the case that the visit is about, or empty for the
// one that was chosen before.
func New(d nav.Deps, tank, id string, m Memory) *Page {
	ask, ok := m[tank]
	if !ok {
		ask = keeper.VisitAsk{Days: keeper.VisitDays}
	}
	if ask.Private = nil; id != "" {
		ask.Case = id
	}
	p := &Page{deps: d, tank: tank, memory: m, drawing: nav.NewDrawing(d, tank), scroll: parts.NewScroller(12), ask: ask,
		holds: map[keeper.VisitPart]*parts.Tick{}, private: map[slip.Private]*parts.Tick{}}
	p.span = parts.NewChoice(parts.ChoiceSpec{}, func(code string) {
		if n, err := strconv.Atoi(code); err == nil {
			p.ask.Days = n
		}
		p.Refresh()
	})
	p.about = parts.NewChoice(parts.ChoiceSpec{}, func(code string) {
		p.ask.Case = strings.TrimPrefix(code, noCase)
		p.Refresh()
	})
	p.label = parts.NewField(parts.FieldSpec{ID: "visit-label", Label: p.t("page.visit.label"), Placeholder: p.t("page.visit.label_eg"), Hint: p.t("page.visit.label_hint"), Text: ask.Label})
	p.label.OnCommit = func(string) { p.Refresh() }
	p.asking = parts.NewField(parts.FieldSpec{ID: "visit-questions", Label: p.t("word.visit.part.questions"), Hint: p.t("page.visit.questions_hint"), Text: strings.Join(ask.Questions, "\n"), Lines: 2})
	p.asking.OnCommit = func(string) { p.Refresh() }
	for _, part := range keeper.VisitParts() {
		t := parts.NewTick(parts.TickSpec{}, nil)
		t.OnToggled = func(done bool) {
			p.ask.Without = slices.DeleteFunc(p.ask.Without, func(x keeper.VisitPart) bool { return x == part })
			if !done {
				p.ask.Without = append(p.ask.Without, part)
			}
			p.Refresh()
		}
		p.holds[part] = t
	}
	for _, x := range slip.Privates() {
		t := parts.NewTick(parts.TickSpec{}, nil)
		t.OnToggled = func(done bool) {
			p.ask.Private = slices.DeleteFunc(p.ask.Private, func(o slip.Private) bool { return o == x })
			if done {
				p.ask.Private = append(p.ask.Private, x)
			}
			p.Refresh()
		}
		p.private[x] = t
	}
	p.look = p.deps.Button("visit-look", "page.visit.look", parts.Quiet, func() {
		if p.read() {
			d.LookVisit(tank, p.ask)
		}
	})
	p.save = p.deps.Button("visit-save", "page.visit.save", parts.Primary, func() {
		if p.read() {
			d.SaveVisit(tank, p.ask)
		}
	})
	p.paper = p.deps.Button("visit-paper", "page.visit.paper", parts.Secondary, func() {
		if p.read() {
			d.PrintVisit(tank, p.ask)
		}
	})
	p.reply = p.deps.Button("visit-reply", "page.visit.open_reply", parts.Secondary, func() { d.OpenReply() })
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.scroll)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Shown is what the page says that the slip will hold, Ask what was chosen.
func (p *Page) Shown() present.VisitPlan { return p.shown }

// Ask is what the slip is asked to hold.
func (p *Page) Ask() keeper.VisitAsk { return p.ask }

// Focus implements nav.Page.
func (p *Page) Focus() {
	p.deps.Focus(p.span)
}

func (p *Page) t(k working.Key) string { return p.deps.Present.W.T(k, nil) }

// noCase is the choice of no case.
const noCase = "none"

// read takes the words that are typed; false where they are refused, which is said
// beside their box.
func (p *Page) read() bool {
	p.ask.Label, p.ask.Language = p.label.Text(), p.deps.Present.W.Language()
	p.ask.Questions = nil
	for _, q := range strings.Split(p.asking.Text(), "\n") {
		if q = strings.TrimSpace(q); q != "" {
			p.ask.Questions = append(p.ask.Questions, q)
		}
	}
	p.memory[p.tank] = p.ask
	v, err := p.deps.Keeper.Visit(context.Background(), p.tank, p.ask)
	nav.Fault(p.label, "")
	nav.Fault(p.asking, "")
	if err != nil {
		words, _ := p.deps.Present.W.Problem(err)
		switch field(err) {
		case "label":
			nav.Fault(p.label, words)
		case "questions":
			nav.Fault(p.asking, words)
		default:
			p.deps.Fail(err)
		}
		return false
	}
	p.shown = p.deps.Present.VisitPlan(v)
	return true
}

// Refresh implements nav.Page.
func (p *Page) Refresh() {
	_ = p.drawing.ShowTank() // what fails, fails below too, and is told there
	pr := p.deps.Present
	var err error
	if p.cases, err = p.deps.Keeper.Cases(context.Background(), p.tank); err != nil {
		p.deps.Fail(err)
		return
	}
	if !slices.ContainsFunc(p.cases, func(c keeper.Case) bool { return c.ID == p.ask.Case }) {
		p.ask.Case = ""
	}
	p.read()
	spans := parts.ChoiceSpec{ID: "visit-span", Label: p.t("page.visit.span"), Chosen: strconv.Itoa(p.ask.Days), Hint: p.shown.Span}
	for _, n := range keeper.VisitSpans() {
		spans.Options = append(spans.Options, parts.Option{Code: strconv.Itoa(n), Label: pr.VisitSpan(n)})
	}
	p.span.Set(spans)
	about := parts.ChoiceSpec{ID: "visit-case", Label: p.t("page.visit.case"), Chosen: noCase, Options: []parts.Option{{Code: noCase, Label: p.t("page.visit.no_case")}}}
	for _, c := range p.cases {
		about.Options = append(about.Options, parts.Option{Code: c.ID, Label: pr.W.T("page.visit.case_line", i18n.Args{"About": pr.About(c), "Brief": pr.CivilDay(c.Opened)})})
		if c.ID == p.ask.Case {
			about.Chosen = c.ID
		}
	}
	p.about.Set(about)
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("nav.view.visit"), parts.Heading), parts.TextOf(p.t("page.visit.purpose"), parts.SoftBody)), nav.ViewRow(p.deps, p.tank, nav.Visit)}
	out = append(out, parts.NewRowOf(2, p.span, p.label))
	if len(p.cases) > 0 {
		out = append(out, p.about)
	}
	out = append(out, p.asking, parts.TextOf(p.t("page.visit.holds"), parts.Section))
	var ticks []fyne.CanvasObject
	for _, h := range p.shown.Holds {
		if h.Part == keeper.VisitQuestions || h.Part == keeper.VisitCase && p.ask.Case == "" {
			continue
		}
		t := p.holds[h.Part]
		t.Set(parts.TickSpec{ID: "visit-" + string(h.Part), Text: h.Name, Done: !slices.Contains(p.ask.Without, h.Part), Caption: h.Text, Choice: true})
		ticks = append(ticks, t)
	}
	out = append(out, parts.NewRowOf(2, ticks...))
	for _, l := range p.shown.Left {
		out = append(out, parts.TextOf(l, parts.Note))
	}
	out = append(out, parts.NewColumn(2, parts.TextOf(p.t("page.visit.private"), parts.Section), parts.TextOf(p.t("page.visit.private_note"), parts.SoftBody)))
	var secrets []fyne.CanvasObject
	for _, x := range p.shown.Private {
		t := p.private[x.What]
		t.Set(parts.TickSpec{ID: "visit-" + string(x.What), Text: x.Name, Done: slices.Contains(p.ask.Private, x.What), Caption: pr.W.T("page.visit.private_count", i18n.Args{"Number": x.Text}), Choice: true})
		secrets = append(secrets, t)
	}
	out = append(out, parts.NewRow(secrets...), parts.NewFlow(p.save, p.paper, p.look),
		parts.NewColumn(2, parts.TextOf(p.t("page.visit.reply"), parts.Section), parts.TextOf(p.t("page.visit.reply_note"), parts.SoftBody)), parts.NewFlow(p.reply), parts.NewSpace(8))
	p.scroll.Column().Set(out...)
}
