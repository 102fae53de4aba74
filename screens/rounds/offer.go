package rounds

import (
	"context"
	"errors"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// offer is the proposal of the usual rounds as it stands on the page.
type offer struct {
	made  keeper.RoundOffer
	basis keeper.RoundBasis // as typed
	feed  *parts.Field
	tap   *parts.Field
	left  map[string]bool // unticked, by key
	open  bool            // the working
}

// offers is the page of the usual rounds: reasons, working, boxes to tick.
func (p *Page) offers() []fyne.CanvasObject {
	if p.offer == nil {
		p.offer = &offer{left: map[string]bool{}}
		b, err := p.deps.Keeper.RoundBasisOf(context.Background(), p.tank)
		if err != nil {
			p.deps.Fail(err)
		}
		p.offer.basis = b
		p.offer.feed = p.figure("feed", "page.rounds.feed", quantity.KindMassRate, func(m quantity.Measure) { p.offer.basis.Feed = m })
		p.offer.tap = p.figure("tap", "page.rounds.tap", quantity.KindConcentration, func(m quantity.Measure) {
			if m.Basis = quantity.AsIon; m.Number == "" {
				m = quantity.Measure{}
			}
			p.offer.basis.Tap = m
		})
	}
	o := p.offer
	made, err := p.deps.Keeper.ProposeRounds(context.Background(), p.tank, o.basis)
	if err != nil {
		p.deps.Fail(err)
		return nil
	}
	o.made = made
	w := p.deps.Present.W
	p.showFigure(o.feed, made.Basis.Feed, o.basis.Feed.IsZero())
	p.showFigure(o.tap, made.Basis.Tap, o.basis.Tap.IsZero())
	if made.Refused != nil {
		words, _ := w.Problem(made.Refused)
		var r *working.Refusal
		if errors.As(made.Refused, &r) && r.Field == "feed" {
			fault(o.feed, words)
		} else {
			fault(o.tap, words)
		}
	}
	p.first.Set(parts.ButtonSpec{ID: "take", Label: p.t("page.rounds.take"), Kind: parts.Primary})
	p.first.OnPressed, p.start = p.take, o.feed.Focusable()
	out := []fyne.CanvasObject{parts.NewColumn(2, parts.TextOf(p.t("page.rounds.usual_heading"), parts.Heading), parts.TextOf(p.t("page.rounds.usual_purpose"), parts.SoftBody))}
	if len(p.view.All) == 0 {
		out = append(out, parts.TextOf(p.t("page.rounds.empty"), parts.Body))
	}
	out = append(out, parts.NewRow(o.feed, o.tap))
	has := map[string]bool{}
	for _, s := range p.view.All {
		has[string(s.Code)+s.Title] = true
	}
	for _, f := range p.deps.Present.Offers(made) {
		spec := parts.TickSpec{ID: "take-" + string(f.Code), Text: w.T("page.rounds.offer", i18n.Args{"Name": f.Name, "Repeats": f.Text}), Done: !o.left[f.Key], Caption: i18n.Sentences(f.Why...), Strong: true}
		if has[f.Key] {
			spec.Done, spec.Barred = true, p.t("page.rounds.has")
		}
		out = append(out, parts.NewTick(spec, func(done bool) { o.left[f.Key] = !done }))
		if f.Trail != nil {
			spec := parts.WorkingSpec{Show: w.T("working.heading", nil), Hide: w.T("working.hide", nil), Open: o.open, Parts: nav.WorkingParts(*f.Trail)}
			show := parts.NewWorking(spec)
			show.OnOpened = func(open bool) { o.open = open }
			out = append(out, show)
		}
	}
	return append(out, parts.NewFlow(p.first, p.deps.Button("back", "label.back", parts.Secondary, func() { p.offering, p.offer = false, nil; p.back() })), parts.NewSpace(8))
}

// back leaves the proposal: to the rounds, or where there are none to today.
func (p *Page) back() {
	if len(p.view.All) == 0 && p.is {
		p.leave()
		return
	}
	if len(p.view.All) == 0 {
		p.deps.Go(nav.Route{Place: nav.Today, Tank: p.tank})
		return
	}
	p.Refresh()
	p.Focus()
}

// figure is a box for a figure that the water change rests on.
func (p *Page) figure(id string, label working.Key, kind quantity.Kind, keep func(quantity.Measure)) *parts.Field {
	w := p.deps.Present.W
	f := parts.NewField(parts.FieldSpec{ID: id, Label: p.t(label), Unit: w.Unit(w.DefaultUnit(kind, i18n.Food))})
	f.OnCommit = func(typed string) {
		var m quantity.Measure
		if strings.TrimSpace(typed) != "" {
			reading := w.Reading(kind, i18n.Food)
			if kind == quantity.KindMassRate {
				reading.Unit = "g/d"
			}
			var err error
			if m, err = quantity.Parse(typed, kind, reading); err != nil {
				words, _ := w.Problem(err)
				fault(f, words)
				return
			}
		}
		keep(m)
		p.Refresh()
	}
	return f
}

func (p *Page) showFigure(f *parts.Field, m quantity.Measure, proposed bool) {
	w := p.deps.Present.W
	s := f.Spec()
	s.Text, s.Unit, s.Proposed, s.Error = strings.Replace(m.Number, ".", string(w.Decimal()), 1), w.Unit(m.Unit), proposed, ""
	f.Set(s)
}

// take takes up what is ticked.
func (p *Page) take() {
	o := p.offer
	var take []keeper.Taking
	shown := p.deps.Present.Offers(o.made)
	for i, x := range o.made.Proposals {
		if !o.left[shown[i].Key] {
			note := shown[i].Note
			if p.is { // the volume of a change is reckoned at home, by the fish there
				note = x.Note
			}
			take = append(take, keeper.Taking{Proposal: x, Note: note})
		}
	}
	p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.TakeRounds(ctx, p.tank, o.basis, take) }, func(err error) {
		if err == nil {
			p.offering, p.offer = false, nil
		}
		nav.After(p.deps, p, p.tank, "page.rounds.taken")(err)
	})
}
