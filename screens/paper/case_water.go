package paper

import (
	"slices"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
)

// watered are the readings of the water table, in order. The others of a test
// stand below its line.
var watered = []string{journal.NameAmmonia, journal.NameNitrite, journal.NameNitrate, journal.NamePH, journal.NameKH, journal.NameGH, journal.NameTemperature}

// tests is the water of the last month as a table, every value as it was typed.
func (f *flow) tests(in *Input) {
	es := in.within(testDays, func(e journal.Entry) bool { return e.Kind == journal.Tested })
	f.add(f.heading(in.Presenter.W.N("n.tests_days", testDays, nil)))
	if len(es) == 0 {
		f.add(f.text(in.t("paper.case.no_tests"), bodyFont, 0)...)
		return
	}
	var names []string
	for _, n := range watered {
		if slices.ContainsFunc(es, func(e journal.Entry) bool { _, ok := e.Get(n); return ok }) {
			names = append(names, n)
		}
	}
	const state = 21.0
	w := (f.width() - whenWide - state) / float64(max(1, len(names)))
	head := f.columnsHead(in, names, w, state)
	f.add(head)
	for _, e := range es {
		cs := []column{{f.left(), whenWide - 2, in.Presenter.When(e.At), noteInk}}
		for i, n := range names {
			text := "–"
			if r, ok := e.Get(n); ok {
				text = in.Presenter.Reading(r)
			}
			cs = append(cs, column{f.left() + whenWide + float64(i)*w, w - 1.5, text, noteInk})
		}
		b := f.line(&head, cs, nil)
		if j, ok := in.Case.Judged[e.ID]; ok {
			inner, word := b.draw, in.Presenter.W.State(j.State)
			b.draw = func(p *page, y float64) {
				inner(p, y)
				p.stated(f.right(), y+0.7, j.State, word, noteInk)
			}
		}
		f.add(b)
		if also := in.also(e); also != "" {
			f.add(f.text(also, noteFont, 0.6)...)
		}
	}
}

// columnsHead is the head of the water table; names wrap in their columns.
func (f *flow) columnsHead(in *Input, names []string, w, state float64) block {
	var stacks []*stack
	for i, n := range names {
		s := &stack{x: f.left() + whenWide + float64(i)*w, w: w - 1.5}
		s.text(in.Presenter.ReadingName(n), noteStrong.in(look.SoftInk))
		stacks = append(stacks, s)
	}
	last := &stack{x: f.right() - state, w: state}
	stacks = append(stacks, last)
	b := beside(0, stacks...)
	inner, h := b.draw, b.height
	b.height, b.with = h+1.4, true
	b.draw = func(p *page, y float64) {
		inner(p, y)
		p.rule(f.left(), y+h+1, f.width(), 1.1, look.SoftInk)
	}
	return b
}

// also writes the readings of a test that have no column, and its note.
func (in *Input) also(e journal.Entry) string {
	var out []string
	for _, r := range e.InOrder() {
		if !slices.Contains(watered, r.Name) {
			out = append(out, in.Presenter.W.T("paper.figure", i18n.Args{"Name": working.Key("reading." + r.Name), "Value": in.Presenter.Reading(r)}))
		}
	}
	if e.Note != "" {
		out = append(out, e.Note)
	}
	return strings.Join(out, " · ")
}

// fed is the feeding of the last days, a line a day.
func (f *flow) fed(in *Input) {
	f.add(f.heading(in.Presenter.W.N("n.fed_days", feedDays, nil)))
	type dayOf struct {
		at    journal.Civil
		times int
		mass  float64
		known bool
		words []string
	}
	var days []dayOf
	for _, e := range in.within(feedDays, func(e journal.Entry) bool { return e.Kind == journal.Fed }) {
		if n := len(days); n == 0 || days[n-1].at.Day() != e.At.Day() {
			days = append(days, dayOf{at: e.At})
		}
		d := &days[len(days)-1]
		d.times++
		for _, r := range e.InOrder() {
			if r.Name == journal.NameFeed {
				if v, ok := r.Value(); ok {
					d.mass, d.known = d.mass+v.X, true
				}
			} else if s := in.Presenter.Reading(r); !slices.Contains(d.words, s) {
				d.words = append(d.words, s)
			}
		}
		if e.Note != "" && !slices.Contains(d.words, e.Note) {
			d.words = append(d.words, e.Note)
		}
	}
	if len(days) == 0 {
		f.add(f.text(in.t("paper.case.not_fed"), bodyFont, 0)...)
	}
	for _, d := range days {
		amount := ""
		if d.known {
			amount = in.Presenter.W.For(quantity.Mass(d.mass).Value(), i18n.Food)
		}
		const times, much = 32.0, 26.0
		x := f.left() + whenWide
		f.add(f.line(nil, []column{{f.left(), whenWide, in.Presenter.CivilDay(d.at), bodyFont}, {x, times - 2, in.Presenter.W.N("n.times_fed", float64(d.times), nil), bodyFont},
			{x + times, much - 2, amount, bodyFont}, {x + times + much, f.width() - whenWide - times - much, strings.Join(d.words, " · "), bodyFont}}, nil))
	}
}
