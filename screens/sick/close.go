package sick

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// finish asks how the case ended.
func (p *Page) finish() {
	note := parts.NewField(parts.FieldSpec{ID: "close-note", Label: p.t("page.sick.close_note")})
	var shut func()
	var buttons []fyne.CanvasObject
	for _, o := range keeper.Outcomes() {
		buttons = append(buttons, parts.NewButton(parts.ButtonSpec{ID: "outcome-" + string(o), Label: p.deps.Present.OutcomeName(o)}, func() {
			words := note.Text()
			shut()
			if o.Left() != "" && p.left(o, words) {
				return
			}
			p.do(func(ctx context.Context) error { return p.deps.Keeper.CloseCase(ctx, p.tank, p.id, o, words, nil) }, "page.sick.was_closed", p.Focus)
		}))
	}
	buttons = append(buttons, p.deps.Button("cancel", "label.cancel", parts.Quiet, func() { shut() }))
	shut = p.deps.Dialog(p.deps.Present.W.T("page.sick.close_title", i18n.Args{"Who": p.shown.Heading}), parts.NewColumn(10, parts.TextOf(p.t("page.sick.close_how"), parts.Body), note), parts.NewFlow(buttons...))
	if cv := p.deps.Canvas(); cv != nil {
		cv.Focus(note.Focusable())
	}
}

// left asks who of the stock left the tank with the case, and closes it with that;
// false where nobody is in the stock.
func (p *Page) left(o keeper.Outcome, note string) bool {
	stock, err := p.deps.Keeper.Stock(context.Background(), p.tank)
	if err != nil {
		p.deps.Fail(err)
		return true
	}
	if len(stock) == 0 {
		return false
	}
	pr := p.deps.Present
	var d keeper.Departure
	if len(stock) == 1 {
		d.Fish = stock[0].ID
	}
	who := parts.ChoiceSpec{ID: "left-who", Label: p.t("page.stock.who"), Placeholder: p.t("page.sick.left_which"), Search: p.t("label.search")}
	name := map[string]string{}
	for _, l := range stock {
		name[l.ID] = pr.FishName(l.Fish)
		who.Options = append(who.Options, parts.Option{Code: l.ID, Label: pr.W.T("page.bag.name", i18n.Args{"Count": pr.W.Number(float64(l.Count), 5), "Name": name[l.ID]})})
		if l.ID == p.view.Case.Fish {
			d.Fish = l.ID
		}
	}
	who.Chosen = d.Fish
	count := parts.NewField(parts.FieldSpec{ID: "left-count", Label: p.t("page.stock.how_many"), Text: "1"})
	choice := chooser(who, func(code string) { d.Fish = code })
	content := []fyne.CanvasObject{parts.TextOf(p.t("page.sick.left_how"), parts.Body), parts.NewRow(choice, count)}
	if o == keeper.Died {
		seen := parts.ChoiceSpec{ID: "left-seen", Label: p.t("page.stock.seen"), Options: []parts.Option{{Label: p.t("page.entry.not_said")}}}
		codes, _ := journal.Vocabulary(journal.NameSeen)
		for _, c := range codes {
			seen.Options = append(seen.Options, parts.Option{Code: c, Label: pr.Said(journal.NameSeen, c)})
		}
		content = append(content, chooser(seen, func(code string) { d.Seen = code }))
	}
	var shut func()
	end := func(left *keeper.Departure) {
		p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.CloseCase(ctx, p.tank, p.id, o, note, left) }, func(err error) {
			var refused *working.Refusal
			if words, ok := pr.W.Problem(err); ok && errors.As(err, &refused) && refused.Field == "count" {
				nav.Fault(count, words)
				return
			}
			shut()
			p.do(func(context.Context) error { return err }, "page.sick.was_closed", p.Focus)
		})
	}
	take := func() {
		m, err := quantity.Parse(strings.TrimSpace(count.Text()), quantity.KindCount, pr.W.Reading(quantity.KindCount, i18n.General))
		v, err2 := m.Value()
		if errors.Join(err, err2) != nil || v.X != float64(int(v.X)) {
			nav.Fault(count, pr.W.Refusal(working.Refuse("count", "refuse.whole_number")))
			return
		}
		if d.Fish == "" {
			s := choice.Spec()
			s.Error = p.t("refuse.missing")
			choice.Set(s)
			return
		}
		d.Count, d.What = int(v.X), name[d.Fish]
		end(&d)
	}
	count.OnEnter = take
	count.OnStep = func(by int) {
		if n, err := strconv.Atoi(strings.TrimSpace(count.Text())); err == nil && n+by > 0 {
			count.Type(strconv.Itoa(n + by))
		}
	}
	shut = p.deps.Dialog(p.t(working.Key("page.sick.left_"+string(o))), parts.NewColumn(10, content...), parts.NewFlow(
		p.deps.Button("left-out", "page.sick.left_out", parts.Primary, take),
		p.deps.Button("left-none", "page.sick.left_none", parts.Secondary, func() { end(nil) }),
		p.deps.Button("cancel", "label.cancel", parts.Quiet, func() { shut() })))
	if cv := p.deps.Canvas(); cv != nil {
		cv.Focus(count.Focusable())
	}
	return true
}

// chooser makes a choice that shows what is chosen.
func chooser(spec parts.ChoiceSpec, then func(code string)) *parts.Choice {
	var c *parts.Choice
	c = parts.NewChoice(spec, func(code string) {
		s := c.Spec()
		s.Chosen, s.Error = code, ""
		c.Set(s)
		then(code)
	})
	return c
}
