package nav

import (
	"context"

	"example.org/driploop/i18n"
	"example.org/driploop/model/working"
)

// TakeBack undoes the latest change of a tank ("" for what belongs to none), shows
// the page anew and says what was undone.
func TakeBack(d Deps, tank string, show func()) {
	var label working.Key
	var values map[string]string
	d.Work(func(ctx context.Context) (err error) {
		label, values, err = d.Keeper.Undo(ctx, tank)
		return err
	}, func(err error) {
		if err != nil {
			d.Fail(err)
			return
		}
		d.Changed()
		show()
		d.Say(d.Present.W.T("page.today.undone", i18n.Args{"What": d.Present.UndoName(label, values)}), "", nil)
	})
}
