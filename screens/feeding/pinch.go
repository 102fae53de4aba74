package feeding

import (
	"context"
	"errors"
	"strconv"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// pinches are the weighed pinches, and how to weigh one.
func (p *Page) pinches() []fyne.CanvasObject {
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.feed.your_pinch"), parts.Section), parts.TextOf(p.shown.Weighing, parts.SoftBody)}
	for i, x := range p.shown.Pinches {
		out = append(out, parts.NewEntryRow(parts.EntryRowSpec{ID: "pinch-" + x.ID, Kind: x.Food, Text: p.say("page.feed.pinch_row", i18n.Args{"Twenty": x.Twenty, "One": x.One}), Even: true, Two: true},
			func() { p.weigh(&p.view.Pinches[i]) }))
	}
	return append(out, parts.NewFlow(p.deps.Button("weigh", "page.feed.weigh", parts.Secondary, func() { p.weigh(nil) })))
}

// weigh asks for twenty pinches, of a food weighed before or of another one.
func (p *Page) weigh(was *keeper.Pinch) {
	var m quantity.Measure
	name := ""
	if was != nil {
		m, name = was.Twenty, was.Food
	} else if len(p.view.Meals) > 0 {
		name = p.view.Meals[0].Food
	}
	food := parts.NewField(parts.FieldSpec{ID: "food", Label: p.t("page.feed.food"), Text: name, Placeholder: p.t("page.feed.food_eg")})
	twenty := nav.NewMeasured(p.deps, "twenty", "page.feed.twenty", quantity.KindMass, i18n.Food, m, false)
	var shut func()
	keep := func() {
		nav.Fault(food, "")
		x, ok := twenty.Read()
		if !ok {
			nav.ToFault(p.deps, food, twenty.Field)
			return
		}
		words := food.Text()
		p.deps.Work(func(ctx context.Context) error {
			_, err := p.deps.Keeper.WeighPinch(ctx, p.tank, words, x)
			return err
		}, func(err error) {
			var r *working.Refusal
			if errors.As(err, &r) && (r.Field == "food" || r.Field == "twenty") {
				said := p.deps.Present.W.Refusal(r)
				if r.Field == "food" {
					nav.Fault(food, said)
				} else {
					twenty.Fault(said)
				}
				nav.ToFault(p.deps, food, twenty.Field)
				return
			}
			shut()
			p.change(func(context.Context) error { return err }, "page.feed.weighed")
		})
	}
	food.OnEnter, twenty.OnEnter = keep, keep
	buttons := []fyne.CanvasObject{p.deps.Button("keep", "page.day.keep", parts.Primary, keep)}
	if was != nil {
		buttons = append(buttons, p.deps.Button("forget", "label.delete", parts.Secondary, func() {
			shut()
			p.change(func(ctx context.Context) error { return p.deps.Keeper.DropPinch(ctx, p.tank, was.ID) }, "page.feed.dropped")
		}))
	}
	buttons = append(buttons, p.deps.Button("cancel", "label.cancel", parts.Quiet, func() { shut() }))
	shut = p.deps.Dialog(p.t("page.feed.weigh"), parts.NewColumn(10, parts.TextOf(p.shown.Weighing, parts.Body), parts.NewRow(food, twenty)), parts.NewFlow(buttons...))
	p.deps.Focus(food.Focusable())
}

// The least size of the chart. Judgement.
const chartWide, chartTall = 300, 170

// given is what was fed day by day beside the ration.
func (p *Page) given() []fyne.CanvasObject {
	v := p.view
	some := false
	for _, d := range v.Days {
		some = some || d.Given > 0
	}
	if !some {
		return nil
	}
	pr := p.deps.Present
	s := chart.Series{Colour: look.Teal, Bars: true}
	var x0, x1 float64
	for i, d := range v.Days {
		t, err := time.Parse("2006-01-02", d.Date)
		if err != nil {
			continue
		}
		x := float64(t.Unix())
		if i == 0 {
			x0 = x
		}
		x1 = x
		if d.Given > 0 {
			s.Points = append(s.Points, chart.Sample{X: x, Y: float64(d.Given) * 1e6})
		}
	}
	spec := chart.Spec{Series: []chart.Series{s}, Unit: p.t("page.feed.given_axis"), X: chart.Axis{Min: x0 - 43200, Max: x1 + 43200, Fixed: true},
		Y: chart.Axis{FromZero: true, Label: func(v, _ float64) string { return pr.W.Number(v, 3) }}}
	for _, t := range pr.TimeTicks(x0, x1) {
		spec.X.Ticks = append(spec.X.Ticks, chart.Tick{At: t.X, Label: t.Label})
	}
	if v.Refused == nil && v.Ration.Day > 0 {
		spec.Limits = append(spec.Limits, chart.Limit{Y: float64(v.Ration.Day) * 1000, Label: p.t("page.feed.ration_line")})
	}
	view := chart.NewView(spec)
	view.SetMinSize(fyne.NewSize(chartWide, chartTall))
	return []fyne.CanvasObject{parts.TextOf(p.t("page.feed.given"), parts.Section), view}
}

// basis is the boxes of the figures that are judgement.
type basis struct {
	p              *Page
	share, protein *nav.Measured
	fast           []fyne.CanvasObject // a tick for each day of the week
	shop           bool                // what is kept is the shop's proposal
	kept           keeper.FeedingBasis
	fasting        keeper.Weekdays // as ticked
	row            fyne.CanvasObject
}

func newBasis(p *Page) *basis { return &basis{p: p} }

// show makes the boxes anew where what is kept has changed.
func (b *basis) show(k keeper.FeedingBasis, shop bool) {
	if b.row != nil && k == b.kept && shop == b.shop {
		return
	}
	b.kept, b.shop, b.fast = k, shop, nil
	p := b.p
	w := p.deps.Present.W
	for i := range 7 {
		d := (w.FirstWeekday() + time.Weekday(i)) % 7
		b.fast = append(b.fast, parts.NewTick(parts.TickSpec{ID: "fast-" + strconv.Itoa(int(d)), Text: w.Weekday(d), Done: k.Fasting[d]}, func(on bool) {
			b.fasting[d] = on
			b.keep()
		}))
	}
	b.fasting = k.Fasting
	b.share = nav.NewMeasured(p.deps, "share", "page.feed.share", quantity.KindRatio, i18n.General, k.Share, false)
	b.protein = nav.NewMeasured(p.deps, "protein", "page.feed.protein", quantity.KindRatio, i18n.General, k.Protein, false)
	for f, hint := range map[*nav.Measured]working.Key{b.share: "page.feed.share_hint", b.protein: "page.feed.protein_hint"} {
		s := f.Spec()
		s.Hint = p.t(hint)
		f.Set(s)
		f.OnCommit = func(string) { b.keep() }
		f.OnEnter = b.keep
	}
	b.row = parts.NewRow(b.share, b.protein)
}

func (b *basis) parts() []fyne.CanvasObject {
	out := []fyne.CanvasObject{parts.TextOf(b.p.t("page.feed.basis"), parts.Section), parts.TextOf(b.p.t("page.feed.basis_note"), parts.SoftBody)}
	if b.shop {
		out = append(out, parts.TextOf(b.p.t("page.feed.from_shop"), parts.Note))
	}
	return append(out, b.row, parts.TextOf(b.p.t("page.feed.fast_days"), parts.StrongBody), parts.NewRow(b.fast[:4]...), parts.NewRow(append(b.fast[4:7:7], parts.TextOf("", parts.Body))...))
}

// keep takes what stands in the boxes.
func (b *basis) keep() {
	var k keeper.FeedingBasis
	var ok1, ok2 bool
	k.Share, ok1 = b.share.Read()
	k.Protein, ok2 = b.protein.Read()
	k.Fasting = b.fasting
	if !ok1 || !ok2 || k == b.kept {
		return
	}
	p := b.p
	p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.SetFeedingBasis(ctx, p.tank, k) }, func(err error) {
		var r *working.Refusal
		switch {
		case errors.As(err, &r) && r.Field == "share":
			b.share.Fault(p.deps.Present.W.Refusal(r))
		case errors.As(err, &r) && r.Field == "protein":
			b.protein.Fault(p.deps.Present.W.Refusal(r))
		case errors.As(err, &r) && r.Field == "fasting":
			p.deps.Fail(err)
			b.row = nil // made anew, as it is kept
			p.Refresh()
		case err != nil:
			p.deps.Fail(err)
		default:
			nav.Did(p.deps, p.tank, "page.feed.basis_kept", p.Refresh)
		}
	})
}
