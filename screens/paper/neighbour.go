package paper

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A room is how much of it the sheet for a neighbour takes.
type room struct {
	row    float64 // above and below a line of the table, mm
	idle   float64 // the same on a day without a box
	gap    float64 // above a part
	within float64 // about what is in a frame
	small  font    // of what is read once
	line   float64 // to write a number on
	steps  bool    // says which steps of First fill a note belongs to
	free   bool    // days without a box are listed too
	close  bool    // the table has no heading, and the days stand in the line of the greeting
}

// rooms are tried from wide to narrow until the sheet is one page; where none is, the
// wide one stays. Judgement.
var rooms = []room{
	{row: 1.5, idle: 1.5, gap: 7, within: 3, small: bodyFont, line: 9, steps: true, free: true},
	{row: 0.9, idle: 0.3, gap: 4, within: 2, small: bodyFont, line: 9, free: true},
	{row: 0.7, gap: 3, within: 1.8, small: noteInk, line: 8, free: true, close: true},
	{row: 0.7, gap: 3, within: 1.8, small: noteInk, line: 8, close: true},
}

// neighbourPages lays the sheet out.
func neighbourPages(in *Input) []*page {
	var wide []*page
	for i, r := range rooms {
		f := newFlow(in.Size)
		f.title(in, Neighbour)
		f.neighbour(in, r)
		ps := f.lay()
		if len(ps) == 1 {
			return ps
		}
		if i == 0 {
			wide = ps
		}
	}
	return wide
}

// neighbour sets the sheet for whoever looks after the tank: the days with boxes
// to tick, how much to feed, what to look at, what not to do, the electrical
// note, and room for numbers to call.
func (f *flow) neighbour(in *Input, r room) {
	w := in.Presenter.W
	n := in.Neighbour
	who := w.T("paper.visit.intro", nil)
	if n.Away.Who != "" {
		who = w.T("paper.visit.intro_who", i18n.Args{"Who": n.Away.Who})
	}
	span := in.Presenter.Span(n.Away.First, n.Away.Last)
	if r.close {
		f.add(f.inLine(span, who, 2))
	} else {
		f.add(f.text(span, strongFont, 3)...)
		f.add(f.text(who, bodyFont, 1)...)
	}
	if n.Away.Note != "" {
		f.add(f.text(w.T("paper.visit.note", i18n.Args{"Note": n.Away.Note}), strongFont, 2)...)
	}
	f.visits(in, r)
	f.add(f.always(in))
	notes := care.NotesAt(care.AtVisit)
	if !r.steps {
		for i := range notes {
			notes[i].Steps = nil
		}
	}
	f.panels(in, notes, 3)
	f.add(f.lists(in, r)...)
	f.calls(in, r)
}

// portion says in plain amounts what a feeding is; its mass only where one is known.
func (in *Input) portion() string {
	p, v := in.Presenter, in.Neighbour.Plan
	if v.Portion <= 0 {
		return p.W.N("page.feed.pinches", float64(v.Pinches), nil)
	}
	return p.W.N("n.pinches", float64(v.Pinches), i18n.Args{"Mass": p.Food(v.Portion)})
}

// visits is the table of days.
func (f *flow) visits(in *Input, r room) {
	const boxes, side = 24.0, 4.2
	w := in.Presenter.W
	fed := false
	for _, d := range in.Neighbour.Plan.Days {
		fed = fed || d.Feed
	}
	before := 2.0
	if !r.close {
		before = 0
		heading := f.heading(in.t("paper.visit.days"))
		heading.before = r.gap + 1
		f.add(heading)
	}
	words := in.t("paper.visit.no_food_at_all")
	if fed {
		words = w.T("paper.visit.portion", i18n.Args{"Portion": in.portion()})
	}
	for _, b := range f.text(words, r.small, before) {
		b.with = true
		f.add(b)
	}
	dayWidth := 50.0
	for _, d := range in.Neighbour.Plan.Days { // languages differ much in this
		if t, err := journal.Civil(d.Date + "T00:00").Parse(); err == nil {
			dayWidth = min(max(dayWidth, bodyFont.width(w.DayHeading(t))+4), f.width()/3)
		}
	}
	head := f.tableHead(2, cell{in.t("paper.visit.day"), 0, false}, cell{in.t("paper.visit.food"), dayWidth, false}, cell{in.t("paper.visit.fed"), boxes, true}, cell{in.t("paper.visit.looked"), boxes, true})
	f.add(head)
	for _, d := range in.Neighbour.Plan.Days {
		t, err := journal.Civil(d.Date + "T00:00").Parse()
		if err != nil {
			continue
		}
		pad := r.row
		if !d.Feed && !d.Look {
			if pad = r.idle; !r.free {
				continue
			}
		}
		food, font := in.t("paper.visit.no_food"), softFont
		switch {
		case d.Feed:
			food, font = w.T("paper.visit.one", i18n.Args{"Portion": in.portion()}), strongFont
		case !d.Look:
			food = in.t("paper.visit.nothing")
		}
		s := &stack{x: f.left() + dayWidth, w: f.width() - dayWidth - 2*boxes - 4}
		s.gap(pad)
		s.text(food, font)
		s.gap(pad)
		h := s.height
		if d.Feed || d.Look {
			h = max(h, side+2*pad)
		}
		again := head
		f.add(block{height: h, again: &again, draw: func(p *page, y float64) {
			p.text(f.left(), y+pad, bodyFont.short(w.DayHeading(t), dayWidth-3), bodyFont)
			s.draw(p, y)
			if d.Feed {
				p.box(f.right()-boxes-side, y+(h-side)/2, side, false)
			}
			if d.Look {
				p.box(f.right()-side, y+(h-side)/2, side, false)
			}
			p.rule(f.left(), y+h, f.width(), 0.8, look.Rule)
		}})
	}
}

// lists are what to look at and what not to do, side by side.
func (f *flow) lists(in *Input, r room) []block {
	const between = 8.0
	w := in.Presenter.W
	wide := (f.width() - between) / 2
	column := func(x float64, title working.Key, lines []string) *stack {
		s := &stack{x: x, w: wide}
		s.text(in.t(title), sectionFont)
		s.gap(1.5)
		for _, l := range lines {
			inner := &stack{x: x + 4.5, w: wide - 4.5}
			inner.text(l, r.small)
			s.put(inner.height, func(p *page, y float64) {
				p.scene.Add(scene.Marker{At: at(x+1.4, y+r.small.lead()/2), Shape: scene.Round, Size: 5, Style: scene.Style{Fill: look.Ink}})
				inner.draw(p, y)
			})
			s.gap(0.8)
		}
		return s
	}
	looks := []string{in.t("paper.visit.look_fish")}
	if s := in.Views[care.Settle].Page.Steady; s != nil {
		looks = append(looks, w.T("paper.visit.look_warm", i18n.Args{"Low": w.Quantity(s.Target.Plus(-visitBand).Value()), "High": w.Quantity(s.Target.Plus(visitBand).Value())}))
	}
	looks = append(looks, in.t("paper.visit.look_filter"), in.t("paper.visit.look_water"), in.t("paper.visit.look_floor"))
	not := []string{in.t("paper.visit.not_feed"), in.t("paper.visit.not_change"), in.t("paper.visit.not_filter"), in.t("paper.visit.not_product"), in.t("paper.visit.not_hands")}
	return []block{beside(r.gap, column(f.left(), "paper.visit.look", looks), column(f.left()+wide+between, "paper.visit.not", not))}
}

// visitBand is how far the water may be from its target before somebody is
// called, K. Judgement, from thresholds of 24 to 26 °C in order and 2 °C a day.
const visitBand = quantity.TemperatureDifference(2)

// calls is the box of numbers, left blank to fill in.
func (f *flow) calls(in *Input, r room) {
	lines := []working.Key{"paper.visit.call_me", "paper.visit.call_vet", "paper.visit.call_shop", "paper.visit.call_home"}
	row, pad := r.line, r.within
	s := &stack{x: f.left() + pad, w: f.width() - 2*pad}
	s.gap(pad)
	s.text(in.t("paper.visit.call"), sectionFont)
	s.text(in.t("paper.visit.call_when"), r.small)
	s.gap(1)
	half := (s.w - 2*pad) / 2
	for i := 0; i < len(lines); i += 2 {
		s.put(row, func(p *page, y float64) {
			for j, k := range lines[i:min(i+2, len(lines))] {
				x, label := s.x+float64(j)*(half+2*pad), in.t(k)
				p.text(x, y+row-bodyFont.lead()-0.6, label, bodyFont)
				from := x + bodyFont.width(label) + 3
				p.rule(from, y+row-1, x+half-from, 0.8, look.SoftInk)
			}
		})
	}
	s.gap(pad)
	f.add(f.framed(s, r.gap-1))
}
