package homecoming

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// form is the panel of a bag: who is in it and what was measured, with what that
// comes to while it is typed.
type form struct {
	p      *Page
	id     string // of the bag; empty for a new one
	ask    keeper.BagAsk
	kind   *parts.Choice
	way    *parts.Choice
	basis  *parts.Choice
	name   *parts.Field
	boxes  map[string]*nav.Measured
	says   *parts.Column
	column *parts.Column
	opener *parts.Button
	more   *parts.Column
	opened bool
	named  string // the name that was put in for the kind
}

// box is a measure that the form asks for.
type box struct {
	id      string
	label   working.Key
	kind    quantity.Kind
	purpose i18n.Purpose
	at      func(*keeper.BagAsk) *quantity.Measure
}

var boxes = []box{
	{"count", "page.bag.count", quantity.KindCount, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.Count }},
	{"volume", "page.bag.volume", quantity.KindVolume, i18n.Tank, func(a *keeper.BagAsk) *quantity.Measure { return &a.Volume }},
	{"temp", "page.bag.temp", quantity.KindTemperature, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.Temp }},
	{"tank_temp", "page.bag.tank_temp", quantity.KindTemperature, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.TankTemp }},
	{"hours", "page.bag.hours", quantity.KindTime, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.Hours }},
	{"drops", "page.bag.drops", quantity.KindCount, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.Drops }},
	{"doublings", "page.bag.doublings", quantity.KindCount, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.Doublings }},
	{"ph", "page.bag.ph", quantity.KindPH, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.PH }},
	{"kh", "page.bag.kh", quantity.KindHardness, i18n.Carbonate, func(a *keeper.BagAsk) *quantity.Measure { return &a.KH }},
	{"ammonia", "page.bag.ammonia", quantity.KindConcentration, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.Ammonia }},
	{"tank_ph", "page.bag.tank_ph", quantity.KindPH, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.TankPH }},
	{"males", "page.bag.males", quantity.KindCount, i18n.General, func(a *keeper.BagAsk) *quantity.Measure { return &a.Males }},
	{"length", "page.bag.length", quantity.KindLength, i18n.Fish, func(a *keeper.BagAsk) *quantity.Measure { return &a.Length }},
}

// edit asks for a bag, or for a change of one.
func (p *Page) edit(id string, a keeper.BagAsk) {
	f := &form{p: p, id: id, ask: a, boxes: map[string]*nav.Measured{}, says: parts.NewColumn(6)}
	if id == "" {
		var err error
		if f.ask, err = p.deps.Keeper.BagDefaults(context.Background(), p.tank); err != nil {
			p.deps.Fail(err)
			return
		}
	}
	if f.ask.Ammonia.Basis == "" {
		f.ask.Ammonia.Basis = quantity.AsN
	}
	f.make()
	var shut func()
	save := func() {
		ask, ok := f.read()
		if !ok {
			nav.ToFault(p.deps, f.fields()...)
			return
		}
		p.deps.Work(func(ctx context.Context) (err error) {
			if id == "" {
				_, err = p.deps.Keeper.OpenBag(ctx, p.tank, ask)
				return err
			}
			return p.deps.Keeper.ChangeBag(ctx, p.tank, id, ask)
		}, func(err error) {
			if f.refuse(err) {
				return
			}
			shut()
			if err != nil {
				p.deps.Fail(err)
				return
			}
			p.deps.Changed()
			p.Refresh()
			p.Focus()
		})
	}
	f.name.OnEnter = save
	for _, b := range f.boxes {
		b.OnEnter = save
	}
	f.lay()
	f.say()
	title := p.t("page.bag.add")
	if id != "" {
		title = p.t("page.bag.change_title")
	}
	shut = p.deps.Dialog(title, f.column, parts.NewFlow(p.deps.Button("keep", "page.day.keep", parts.Primary, save), p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	p.deps.Focus(f.kind)
}

func (f *form) make() {
	p := f.p
	f.kind = parts.NewChoice(f.kindSpec(), func(code string) {
		f.ask.Species = code
		if a, err := fish.Get(fish.Code(code)); err == nil && (f.name.Text() == "" || f.name.Text() == f.named) {
			f.named = p.deps.Present.KindName(a.Code)
			s := f.name.Spec()
			s.Text = f.named
			f.name.Set(s)
		}
		f.kind.Set(f.kindSpec())
	})
	f.name = parts.NewField(parts.FieldSpec{ID: "name", Label: p.t("page.bag.who"), Text: f.ask.Name, Placeholder: p.t("page.bag.who_eg")})
	f.way = parts.NewChoice(f.waySpec(), func(code string) {
		f.ask.Way = code
		f.way.Set(f.waySpec())
		f.lay()
		f.say()
	})
	f.basis = parts.NewChoice(f.basisSpec(), func(code string) {
		f.ask.Ammonia.Basis = quantity.Basis(code)
		f.basis.Set(f.basisSpec())
		f.say()
	})
	for _, b := range boxes {
		m := *b.at(&f.ask)
		if b.id == "ammonia" && m.Number == "" {
			m = quantity.Measure{}
		}
		x := nav.NewMeasured(p.deps, b.id, b.label, b.kind, b.purpose, m, f.id == "")
		x.OnChanged = func(string) { f.say() }
		f.boxes[b.id] = x
	}
	f.more = parts.NewColumn(8, parts.NewRow(f.boxes["ph"], f.boxes["kh"], f.boxes["tank_ph"]), parts.NewRow(f.boxes["ammonia"], f.basis), parts.NewRow(f.boxes["males"], f.boxes["length"]))
	f.opener = parts.NewButton(parts.ButtonSpec{ID: "more-fields", Label: p.t("page.bag.more"), Kind: parts.Quiet, Disclosure: parts.Shut}, func() {
		f.opened = !f.opened
		f.lay()
	})
	for _, id := range []string{"ph", "kh", "ammonia", "males", "length"} {
		f.opened = f.opened || f.boxes[id].Text() != ""
	}
	f.column = parts.NewColumn(10)
}

func (f *form) kindSpec() parts.ChoiceSpec {
	p := f.p
	s := parts.ChoiceSpec{ID: "kind", Label: p.t("page.bag.kind"), Chosen: f.ask.Species, Search: p.t("page.bag.search"), Empty: p.t("page.bag.no_kind"),
		Options: []parts.Option{{Label: p.t("page.bag.other_kind")}}}
	for _, a := range fish.All() {
		s.Options = append(s.Options, parts.Option{Code: string(a.Code), Label: p.deps.Present.KindName(a.Code)})
	}
	slices.SortStableFunc(s.Options[1:], func(a, b parts.Option) int { return cmp.Compare(a.Label, b.Label) })
	return s
}

func (f *form) waySpec() parts.ChoiceSpec {
	return parts.ChoiceSpec{ID: "way", Label: f.p.t("page.bag.way"), Chosen: f.ask.Way, Options: []parts.Option{
		{Code: care.WayFloat, Label: f.p.t("page.bag.way_float")}, {Code: care.WayDrip, Label: f.p.t("page.bag.way_drip")}}}
}

func (f *form) basisSpec() parts.ChoiceSpec {
	return parts.ChoiceSpec{ID: "basis", Label: f.p.t("page.fill.basis"), Chosen: string(f.ask.Ammonia.Basis), Options: []parts.Option{
		{Code: string(quantity.AsN), Label: f.p.t("page.fill.basis_n")}, {Code: string(quantity.AsIon), Label: f.p.t("page.fill.basis_ion")}}}
}

// lay shows what the way asks for.
func (f *form) lay() {
	s := f.opener.Spec()
	s.Disclosure = parts.Shut
	if f.opened {
		s.Disclosure = parts.Opened
	}
	f.opener.Set(s)
	out := []fyne.CanvasObject{f.kind, parts.NewRow(f.name, f.boxes["count"]), parts.NewRow(f.boxes["volume"], f.boxes["temp"], f.boxes["tank_temp"]),
		parts.NewRow(f.boxes["hours"], f.way)}
	if f.ask.Way == care.WayDrip {
		out = append(out, parts.NewRow(f.boxes["drops"], f.boxes["doublings"]))
	}
	out = append(out, f.says, f.opener)
	if f.opened {
		out = append(out, f.more)
	}
	f.column.Set(out...)
}

// fields are the boxes in the order in which they stand.
func (f *form) fields() []*parts.Field {
	out := []*parts.Field{f.name}
	for _, b := range boxes {
		out = append(out, f.boxes[b.id].Field)
	}
	return out
}

// read takes what stands in the boxes; what cannot be read is said below.
func (f *form) read() (keeper.BagAsk, bool) {
	a, ok := f.ask, true
	a.Name = f.name.Text()
	nav.Fault(f.name, "")
	for _, b := range boxes {
		if (b.id == "drops" || b.id == "doublings") && a.Way != care.WayDrip {
			continue
		}
		m, good := f.boxes[b.id].Read()
		if b.id == "ammonia" && !m.IsZero() {
			m.Basis = f.ask.Ammonia.Basis
		}
		*b.at(&a), ok = m, good && ok
	}
	return a, ok
}

// say works out what has been typed so far; what cannot be read yet says nothing.
func (f *form) say() {
	a := f.ask
	for _, b := range boxes {
		m, err := f.boxes[b.id].Peek()
		if err != nil {
			return
		}
		if b.id == "ammonia" && !m.IsZero() {
			m.Basis = f.ask.Ammonia.Basis
		}
		*b.at(&a) = m
	}
	plan, err := f.p.deps.Keeper.PlanBag(context.Background(), f.p.tank, a)
	if err != nil {
		f.says.Set()
		return
	}
	b := f.p.deps.Present.BagPlan(plan)
	var out []fyne.CanvasObject
	if b.Number != nil {
		out = append(out, parts.NewNumber(parts.NumberSpec{Name: b.Number.Name, Number: b.Number.Value, Beside: b.Number.Beside}))
	}
	if b.Verdict != nil {
		out = append(out, parts.NewVerdict(parts.VerdictSpec{State: nav.State(b.Verdict.State), Title: b.Verdict.Title, Lines: b.Verdict.Lines}))
	}
	f.says.Set(out...)
}

// refuse says a refusal at its box and reports whether there is one.
func (f *form) refuse(err error) bool {
	var r *working.Refusal
	if nav.Retired(err) || !errors.As(err, &r) {
		return false
	}
	words := f.p.deps.Present.W.Refusal(r)
	switch b := f.boxes[r.Field]; {
	case r.Field == "name" || r.Field == "species":
		nav.Fault(f.name, words)
	case b == nil:
		return false
	default:
		b.Fault(words)
		if slices.Contains([]string{"ph", "kh", "ammonia", "tank_ph", "males", "length"}, r.Field) && !f.opened {
			f.opened = true
			f.lay()
		}
	}
	return nav.ToFault(f.p.deps, f.fields()...)
}
