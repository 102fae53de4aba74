package paper

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
)

// limits lists every limit that was checked, with what is asked of it.
func (f *flow) limits(in *Input) {
	const share, words = 22.0, 24.0
	head := f.tableHead(0, cell{in.t("paper.limit"), 0, false}, cell{in.t("paper.use"), share, true}, cell{"", words, true})
	w := in.Presenter.W
	first := true
	for _, step := range []care.Step{care.StandFloor, care.KitList, care.PowerOn} {
		checks := in.Views[step].Page.Checks
		for i, b := range in.page(step).Bars {
			if i < len(checks) && checks[i].Demand.Kind == quantity.KindRatio {
				b.Detail = "" // a share of a share says nothing to a reader
			}
			if first {
				f.add(f.heading(in.t("paper.limits")), head)
				first = false
			}
			f.add(f.limit(b, w.State(b.State), share, words, &head))
		}
	}
	if cautions := in.page(care.StandFloor).Cautions; len(cautions) > 0 {
		f.add(f.subheading(in.t("page.fill.cautions")))
		for _, c := range cautions {
			f.add(f.text(c, bodyFont, 0.4)...)
		}
	}
}

func (f *flow) limit(b present.Bar, word string, share, words float64, head *block) block {
	s := &stack{x: f.left(), w: f.width() - share - words - 4}
	s.gap(0.9)
	text := b.Name
	lines := bodyFont.wrap(text, s.w)
	for i, line := range lines {
		s.put(bodyFont.lead(), func(p *page, y float64) {
			p.text(s.x, y, line, bodyFont)
			if x := bodyFont.width(line) + 3; i == len(lines)-1 && b.Detail != "" && x+noteFont.width(b.Detail) <= s.w {
				p.text(s.x+x, y+(bodyFont.lead()-noteFont.lead())*0.75, b.Detail, noteFont)
			}
		})
	}
	s.gap(0.9)
	return block{height: s.height, again: head, draw: func(p *page, y float64) {
		s.draw(p, y)
		p.right(f.right()-words, y+0.9, b.Percent, strongFont)
		p.stated(f.right(), y+0.9, b.State, word, bodyFont)
		p.rule(f.left(), y+s.height, f.width(), 0.8, look.Rule)
	}}
}

// A cell is a word of a table's head: at the left of the table, or ending at the
// right of a column of that width.
type cell struct {
	text  string
	width float64
	right bool
}

// tableHead is the head of a table; the columns that end right are given from
// left to right.
func (f *flow) tableHead(before float64, cells ...cell) block {
	return block{height: noteStrong.lead() + 1.4, before: before, with: true, draw: func(p *page, y float64) {
		x := f.right()
		for i := len(cells) - 1; i >= 0; i-- {
			c := cells[i]
			if c.right {
				p.right(x, y, c.text, noteStrong.in(look.SoftInk))
				x -= c.width
			} else {
				p.text(f.left()+c.width, y, c.text, noteStrong.in(look.SoftInk))
			}
		}
		p.rule(f.left(), y+noteStrong.lead()+1, f.width(), 1.1, look.SoftInk)
	}}
}

// kept is the record: which step was finished when, and which notes and checks
// were confirmed, with the text that stood there.
func (f *flow) kept(in *Input) {
	w := in.Presenter.W
	f.add(f.heading(in.t("paper.record")))
	const when = 72.0
	head := f.tableHead(0, cell{in.t("paper.step"), 0, false}, cell{in.t("paper.when"), when, true})
	f.add(head)
	for _, s := range care.Steps() {
		text := w.T(working.Key("paper.state."+string(in.state(s))), nil)
		if d, ok := in.Record.Done[s]; ok {
			text = w.T("paper.at", i18n.Args{"State": text, "Time": w.DateTime(in.local(d.At))})
		}
		f.add(f.row(w.T(working.Key("step."+string(s)), nil), text, &head))
	}
	sub := in.t("paper.confirmed")
	if len(in.Record.Acks) == 0 {
		f.add(f.text(in.t("paper.none_confirmed"), bodyFont, 5)...)
		return
	}
	f.add(f.subheading(sub))
	for _, a := range in.Record.Acks {
		f.add(f.confirmation(in, a)...)
	}
}

// row is a line of a table with a text at either end.
func (f *flow) row(left, right string, head *block) block {
	s := &stack{x: f.left(), w: f.width()/2 - 30}
	r := &stack{x: f.left() + f.width()/2 - 25, w: f.width()/2 + 25}
	s.gap(0.7)
	s.text(left, bodyFont)
	s.gap(0.7)
	r.gap(0.7)
	for _, line := range bodyFont.wrap(right, r.w) {
		r.put(bodyFont.lead(), func(p *page, y float64) { p.right(f.right(), y, line, bodyFont) })
	}
	r.gap(0.7)
	b := beside(0, s, r)
	inner, h := b.draw, b.height
	b.again = head
	b.draw = func(p *page, y float64) {
		inner(p, y)
		p.rule(f.left(), y+h, f.width(), 0.8, look.Rule)
	}
	return b
}

func (f *flow) subheading(t string) block {
	s := &stack{x: f.left(), w: f.width()}
	s.text(t, strongFont)
	s.gap(0.8)
	b := s.block(5)
	b.with = true
	return b
}

// confirmation is what was confirmed: when, in which step and language, and the
// text that was shown.
func (f *flow) confirmation(in *Input, a care.Ack) []block {
	w := in.Presenter.W
	head := &stack{x: f.left(), w: f.width()}
	head.text(w.T("paper.confirmation", i18n.Args{"Time": w.DateTime(in.local(a.At)), "Step": w.T(working.Key("step."+string(a.Step)), nil),
		"Language": in.languageName(a.Lang)}), noteFont)
	text := f.column(a.Shown, bodyFont, f.left(), f.width(), 0)
	if len(text) > 1 { // too long to keep together
		b := head.block(2)
		b.with = true
		return append([]block{b}, text...)
	}
	head.text(a.Shown, bodyFont)
	return []block{head.block(2)}
}

// languageName names a language by its own name, one that is not offered here by
// its code.
func (in *Input) languageName(code string) string {
	if i18n.Offered(code) {
		return i18n.NameOf(code)
	}
	return code
}
