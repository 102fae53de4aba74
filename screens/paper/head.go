package paper

import (
	"example.org/driploop/i18n"
	"example.org/driploop/screens/look"
)

// title is the head of the first page: what this is, of which tank, from when.
func (f *flow) title(in *Input, kind Kind) {
	w := in.Presenter.W
	s := &stack{x: f.left(), w: f.width()}
	s.text(Title(kind, w), titleFont)
	s.gap(0.5)
	s.text(in.subtitle(), softFont)
	s.gap(2.2)
	s.put(0, func(p *page, y float64) { p.rule(f.left(), y, f.width(), 1.6, look.SoftInk) })
	b := s.block(0)
	b.with = true
	f.add(b)
}

// subtitle names the tank, its water, its size and the day.
func (in *Input) subtitle() string {
	w := in.Presenter.W
	p := in.picture()
	if !p.Known {
		return w.T("paper.subtitle_unknown", i18n.Args{"Tank": in.Record.Name, "Date": w.Date(in.made())})
	}
	l, d, h := p.Tank.Outer()
	return w.T("paper.subtitle", i18n.Args{"Tank": in.Record.Name, "Net": p.Full.Net.Value(), "Date": w.Date(in.made()),
		"Length": w.For(l.Value(), i18n.Tank), "Width": w.For(d.Value(), i18n.Tank), "Height": w.For(h.Value(), i18n.Tank)})
}

// feet writes the head and the foot of each page, now that it is known how many
// there are.
func (f *flow) feet(in *Input, kind Kind, ps []*page) {
	w := in.Presenter.W
	for i, p := range ps {
		y := f.size.H - 13.5
		p.rule(f.left(), y, f.width(), 0.8, look.Rule)
		count := w.T("paper.page", i18n.Args{"Page": i + 1, "Pages": len(ps)})
		p.right(f.right(), y+1.4, count, noteFont)
		made := w.T("paper.made", i18n.Args{"Date": w.Date(in.made())})
		room := f.width() - noteFont.width(count) - 8
		p.text(f.left(), y+1.4, noteFont.short(w.T("paper.foot", i18n.Args{"Tank": in.Record.Name, "Title": Title(kind, w), "Made": made}), room), noteFont)
		if i > 0 {
			p.text(f.left(), 7.5, noteFont.short(in.Record.Name, f.width()/2), noteFont)
			p.right(f.right(), 7.5, noteFont.short(Title(kind, w), f.width()/2-4), noteFont)
			p.rule(f.left(), 12.4, f.width(), 0.8, look.Rule)
		}
	}
}
