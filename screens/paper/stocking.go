package paper

import (
	"context"
	"math"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/fauna"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
	"example.org/driploop/screens/weeks"
)

// Stocking is the slip for the shop with the next purchase, and the plan over
// weeks behind it; only a tank with a wish that fits has it.
const Stocking Kind = "stocking-plan"

// gatherStocking adds to the input what the stocking plan shows. Refusal: nothing
// is planned ("wish").
func (in *Input) gatherStocking(ctx context.Context, k *keeper.Keeper, tank string) error {
	v, err := k.FishPlan(ctx, tank)
	if err != nil {
		return err
	}
	if len(v.Plan.Steps) == 0 {
		return working.Refuse("wish", "refuse.keeper.no_plan")
	}
	p := in.Presenter.Plan(v)
	in.Stocking, in.StockHome = &p, v.Home
	return nil
}

// stocking lays the document out: what to buy, this tank for the shop, what to ask,
// how to carry them home, what never to do; then the weeks and the later steps.
func (f *flow) stocking(in *Input) {
	f.purchase(in)
	f.add(beside(6, f.ofTank(in), f.toAsk(in)))
	f.carry(in)
	f.later(in)
}

// purchase is the next step: its animals with boxes, drawn to one scale.
func (f *flow) purchase(in *Input) {
	w, s := in.Presenter.W, in.Stocking.Steps[0]
	f.add(f.heading(w.T("paper.stocking.buy", i18n.Args{"Step": s.Title})))
	st := &stack{x: f.left(), w: f.width()}
	st.put(bodyFont.lead(), func(p *page, y float64) {
		p.state(f.left()+1.8, y+bodyFont.lead()/2, s.State)
		p.text(f.left()+5, y, w.T("paper.stocking.gate", i18n.Args{"Word": s.Word, "When": s.When}), strongFont)
	})
	b := st.block(0)
	b.with = true
	f.add(b)
	lines := append([]string{}, s.Waits...)
	if s.Buy != "" {
		lines = append([]string{s.Buy}, lines...)
	}
	for _, l := range append(lines, in.Stocking.Gate.Lines...) {
		for _, b := range f.text(l, bodyFont, 0.4) {
			b.with = true
			f.add(b)
		}
	}
	longest := 0.0
	for _, a := range s.Animals {
		longest = math.Max(longest, float64(a.Length))
	}
	for _, a := range s.Animals {
		f.add(f.toBuy(in, a, longest))
	}
	for _, l := range s.Split {
		f.add(f.text(l, bodyFont, 1.5)...)
	}
}

// toBuy is a row of what to buy: box, drawing, names, size.
func (f *flow) toBuy(in *Input, a present.PlanAnimal, longest float64) block {
	const side, room, pad = 5.0, 34.0, 2.4
	s := &stack{x: f.left() + side + room + 8, w: f.width() - side - room - 8}
	s.gap(pad)
	s.text(a.Text, font{17, scene.Bold, look.Ink})
	s.text(a.Scientific, softFont)
	s.text(a.Size, bodyFont)
	if a.Law {
		s.text(in.t("paper.stocking.law"), strongFont)
	}
	s.gap(pad)
	mm := room * float64(a.Length) / longest
	box := fauna.Box(a.Code, mm)
	h := math.Max(s.height, box.H()+2*pad)
	return block{height: h, before: 2, draw: func(p *page, y float64) {
		p.rule(f.left(), y, f.width(), 0.8, look.Rule)
		p.box(f.left(), y+(h-side)/2, side, false)
		d := scene.New()
		d.Add(fauna.Animal(a.Code, mm, fauna.Pose{Paper: true})...)
		p.figures = append(p.figures, figure{d, scene.Transform{Scale: 1, Point: scene.PointMM, X: f.left() + side + 4 - box.Min.X + (room-mm)/2, Y: y + h/2 + (box.Min.Y+box.Max.Y)/2}})
		s.draw(p, y)
	}}
}

// ofTank is the tank for the shop: its volume, and what was measured last, when.
func (f *flow) ofTank(in *Input) *stack {
	w := in.Presenter.W
	s := &stack{x: f.left(), w: f.width()/2 - 4}
	s.text(in.t("paper.stocking.tank"), sectionFont)
	s.gap(1.5)
	row := func(name, value, when string) {
		left, right := &stack{x: s.x, w: s.w * 0.36}, &stack{x: s.x + s.w*0.37, w: s.w * 0.63}
		if when != "" {
			right.w -= noteFont.width(when) + 2
		}
		left.text(name, bodyFont)
		right.text(value, strongFont)
		both := beside(0, left, right)
		s.put(both.height+1.2, func(p *page, y float64) {
			both.draw(p, y)
			p.right(s.x+s.w, y+0.5, when, noteFont)
			p.rule(s.x, y+both.height+0.5, s.w, 0.8, look.Rule)
		})
	}
	h := in.StockHome
	row(in.t("paper.stocking.volume"), w.For(h.Tank.Value(), i18n.Tank), "")
	for _, name := range []string{journal.NameTemperature, journal.NamePH, journal.NameGH, journal.NameKH, journal.NameAmmonia, journal.NameNitrite, journal.NameNitrate} {
		value, when := in.lastReading(name)
		if value == "" && name == journal.NameTemperature && h.Water.Temperature != nil {
			value, when = w.Quantity(h.Water.Temperature.Value()), in.t("paper.stocking.to_hold")
		}
		if value == "" {
			value, when = in.t("paper.stocking.untested"), ""
		}
		row(w.T(working.Key("reading."+name), nil), value, when)
	}
	return s
}

// lastReading is what the latest test of a thing in the tank's water showed.
func (in *Input) lastReading(name string) (value, when string) {
	w := in.Presenter.W
	for i := len(in.Record.Entries) - 1; i >= 0; i-- {
		e := in.Record.Entries[i]
		r, ok := e.Get(name)
		if !ok || !e.Kind.OfTank() {
			continue
		}
		value = w.Typed(r.Measure)
		if r.Qualifier != journal.Plain {
			value = w.T(working.Key("reading.is_"+string(r.Qualifier)), nil)
		} else if r.Measure.Basis != quantity.BasisNone {
			value += " " + w.T(working.Key("word.basis."+string(r.Measure.Basis)), nil)
		}
		return value, in.Presenter.CivilDay(e.At)
	}
	return "", ""
}

// asks are the questions for the shop. Common practice, no source.
var asks = []working.Key{"paper.stocking.ask_age", "paper.stocking.ask_eating", "paper.stocking.ask_water", "paper.stocking.ask_size", "paper.stocking.ask_origin", "paper.stocking.ask_return"}

// toAsk is what to ask and look at in the shop, with boxes.
func (f *flow) toAsk(in *Input) *stack {
	x := f.left() + f.width()/2 + 4
	s := &stack{x: x, w: f.right() - x}
	s.text(in.t("page.plan.ask"), sectionFont)
	s.gap(1.5)
	for _, k := range asks {
		s.tick(present.Tick{Text: in.t(k)})
	}
	return s
}

// carry is how they come home, and what holds for every animal.
func (f *flow) carry(in *Input) {
	s := &stack{x: f.left(), w: f.width()}
	s.text(in.t("paper.stocking.carry"), sectionFont)
	s.gap(1.5)
	for _, k := range []working.Key{"paper.stocking.carry_bag", "paper.stocking.carry_dark", "paper.stocking.carry_straight", "paper.stocking.carry_arrive"} {
		s.text(in.t(k), bodyFont)
		s.gap(0.6)
	}
	f.add(s.block(7))
	const pad = 2.6
	n := &stack{x: f.left() + pad, w: f.width() - 2*pad}
	n.gap(pad)
	n.text(in.t("paper.stocking.never"), strongFont)
	n.text(in.t("page.plan.care"), bodyFont)
	n.gap(pad)
	f.add(f.framed(n, 5))
}

// later is the plan over weeks: the drawing, and each later step with its
// predicted day.
func (f *flow) later(in *Input) {
	w := in.Presenter.W
	f.add(f.heading(in.t("page.plan.heading")))
	wide := f.width() / scene.PointMM
	spec := weeks.From(*in.Stocking, w, true)
	h := weeks.Height(spec, wide) * scene.PointMM
	f.add(block{height: h, with: true, draw: func(p *page, y float64) {
		p.figures = append(p.figures, figure{weeks.Build(spec, wide), scene.Transform{Scale: scene.PointMM, Point: scene.PointMM, X: f.left(), Y: y + h}})
	}})
	f.add(f.text(in.Stocking.Done, bodyFont, 2)...)
	for _, st := range in.Stocking.Steps[1:] {
		s := &stack{x: f.left(), w: f.width()}
		s.gap(1.2)
		s.text(w.T("paper.stocking.step", i18n.Args{"Step": st.Title, "When": st.When}), strongFont)
		if st.Buy != "" {
			s.text(st.Buy, bodyFont)
		}
		for _, a := range st.Animals {
			s.tick(present.Tick{Text: w.T("paper.stocking.animal", i18n.Args{"Animals": a.Text, "Scientific": a.Scientific, "Size": a.Size})})
		}
		for _, l := range append(append([]string{}, st.Split...), st.Waits...) {
			s.text(l, bodyFont)
		}
		s.text(st.Load, noteFont)
		b := s.block(2.5)
		inner := b.draw
		b.draw = func(p *page, y float64) {
			p.rule(f.left(), y, f.width(), 0.8, look.Rule)
			inner(p, y)
		}
		f.add(b)
	}
}
