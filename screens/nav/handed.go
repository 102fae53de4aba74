package nav

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
)

// HandedBy is the panel of who handed over the profile that a tank began with:
// the shop, what failed its check, its note; nil for a tank that began otherwise.
// toRounds leads to the rounds that the shop proposed while none was taken up.
func HandedBy(d Deps, tank string, toRounds bool) fyne.CanvasObject {
	h, ok, err := d.Keeper.HandedBy(context.Background(), tank)
	if err != nil {
		d.Fail(err)
	}
	if !ok || err != nil {
		return nil
	}
	s := d.Present.Handed(h)
	var out []fyne.CanvasObject
	for _, m := range s.Marks {
		out = append(out, parts.NewStated(parts.Act, d.Present.W.State(working.Act), m))
	}
	for _, l := range s.Lines {
		out = append(out, parts.NewText(parts.TextSpec{Text: l, Role: parts.Note}))
	}
	for i, l := range s.Note {
		role := parts.Body
		if i < len(s.Note)-1 {
			role = parts.Note
		}
		out = append(out, parts.NewText(parts.TextSpec{Text: l, Role: role}))
	}
	if s.Plan != "" && toRounds {
		out = append(out, parts.NewText(parts.TextSpec{Text: s.Plan, Role: parts.Body}),
			parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "shop-rounds", Label: d.Present.W.T("page.handed.plan_go", nil)}, func() { d.Go(Route{Place: Rounds, Tank: tank}) })))
	}
	return parts.NewPanel(s.Title, out...)
}
