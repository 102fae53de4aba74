package daybook

import (
	"context"
	"errors"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// changePanel helps with a water change: how much it is, how to mix it, what
// conditioner it takes, what it does to the water.
type changePanel struct {
	d       nav.Deps
	tank    string
	ask     keeper.ChangeAsk
	way     *parts.Choice
	boxes   map[string]*parts.Field
	inputs  *parts.Column
	answer  *parts.Column
	working *parts.Working
	plan    *keeper.ChangePlan
	asked   int
}

// changeBox is one box of the panel and the measure that it fills.
type changeBox struct {
	id      string
	label   working.Key
	kind    quantity.Kind
	purpose i18n.Purpose
}

var changeBoxes = map[string]changeBox{
	"buckets": {"buckets", "page.change.buckets", quantity.KindCount, i18n.General},
	"bucket":  {"bucket", "page.change.bucket", quantity.KindVolume, i18n.Tank},
	"drop":    {"drop", "page.change.drop", quantity.KindLength, i18n.General},
	"share":   {"share", "page.change.share", quantity.KindRatio, i18n.General},
	"target":  {"target", "page.change.target", quantity.KindTemperature, i18n.General},
	"cold":    {"cold", "page.change.cold", quantity.KindTemperature, i18n.General},
	"hot":     {"hot", "page.change.hot", quantity.KindTemperature, i18n.General},
}

func (p *changePanel) measure(id string) *quantity.Measure {
	return map[string]*quantity.Measure{"buckets": &p.ask.Buckets, "bucket": &p.ask.Bucket, "drop": &p.ask.Drop, "share": &p.ask.Share,
		"target": &p.ask.Target, "cold": &p.ask.Cold, "hot": &p.ask.Hot}[id]
}

// ShowChange opens the helper by itself; what it comes to opens as a water change
// to be written down.
func (p *Page) ShowChange() {
	showChange(p.deps, p.tank, keeper.ChangeAsk{}, func(rs []journal.Reading) {
		f := p.begin(journal.Entry{Kind: journal.Changed}, nav.Route{}, nil)
		if f != nil {
			f.put(rs)
		}
	})
}

// showChange opens the panel, at the way and the share that begin gives, if it
// does; take gets what it came to as readings of an entry.
func showChange(d nav.Deps, tank string, begin keeper.ChangeAsk, take func([]journal.Reading)) {
	w := d.Present.W
	ask, err := d.Keeper.ChangeDefaults(context.Background(), tank)
	if err != nil {
		d.Fail(err)
		return
	}
	if ask.TopUp = begin.TopUp; ask.TopUp {
		ask.Way = keeper.ByDrop
	}
	if begin.Way != "" {
		ask.Way, ask.Share = begin.Way, begin.Share
	}
	p := &changePanel{d: d, tank: tank, ask: ask, boxes: map[string]*parts.Field{}, inputs: parts.NewColumn(8), answer: parts.NewColumn(8)}
	p.working = parts.NewWorking(parts.WorkingSpec{Show: w.T("working.heading", nil), Hide: w.T("working.hide", nil)})
	p.way = parts.NewChoice(parts.ChoiceSpec{}, func(code string) {
		p.ask.Way = keeper.ChangeWay(code)
		p.show()
		p.reckon()
	})
	for id := range changeBoxes {
		p.boxes[id] = p.box(changeBoxes[id])
	}
	var shut func()
	p.show()
	title := working.Key("page.change.heading")
	if ask.TopUp {
		title = "page.change.top_up"
	}
	buttons := parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "take-over", Label: w.T("page.change.take", nil), Kind: parts.Primary}, func() {
		if p.plan == nil {
			return
		}
		rs := p.readings()
		shut()
		take(rs)
	}), parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: w.T("label.cancel", nil)}, func() { shut() }))
	content := []fyne.CanvasObject{p.inputs, p.answer}
	for i, n := range care.NotesAt(care.AtChange) {
		content = append(content, parts.NewSafety(nav.Panel(d.Present.Note(n)), nil))
		if i == 0 { // the plugs are met before anything is done
			content = append(content, p.working, parts.NewText(parts.TextSpec{Text: w.T("page.fill.safety", nil), Role: parts.Section}))
		}
	}
	shut = d.Dialog(w.T(title, nil), parts.NewColumn(12, content...), buttons)
	p.reckon()
	if c := d.Canvas(); c != nil {
		c.Focus(p.way)
	}
}

func (p *changePanel) box(b changeBox) *parts.Field {
	w := p.d.Present.W
	unit := w.DefaultUnit(b.kind, b.purpose)
	m := ours(w, *p.measure(b.id), unit)
	*p.measure(b.id) = m
	if !m.IsZero() {
		unit = m.Unit
	}
	f := parts.NewField(parts.FieldSpec{ID: "change-" + b.id, Label: w.T(b.label, nil), Text: strings.Replace(m.Number, ".", string(w.Decimal()), 1), Unit: w.Unit(unit)})
	f.OnChanged = func(text string) {
		reading := w.Reading(b.kind, b.purpose)
		reading.Unit = unit
		words := ""
		var got quantity.Measure
		if strings.TrimSpace(text) != "" {
			var err error
			if got, err = quantity.Parse(text, b.kind, reading); err != nil {
				words, _ = w.Problem(err)
			}
		}
		*p.measure(b.id) = got
		wrong(f, words)
		p.reckon()
	}
	return f
}

// show sets the boxes that the way needs.
func (p *changePanel) show() {
	w := p.d.Present.W
	spec := parts.ChoiceSpec{ID: "change-way", Label: w.T("page.change.way", nil), Chosen: string(p.ask.Way)}
	for _, x := range keeper.ChangeWays() {
		spec.Options = append(spec.Options, parts.Option{Code: string(x), Label: w.T(working.Key("page.change.way."+string(x)), nil)})
	}
	p.way.Set(spec)
	row := []fyne.CanvasObject{p.way}
	switch p.ask.Way {
	case keeper.ByBuckets:
		row = append(row, p.boxes["buckets"], p.boxes["bucket"])
	case keeper.ByDrop:
		row = append(row, p.boxes["drop"], p.boxes["bucket"])
	default:
		row = append(row, p.boxes["share"], p.boxes["bucket"])
	}
	p.inputs.Set(parts.NewRow(row...), parts.NewRow(p.boxes["target"], p.boxes["cold"], p.boxes["hot"]))
}

// reckon works the change out, away from the window's thread.
func (p *changePanel) reckon() {
	p.asked++
	n, ask := p.asked, p.ask
	var plan keeper.ChangePlan
	p.d.Work(func(ctx context.Context) (err error) {
		plan, err = p.d.Keeper.PlanChange(ctx, p.tank, ask)
		return err
	}, func(err error) {
		if n == p.asked { // else something was typed since
			p.tell(plan, err)
		}
	})
}

// tell shows what the change comes to, or at its box what cannot be.
func (p *changePanel) tell(plan keeper.ChangePlan, err error) {
	w := p.d.Present.W
	p.plan = nil
	var r *working.Refusal
	if errors.As(err, &r) {
		if p.boxes[r.Field] == nil && r.Field != "way" { // the tank itself cannot be reckoned with
			p.answer.Set(parts.NewText(parts.TextSpec{Text: w.Refusal(r), Role: parts.Refusal}))
			return
		}
		if b := p.boxes[r.Field]; b != nil && b.Spec().Error == "" {
			if r.Code != "refuse.missing" || strings.TrimSpace(b.Text()) != "" {
				wrong(b, w.Refusal(r))
			}
		}
		p.answer.Set(parts.NewText(parts.TextSpec{Text: w.T("page.change.incomplete", nil), Role: parts.SoftBody}))
		return
	}
	if err != nil {
		p.d.Fail(err)
		return
	}
	for _, b := range p.boxes {
		wrong(b, "")
	}
	p.plan = &plan
	p.answer.Set(p.answers()...)
	spec := p.working.Spec()
	spec.Parts = nil
	for _, t := range plan.Trails {
		spec.Parts = append(spec.Parts, nav.WorkingParts(w.Trail(t))...)
	}
	for _, x := range plan.Predicted {
		spec.Parts = append(spec.Parts, nav.WorkingParts(w.Trail(x.Trail))...)
	}
	p.working.Set(spec)
}

// answers is what the plan says, the amount first.
func (p *changePanel) answers() []fyne.CanvasObject {
	w, plan := p.d.Present.W, p.plan
	lines := p.d.Present.ChangeLines(*plan)
	out := []fyne.CanvasObject{parts.NewNumber(parts.NumberSpec{Name: w.T("q.water.volume_changed", nil), Number: w.Quantity(plan.Volume.Value()),
		Beside: w.T("page.change.beside", i18n.Args{"Share": plan.Share.Value(), "Range": w.Range(plan.Low.Value(), plan.High.Value())})})}
	for _, l := range lines {
		out = append(out, parts.NewFigure(parts.FigureSpec{Name: l.Name, Value: l.Value}))
	}
	var told []string
	state := working.Steady
	for _, c := range plan.Checks {
		if c.Finding != nil {
			told, state = append(told, p.d.Present.Say(*c.Finding)), working.Worst(state, c.State)
		}
	}
	for _, f := range plan.Findings {
		told, state = append(told, p.d.Present.Say(f)), working.Worst(state, f.State)
	}
	if len(told) > 0 {
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: nav.State(state), Title: told[0], Lines: told[1:]}))
	}
	if !plan.TapKnown {
		out = append(out, parts.NewText(parts.TextSpec{Text: w.T("page.change.tap_unknown", nil), Role: parts.SoftBody}))
	}
	return out
}

// readings are what the plan writes into the entry.
func (p *changePanel) readings() []journal.Reading {
	w := p.d.Present.W
	unit := w.DefaultUnit(quantity.KindVolume, i18n.Tank)
	rs := []journal.Reading{{Name: journal.NameVolume, Measure: quantity.Of(p.plan.Volume.Value().In(quantity.MustUnit(unit)), unit, 3)}}
	if t := p.plan.Treated; t != nil {
		u := quantity.UnitCode("ml")
		if t.Whole.Kind == quantity.KindMass {
			u = "g"
		}
		rs = append(rs, journal.Reading{Name: journal.NameDose, Measure: quantity.Of(t.Whole.In(quantity.MustUnit(u)), u, 3)})
	}
	tu := w.DefaultUnit(quantity.KindTemperature, i18n.General)
	return append(rs, journal.Reading{Name: journal.NameTemperature, Measure: quantity.Of(p.plan.Target.Value().In(quantity.MustUnit(tu)), tu, 3)})
}
