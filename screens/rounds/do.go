package rounds

import (
	"context"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// do does a round: a test opens its form in the daybook, a water change asks how
// much, the rest is noted at once.
func (p *Page) do(d present.Duty) {
	nav.DoRound(p.deps, p.tank, d, nav.After(p.deps, p, p.tank, "page.rounds.did"))
}

// skip asks why an occurrence is let go.
func (p *Page) skip(d present.Duty, fromToday bool) {
	nav.SkipRound(p.deps, p.tank, d, fromToday, nav.After(p.deps, p, p.tank, "page.rounds.skipped"))
}

// anew asks whether a late round was done, and counts it from today.
func (p *Page) anew(d present.Duty) {
	var shut func()
	yes := p.deps.Button("anew-done", "page.rounds.anew_done", parts.Primary, func() {
		shut()
		if d.Code.AsksReading() {
			p.deps.Go(nav.Route{Place: nav.Daybook, Tank: p.tank, Write: d.Code.Writes(), Round: d.ID, Due: d.Due})
			return
		}
		note := ""
		if s, ok := p.round(d.ID); ok {
			note = p.deps.Present.RoundNote(s.Round)
		}
		p.change(func(ctx context.Context) error {
			e, err := p.deps.Keeper.RoundEntry(ctx, p.tank, d.ID)
			if err != nil {
				return err
			}
			if e.Kind != "" && e.Note == "" {
				e.Note = note
			}
			return p.deps.Keeper.DoRound(ctx, p.tank, keeper.Doing{Round: d.ID, Due: d.Due, Entry: &e, FromToday: true})
		}, "page.rounds.did")
	})
	no := p.deps.Button("anew-skip", "page.rounds.anew_skip", parts.Secondary, func() {
		shut()
		p.skip(d, true)
	})
	shut = p.deps.Dialog(p.deps.Present.W.T("page.rounds.anew_title", i18n.Args{"Name": d.Name}), parts.TextOf(p.t("page.rounds.anew_text"), parts.Body),
		parts.NewFlow(yes, no, p.deps.Button("cancel", "label.cancel", parts.Quiet, func() { shut() })))
	p.deps.Focus(yes)
}
