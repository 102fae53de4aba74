package nav

import (
	"context"

	"example.org/driploop/i18n"
	"example.org/driploop/model/working"
)

// Did shows the page anew after a change of a tank ("" for what belongs to none), and
// says what was done, with the way back.
func Did(d Deps, tank string, said working.Key, show func()) {
	w := d.Present.W
	d.Changed()
	show()
	d.Say(w.T(said, nil), w.T("label.undo", nil), func() { TakeBack(d, tank, show) })
}

// Change makes a change of a tank and says so, as Did, or why it failed.
func Change(d Deps, tank string, job func(context.Context) error, said working.Key, show func()) {
	d.Work(job, func(err error) {
		if err != nil {
			d.Fail(err)
			return
		}
		Did(d, tank, said, show)
	})
}

// After is what follows a change of a tank made on a page: it is shown anew, says so as Did
// does and has the keyboard where work begins; or it tells why the change failed.
func After(d Deps, p Page, tank string, said working.Key) func(error) {
	return func(err error) {
		if err != nil {
			d.Fail(err)
			return
		}
		Did(d, tank, said, p.Refresh)
		p.Focus()
	}
}

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
