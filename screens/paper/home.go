package paper

import (
	"slices"

	"example.org/driploop/model/care"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
)

// homecoming sets the card of a home-coming: each bag on its way with its time,
// its steps with boxes and room for when they were done, and the cautions.
func (f *flow) homecoming(in *Input) {
	f.add(f.text(in.t("paper.home.intro"), bodyFont, 2)...)
	f.add(f.always(in))
	var notes []care.Note
	for _, v := range in.Bags {
		b := in.Presenter.Bag(v, in.made())
		f.add(f.heading(b.Name))
		f.bag(in, b)
		for _, s := range v.Plan.Steps {
			for _, n := range s.NotesAt() {
				if n.ID != onFront && !slices.ContainsFunc(notes, func(o care.Note) bool { return o.ID == n.ID }) {
					notes = append(notes, n)
				}
			}
		}
	}
	if len(notes) == 0 {
		return
	}
	f.add(f.heading(in.t("paper.home.cautions")))
	f.panels(in, notes, 3)
}

// bag is one bag: what to wait for at the left, the steps at the right.
func (f *flow) bag(in *Input, b present.Bag) {
	const figures, gap, pad, side, room = 56.0, 6.0, 1.6, 4.0, 30.0
	left := &stack{x: f.left(), w: figures}
	left.gap(pad)
	left.text(b.Beside, noteInk)
	left.gap(1.5)
	if b.Refused != "" {
		left.text(b.Refused, strongFont)
	}
	if b.Number != nil {
		left.text(b.Number.Name, bodyFont)
		left.text(b.Number.Value, sectionFont)
		left.text(b.Number.Beside, noteInk)
	}
	for _, l := range b.Figures {
		left.gap(0.8)
		left.text(l, bodyFont)
	}
	left.gap(pad)
	if b.Verdict != nil {
		said := f.advice(b.Verdict)
		said.with = true // a bag stands on one page
		f.add(said)
	}
	right := &stack{x: f.left() + figures + gap, w: f.width() - figures - gap}
	right.gap(pad)
	for _, s := range b.Steps {
		inner := &stack{x: right.x + side + 2.6, w: right.w - side - 2.6 - room}
		inner.text(s.Text, bodyFont)
		right.put(max(inner.height, side+1), func(p *page, y float64) {
			p.box(right.x, y+(bodyFont.lead()-side)/2, side, s.Done)
			inner.draw(p, y)
			x := f.right() - room + 4
			if s.Done {
				p.text(x, y, s.At, strongFont)
				return
			}
			p.text(x, y, in.t("paper.home.at"), noteFont)
			from := x + noteFont.width(in.t("paper.home.at")) + 1.5
			p.rule(from, y+bodyFont.lead()-0.6, f.right()-from, 0.8, look.SoftInk)
		})
		right.gap(1.6)
	}
	right.gap(pad)
	box := beside(1, left, right)
	inner := box.draw
	box.draw = func(p *page, y float64) {
		p.rule(f.left(), y, f.width(), 0.8, look.Rule)
		inner(p, y)
	}
	f.add(box)
}

// noBag says that no bag is on its way.
func noBag() error { return working.Refuse("bag", "refuse.keeper.no_bags") }
