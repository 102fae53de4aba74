package nav

import (
	"context"
	"errors"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// DoRound does an occurrence of a round and then calls then, on the window's thread.
func DoRound(deps Deps, tank string, d present.Duty, then func(error)) {
	if d.Code.AsksReading() {
		deps.Go(Route{Place: Daybook, Tank: tank, Write: d.Code.Writes()})
		return
	}
	ctx := context.Background()
	e, err := deps.Keeper.RoundEntry(ctx, tank, d.ID)
	if err != nil {
		then(err)
		return
	}
	if v, err := deps.Keeper.Rounds(ctx, tank); err == nil {
		for _, s := range v.All {
			if s.ID == d.ID && e.Kind != "" && e.Note == "" {
				e.Note = deps.Present.RoundNote(s.Round)
			}
		}
	}
	if e.Kind == journal.Changed {
		askVolume(deps, tank, d, e, then)
		return
	}
	deps.Work(func(ctx context.Context) error {
		return deps.Keeper.DoRound(ctx, tank, keeper.Doing{Round: d.ID, Due: d.Due, Entry: &e})
	}, then)
}

// SkipRound asks why an occurrence of a round is let go, and lets it go; fromToday
// counts the coming ones from today. then is called on the window's thread, unless
// the person leaves.
func SkipRound(deps Deps, tank string, d present.Duty, fromToday bool, then func(error)) {
	w := deps.Present.W
	reason := parts.NewField(parts.FieldSpec{ID: "reason", Label: w.T("page.rounds.reason", nil), Hint: w.T("page.rounds.reason_hint", nil)})
	var shut func()
	keep := func() {
		why := reason.Text()
		deps.Work(func(ctx context.Context) error { return deps.Keeper.SkipRound(ctx, tank, d.ID, d.Due, why, fromToday) }, func(err error) {
			var r *working.Refusal
			if errors.As(err, &r) && r.Field == "reason" {
				s := reason.Spec()
				s.Text, s.Error = reason.Text(), w.Refusal(r)
				reason.Set(s)
				ToFault(deps, reason)
				return
			}
			shut()
			then(err)
		})
	}
	reason.OnEnter = keep
	shut = deps.Dialog(w.T("page.rounds.skip_title", i18n.Args{"Name": d.Name}), reason,
		parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "keep", Label: w.T("page.rounds.skip", nil), Kind: parts.Primary}, keep),
			parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: w.T("label.cancel", nil)}, func() { shut() })))
	deps.Focus(reason.Focusable())
}

// askVolume asks how much water was changed, filled in with the last time's or
// the planned amount.
func askVolume(deps Deps, tank string, d present.Duty, e journal.Entry, then func(error)) {
	w := deps.Present.W
	kind, purpose := quantity.KindVolume, i18n.Tank
	spec := parts.FieldSpec{ID: "volume", Label: w.T("page.day.volume", nil), Unit: w.Unit(w.DefaultUnit(kind, purpose))}
	reading := w.Reading(kind, purpose)
	if r, ok := e.Get(journal.NameVolume); ok && r.Qualifier == journal.Plain {
		spec.Text, spec.Unit, reading.Unit = strings.Replace(r.Measure.Number, ".", string(w.Decimal()), 1), w.Unit(r.Measure.Unit), r.Measure.Unit
	}
	box := parts.NewField(spec)
	var shut func()
	keep := func() {
		var kept []journal.Reading
		for _, r := range e.Readings {
			if r.Name != journal.NameVolume {
				kept = append(kept, r)
			}
		}
		if text := strings.TrimSpace(box.Text()); text != "" {
			m, err := quantity.Parse(text, kind, reading)
			r := journal.Reading{Name: journal.NameVolume, Measure: m}
			if err == nil {
				err = r.Check()
			}
			if err != nil {
				s := box.Spec()
				s.Text = box.Text()
				s.Error, _ = w.Problem(err)
				box.Set(s)
				return
			}
			kept = append(kept, r)
		}
		shut()
		e.Readings = kept
		deps.Work(func(ctx context.Context) error {
			return deps.Keeper.DoRound(ctx, tank, keeper.Doing{Round: d.ID, Due: d.Due, Entry: &e})
		}, then)
	}
	box.OnEnter = keep
	column := []fyne.CanvasObject{box}
	for _, r := range e.Readings {
		if r.Name != journal.NameVolume {
			column = append(column, parts.NewText(parts.TextSpec{Text: w.T(working.Key("reading."+r.Name), nil) + " " + w.Typed(r.Measure), Role: parts.Note}))
		}
	}
	column = append(column, parts.NewText(parts.TextSpec{Text: w.T("page.rounds.change_caution", nil)}))
	column = append(column, Cautions(deps, present.RoundPlaces(d.Code)...)...)
	shut = deps.Dialog(d.Name, parts.NewColumn(10, column...),
		parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "keep", Label: w.T("page.rounds.did_it", nil), Kind: parts.Primary}, keep),
			parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: w.T("label.cancel", nil)}, func() { shut() })))
	deps.Focus(box.Focusable())
}
