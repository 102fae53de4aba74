package paper

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
)

// order lists the work of the ten steps in their order: a step at the left with
// its own figure, what is done with one's hands at the right, with boxes.
func (f *flow) order(in *Input) {
	f.add(f.heading(in.t("paper.order")))
	for i, s := range care.Steps() {
		f.add(f.step(in, s, i+1))
	}
}

func (f *flow) step(in *Input, step care.Step, number int) block {
	const names, gap, pad = 52.0, 5.0, 1.7
	w := in.Presenter.W
	shown := in.page(step)
	left := &stack{x: f.left(), w: names}
	left.gap(pad)
	const digits = 7.0
	name := &stack{x: f.left() + digits, w: names - digits}
	name.text(shown.Heading, strongFont)
	if t := in.figure(step, shown); t != "" {
		name.text(t, noteFont)
	}
	if d, ok := in.Record.Done[step]; ok && in.state(step) == care.Finished {
		name.text(w.T("paper.done_on", i18n.Args{"Date": w.ShortDate(in.local(d.At))}), noteInk)
	}
	left.put(name.height, func(p *page, y float64) {
		p.text(f.left(), y, w.Number(float64(number), 3), strongFont.in(look.SoftInk))
		name.draw(p, y)
	})
	left.gap(pad)
	right := &stack{x: f.left() + names + gap, w: f.width() - names - gap}
	right.gap(pad)
	for _, t := range in.ticks(step, shown) {
		right.tick(t)
	}
	right.gap(pad - 1)
	b := beside(0, left, right)
	inner := b.draw
	b.draw = func(p *page, y float64) {
		p.rule(f.left(), y, f.width(), 0.8, look.Rule)
		inner(p, y)
	}
	return b
}

// tick adds a box with what is to be done.
func (s *stack) tick(t present.Tick) {
	const side, indent = 3.9, 6.6
	inner := &stack{x: s.x + indent, w: s.w - indent}
	inner.text(t.Text, bodyFont)
	s.put(max(inner.height, side), func(p *page, y float64) {
		p.box(s.x, y+(bodyFont.lead()-side)/2, side, t.Set)
		inner.draw(p, y)
	})
	s.gap(1)
}

func (in *Input) state(s care.Step) care.StepState { return in.Views[s].Page.State }

// ticks are the boxes of a step. The steps that have none on the screen get one
// that says what they came to.
func (in *Input) ticks(step care.Step, shown present.Page) []present.Tick {
	w := in.Presenter.W
	one := func(text string) []present.Tick {
		return []present.Tick{{Text: text, Set: in.state(step) == care.Finished}}
	}
	switch step {
	case care.KitList:
		return one(w.T("paper.tick.kit", nil))
	case care.StandFloor:
		if shown.Verdict != nil && shown.Verdict.State == working.Act {
			return one(w.T("paper.tick.stand_first", i18n.Args{"Says": shown.Verdict.Title}))
		}
		if shown.Verdict != nil {
			return one(w.T("paper.tick.stand", i18n.Args{"Says": shown.Verdict.Title}))
		}
	case care.Settle:
		if s := in.Views[step].Page.Steady; s != nil {
			return one(w.T("paper.tick.settle", i18n.Args{"Target": s.Target.Value(), "Band": s.Band.Value(), "Need": quantity.Time(s.Need.Seconds()).Value()}))
		}
	}
	if len(shown.Ticks) == 0 {
		return one(shown.Purpose)
	}
	return shown.Ticks
}

// figure is the number that matters of a step in one line; "" where it changes
// by the hour or is said elsewhere.
func (in *Input) figure(step care.Step, shown present.Page) string {
	h := in.Views[step].Page.Headline
	if h == nil || shown.Number == nil || step == care.PowerOn || step == care.Settle {
		return ""
	}
	value := shown.Number.Value
	if step == care.FirstFish && h.Spread != nil {
		value = in.Presenter.W.Range(h.Spread.Low, h.Spread.High)
	}
	return in.Presenter.W.T("paper.figure", i18n.Args{"Name": working.Key(h.Name), "Value": value})
}
