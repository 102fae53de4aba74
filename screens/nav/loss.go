package nav

import (
	"context"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/parts"
)

// EarlyLoss is a loss soon after animals came in, with the way to a water test and
// to a case for those that are left.
func EarlyLoss(d Deps, tank string, l keeper.EarlyLoss) fyne.CanvasObject {
	w := d.Present.W
	title, words := d.Present.EarlyLoss(l)
	return parts.NewErrand(parts.ErrandSpec{State: parts.Wait, Title: title, Text: words},
		parts.NewButton(parts.ButtonSpec{ID: "loss-test-" + l.Fish.ID, Label: w.T("page.stock.loss_test", nil)}, func() {
			d.Go(Route{Place: Daybook, Tank: tank, Write: journal.Tested})
		}),
		parts.NewButton(parts.ButtonSpec{ID: "loss-case-" + l.Fish.ID, Label: w.T("page.stock.loss_case", nil)}, func() { OpenCase(d, tank, l.Fish.ID) }))
}

// OpenCase opens the case of a fish, or the one that is open, and goes to it.
func OpenCase(d Deps, tank, fish string) {
	var id string
	d.Work(func(ctx context.Context) error {
		cs, err := d.Keeper.Cases(ctx, tank)
		if err != nil {
			return err
		}
		for _, c := range cs {
			if c.Open() && c.Fish == fish {
				id = c.ID
				return nil
			}
		}
		id, err = d.Keeper.OpenCase(ctx, tank, keeper.Who{Fish: fish}, "")
		return err
	}, func(err error) {
		if err != nil {
			d.Fail(err)
			return
		}
		d.Changed()
		d.Go(Route{Place: Sick, Tank: tank, Case: id})
	})
}
