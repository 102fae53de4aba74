package daybook

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// binStep is how many entries of the bin are shown at once. Judgement.
const binStep = 60

// ShowBin shows the deleted entries of a tank, each with what brings it back.
// Nothing needs to be emptied. then is called when something came back.
func ShowBin(d nav.Deps, tank string, then func()) {
	w := d.Present.W
	column := parts.NewColumn(8)
	many := binStep
	var fill func()
	fill = func() {
		bin, err := d.Keeper.Bin(context.Background(), tank)
		if err != nil {
			d.Fail(err)
			return
		}
		out := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: w.T("page.bin.purpose", nil), Role: parts.SoftBody})}
		if len(bin) == 0 {
			out = append(out, parts.NewText(parts.TextSpec{Text: w.T("page.bin.empty", nil)}))
		}
		for i, b := range bin {
			if i == many {
				out = append(out, parts.NewButton(parts.ButtonSpec{ID: "older", Label: w.N("n.older", float64(len(bin)-many), nil)}, func() { many += binStep; fill() }))
				break
			}
			row := d.Present.Entry(b.Entry)
			when := ""
			if t, err := b.Entry.At.Parse(); err == nil {
				when = w.DateTime(t)
			}
			out = append(out, parts.NewColumn(2,
				parts.NewText(parts.TextSpec{Text: joined(row.Kind, when), Role: parts.StrongBody}), parts.NewText(parts.TextSpec{Text: row.Text}),
				parts.NewText(parts.TextSpec{Text: w.T("page.bin.deleted", i18n.Args{"When": w.DateTime(b.Deleted.In(d.Now().Location()))}), Role: parts.Note}),
				parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "restore", Label: w.T("page.bin.restore", nil), Kind: parts.Quiet}, func() {
					d.Work(func(ctx context.Context) error { return d.Keeper.RestoreEntry(ctx, tank, b.Entry.ID) }, func(err error) {
						if err != nil {
							d.Fail(err)
							return
						}
						nav.Did(d, tank, "page.bin.restored", func() { fill(); then() })
					})
				}))))
		}
		column.Set(out...)
	}
	fill()
	var shut func()
	ok := parts.NewButton(parts.ButtonSpec{ID: "close", Label: w.T("label.close", nil)}, func() { shut() })
	shut = d.Dialog(w.T("page.bin.heading", nil), column, parts.NewFlow(ok))
	if c := d.Canvas(); c != nil {
		c.Focus(ok)
	}
}
