package firstfill

import (
	"context"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/screens/chart"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// curve is the computed course with the timer that waits for it.
func (p *Page) curve() []fyne.CanvasObject {
	c := p.view.Page.Curve
	if c == nil || len(c.Time) == 0 {
		return nil
	}
	spec := nav.CurveSpec(p.deps, c)
	v, ok := p.made.rest["curve"].(*chart.View)
	if !ok {
		v = chart.NewView(spec)
		p.made.rest["curve"] = v
	}
	v.SetMinSize(fyne.NewSize(300, float32(170*look.ScaleFor(v)))) // its words grow with the size of text
	v.ReadOut = nav.CurveReading(p.deps, c)
	if _, reading := v.Reading(); !reading { // a reading in progress is not taken away by a tick of the clock
		v.Set(spec)
	}
	return append([]fyne.CanvasObject{v}, p.timer(c)...)
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
	words := nav.Clock(left) + " " + w.T("page.fill.to_go", nil)
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
	if unsure := p.deps.Present.Unsure(*c.Timer); unsure != "" {
		return []fyne.CanvasObject{ends, p.text("timer-unsure", unsure, parts.Body)}
	}
	return []fyne.CanvasObject{ends}
}

// severalBags leads from the step of one bag to the place of several, each with a
// clock of its own; what was brought home there finishes the step.
func (p *Page) severalBags() []fyne.CanvasObject {
	if p.step != care.HomeComing || p.view.Page.State == care.Shut {
		return nil
	}
	b, ok := p.made.rest["several"].(*parts.Button)
	if !ok {
		spec := parts.ButtonSpec{ID: "several-bags", Label: p.deps.Present.W.T("page.bag.several", nil), Kind: parts.Quiet}
		b = parts.NewButton(spec, func() { p.deps.Go(nav.Route{Place: nav.HomeComing, Tank: p.tank}) })
		p.made.rest["several"] = b
	}
	return []fyne.CanvasObject{parts.NewFlow(b)}
}
