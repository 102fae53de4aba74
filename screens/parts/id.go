package parts

import "fyne.io/fyne/v2"

// confirmID is the ID of the tick by which a safety note is confirmed.
const confirmID = "confirm"

// identified is a part whose spec carries an ID.
type identified interface{ ident() string }

func (f *Field) ident() string  { return f.spec.ID }
func (c *Choice) ident() string { return c.spec.ID }
func (t *Tick) ident() string   { return t.spec.ID }
func (b *Button) ident() string { return b.spec.ID }
func (r *KitRow) ident() string { return r.spec.ID }

func (r *EntryRow) ident() string { return r.spec.ID }

// IDOf gives the ID of the part that has the focus, "" for one without. It is
// how a walk by keyboard knows where it is.
func IDOf(o fyne.Focusable) string {
	switch x := o.(type) {
	case identified:
		return x.ident()
	case *boxed:
		if i, ok := x.owner.self.(identified); ok {
			return i.ident()
		}
	}
	return ""
}

// ident names the button that opens the list of tanks.
func (i *navItem) ident() string {
	if i.kind == navTank {
		return "tanks"
	}
	return ""
}
