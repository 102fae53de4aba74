package paper

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// sheet sets the parts of the set-up sheet.
func (f *flow) sheet(in *Input) {
	f.add(f.front(in))
	f.add(f.always(in))
	f.living(in)
	f.order(in)
	f.signs(in)
	f.limits(in)
	f.kept(in)
	f.workings(in)
}

// frontHeight is what the drawing gets in height. judgement: half a page.
const frontHeight = 112.0

// front is the upper half of the first page: the drawing at the left; weight,
// limits and doses at the right.
func (f *flow) front(in *Input) block {
	const between = 8.0
	w := f.width()*0.425 - between/2
	right := &stack{x: f.right() - w, w: w}
	in.weight(right)
	in.doses(right)
	h := max(frontHeight, right.height)
	left := f.width() - w - between
	return block{height: h, before: 4, draw: func(p *page, y float64) {
		p.figures = append(p.figures, in.elevation(f.left(), y, left, h))
		right.draw(p, y)
	}}
}

// frontBars is how many limits stand on the first page; all of them stand in a
// list further on. judgement: what leaves room for the doses.
const frontBars = 4

func (in *Input) weight(s *stack) {
	w := in.Presenter.W
	stand := in.page(care.StandFloor)
	pic := in.picture()
	if stand.Number == nil || !pic.Known {
		s.text(w.T("paper.unknown", i18n.Args{"Step": w.T("step.tank_place", nil)}), bodyFont)
		return
	}
	s.text(stand.Number.Name, softFont)
	checked := w.T("paper.checked", i18n.Args{"Upper": pic.Full.Upper.Value()})
	s.put(numberFont.lead()*0.95, func(p *page, y float64) {
		p.text(s.x, y, stand.Number.Value, numberFont)
		x := s.x + numberFont.width(stand.Number.Value) + 4
		if noteFont.width(checked) <= s.x+s.w-x {
			p.text(x, y+numberFont.base()-noteFont.base(), checked, noteFont)
		}
	})
	if noteFont.width(checked) > s.w-numberFont.width(stand.Number.Value)-4 {
		s.text(checked, noteFont)
	}
	s.gap(1)
	if v := stand.Verdict; v != nil {
		inner := &stack{x: s.x + 5, w: s.w - 5}
		inner.text(w.Stop(v.Word, v.Title), strongFont)
		s.put(inner.height, func(p *page, y float64) {
			p.state(s.x+1.4, y+strongFont.lead()/2, v.State)
			inner.draw(p, y)
		})
	}
	s.gap(1.5)
	for i, b := range stand.Bars {
		if i == frontBars {
			s.text(w.N("paper.more_limits", float64(len(stand.Bars)-frontBars), nil), noteFont)
			break
		}
		in.bar(s, b)
	}
	s.gap(1.5)
	if len(stand.Cautions) > 0 {
		s.text(stand.Cautions[0], noteFont)
	}
}

// bar shows a limit: its name, the state by shape and word, how much of it is
// used, and that as a length.
func (in *Input) bar(s *stack, b present.Bar) {
	word := in.Presenter.W.State(b.State)
	value := strongFont.width(b.Percent) + 2.5
	room := s.w - value - noteInk.width(word) - 6
	name := bodyFont.wrap(b.Name, room)
	for i, line := range name {
		s.put(bodyFont.lead()*0.95, func(p *page, y float64) {
			p.text(s.x, y, line, bodyFont)
			if i == len(name)-1 {
				p.right(s.x+s.w, y, b.Percent, strongFont)
				p.stated(s.x+s.w-value, y+(bodyFont.lead()-noteInk.lead())/2, b.State, word, noteInk)
			}
		})
	}
	s.put(3.1, func(p *page, y float64) {
		const thick = 1.7
		p.rect(s.x, y, s.w, thick, thick/2, scene.Style{Fill: look.Track})
		p.rect(s.x, y, s.w, thick, thick/2, scene.Style{Stroke: look.Edge, Width: 0.5})
		// No bar is a bar of nothing, and none runs beyond its limit: the percents say by how much.
		if used := s.w * min(b.Use, 1); used > 0 {
			p.rect(s.x, y, max(used, thick), thick, thick/2, scene.Style{Fill: look.Ink})
		}
	})
	s.gap(0.6)
}

// doses is the table of doses by the bottle's own label.
func (in *Input) doses(s *stack) {
	w := in.Presenter.W
	s.gap(3.5)
	s.text(w.T("paper.doses", nil), font{15.5, scene.Bold, look.Ink})
	s.gap(0.8)
	if in.Doses == nil {
		s.text(w.T("paper.no_label", nil), bodyFont)
		if in.Why != nil {
			s.text(w.Refusal(in.Why), noteFont)
		}
		return
	}
	d := in.Doses
	row := func(name string, amount quantity.Value) {
		value := w.For(amount, i18n.Dose)
		lines := bodyFont.wrap(name, s.w-strongFont.width(value)-4)
		s.gap(0.7)
		for i, line := range lines {
			s.put(bodyFont.lead(), func(p *page, y float64) {
				p.text(s.x, y, line, bodyFont)
				if i == len(lines)-1 {
					p.right(s.x+s.w, y, value, strongFont)
				}
			})
		}
		s.gap(0.7)
		s.put(0, func(p *page, y float64) { p.rule(s.x, y, s.w, 0.8, look.Rule) })
	}
	row(w.T("paper.dose_whole", i18n.Args{"Water": d.Whole.Water.Value()}), d.Whole.Amount)
	if d.Bucket.Amount.Known() {
		row(w.T("paper.dose_bucket", i18n.Args{"Water": d.Bucket.Water.Value()}), d.Bucket.Amount)
	}
	row(w.T("paper.dose_change", i18n.Args{"Share": d.Share.Value(), "Water": d.Change.Water.Value()}), d.Change.Amount)
}
