package homecoming

import (
	"context"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// card is one bag on the page. Its parts stay from one showing to the next, so that
// the focus does.
type card struct {
	p       *Page
	id      string
	panel   *parts.Panel
	number  *parts.Number
	chart   *chart.View
	ticks   map[care.BagStep]*parts.Tick
	working *parts.Working
	open    bool
	in      *parts.Button
	others  []fyne.CanvasObject
	view    keeper.BagView
}

// The least size of the curve, in points at 100 %. Judgement.
const curveWide, curveTall = 300, 150

func newCard(p *Page, id string) *card {
	k := &card{p: p, id: id, panel: parts.NewPanel(""), number: parts.NewNumber(parts.NumberSpec{}), ticks: map[care.BagStep]*parts.Tick{}}
	k.in = parts.NewButton(parts.ButtonSpec{}, k.close)
	k.others = []fyne.CanvasObject{p.deps.Button("bag-change-"+id, "label.change", parts.Secondary, func() { p.edit(id, k.view.Ask) }),
		p.deps.Button("bag-drop-"+id, "page.bag.drop", parts.Quiet, func() {
			p.change(func(ctx context.Context) error { return p.deps.Keeper.DropBag(ctx, p.tank, id) }, "page.bag.dropped")
		})}
	return k
}

// show puts the bag on its card.
func (k *card) show(v keeper.BagView, b present.Bag) {
	k.view = v
	k.panel.Set(b.Name)
	out := []fyne.CanvasObject{parts.TextOf(b.Beside, parts.Note)}
	if b.Refused != "" {
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: parts.Wait, Title: b.Refused}), parts.NewFlow(k.others...))
		k.panel.Column().Set(out...)
		return
	}
	if b.Verdict != nil {
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: nav.State(b.Verdict.State), Title: b.Verdict.Title, Lines: b.Verdict.Lines}))
	}
	k.tick(v, b)
	out = append(out, k.number)
	if b.Unsure != "" {
		out = append(out, parts.TextOf(b.Unsure, parts.Body))
	}
	if k.chart != nil {
		out = append(out, k.chart)
	}
	for _, l := range b.Figures {
		out = append(out, parts.TextOf(l, parts.Body))
	}
	out = append(out, parts.NewErrand(parts.ErrandSpec{State: k.state(b), Title: b.Now, Text: b.Next}))
	ahead := 0
	for _, s := range b.Steps {
		if !s.Done && ahead < 2 { // the caution stands before the step, while it is now or next
			ahead++
			for _, n := range s.Notes {
				out = append(out, parts.NewSafety(nav.Panel(n), nil))
			}
		}
		out = append(out, k.step(s, ahead > 1))
	}
	out = append(out, k.trails(b)...)
	kind := parts.Secondary
	if v.Now == "" || v.Ready(k.p.deps.Now()) {
		kind = parts.Primary
	}
	k.in.Set(parts.ButtonSpec{ID: "bag-in-" + k.id, Label: k.p.t("page.bag.in"), Kind: kind})
	out = append(out, parts.NewFlow(append([]fyne.CanvasObject{k.in}, k.others...)...))
	k.panel.Column().Set(out...)
}

func (k *card) state(b present.Bag) parts.State {
	if b.Left == "" {
		return parts.Steady
	}
	return nav.State(b.State)
}

// tick shows the time that is left, and how far the curve has come.
func (k *card) tick(v keeper.BagView, b present.Bag) {
	if b.Number == nil {
		return
	}
	spec := parts.NumberSpec{Name: b.Number.Name, Number: b.Number.Value, Beside: b.Number.Beside}
	if b.Left != "" {
		spec.Name = k.p.deps.Present.W.T("page.bag.left", i18n.Args{"What": b.Number.Name, "Time": b.Number.Value})
		spec.Number, spec.Beside = nav.Clock(v.Timer.Left(k.p.deps.Now()).Round(time.Second)), b.Left
	}
	k.number.Set(spec)
	if b.Curve == nil || len(b.Curve.Time) == 0 {
		return
	}
	c := nav.CurveSpec(k.p.deps, b.Curve)
	if k.chart == nil {
		k.chart = chart.NewView(c)
	}
	tall := look.ScaleFor(k.chart) // its words grow with the size of text
	k.chart.SetMinSize(fyne.NewSize(curveWide, float32(curveTall*tall)))
	k.chart.ReadOut = nav.CurveReading(k.p.deps, b.Curve)
	if _, reading := k.chart.Reading(); !reading { // a reading in progress is not taken away by the clock
		k.chart.Set(c)
	}
}

// step is one thing to do, ticked with its time; far tells its caution in a line.
func (k *card) step(s present.BagStep, far bool) fyne.CanvasObject {
	spec := parts.TickSpec{ID: "bag-" + string(s.Step) + "-" + k.id, Text: s.Text, Done: s.Done, Strong: k.view.Now == s.Step && !k.view.Waiting(k.p.deps.Now())}
	if s.Done {
		spec.Caption = k.p.deps.Present.W.T("page.bag.done_at", i18n.Args{"Time": s.At})
	} else if far {
		for _, n := range s.Notes {
			spec.Caption = k.p.deps.Present.W.Colon(n.Signal, i18n.Sentences(n.Hazard, n.Avoid))
		}
	}
	t := k.ticks[s.Step]
	if t == nil {
		t = parts.NewTick(spec, nil)
		k.ticks[s.Step] = t
	}
	t.OnToggled = func(done bool) {
		k.p.change(func(ctx context.Context) error { return k.p.deps.Keeper.TickBag(ctx, k.p.tank, k.id, s.Step, done) }, "")
	}
	t.Set(spec)
	return t
}

func (k *card) trails(b present.Bag) []fyne.CanvasObject {
	if len(b.Trails) == 0 {
		return nil
	}
	w := k.p.deps.Present.W
	spec := parts.WorkingSpec{Show: w.T("working.heading", nil), Hide: w.T("working.hide", nil), Copy: w.T("page.fill.copy", nil), Open: k.open}
	for _, t := range b.Trails {
		spec.Parts = append(spec.Parts, nav.WorkingParts(t)...)
	}
	if k.working == nil {
		k.working = parts.NewWorking(spec)
		k.working.OnOpened = func(open bool) { k.open = open }
		k.working.OnCopy = nav.CopyWorking(k.p.deps)
	}
	k.working.Set(spec)
	return []fyne.CanvasObject{k.working}
}

// close says that the animals are in, and asks where the wait is not over.
func (k *card) close() {
	p := k.p
	in := func(early bool) {
		p.change(func(ctx context.Context) error { return p.deps.Keeper.CloseBag(ctx, p.tank, k.id, early) }, "page.bag.are_in")
	}
	now := p.deps.Now()
	if !k.view.Waiting(now) {
		in(false)
		return
	}
	var shut func()
	yes := p.deps.Button("bag-early", "page.bag.in", parts.Primary, func() { shut(); in(true) })
	words := p.deps.Present.W.T("page.bag.early", i18n.Args{"Left": nav.Clock(k.view.Timer.Left(now).Round(time.Second))})
	shut = p.deps.Dialog(p.t("page.bag.early_title"), parts.NewColumn(10, parts.TextOf(words, parts.Body)),
		parts.NewFlow(yes, p.deps.Button("cancel", "page.bag.wait_on", parts.Secondary, func() { shut() })))
	p.deps.Focus(yes)
}
