package fish

import (
	"context"
	"math"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/scene"
)

// one is the page of a fish or a group.
func (p *Page) one() {
	ctx, pr := context.Background(), p.deps.Present
	l, lives := p.living(p.id)
	if !lives {
		gone, err := p.deps.Keeper.FishOf(ctx, p.tank)
		if err != nil {
			p.deps.Fail(err)
		}
		for _, f := range gone {
			if f.ID == p.id {
				l.Fish = f
			}
		}
		if l.ID == "" { // it was taken back, or became part of another
			p.id = ""
			p.list()
			return
		}
	}
	curve, err := p.deps.Keeper.GrowthOf(ctx, p.tank, p.id)
	if err != nil {
		p.deps.Fail(err)
	}
	latin := ""
	if l.Animal != nil {
		latin = l.Animal.Scientific
		if kind := pr.KindName(l.Animal.Code); kind != pr.FishName(l.Fish) {
			latin = pr.W.Comma(kind, latin)
		}
	}
	all := p.deps.Button("all", "page.stock.all", parts.Quiet, func() { p.deps.Go(nav.Route{Place: nav.Fish, Tank: p.tank}) })
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(pr.FishName(l.Fish), parts.Heading), parts.NewLatin(latin)), parts.NewFlow(all)}
	out = append(out, p.losses(p.id)...)
	if lives {
		out = append(out, p.acts(l))
	} else {
		p.first.Set(parts.ButtonSpec{ID: "recount", Label: p.t("page.stock.recount")})
		p.first.OnPressed = func() { p.recount(l) }
		out = append(out, parts.TextOf(pr.W.T("page.stock.gone_since", i18n.Args{"Day": pr.CivilDay(l.Gone)}), parts.SoftBody), parts.NewFlow(p.first))
	}
	for _, f := range pr.FishFacts(l, curve) {
		value := f.Value
		if f.Note != "" {
			value += " · " + f.Note
		}
		out = append(out, parts.NewFigure(parts.FigureSpec{Name: f.Name, Value: value}))
	}
	out = append(out, p.growth(curve)...)
	if l.Trail != nil {
		w := parts.NewWorking(nav.Working(p.deps, l.Trail))
		w.OnCopy = nav.CopyWorking(p.deps)
		out = append(out, w)
	}
	p.pictures.Refresh()
	out = append(out, parts.TextOf(p.t("page.stock.album"), parts.Section), p.pictures.Object())
	out = append(out, p.past()...)
	p.scroll.Column().Set(append(out, parts.NewSpace(8))...)
}

// acts are what can be written of a fish that lives here.
func (p *Page) acts(l keeper.Living) fyne.CanvasObject {
	p.first.Set(parts.ButtonSpec{ID: "left", Label: p.t("page.stock.left")})
	p.first.OnPressed = func() { p.leave(l.ID) }
	row := []fyne.CanvasObject{p.first, p.deps.Button("measure", "page.stock.measure", parts.Secondary, func() { p.measure(l) }),
		p.deps.Button("recount", "page.stock.recount", parts.Secondary, func() { p.recount(l) }), p.deps.Button("born", "page.stock.born", parts.Secondary, p.born),
		p.deps.Button("case", "page.sick.button", parts.Secondary, func() { nav.OpenCase(p.deps, p.tank, l.ID) })}
	quiet := []fyne.CanvasObject{}
	if l.Animal != nil {
		quiet = append(quiet, p.deps.Button("kind", "page.stock.its_kind", parts.Quiet, func() { p.deps.Go(nav.Route{Place: nav.Kinds, Tank: p.tank, Species: string(l.Animal.Code)}) }))
	}
	quiet = append(quiet, p.deps.Button("set", "page.stock.set", parts.Quiet, func() { p.set(l) }))
	if l.Count > 1 {
		quiet = append(quiet, p.deps.Button("split", "page.stock.split", parts.Quiet, func() { p.split(l) }))
	}
	if len(p.alike(l)) > 0 {
		quiet = append(quiet, p.deps.Button("merge", "page.stock.merge", parts.Quiet, func() { p.merge(l) }))
	}
	return parts.NewColumn(4, parts.NewFlow(row...), parts.NewLinks(quiet...))
}

// growth is how long it was and how it may grow, as a chart.
func (p *Page) growth(c keeper.GrowthCurve) []fyne.CanvasObject {
	if len(c.Measured) == 0 {
		return []fyne.CanvasObject{parts.TextOf(p.t("page.stock.growth"), parts.Section), parts.TextOf(p.t("page.stock.not_measured"), parts.SoftBody)}
	}
	if len(c.Estimated) == 0 && len(c.Measured) < 2 {
		return nil
	}
	pr := p.deps.Present
	u := quantity.MustUnit(pr.W.DefaultUnit(quantity.KindLength, i18n.Fish))
	x := func(t time.Time) float64 { return float64(t.Unix()) }
	y := func(l quantity.Length) float64 { return u.FromBase(float64(l)) }
	x0, x1 := math.Inf(1), math.Inf(-1)
	measured := chart.Series{Name: p.t("page.stock.measured"), Colour: look.Ink, Shape: scene.Round, Filled: true}
	for _, m := range c.Measured {
		measured.Points = append(measured.Points, chart.Sample{X: x(m.At), Y: y(m.Length)})
		x0, x1 = min(x0, x(m.At)), max(x1, x(m.At))
	}
	guess := chart.Series{Name: p.t("page.stock.estimated"), Colour: look.Teal}
	for _, m := range c.Estimated {
		guess.Line = append(guess.Line, chart.Sample{X: x(m.At), Y: y(m.Length)})
		guess.Band = append(guess.Band, chart.Spread{X: x(m.At), Low: y(m.Low), High: y(m.High)})
		x0, x1 = min(x0, x(m.At)), max(x1, x(m.At))
	}
	spec := chart.Spec{Series: []chart.Series{guess, measured}, Unit: pr.W.Unit(u.Code), Ground: look.Paper,
		X: chart.Axis{Min: x0, Max: x1, Fixed: true}, Y: chart.Axis{FromZero: true, Label: func(v, _ float64) string { return pr.W.Number(v, 3) }}}
	for _, t := range pr.TimeTicks(x0, x1) {
		spec.X.Ticks = append(spec.X.Ticks, chart.Tick{At: t.X, Label: t.Label})
	}
	if c.Adult > 0 {
		spec.Limits = []chart.Limit{{Y: y(c.Adult), Label: p.t("page.stock.adult")}}
	}
	if now, err := time.Parse(time.DateOnly, p.deps.Now().Format(time.DateOnly)); err == nil && x(now) > x0 && x(now) < x1 {
		spec.Marks = []chart.Mark{{X: x(now), Label: p.t("nav.today")}}
	}
	v := chart.NewView(spec)
	v.ReadOut = func(r chart.Reading) string { return p.readOut(c, r.X) }
	v.SetMinSize(fyne.NewSize(300, 190))
	return []fyne.CanvasObject{parts.TextOf(p.t("page.stock.growth"), parts.Section), v, parts.TextOf(p.t("page.stock.growth_rule"), parts.Note)}
}

// readOut says how long it is at a point of the chart.
func (p *Page) readOut(c keeper.GrowthCurve, x float64) string {
	pr := p.deps.Present
	long := func(l quantity.Length) string { return pr.W.For(l.Value(), i18n.Fish) }
	for _, m := range c.Measured {
		if float64(m.At.Unix()) == x {
			return pr.W.ShortDate(m.At) + "\n" + pr.W.Colon(p.t("page.stock.measured"), long(m.Length))
		}
	}
	for _, m := range c.Estimated {
		if float64(m.At.Unix()) == x {
			return pr.W.ShortDate(m.At) + "\n" + pr.W.Colon(p.t("page.stock.estimated"), pr.W.Range(m.Low.Value(), m.High.Value()))
		}
	}
	return ""
}

// past is what the daybook tells of it, the latest first; each opens its entry.
func (p *Page) past() []fyne.CanvasObject {
	told, err := p.deps.Keeper.FishPast(context.Background(), p.tank, p.id)
	if err != nil {
		p.deps.Fail(err)
	}
	out := []fyne.CanvasObject{parts.NewDayHeading(p.t("page.stock.past"))}
	for i := len(told) - 1; i >= 0 && len(out) <= mostRows; i-- {
		e := p.deps.Present.FishPast(told[i])
		out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: "entry-" + e.ID, Time: e.Time, Kind: e.Kind, Text: e.Text, Note: e.Note, Even: true}, func() {
			p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Entry: e.ID})
		}))
	}
	if len(told) == 0 {
		out = append(out, parts.TextOf(p.t("page.stock.no_past"), parts.SoftBody))
	}
	return out
}
