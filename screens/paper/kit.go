package paper

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
)

// Columns of the kit list in millimetres.
const (
	kitItem  = 50.0 // the name
	kitPrice = 26.0
)

// kit sets the kit list: a table, and below it what it comes to.
func (f *flow) kit(in *Input) {
	shown := in.page(care.KitList)
	if len(shown.Kit) == 0 {
		f.add(f.text(in.Presenter.W.T("paper.unknown", i18n.Args{"Step": in.t("step.tank_place")}), bodyFont, 6)...)
		return
	}
	head := f.kitHead(in)
	f.add(head)
	for _, k := range shown.Kit {
		f.add(f.kitRow(in, k, &head))
	}
	f.add(f.totals(in, shown))
	if v := shown.Verdict; v != nil {
		f.add(f.advice(v))
	}
}

// kitBox is how wide a column of boxes is: what the longer of the words above them asks.
func (in *Input) kitBox() float64 {
	const least, gap = 13.0, 3.0
	return max(least, noteStrong.width(in.t("paper.have"))+gap, noteStrong.width(in.t("paper.buy"))+gap)
}

// kitHead is the head of the table.
func (f *flow) kitHead(in *Input) block {
	kitBox := in.kitBox()
	return f.tableHead(5, cell{in.t("paper.have"), 0, false}, cell{in.t("paper.buy"), kitBox, false},
		cell{in.t("paper.item"), 2 * kitBox, false}, cell{in.t("paper.size"), 2*kitBox + kitItem, false}, cell{in.t("paper.price"), kitPrice, true})
}

// kitRow is one item. What is there already has no box to buy it; the price of
// what is not is written, or there is a line to write it on.
func (f *flow) kitRow(in *Input, k present.KitRow, head *block) block {
	const pad, side = 1.5, 4.2
	kitBox := in.kitBox()
	name := &stack{x: f.left() + 2*kitBox, w: kitItem - 4}
	name.gap(pad)
	name.text(k.Name, strongFont)
	name.gap(pad)
	if k.Word != "" {
		name.gap(-pad)
		name.put(noteInk.lead(), func(p *page, y float64) {
			p.state(name.x+1.4, y+noteInk.lead()/2, k.State)
			p.text(name.x+4, y, k.Word, noteInk)
		})
		name.gap(pad)
	}
	about := &stack{x: f.left() + 2*kitBox + kitItem, w: f.width() - 2*kitBox - kitItem - kitPrice - 3}
	about.gap(pad)
	about.text(k.Size, bodyFont)
	about.text(k.Why, noteFont)
	about.gap(pad)
	b := beside(0, name, about)
	inner, h := b.draw, b.height
	b.again = head
	price := in.price(k)
	b.draw = func(p *page, y float64) {
		inner(p, y)
		top := y + pad + (strongFont.lead()-side)/2
		p.box(f.left(), top, side, k.Owned)
		if !k.Owned {
			p.box(f.left()+kitBox, top, side, false)
		}
		if price != "" {
			p.right(f.right(), y+pad, price, bodyFont)
		} else if !k.Owned {
			p.rule(f.right()-kitPrice+4, y+pad+bodyFont.base()+1, kitPrice-4, 0.8, look.Edge)
		}
		p.rule(f.left(), y+h, f.width(), 0.8, look.Rule)
	}
	return b
}

// price writes the price of an item, "" where none is known.
func (in *Input) price(k present.KitRow) string {
	for _, it := range in.Views[care.KitList].Page.Kit {
		if it.ID == k.ID && it.Price.Known() {
			return in.money(it.Price.X)
		}
	}
	return ""
}

func (in *Input) money(x float64) string {
	return in.Presenter.W.Money(x, string(in.Presenter.Region.Currency()))
}

// totals is what the list comes to: the number still to buy, prices as far as
// they are known, power and energy, and a line for the sum in the shop.
func (f *flow) totals(in *Input, shown present.Page) block {
	kitBox := in.kitBox()
	s := &stack{x: f.left() + 2*kitBox, w: f.width() - 2*kitBox}
	row := func(name, value string) {
		s.gap(0.7)
		s.put(bodyFont.lead(), func(p *page, y float64) {
			p.text(s.x, y, bodyFont.short(name, s.w-60), bodyFont)
			if value == "" {
				p.rule(f.right()-kitPrice+4, y+bodyFont.base()+1, kitPrice-4, 0.8, look.Edge)
				return
			}
			p.right(f.right(), y, value, strongFont)
		})
		s.gap(0.7)
	}
	for _, l := range shown.Lines {
		row(l.Name, l.Value)
	}
	sum, priced := 0.0, 0
	for _, k := range in.Views[care.KitList].Page.Kit {
		if k.Price.Known() {
			sum += k.Price.X
			priced++
		}
	}
	if priced > 0 {
		row(in.Presenter.W.T("paper.total_known", i18n.Args{"Priced": priced, "Items": len(shown.Kit)}), in.money(sum))
	}
	row(in.t("paper.total"), "")
	return s.block(3)
}

// advice is the judgement on the kit with what to do about it.
func (f *flow) advice(v *present.Verdict) block {
	s := &stack{x: f.left() + 5, w: f.width() - 5}
	s.text(v.Title, strongFont)
	for _, l := range v.Lines {
		s.text(l, bodyFont)
	}
	b := s.block(5)
	inner := b.draw
	b.draw = func(p *page, y float64) {
		p.state(f.left()+1.4, y+strongFont.lead()/2, v.State)
		inner(p, y)
	}
	return b
}
