package paper

import (
	"strings"

	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
)

// living lists what lives in the tank, and how it gets on there; nothing for a tank
// without animals.
func (f *flow) living(in *Input) {
	if len(in.Stock.Rows) == 0 {
		return
	}
	const count = 20.0
	head := f.tableHead(0, cell{in.t("paper.animals"), 0, false}, cell{in.t("paper.how_many"), count, true})
	f.add(f.heading(in.t("paper.living")), head)
	for _, r := range in.Stock.Rows {
		f.add(f.lives(r, count, &head))
	}
	f.add(f.text(in.Stock.Total, bodyFont, 1.5)...)
	if v := in.Stock.Verdict; v != nil {
		s := &stack{x: f.left() + 5, w: f.width() - 5}
		s.text(in.Presenter.W.Stop(in.Presenter.W.State(v.State), v.Title), strongFont)
		for _, l := range v.Lines {
			s.text(l, bodyFont)
		}
		f.add(block{height: s.height, before: 1, draw: func(p *page, y float64) {
			p.state(f.left()+1.4, y+strongFont.lead()/2, v.State)
			s.draw(p, y)
		}})
	}
}

// lives is the row of a fish or a group.
func (f *flow) lives(r present.StockRow, count float64, head *block) block {
	s := &stack{x: f.left(), w: f.width() - count - 4}
	s.gap(0.9)
	s.text(r.Name, strongFont)
	if r.Scientific != "" {
		s.text(r.Scientific, softFont)
	}
	if len(r.Lines) > 0 {
		s.text(strings.Join(r.Lines, " · "), noteFont)
	}
	s.gap(0.9)
	return block{height: s.height, again: head, draw: func(p *page, y float64) {
		s.draw(p, y)
		p.right(f.right(), y+0.9, strings.Join(r.Facts, " "), strongFont)
		p.rule(f.left(), y+s.height, f.width(), 0.8, look.Rule)
	}}
}
