package firstfill

import (
	"context"
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/parts"
)

// curve is the computed course with the timer that waits for it.
func (p *Page) curve() []fyne.CanvasObject {
	c := p.view.Page.Curve
	if c == nil || len(c.Time) == 0 {
		return nil
	}
	spec := p.chart(c)
	v, ok := p.made.rest["curve"].(*chart.View)
	if !ok {
		v = chart.NewView(spec)
		v.SetMinSize(fyne.NewSize(300, 170))
		p.made.rest["curve"] = v
	}
	unit := p.unit(c)
	v.ReadOut = func(r chart.Reading) string {
		s := p.deps.Present.W.Duration(quantity.Time(r.X * 60))
		if len(r.Values) > 0 && r.Values[0].OK {
			val := r.Values[0]
			s += "\n" + p.deps.Present.W.QuantityIn(quantity.Value{Kind: unit.Kind, X: unit.ToBase(val.Y)}, unit.Code, 3)
			if val.Banded {
				s += "\n" + p.deps.Present.W.Range(quantity.Value{Kind: unit.Kind, X: unit.ToBase(val.Low)}, quantity.Value{Kind: unit.Kind, X: unit.ToBase(val.High)})
			}
		}
		return s
	}
	if _, reading := v.Reading(); !reading { // a reading in progress is not taken away by a tick of the clock
		v.Set(spec)
	}
	return append([]fyne.CanvasObject{v}, p.timer(c)...)
}

// unit is what the curve is read in.
func (p *Page) unit(c *care.Curve) quantity.Unit {
	kind := c.Middle[0].Kind
	if kind == quantity.KindRatio {
		return quantity.MustUnit("percent")
	}
	return quantity.MustUnit(p.deps.Present.W.DefaultUnit(kind, i18n.General))
}

func (p *Page) chart(c *care.Curve) chart.Spec {
	w, unit := p.deps.Present.W, p.unit(c)
	series := chart.Series{Colour: look.Teal}
	for i, t := range c.Time {
		x := t.Minutes()
		series.Line = append(series.Line, chart.Sample{X: x, Y: c.Middle[i].In(unit)})
		if i < len(c.Low) && i < len(c.High) {
			series.Band = append(series.Band, chart.Spread{X: x, Low: c.Low[i].In(unit), High: c.High[i].In(unit)})
		}
	}
	number := func(v, step float64) string { return w.Number(v, 3) }
	spec := chart.Spec{Series: []chart.Series{series}, Unit: w.T(c.Name, nil) + ", " + w.Unit(unit.Code),
		X: chart.Axis{FromZero: true, Label: func(v, step float64) string { return w.Number(v, 3) + " " + w.Unit("min") }}, Y: chart.Axis{Label: number}}
	if c.Usual[1] > 0 {
		spec.Marks = append(spec.Marks, chart.Mark{X: c.Usual[0].Minutes(), Label: w.T("page.fill.usual", nil), Colour: look.SoftInk}, chart.Mark{X: c.Usual[1].Minutes(), Colour: look.SoftInk})
	}
	for _, m := range c.Marks {
		spec.Marks = append(spec.Marks, chart.Mark{X: m.At.Minutes(), Label: p.deps.Present.Say(m.Text), Colour: look.Rust, Solid: true})
	}
	if c.Timer != nil {
		spec.Marks = append(spec.Marks, chart.Mark{X: c.Timer.Passed(p.deps.Now()).Minutes(), Label: w.T("page.fill.now", nil)})
	}
	return spec
}

// timer is the wait: start it, see it count, stop it.
func (p *Page) timer(c *care.Curve) []fyne.CanvasObject {
	w := p.deps.Present.W
	b, ok := p.made.rest["timer"].(*parts.Button)
	if !ok {
		b = parts.NewButton(parts.ButtonSpec{}, nil)
		p.made.rest["timer"] = b
	}
	if c.Timer == nil {
		b.OnPressed = func() {
			p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.StartTimer(ctx, p.tank) }, p.kept)
		}
		b.Set(parts.ButtonSpec{ID: "timer-start", Label: w.T("page.fill.start", nil)})
		return []fyne.CanvasObject{b}
	}
	left := c.Timer.Left(p.deps.Now()).Round(time.Second)
	words := clock(left) + " " + w.T("page.fill.to_go", nil)
	if left <= 0 {
		words = w.T("page.fill.time_up", nil)
	}
	b.OnPressed = func() {
		p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.StopTimer(ctx, p.tank) }, p.kept)
	}
	b.Set(parts.ButtonSpec{ID: "timer-stop", Label: w.T("page.fill.stop", nil)})
	ends, ok := p.made.rest["timer-ends"].(*parts.Ends)
	if !ok {
		ends = parts.NewEnds(p.text("timer-text", words, parts.StrongBody), b)
		p.made.rest["timer-ends"] = ends
	}
	p.text("timer-text", words, parts.StrongBody)
	return []fyne.CanvasObject{ends}
}

// clock writes a wait as minutes and seconds, or hours, minutes and seconds.
func clock(d time.Duration) string {
	s := int(d.Seconds())
	if s >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}
