package paper

import (
	"context"
	"io"
	"slices"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/rounds"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// CareCalendar is the rounds of the coming weeks on their days, with boxes to tick,
// what each round is, and the safety notes that belong to them. Its pages lie on
// their side. Only a tank with rounds has it.
const CareCalendar Kind = "care-calendar"

// WriteCareCalendar makes the care calendar of the coming days, the last week filled
// up, and writes it to out. Errors: those of keeper.CareCalendar, ctx's own, and those
// of out.
func WriteCareCalendar(ctx context.Context, k *keeper.Keeper, tank string, days int, p present.Presenter, size Size, out io.Writer) error {
	in, err := Gather(ctx, k, tank, p, size)
	if err != nil {
		return err
	}
	if err := in.gatherCare(ctx, k, tank, days); err != nil {
		return err
	}
	return write(out, CareCalendar, in, true)
}

// gatherCare adds to the input what the care calendar shows.
func (in *Input) gatherCare(ctx context.Context, k *keeper.Keeper, tank string, days int) error {
	if days >= keeper.CareDaysLeast && days <= keeper.CareDaysMost {
		days = min(in.Presenter.CareWhole(rounds.Wall(in.made()), days), keeper.CareDaysMost)
	}
	v, err := k.CareCalendar(ctx, tank, days)
	if err != nil {
		return err
	}
	shown := in.Presenter.CareCalendar(v, in.made())
	in.Care = &shown
	return nil
}

// careCalendar lays the document out.
func (f *flow) careCalendar(in *Input) {
	c := in.Care
	f.add(f.span(in))
	f.add(f.always(in))
	f.weeks(in)
	f.careRounds(in)
	notes := slices.DeleteFunc(care.NotesAt(c.Places...), func(n care.Note) bool { return n.ID == onFront })
	if len(notes) > 0 {
		f.add(f.heading(in.t("paper.safety")))
	}
	f.panels(in, notes, 0)
}

// span says which days there are, and beside it what is due on each, by number.
func (f *flow) span(in *Input) block {
	w := in.Presenter.W
	if len(in.Care.Daily) == 0 {
		return f.inLine(in.Care.Span, "", 2.5)
	}
	var names []string
	for i, n := range in.Care.Daily {
		names = append(names, w.Number(float64(i+1), 2)+"\u00a0"+n)
	}
	return f.inLine(in.Care.Span, w.T("page.rounds.daily", i18n.Args{"Names": w.List(names)}), 2.5)
}

// weeks is the table of days, a week in a row.
func (f *flow) weeks(in *Input) {
	wide := f.width() / 7
	head := block{height: noteStrong.lead() + 1.4, before: 3, with: true, draw: func(p *page, y float64) {
		for i, name := range in.Care.Heads {
			p.text(f.left()+float64(i)*wide+1.4, y, noteStrong.short(name, wide-2), noteStrong.in(look.SoftInk))
		}
	}}
	f.add(head)
	for _, week := range in.Care.Weeks {
		f.add(f.week(in, week, wide, &head))
	}
}

// week is one row. Each day has its date, in its line or the next the boxes of what is
// due every day, by number, and below them its rounds.
func (f *flow) week(in *Input, week []present.CareDay, wide float64, head *block) block {
	const pad, side, least, most = 1.4, 3.4, 22.0, 70.0 // judgement: room for a note in pencil, and no more than half a page
	inner := wide - 2*pad
	var cells []*stack
	height := least
	for i, d := range week {
		s := &stack{x: f.left() + float64(i)*wide + pad, w: inner}
		s.gap(0.5)
		ft := strongFont
		if d.Off {
			ft = softFont
		}
		s.put(strongFont.lead(), func(p *page, y float64) { p.text(s.x, y, ft.short(d.Date, inner), ft) })
		if d.Away {
			s.lineBeside(in.t("page.rounds.away_mark"), ft.width(d.Date))
		}
		s.daily(in, d.Daily, ft.width(d.Date))
		for j, t := range d.Ticks {
			if s.height > most {
				s.text(in.Presenter.W.N("n.more", float64(len(d.Ticks)-j), nil), noteFont)
				break
			}
			text := &stack{x: s.x + side + 1.3, w: inner - side - 1.3}
			text.text(noteInk.twoLines(t.Name, text.w), noteInk) // the whole name stands in the table below
			s.put(text.height, func(p *page, y float64) {
				p.box(s.x, y+(noteInk.lead()-side)/2, side, t.Done)
				text.draw(p, y)
			})
			s.gap(0.2)
		}
		height = max(height, s.height+1.2)
		cells = append(cells, s)
	}
	return block{height: height, again: head, draw: func(p *page, y float64) {
		for i := range week {
			x := f.left() + float64(i)*wide
			if week[i].Off {
				p.rect(x, y, wide, height, 0, scene.Style{Fill: look.Track})
			}
			p.rect(x, y, wide, height, 0, scene.Style{Stroke: look.Edge, Width: 0.7})
			cells[i].draw(p, y)
		}
	}}
}

// lineBeside ends the line that was put last with a word, where it leaves room.
func (s *stack) lineBeside(word string, taken float64) {
	room := s.w - taken - 2
	if room < 6 {
		return
	}
	s.gap(-strongFont.lead())
	s.put(strongFont.lead(), func(p *page, y float64) {
		p.right(s.x+s.w, y+(strongFont.lead()-noteFont.lead())/2, noteFont.short(word, room), noteFont)
	})
}

// daily puts the boxes of what is due every day: behind what takes so much of the line
// that was put last, or where they have no room there below it.
func (s *stack) daily(in *Input, ticks []present.CareTick, taken float64) {
	const side, room = 3.4, 7.0
	due := false
	for _, t := range ticks {
		due = due || t.Name != ""
	}
	if !due {
		return
	}
	line := strongFont.lead()
	if float64(len(ticks))*room <= s.w-taken-1 {
		s.gap(-line)
	}
	most := int(s.w / room)
	for from := 0; from < len(ticks); from += most {
		part := ticks[from:min(from+most, len(ticks))]
		s.put(line, func(p *page, y float64) {
			for j, t := range part {
				if t.Name == "" {
					continue
				}
				end := s.x + s.w - float64(len(part)-1-j)*room
				p.box(end-side, y+(line-side)/2, side, t.Done)
				p.right(end-side-0.8, y+(line-noteInk.lead())/2, in.Presenter.W.Number(float64(from+j+1), 2), noteInk)
			}
		})
	}
}

// careRounds says what each round is, when it was last done and when it comes next.
func (f *flow) careRounds(in *Input) {
	const names = 72.0
	pad, strong, body := 0.9, strongFont, bodyFont
	if f.setting > usual {
		pad = 0.4
		strong, body = f.fonts()
	}
	days := 32.0
	for _, r := range in.Care.Rounds {
		days = min(max(days, bodyFont.width(r.Last)+4, strongFont.width(r.Next)+4), 48)
	}
	head := f.tableHead(0, cell{in.t("paper.item"), 0, false}, cell{in.t("paper.care.last"), days, true}, cell{in.t("paper.care.next"), days, true})
	f.add(f.heading(in.t("page.rounds.all")), head)
	for _, r := range in.Care.Rounds {
		left := &stack{x: f.left(), w: names - 4}
		left.gap(pad)
		left.text(r.Name, strong)
		left.text(r.Text, noteInk)
		left.gap(pad)
		about := &stack{x: f.left() + names, w: f.width() - names - 2*days - 4}
		about.gap(pad)
		for _, l := range r.About {
			about.text(l, noteInk)
		}
		about.gap(pad)
		b := beside(0, left, about)
		inner, h := b.draw, b.height
		b.again = &head
		last, next := r.Last, strong
		if last == "" {
			last = in.t("paper.care.never")
		}
		if !r.Late {
			next = body
		}
		b.draw = func(p *page, y float64) {
			inner(p, y)
			p.right(f.right()-days, y+pad, body.short(last, days-3), body)
			p.right(f.right(), y+pad, next.short(r.Next, days-3), next)
			p.rule(f.left(), y+h, f.width(), 0.8, look.Rule)
		}
		f.add(b)
	}
}
